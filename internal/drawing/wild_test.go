package drawing_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// Outlines thrown together, crossing themselves too, with every feature
// anywhere, draw without a panic and without a number that is none.
func TestSheet_NoOutlineBreaksIt(t *testing.T) {
	t.Parallel()
	luck := rand.New(rand.NewPCG(7, 11))
	for i := range 40 {
		d := demo()
		n := 3 + luck.IntN(10)
		d.Outline = design.Outline{Shape: design.Freehand}
		size := math.Pow(10, 0.3+1.4*luck.Float64())
		for k := range n {
			a, r := float64(k)/float64(n)*2*math.Pi, size*(0.1+luck.Float64())
			d.Outline.Handles = append(d.Outline.Handles, design.Point{XM: r * math.Cos(a), YM: r * math.Sin(a)})
		}
		if i%5 == 0 {
			h := d.Outline.Handles
			h[0], h[n/2] = h[n/2], h[0]
		}
		d.Bowl.DeepM = 0.4 + 3*luck.Float64()
		d.Bowl.Beach.BearingDeg, d.Zone.BearingDeg, d.Cascade.BearingDeg, d.Deck.BearingDeg = 360*luck.Float64(), 360*luck.Float64(), 360*luck.Float64(), 360*luck.Float64()
		d.Circulation.PumpBearingDeg, d.Circulation.IntakeBearingDeg = 360*luck.Float64(), 360*luck.Float64()
		o := options(d)
		o.Look = []drawing.Look{drawing.Full, drawing.Phone, drawing.Thumbnail}[i%3]
		pic := drawing.Sheet(plan(d), o)
		if out := markup.HTML(pic.Node); strings.Contains(out, "NaN") || strings.Contains(out, "Inf") || strings.Contains(out, "-9223372036854775") {
			t.Errorf("outline %d of %v m draws numbers that are none", i, d.Outline.Handles)
		}
	}
}
