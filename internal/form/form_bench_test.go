package form_test

import (
	"testing"

	"tarnwright/internal/form"
)

// One keystroke: a text goes in, the design and the address come out.
func BenchmarkKeystroke(b *testing.B) {
	s := form.New(form.Demo())
	for b.Loop() {
		next := s.With(form.Length, "35 ft 6 in")
		_, _ = next.Design()
		_ = next.Values()
	}
}

func BenchmarkRead(b *testing.B) {
	v := form.New(form.Demo()).With(form.Length, "35 ft 6 in").With(form.Shape, "oval").Values()
	for b.Loop() {
		_ = form.Read(v, form.Demo())
	}
}
