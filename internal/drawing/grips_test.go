package drawing_test

import (
	"math"
	"regexp"
	"sort"
	"strconv"
	"strings"
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

// Whatever stands round the demo pond, and either end of its section, can be
// taken in hand from the first: none is without a place, on a phone either.
func TestGrips_AllFindAPlace(t *testing.T) {
	t.Parallel()
	p := plan(demo())
	mid := func(ring []sheet.XY) sheet.XY {
		var m sheet.XY
		for _, q := range ring {
			m.X, m.Y = m.X+q.X/float64(len(ring)), m.Y+q.Y/float64(len(ring))
		}
		return m
	}
	n := len(p.Rim)
	beach := p.Rim[(p.BeachFrom+(p.BeachTo-p.BeachFrom+n)%n/2)%n]
	for _, look := range []drawing.Look{drawing.Full, drawing.Phone} {
		o := options(demo())
		o.Look = look
		for name, at := range map[string]sheet.XY{"cascade": mid(p.Cascade), "deck": mid(p.Deck), "zone": mid(p.Zone), "pump": p.Pump,
			"intake": p.Intake, "beach": beach, "cut_from": p.CutFrom, "cut_to": p.CutTo} {
			o.Grips = append(o.Grips, drawing.Grip{Name: name, Place: at})
		}
		sort.Slice(o.Grips, func(i, j int) bool { return o.Grips[i].Name < o.Grips[j].Name })
		out := markup.HTML(drawing.Sheet(p, o).Node)
		for _, g := range o.Grips {
			if !strings.Contains(out, `data-arg="`+g.Name+`"`) {
				t.Errorf("%s: no grip for %s", look, g.Name)
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
