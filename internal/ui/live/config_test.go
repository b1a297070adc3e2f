package live_test

import (
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
)

func TestFromBook_OffersTheBuildersOwnPumpsAndPipes(t *testing.T) {
	t.Parallel()
	b := book.Demo()
	for i, p := range b.Pipes {
		if p.NominalIn == "3" {
			b.Pipes = append(b.Pipes[:i:i], b.Pipes[i+1:]...)
			break
		}
	}
	b.Pumps = b.Pumps[:2]
	s := form.New(live.FromBook(b, say.English()).Defaults)
	if got := s.Choices(form.Model); len(got) != 3 || got[1] != b.Pumps[0].ID {
		t.Errorf("the form offers the pumps %v", got)
	}
	if got := s.Choices(form.Pipe); len(got) != len(b.Pipes) {
		t.Errorf("the form offers the pipes %v", got)
	}
	// 3 in pipe is 77.9 mm inside, 2.5 in 62.7 and 4 in 102.3.
	if s.Word(form.Pipe) != "2.5" || s.Word(form.Discharge) != "2.5" {
		t.Errorf("the form opens with %s and %s in pipe, want 2.5 in", s.Word(form.Pipe), s.Word(form.Discharge))
	}
	if usual := form.New(live.FromBook(book.Demo(), say.English()).Defaults); usual.Word(form.Pipe) != "3" {
		t.Errorf("the demo opens with %s in pipe", usual.Word(form.Pipe))
	}
}
