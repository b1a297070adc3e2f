package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// Tick is a labelled place on an axis.
type Tick struct {
	At   float64
	Text string
}

// Caption names a chart: its title, and what it shows in one sentence, for
// those who cannot see it.
type Caption struct {
	ID          string // starts every id in the chart
	Title, Says string
	Colour      Colour
}

// Stops returns round values from lo to hi, both covered, in about n steps of
// 1, 2, 2.5 or 5 times a power of ten.
func Stops(lo, hi float64, n int) []float64 {
	if !(hi > lo) || n < 1 {
		return []float64{lo}
	}
	raw := (hi - lo) / float64(n)
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step := 10 * power
	for _, k := range []float64{1, 2, 2.5, 5} {
		if k*power >= raw*(1-1e-9) {
			step = k * power
			break
		}
	}
	var out []float64
	for i := math.Floor(lo/step + 1e-9); ; i++ {
		out = append(out, i*step)
		if i*step >= hi*(1-1e-12) {
			return out
		}
	}
}

// frameChart puts marks into a named picture.
func (c Caption) frame(wide, high float64, marks ...markup.Node) markup.Node {
	class := "ch"
	if c.Colour == Ink {
		class += " ch-ink"
	}
	named := []markup.Attr{markup.A("aria-hidden", "true")}
	var words []markup.Node
	if c.Title != "" {
		words = append(words, markup.E("title", markup.A("id", c.ID+"-title"), c.Title))
		said := c.ID + "-title"
		if c.Says != "" {
			words = append(words, markup.E("desc", markup.A("id", c.ID+"-desc"), c.Says))
			said += " " + c.ID + "-desc"
		}
		named = []markup.Attr{markup.A("role", "img"), markup.A("aria-labelledby", said)}
	}
	return markup.E("svg", markup.Class(class), markup.A("id", c.ID), markup.A("viewBox", "0 0 "+px(wide)+" "+px(high)),
		markup.A("focusable", "false"), named, words, marks)
}

// hatchDefs is the ruled texture of the first of two series.
func (c Caption) hatchDefs() markup.Node {
	var w pen
	w.move(pt{-1, 1}).line(pt{1, -1}).move(pt{0, 5}).line(pt{5, 0}).move(pt{4, 6}).line(pt{6, 4})
	return markup.E("defs", markup.E("pattern", markup.A("id", c.ID+"-hatch"), markup.A("width", "5"), markup.A("height", "5"),
		markup.A("patternUnits", "userSpaceOnUse"), w.node("ch-rule")))
}

func (c Caption) hatch() markup.Attr { return markup.A("fill", "url(#"+c.ID+"-hatch)") }

// rect is an upright rectangle.
func rect(class string, lo, hi pt, more ...markup.Attr) markup.Node {
	return markup.E("rect", markup.Class(class), markup.A("x", px(lo.x)), markup.A("y", px(lo.y)),
		markup.A("width", px(hi.x-lo.x)), markup.A("height", px(hi.y-lo.y)), more)
}

func anchored(where string) markup.Attr { return markup.A("text-anchor", where) }

// span maps values onto px.
type span struct{ lo, hi, from, to float64 }

func (s span) at(v float64) float64 {
	if s.hi == s.lo {
		return s.from
	}
	return s.from + (v-s.lo)/(s.hi-s.lo)*(s.to-s.from)
}

func ends(ticks []Tick, values ...float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, t := range ticks {
		lo, hi = math.Min(lo, t.At), math.Max(hi, t.At)
	}
	for _, v := range values {
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	return lo, hi
}
