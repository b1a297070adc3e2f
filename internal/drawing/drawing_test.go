package drawing_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

func svg(d design.Design, change func(*drawing.Options)) string {
	o := options(d)
	if change != nil {
		change(&o)
	}
	return markup.HTML(drawing.Sheet(plan(d), o).Node)
}

func names() []string {
	var all []string
	for n := range gallery() {
		all = append(all, n)
	}
	sort.Strings(all)
	return all
}

func looks() map[string]func(*drawing.Options) {
	return map[string]func(*drawing.Options){
		"full":  nil,
		"phone": func(o *drawing.Options) { o.Look = drawing.Phone },
		"thumb": func(o *drawing.Options) { o.Look = drawing.Thumbnail },
		"wrong": func(o *drawing.Options) { o.State, o.Crossing = drawing.Wrong, &sheet.XY{} },
		"ink":   func(o *drawing.Options) { o.Colour, o.Rings = drawing.Ink, drawing.Still },
		"moved": func(o *drawing.Options) { o.Detail = drawing.Moving },
		"held": func(o *drawing.Options) {
			o.Near = drawing.Near{Times: 1.5, XShare: 0.5, YShare: 0.4}
			o.Grips = []drawing.Grip{{Name: "deck_at", Spoken: "Deck", At: "150 degrees", BearingDeg: 150, Chosen: true, Place: sheet.XY{X: 2, Y: -3}}, {Name: "zone_at", Place: sheet.XY{X: 0.2, Y: 6}}}
		},
		"noted": func(o *drawing.Options) {
			o.Pins = []drawing.Pin{{Number: 1, Place: sheet.AtDeepEnd, Mark: sheet.Care}, {Number: 2, Place: sheet.AroundGround, Mark: sheet.Care, Name: "Fence"}, {Number: 3, Place: sheet.AtRim, Mark: sheet.Fine}}
			o.DepthTicks = []drawing.DepthTick{{At: sheet.XY{X: 5.18, Y: 0}, Text: "5 ft 11 in"}, {At: sheet.XY{X: -5.18, Y: 0}, Text: "5 in"}}
		},
	}
}

func TestSheet_IsTheSameEveryTime(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"demo", "free", "tiny"} {
		if d := gallery()[name]; svg(d, nil) != svg(d, nil) {
			t.Errorf("%s: two drawings of one plan differ", name)
		}
	}
}

// Every pond of the gallery in every look is sound: numbers are finite and
// have one decimal, ids are the picture's own, what is referred to is there,
// and nothing is dressed inline.
func TestSheet_IsSoundMarkup(t *testing.T) {
	t.Parallel()
	id, ref := regexp.MustCompile(` id="([^"]*)"`), regexp.MustCompile(`url\(#([^)]*)\)`)
	path := regexp.MustCompile(` (?:d|x|y|cx|cy|r|points|width|height|viewBox)="([^"]*)"`)
	long := regexp.MustCompile(`\.\d\d`)
	for _, name := range names() {
		for look, change := range looks() {
			if look != "full" && look != "phone" && !slices.Contains([]string{"demo", "tiny", "fallen"}, name) {
				continue
			}
			out := svg(gallery()[name], change)
			for _, bad := range []string{"NaN", "Inf", "style=", "<script", "fill=\"#", "stroke=\"#", "+Inf"} {
				if strings.Contains(out, bad) {
					t.Errorf("%s, %s: the picture holds %s", name, look, bad)
				}
			}
			seen := map[string]bool{}
			for _, m := range id.FindAllStringSubmatch(out, -1) {
				if seen[m[1]] {
					t.Errorf("%s, %s: two elements have the id %s", name, look, m[1])
				}
				seen[m[1]] = true
				if m[1] != "t" && !strings.HasPrefix(m[1], "t-") {
					t.Errorf("%s, %s: the id %s does not start with the picture's own", name, look, m[1])
				}
			}
			for _, m := range ref.FindAllStringSubmatch(out, -1) {
				if !seen[m[1]] {
					t.Errorf("%s, %s: nothing has the id %s that is referred to", name, look, m[1])
				}
			}
			for _, m := range path.FindAllStringSubmatch(out, -1) {
				if long.MatchString(m[1]) && !strings.HasPrefix(m[1], "M0-100c") {
					t.Errorf("%s, %s: %.60s has more than one decimal", name, look, m[1])
				}
			}
		}
	}
}

// The budget of a page at full detail is about 250 kB of markup; a large pond
// has more stones and may take a tenth more.
func TestSheet_IsNotTooLarge(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		most int
		why  string
	}{
		{"demo", 200_000, "leaves room for the page round it"}, {"huge", 290_000, "400 square metres of planting"}, {"free", 220_000, "a pulled outline"},
	} {
		if n := len(svg(gallery()[c.name], nil)); n > c.most {
			t.Errorf("%s: %d bytes, want at most %d (%s)", c.name, n, c.most, c.why)
		}
	}
	if n := strings.Count(svg(demo(), nil), "<"); n/2 > 700 {
		t.Errorf("the demo has %d elements; bulk marks are single paths", n/2)
	}
}

// heads returns the first points of the subpaths of every path of a class in
// a drawing, in metres on the plan.
func heads(pic drawing.Picture, class string) []sheet.XY {
	var found []sheet.XY
	var walk func(n markup.Node, k, x, y float64)
	walk = func(n markup.Node, k, x, y float64) {
		at := map[string]string{}
		for _, a := range n.Attrs {
			at[a.Name] = a.Value
		}
		if to, ok := at["transform"]; ok && n.Tag == "g" && strings.HasPrefix(to, "translate(") && strings.Contains(to, "scale(") {
			if _, err := fmt.Sscanf(to, "translate(%g %g) scale(%g)", &x, &y, &k); err != nil {
				found = append(found, sheet.XY{X: math.NaN()})
			}
		}
		if n.Tag == "path" && strings.HasPrefix(at["class"], class) {
			for _, p := range starts(at["d"]) {
				found = append(found, pic.View.PlanPoint(x+k*p[0], y+k*p[1]))
			}
		}
		for _, kid := range n.Kids {
			walk(kid, k, x, y)
		}
	}
	walk(pic.Node, 1, 0, 0)
	return found
}

// starts follows path data and returns where each subpath begins.
func starts(d string) [][2]float64 {
	var out [][2]float64
	var x, y, sx, sy float64
	for _, m := range regexp.MustCompile(`([a-zA-Z])([^a-zA-Z]*)`).FindAllStringSubmatch(d, -1) {
		var v []float64
		for _, n := range regexp.MustCompile(`-?(?:\d+\.?\d*|\.\d+)`).FindAllString(m[2], -1) {
			f, _ := strconv.ParseFloat(n, 64)
			v = append(v, f)
		}
		switch m[1] {
		case "M":
			x, y = v[0], v[1]
		case "m":
			x, y = x+v[0], y+v[1]
		case "z":
			x, y = sx, sy
		case "h":
			x += v[0]
		case "v":
			y += v[0]
		case "a":
			x, y = x+v[5], y+v[6]
		default:
			x, y = x+v[len(v)-2], y+v[len(v)-1]
		}
		if m[1] == "M" || m[1] == "m" {
			sx, sy = x, y
			out = append(out, [2]float64{x, y})
		}
	}
	return out
}

// Pulling one ring moves stones near it and no others.
func TestStones_StayWhenTheRimMovesElsewhere(t *testing.T) {
	t.Parallel()
	d := gallery()["free"]
	d.Zone, d.Cascade, d.Deck = nil, nil, nil
	o := options(d)
	before := drawing.Plan(plan(d), o)
	moved := d
	moved.Outline.Handles = append([]design.Point(nil), d.Outline.Handles...)
	moved.Outline.Handles[4].XM += 0.6
	o.View = &before.View
	after := drawing.Plan(plan(moved), o)
	is := heads(after, "dr-stone")
	far, kept, nearby, changed := 0, 0, 0, 0
	for _, at := range heads(before, "dr-stone") {
		stays := false
		for _, b := range is {
			stays = stays || math.Hypot(at.X-b.X, at.Y-b.Y) < 0.02
		}
		if at.X < 0 {
			far++
			if stays {
				kept++
			}
			continue
		}
		nearby++
		if !stays {
			changed++
		}
	}
	if far < 30 {
		t.Fatalf("only %d stones in the west: the test sees too little", far)
	}
	if kept < far*95/100 {
		t.Errorf("%d of %d stones in the west stayed, want nearly all: the ring in the east moved", kept, far)
	}
	if changed == 0 {
		t.Errorf("none of %d stones in the east moved: the test would not see a move", nearby)
	}
}

// A drag keeps scale, stones and planting, and draws the water anew.
func TestSheet_MovingKeepsTheStonesOfTheLastPicture(t *testing.T) {
	t.Parallel()
	d := gallery()["free"]
	o := options(d)
	last := drawing.Plan(plan(d), o)
	moved := d
	moved.Outline.Handles = append([]design.Point(nil), d.Outline.Handles...)
	moved.Outline.Handles[4].XM += 0.6
	o.Detail, o.Last = drawing.Moving, &last
	now := drawing.Plan(plan(moved), o)
	if now.View != last.View {
		t.Errorf("the view moved under the finger: %+v, want %+v", now.View, last.View)
	}
	was, is := heads(last, "dr-stone dr-s0"), heads(now, "dr-stone dr-s0")
	if len(was) == 0 || !slices.Equal(was, is) {
		t.Errorf("%d stones became %d others while a ring moved", len(was), len(is))
	}
	rim := regexp.MustCompile(`<path class="dr-wall" d="([^"]*)"`)
	a, b := rim.FindString(markup.HTML(last.Node)), rim.FindString(markup.HTML(now.Node))
	if a == "" || a == b {
		t.Error("the rim did not follow the finger")
	}
}

// A pond that outgrows its picture while its length is typed is drawn smaller,
// and the stones lie where they lay on the ground until the number rests.
func TestSheet_FollowingCarriesTheStonesToAnotherScale(t *testing.T) {
	t.Parallel()
	d := demo()
	o := options(d)
	o.Look, o.WidthPx = drawing.Phone, 390
	first := drawing.Plan(plan(d), o)
	was := heads(first, "dr-stone dr-s0")
	if len(was) < 10 {
		t.Fatalf("only %d stones: the test sees too little", len(was))
	}
	drawn := regexp.MustCompile(`<path class="dr-stone dr-s0" d="([^"]*)"`)
	last, scales := first, map[float64]bool{first.View.ScalePxPerM: true}
	o.Detail = drawing.Following
	for ft := 35; ft <= 50; ft++ {
		d.Outline.LengthM = float64(ft) * footM
		o.Last = &last
		now := drawing.Plan(plan(d), o)
		is := heads(now, "dr-stone dr-s0")
		if len(is) != len(was) {
			t.Fatalf("%d ft: %d stones, were %d", ft, len(is), len(was))
		}
		for i, at := range is {
			if far := math.Hypot(at.X-was[i].X, at.Y-was[i].Y); !(far < 0.03) {
				t.Fatalf("%d ft: a stone lies %.3f m from where it lay", ft, far)
			}
		}
		if a, b := drawn.FindString(markup.HTML(first.Node)), drawn.FindString(markup.HTML(now.Node)); a != b {
			t.Fatalf("%d ft: the stones were drawn anew", ft)
		}
		scales[now.View.ScalePxPerM] = true
		last = now
	}
	if len(scales) < 3 {
		t.Errorf("%d scales: the test sees no change of scale", len(scales))
	}
	d.Outline.LengthM = 50 * footM
	rested := o
	rested.Detail, rested.Last = drawing.Settled, nil
	if view := drawing.Plan(plan(d), rested).View; math.Abs(view.ScalePxPerM/last.View.ScalePxPerM-1) > 0.15 {
		t.Errorf("followed, the scale is %.2f px/m, at rest %.2f", last.View.ScalePxPerM, view.ScalePxPerM)
	}
}

// Stones that the rim has left behind are not shown while a number is typed;
// those along a rim that hardly moved are, and all while a ring is in hand.
func TestSheet_FollowingHidesWhatTheRimHasLeft(t *testing.T) {
	t.Parallel()
	before := drawing.Sheet(plan(demo()), options(demo()))
	for _, c := range []struct {
		detail drawing.Detail
		longer float64
		hidden bool
	}{{drawing.Following, 1, false}, {drawing.Following, 2, true}, {drawing.Moving, 2, false}, {drawing.Settled, 2, false}} {
		d := demo()
		d.Outline.LengthM += c.longer
		o := options(d)
		o.Detail, o.Last = c.detail, &before
		if got := strings.Count(markup.HTML(drawing.Sheet(plan(d), o).Node), "dr-aloof") > 0; got != c.hidden {
			t.Errorf("%q, %g m longer: hidden %v, want %v", c.detail, c.longer, got, c.hidden)
		}
	}
}

func TestView_TurnsPointsBothWays(t *testing.T) {
	t.Parallel()
	v := drawing.View{ScalePxPerM: 41.7, EastPx: 351.2, NorthPx: 290.8}
	for _, p := range []sheet.XY{{}, {X: 3.25, Y: -1.5}, {X: -7, Y: 4}} {
		x, y := v.At(p)
		if q := v.PlanPoint(x, y); math.Abs(q.X-p.X) > 1e-12 || math.Abs(q.Y-p.Y) > 1e-12 {
			t.Errorf("%v m went to %v, %v px and came back as %v m", p, x, y, q)
		}
	}
	if _, y := v.At(sheet.XY{Y: 1}); y >= v.NorthPx {
		t.Errorf("north is not up: %v px", y)
	}
}

// Plan and section have one scale: the section is as long as the cut.
func TestSheet_SectionHangsUnderThePlan(t *testing.T) {
	t.Parallel()
	d := demo()
	p := plan(d)
	pic := drawing.Sheet(p, options(d))
	west, _ := pic.View.At(p.CutFrom)
	var surface [][2]float64
	for _, m := range regexp.MustCompile(`<path class="dr-surface" d="([^"]*)"`).FindAllStringSubmatch(markup.HTML(pic.Node), -1) {
		surface = append(surface, starts(m[1])...)
	}
	if len(surface) != 1 || math.Abs(surface[0][0]-west) > 0.2 {
		t.Errorf("the water line starts at %v px, want %v px, under the beach on the plan", surface, west)
	}
	if math.Abs(surface[0][1]-pic.View.WaterLinePx) > 0.1 {
		t.Errorf("the water line lies at %v px, want %v px", surface[0][1], pic.View.WaterLinePx)
	}
}

func TestSheet_RingsHaveRoomForAFingerAndAName(t *testing.T) {
	t.Parallel()
	reach := regexp.MustCompile(`<circle class="dr-reach" cx="([^"]*)" cy="([^"]*)" r="([^"]*)"`)
	for _, name := range names() {
		for look, change := range looks() {
			if look != "full" && look != "phone" && look != "moved" {
				continue
			}
			out := svg(gallery()[name], change)
			var at [][2]float64
			for _, m := range reach.FindAllStringSubmatch(out, -1) {
				x, _ := strconv.ParseFloat(m[1], 64)
				y, _ := strconv.ParseFloat(m[2], 64)
				if m[3] != "22" {
					t.Errorf("%s, %s: a ring answers within %s px, want 22", name, look, m[3])
				}
				for _, o := range at {
					if math.Hypot(x-o[0], y-o[1]) < 43.8 {
						t.Errorf("%s, %s: rings at %v and %v overlap", name, look, o, [2]float64{x, y})
					}
				}
				at = append(at, [2]float64{x, y})
			}
			if len(at) < 3 && name != "tiny" {
				t.Errorf("%s, %s: %d rings, want enough to pull the outline", name, look, len(at))
			}
			if n := strings.Count(out, `aria-label="Ring `); n != len(at) {
				t.Errorf("%s, %s: %d rings with a name, want %d", name, look, n, len(at))
			}
		}
	}
	if out := svg(demo(), func(o *drawing.Options) { o.Rings = drawing.Still }); strings.Contains(out, "data-act") {
		t.Error("a still picture can be pulled")
	}
}

func TestSheet_WordsAreEscapedAndNamed(t *testing.T) {
	t.Parallel()
	out := svg(demo(), func(o *drawing.Options) { o.Words.Zone, o.Words.Title = "<b>&", `"<i>` })
	for _, bad := range []string{"<b>", "<i>"} {
		if strings.Contains(out, bad) {
			t.Errorf("%s stands in the markup", bad)
		}
	}
	if !strings.Contains(out, `aria-labelledby="t-title t-desc"`) {
		t.Error("the picture is not named by its title and description")
	}
}

func TestSheet_APlanWithoutWaterIsStillAPicture(t *testing.T) {
	t.Parallel()
	for _, p := range []sheet.Plan{{}, {Rim: []sheet.XY{{}, {X: 1}}}} {
		if out := markup.HTML(drawing.Sheet(p, drawing.Options{Words: drawing.Words{Title: "Nothing yet"}}).Node); !strings.Contains(out, "Nothing yet") {
			t.Errorf("no picture of an empty plan: %s", out)
		}
	}
	bare := sheet.Plan{Rim: []sheet.XY{{}, {X: 5}, {X: 5, Y: 4}, {Y: 4}}}
	if out := markup.HTML(drawing.Sheet(bare, drawing.Options{}).Node); strings.Contains(out, "NaN") {
		t.Error("a plan with a rim alone does not draw")
	}
}

// Each step of the flight is on the plan with its depth at the ends, and the
// stones of the rim keep off it.
func TestPlan_DrawsTheSteps(t *testing.T) {
	t.Parallel()
	d := gallery()["steps"]
	out := svg(d, nil)
	if n := strings.Count(out, `class="dr-tread"`); n != d.Bowl.Steps.Count {
		t.Errorf("%d treads are drawn of %d", n, d.Bowl.Steps.Count)
	}
	if !strings.Contains(out, "Steps</text>") || !strings.Contains(out, ">7 in</text>") {
		t.Error("the steps have no name or no depth")
	}
	if strings.Contains(svg(demo(), nil), "dr-tread") {
		t.Error("a pond without steps has treads")
	}
	slabs := markup.HTML(drawing.Sheet(cutOpen(t, d, 45, 225), options(d)).Node)
	path := regexp.MustCompile(`class="dr-slab" d="([^"]*)"`).FindStringSubmatch(slabs)
	// This line leaves the flight by its side, after the fourth step.
	if path == nil || strings.Count(path[1], "z") != 4 {
		t.Errorf("the section down the steps shows %v, want 4 slabs", path)
	}
}

// Where a pond can be pulled at, the page has buttons in the picture's corner;
// no name stands under them.
func TestLabels_KeepClearOfTheZoomButtons(t *testing.T) {
	t.Parallel()
	name := regexp.MustCompile(`<text class="dr-(?:name|note)" x="([0-9.-]+)" y="([0-9.-]+)"[^>]*>([^<]*)`)
	names := 0
	for ft := 26; ft <= 60; ft += 2 {
		for _, detail := range []drawing.Detail{drawing.Settled, drawing.Moving} {
			d := demo()
			d.Outline.LengthM = float64(ft) * footM
			o := options(d)
			o.Detail = detail
			pic := drawing.Plan(plan(d), o)
			for _, m := range name.FindAllStringSubmatch(markup.HTML(pic.Node), -1) {
				names++
				x, y := num(t, m[1]), num(t, m[2])
				if right := x + 6*float64(len(m[3])); y < 50 && right > pic.View.WidthPx-140 {
					t.Errorf("%d ft, %q: %q stands at %g, %g", ft, detail, m[3], x, y)
				}
			}
		}
	}
	if names < 100 {
		t.Errorf("%d names: the test sees too little", names)
	}
}
