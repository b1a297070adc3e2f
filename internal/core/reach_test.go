package core_test

import (
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
)

// A pond too narrow for its depth says how deep it gets; a wide one says
// nothing. With the sides alone at 1 across to 1 down, the ridge of a pond w
// wide lies w/2 deep: the closed form of a hip roof.
func TestReach_ANarrowPondSaysHowDeepItGets(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, width string
		raised     bool
	}{{"wide enough", "21 ft", false}, {"far too narrow", "8 ft", true}} {
		d, _ := form.New(form.Demo()).SetField("width", c.width).SetField("shape", "rect").SetField("beach", "none").Design()
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
		if raised != c.raised {
			t.Errorf("%s: raised = %v, greatest depth %.3f m of %.3f m", c.why, raised, s.Value("pond.max_depth"), d.Bowl.DeepM)
		}
	}
}
