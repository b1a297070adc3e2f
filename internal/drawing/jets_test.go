package drawing_test

import (
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// Jets are drawn with a spray each and named, in colour and in ink; a pond
// without them shows none, and neither does a thumbnail.
func TestJets_AreDrawnAndNamed(t *testing.T) {
	t.Parallel()
	d := demo()
	d.Circulation.Jets = &design.Jets{Count: 4, NozzleM: 0.01, NozzleHeadM: 1.5}
	for _, colour := range []drawing.Colour{drawing.Painted, drawing.Ink} {
		o := options(d)
		o.Colour, o.Words.Jets, o.Words.JetsNote = colour, "Jets", "4 in the wall"
		with := markup.HTML(drawing.Sheet(plan(d), o).Node)
		if !strings.Contains(with, `class="dr-spray"`) || !strings.Contains(with, ">Jets<") || !strings.Contains(with, ">4 in the wall<") {
			t.Errorf("%q: jets are not drawn or not named", colour)
		}
		without := markup.HTML(drawing.Sheet(plan(demo()), o).Node)
		if strings.Contains(without, "dr-spray") || strings.Contains(without, ">Jets<") {
			t.Errorf("%q: jets where there are none", colour)
		}
		if a, b := strings.Count(with, "dr-run"), strings.Count(without, "dr-run"); a <= b {
			t.Errorf("%q: %d dashed lines with jets and %d without", colour, a, b)
		}
		o.Look = drawing.Thumbnail
		if small := markup.HTML(drawing.Plan(plan(d), o).Node); strings.Contains(small, "dr-spray") {
			t.Errorf("%q: jets on a thumbnail", colour)
		}
	}
}
