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

// The pump's grip is on its sign, or clear of it where a ring is too near: never
// over half of it.
func TestGrips_LeaveThePumpInSight(t *testing.T) {
	t.Parallel()
	beside := 0
	for deg := 0; deg < 360; deg += 10 {
		d := demo()
		d.Circulation.PumpBearingDeg = float64(deg)
		p := plan(d)
		o := options(d)
		o.Look, o.Grips = drawing.Phone, []drawing.Grip{{Name: "pump", Place: p.Pump}}
		pic := drawing.Sheet(p, o)
		knob := regexp.MustCompile(`class="dr-knob" cx="([0-9.-]+)" cy="([0-9.-]+)"`).FindStringSubmatch(markup.HTML(pic.Node))
		if knob == nil {
			continue
		}
		x, y := pic.View.At(p.Pump)
		far := math.Hypot(num(t, knob[1])-x, num(t, knob[2])-y)
		if far > 1 && far < 19 {
			t.Errorf("at %d degrees the pump's grip stands %.1f px from it, over its sign", deg, far)
		}
		if far >= 19 {
			beside++
		}
	}
	if beside < 3 {
		t.Errorf("only %d grips stand beside their pump: the test sees too little", beside)
	}
}

// A grip on a dimension line hides its figure.
func TestGrips_KeepOffTheDimensions(t *testing.T) {
	t.Parallel()
	p := plan(demo())
	for _, look := range []drawing.Look{drawing.Full, drawing.Phone} {
		o := options(demo())
		o.Look = look
		beach := p.Rim[(p.BeachFrom+(p.BeachTo-p.BeachFrom+len(p.Rim))%len(p.Rim)/2)%len(p.Rim)]
		for name, at := range map[string]sheet.XY{"beach": beach, "cut_from": p.CutFrom, "cut_to": p.CutTo, "pump": p.Pump, "intake": p.Intake} {
			o.Grips = append(o.Grips, drawing.Grip{Name: name, Place: at})
		}
		out := markup.HTML(drawing.Sheet(p, o).Node)
		knobs := regexp.MustCompile(`class="dr-knob" cx="([0-9.-]+)" cy="([0-9.-]+)"`).FindAllStringSubmatch(out, -1)
		lines := regexp.MustCompile(`class="dr-dim" d="([^"]+)"`).FindAllStringSubmatch(out, -1)
		if len(knobs) != len(o.Grips) || len(lines) < 4 {
			t.Fatalf("%s: %d grips and %d dimension lines and ticks", look, len(knobs), len(lines))
		}
		for _, line := range lines {
			ends := places(t, line[1])
			for i := 0; i+3 < len(ends); i += 4 {
				for _, k := range knobs {
					if far := toSegment(num(t, k[1]), num(t, k[2]), ends[i:i+4]); far < 15 {
						t.Errorf("%s: a grip at %s, %s is %.1f px from a dimension, want 15 px", look, k[1], k[2], far)
					}
				}
			}
		}
	}
}

// places are the ends of the straight strokes of a path, which the pen writes as
// steps from one to the next.
func places(t *testing.T, path string) (ends []float64) {
	t.Helper()
	var x, y float64
	for _, step := range regexp.MustCompile(`([Mmlhv])(-?[0-9]*\.?[0-9]+)(?: ?(-?[0-9]*\.?[0-9]+))?`).FindAllStringSubmatch(path, -1) {
		switch step[1] {
		case "h":
			x += num(t, step[2])
		case "v":
			y += num(t, step[2])
		default:
			x, y = x+num(t, step[2]), y+num(t, step[3])
		}
		ends = append(ends, x, y)
	}
	return ends
}

// toSegment is how far a place is from the stretch between two others.
func toSegment(x, y float64, ends []float64) float64 {
	dx, dy := ends[2]-ends[0], ends[3]-ends[1]
	k := math.Min(math.Max(((x-ends[0])*dx+(y-ends[1])*dy)/(dx*dx+dy*dy), 0), 1)
	return math.Hypot(x-ends[0]-k*dx, y-ends[1]-k*dy)
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
