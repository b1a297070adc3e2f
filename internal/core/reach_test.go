package core_test

import (
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
)

// A pond too short for its beach and its depth says how deep it gets; a long
// one says nothing. From the beach's foot the bottom falls 1 in 5 to the toe
// and 1 in 2.4 beyond, by hand: 0.45 + (5.49 − 2.25 − 0.7) ÷ 2.4 is near 1.5 m
// in a pond 18 ft long, where 0.7 m is the wall's own width.
func TestReach_ANarrowPondSaysHowDeepItGets(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, length string
		raised      bool
	}{{"long enough", "34 ft", false}, {"too short", "18 ft", true}} {
		d, _ := form.New(form.Demo()).SetField("length", c.length).SetField("shape", "rect").Design()
		s := core.Compute(d, book.Demo())
		raised := false
		for _, f := range s.Findings {
			if f.Code == "deep_not_reached" {
				raised = true
				if f.Severity != sheet.Care || len(f.Mend) != 1 {
					t.Errorf("%s: finding = %+v", c.why, f)
				}
			}
		}
		if got := s.Value("pond.max_depth"); c.raised && (got < 1.35 || got > 1.65) {
			t.Errorf("%s: greatest depth %.3f m, want about 1.5", c.why, got)
		}
		if raised != c.raised {
			t.Errorf("%s: raised = %v, greatest depth %.3f m of %.3f m", c.why, raised, s.Value("pond.max_depth"), d.Bowl.DeepM)
		}
	}
}
