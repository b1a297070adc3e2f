package drawing_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// Each mark of the schedule is a stroke across the rim at its own place, with
// its reading near it, inside the picture and off the other readings.
func TestTicks_StandAtTheirPlaceWithTheirReading(t *testing.T) {
	t.Parallel()
	p := plan(demo())
	var marks []drawing.DepthTick
	for i := range 5 {
		marks = append(marks, drawing.DepthTick{At: p.Rim[i*len(p.Rim)/5], Text: strconv.Itoa(i+1) + " ft"})
	}
	o := options(demo())
	o.Look, o.Rings, o.DepthTicks = drawing.Phone, drawing.Still, marks
	pic := drawing.Plan(p, o)
	html := markup.HTML(pic.Node)
	found := regexp.MustCompile(`<text class="dr-note dr-ticktext" x="([-0-9.]+)" y="([-0-9.]+)"[^>]*>([^<]+)</text>`).FindAllStringSubmatch(html, -1)
	if len(found) != len(marks) {
		t.Fatalf("%d readings, want %d", len(found), len(marks))
	}
	for i, m := range marks {
		x, y := pic.View.At(m.At)
		tx, _ := strconv.ParseFloat(found[i][1], 64)
		ty, _ := strconv.ParseFloat(found[i][2], 64)
		if found[i][3] != m.Text || math.Hypot(tx-x, ty-y) > 60 {
			t.Errorf("mark %d reads %q %.0f px off, want %q near its place", i+1, found[i][3], math.Hypot(tx-x, ty-y), m.Text)
		}
		if tx < 0 || ty < 0 || tx > pic.View.WidthPx || ty > pic.View.PlanHeightPx {
			t.Errorf("mark %d reads at %.0f,%.0f, outside the picture", i+1, tx, ty)
		}
		for _, other := range found[:i] {
			ox, _ := strconv.ParseFloat(other[1], 64)
			oy, _ := strconv.ParseFloat(other[2], 64)
			if math.Abs(ox-tx) < 20 && math.Abs(oy-ty) < 12 {
				t.Errorf("marks %q and %q stand on each other", m.Text, other[3])
			}
		}
	}
	stroke := regexp.MustCompile(`class="dr-tick" d="([^"]+)"`).FindStringSubmatch(html)
	if stroke == nil || strings.Count(stroke[1], "M")+strings.Count(stroke[1], "m") != len(marks) {
		t.Fatalf("strokes %v, want %d", stroke, len(marks))
	}
}

// The first stroke lies across the rim: its middle is near the mark, one end
// in the water and one on the land.
func TestTicks_AStrokeCrossesTheRim(t *testing.T) {
	t.Parallel()
	p := plan(demo())
	at := p.Rim[len(p.Rim)/3]
	o := options(demo())
	o.Rings, o.DepthTicks = drawing.Still, []drawing.DepthTick{{At: at, Text: "x"}}
	pic := drawing.Plan(p, o)
	d := regexp.MustCompile(`class="dr-tick" d="M([-0-9.]+) ([-0-9.]+)[lL]([-0-9.]+)[ ]?([-0-9.]+)`).FindStringSubmatch(markup.HTML(pic.Node))
	if d == nil {
		t.Fatalf("no stroke in %.300s", regexp.MustCompile(`class="dr-tick"[^>]*`).FindString(markup.HTML(pic.Node)))
	}
	num := func(i int) float64 { v, _ := strconv.ParseFloat(d[i], 64); return v }
	from := pic.View.PlanPoint(num(1), num(2))
	to := pic.View.PlanPoint(num(3), num(4))
	if strings.Contains(d[0], "l") {
		to = pic.View.PlanPoint(num(1)+num(3), num(2)+num(4))
	}
	inside := func(q sheet.XY) bool {
		in := false
		for i, a := range p.Rim {
			b := p.Rim[(i+1)%len(p.Rim)]
			if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
				in = !in
			}
		}
		return in
	}
	if !inside(from) || inside(to) {
		t.Errorf("the stroke runs from %v (water %v) to %v (water %v), want out of the water", from, inside(from), to, inside(to))
	}
}
