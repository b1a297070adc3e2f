package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// BudgetStaff is a ruled line with a band from low to high and a pointer at
// what is likely.
type BudgetStaff struct {
	Caption
	WidthPx           float64 // 0 takes 256
	Low, Likely, High float64
	Ticks             []Tick
}

// Node draws the staff.
func (c BudgetStaff) Node() markup.Node {
	wide := c.WidthPx
	if wide == 0 {
		wide = 256
	}
	lo, hi := ends(c.Ticks, c.Low, c.High)
	pad := 12.0
	x := span{lo, hi, pad, wide - pad}
	const base = 18.0
	band := rect("ch-band", pt{x.at(c.Low), 5}, pt{x.at(c.High), base - 4})
	var ends, line, ticks, pointer pen
	for _, v := range []float64{c.Low, c.High} {
		ends.move(pt{x.at(v), 3}).line(pt{x.at(v), base - 2})
	}
	line.move(pt{0, base}).line(pt{wide, base})
	kids := []markup.Node{band, ends.node("ch-stop")}
	for i, t := range c.Ticks {
		ticks.move(pt{x.at(t.At), base}).line(pt{x.at(t.At), base + 8})
		if i > 0 {
			for k := 1; k < 4; k++ {
				between := x.at(c.Ticks[i-1].At + (t.At-c.Ticks[i-1].At)*float64(k)/4)
				ticks.move(pt{between, base}).line(pt{between, base + 4})
			}
		}
		where := "middle"
		at := x.at(t.At)
		if half := wordsWide(t.Text, 6.6) / 2; at < half {
			where, at = "start", 0
		} else if at > wide-half {
			where, at = "end", wide
		}
		kids = append(kids, text("ch-axis", t.Text, pt{at, base + 24}, anchored(where)))
	}
	p := math.Min(math.Max(x.at(c.Likely), 6), wide-6)
	pointer.ring([]pt{{p - 6.5, 4.5}, {p + 6.5, 4.5}, {p, base - 2.5}})
	return c.frame(wide, base+30, append(kids, line.node("ch-base"), ticks.node("ch-tick"), pointer.node("ch-solid"))...)
}

// ValueStrip is dots on an axis that need not start at zero.
type ValueStrip struct {
	Caption
	WidthPx float64 // 0 takes 392
	Dots    []Dot
	Ticks   []Tick
}

// Dot is one lettered value.
type Dot struct {
	Name  string
	At    float64
	Stand Standing
}

// Standing tells the best of several from the others.
type Standing string

// The standings.
const (
	Among Standing = ""
	Best  Standing = "best"
)

// Node draws the strip.
func (c ValueStrip) Node() markup.Node {
	wide := c.WidthPx
	if wide == 0 {
		wide = 392
	}
	values := make([]float64, len(c.Dots))
	for i, d := range c.Dots {
		values[i] = d.At
	}
	lo, hi := ends(c.Ticks, values...)
	x := span{lo, hi, 16, wide - 16}
	const base = 56.0
	var line, ticks, stems pen
	line.move(pt{0, base}).line(pt{wide, base})
	var kids []markup.Node
	for _, t := range c.Ticks {
		ticks.move(pt{x.at(t.At), base}).line(pt{x.at(t.At), base + 6})
		kids = append(kids, text("ch-axis", t.Text, pt{x.at(t.At), base + 20}, anchored("middle")))
	}
	var set []pt
	for _, d := range c.Dots {
		q := pt{x.at(d.At), base - 17}
		for _, other := range set {
			if math.Abs(other.x-q.x) < 24 && other.y == q.y {
				q.y = base - 42
			}
		}
		set = append(set, q)
		stems.move(pt{q.x, q.y + 11}).line(pt{q.x, base})
		class := "ch-dot"
		if d.Stand == Best {
			class = "ch-dot ch-best"
		}
		var round pen
		round.disc(q, 11.5)
		kids = append(kids, round.node(class), text("ch-letter"+class[len("ch-dot"):], d.Name, pt{q.x, q.y + 4.6}, anchored("middle")))
	}
	return c.frame(wide, base+26, append([]markup.Node{line.node("ch-base"), ticks.node("ch-tick"), stems.node("ch-tick")}, kids...)...)
}
