package book_test

import (
	"bytes"
	"reflect"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
)

// The browser gets the book as text and must find the same figures in it.
func TestDecode_GivesTheSameFiguresAsTheBookItself(t *testing.T) {
	t.Parallel()
	b := book.Demo()
	raw, err := book.Encode(b)
	if err != nil {
		t.Fatal(err)
	}
	back, err := book.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := book.Encode(back); err != nil || !bytes.Equal(again, raw) {
		t.Errorf("encoding again gives another text: %v", err)
	}
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	want, got := core.Compute(d, b), core.Compute(d, back)
	if len(want.Figures) < 50 || !reflect.DeepEqual(lead.FiguresOf(got), lead.FiguresOf(want)) || len(got.Findings) != len(want.Findings) {
		t.Errorf("%d figures and %d findings, want %d and %d", len(got.Figures), len(got.Findings), len(want.Figures), len(want.Findings))
	}
	if _, err := book.Decode(raw[:len(raw)/2]); err == nil {
		t.Error("half a book was taken")
	}
}
