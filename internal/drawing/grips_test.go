package drawing_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// Two things that answer to one finger would be a lottery: rings and grips
// keep 44 px from each other, near or far.
func TestGrips_KeepClearOfRingsAndOfEachOther(t *testing.T) {
	t.Parallel()
	for _, look := range []drawing.Look{drawing.Full, drawing.Phone} {
		for _, times := range []float64{1, 2} {
			p := plan(demo())
			o := options(demo())
			o.Look, o.Near = look, drawing.Near{Times: times, XShare: 0.6, YShare: 0.5}
			for _, at := range []sheet.XY{p.Pump, p.Intake, p.Cascade[0], p.Deck[0], p.Zone[0], p.CutFrom, p.CutTo} {
				o.Grips = append(o.Grips, drawing.Grip{Name: strconv.Itoa(len(o.Grips)), Place: at})
			}
			pic := drawing.Sheet(p, o)
			found := regexp.MustCompile(`class="dr-reach" cx="([0-9.-]+)" cy="([0-9.-]+)"`).FindAllStringSubmatch(markup.HTML(pic.Node), -1)
			if len(found) < 12 {
				t.Errorf("%s, %g times: only %d rings and grips", look, times, len(found))
			}
			for i, a := range found {
				for _, b := range found[:i] {
					dx, dy := num(t, a[1])-num(t, b[1]), num(t, a[2])-num(t, b[2])
					if apart := math.Hypot(dx, dy) * times; apart < 43.7 {
						t.Errorf("%s, %g times: two are %.1f px apart, want 44 px", look, times, apart)
					}
				}
			}
		}
	}
}

func num(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The picture keeps to the height it is given, and fills most of it.
func TestSheet_KeepsToItsHeight(t *testing.T) {
	t.Parallel()
	for _, name := range names() {
		o := options(gallery()[name])
		o.MaxHeightPx = 800
		pic := drawing.Sheet(plan(gallery()[name]), o)
		if pic.View.HeightPx > 801 {
			t.Errorf("%s is %.0f px high, want at most 800 px", name, pic.View.HeightPx)
		}
	}
}
