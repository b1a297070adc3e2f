package drawing_test

import (
	"strings"
	"testing"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// Two bars of one size are of one length on either side of the line, and what
// takes away is told by its texture.
func TestStepBars_BothSidesHaveOneScale(t *testing.T) {
	t.Parallel()
	html := markup.HTML(drawing.StepBars{Caption: drawing.Caption{ID: "s"}, WidthPx: 200, Bars: []drawing.StepBar{
		{Name: "a", Text: "+", Amount: 10}, {Name: "b", Text: "-", Amount: -10}, {Name: "c", Text: "0", Amount: 0}}}.Node())
	// By hand: names 6.8 px and gaps of 12, texts 6.8 and 6: the line starts at
	// 31.6 px and ends at 187.2 px, its middle is 109.4 px, each bar 77.8 px long.
	for _, want := range []string{`x="31.6" y="32" width="77.8"`, "M109.4 6", "s-hatch"} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q in %s", want, html)
		}
	}
}
