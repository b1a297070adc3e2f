package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// frame is a rectangle of the plan with directions of its own: u along its
// first side, v away from it.
type quad struct{ o, u, v pt }

func newQuad(c []pt) (q quad, wide, long float64) {
	return quad{c[0], c[1].minus(c[0]).unit(), c[3].minus(c[0]).unit()}, c[0].to(c[1]), c[0].to(c[3])
}

func (q quad) at(u, v float64) pt { return q.o.plus(q.u.times(u)).plus(q.v.times(v)) }

// cascadeSteps is how many flat stones the water falls over in the picture.
const cascadeSteps = 3

// fall draws the cascade: side rocks, steps, the sheet of water and the broken
// arcs where it lands.
func (d *drawer) fall() markup.Node {
	if len(d.cascadeM) < 4 {
		return markup.None()
	}
	q, wide, long := newQuad(d.cascadeM)
	var rocks []stone
	for k := range 5 {
		for side := range 2 {
			luck := sow(saltCascade, k, side)
			r := luck.span(0.58, 0.95) * d.unit
			u := -0.5*d.unit - luck.span(0, 0.25)*d.unit
			if side == 1 {
				u = wide - u
			}
			v := (float64(k)+0.5)/5*long - 0.1*d.unit
			rocks = append(rocks, stone{at: q.at(u, v), r: r, turn: luck.span(0, 3), luck: luck})
		}
	}
	var steps, sheet, lips, drops pen
	for k := range cascadeSteps {
		luck := sow(saltCascade+2, k, 0)
		a, b := long*float64(k)/cascadeSteps, long*(float64(k)+1.04)/cascadeSteps
		over := func() float64 { return luck.span(0.24, 0.46) * d.unit }
		steps.soft(d.all([]pt{
			q.at(-over(), a), q.at(wide*0.4, a-0.08*d.unit), q.at(wide+over(), a), q.at(wide+over(), b), q.at(wide*0.6, b+0.1*d.unit), q.at(-over(), b),
		}), 0.18)
	}
	sheet.ring(d.all([]pt{q.at(0, 0.02*long), q.at(wide, 0.02*long), q.at(wide, long+0.2*d.unit), q.at(0, long+0.2*d.unit)}))
	for k := range cascadeSteps + 1 {
		v := 0.03*long + long*float64(k)/cascadeSteps
		lips.move(d.at(q.at(0, v))).line(d.at(q.at(wide, v)))
	}
	d.droplets(&drops, q, wide, long)
	return layer("dr-fall", d.foam(q, wide, long), d.pile("dr-rocks", rocks), steps.node("dr-stone dr-s0"),
		sheet.node("dr-sheet"), drops.node("dr-drop"), lips.node("dr-lip"))
}

func (d *drawer) droplets(w *pen, q quad, wide, long float64) {
	gap := math.Max(0.31*d.unit, d.m(2.6))
	for i, u := 0, 0.5*gap; u < wide; i, u = i+1, u+gap {
		luck := sow(saltCascade+4, i, 0)
		for v := luck.span(0.05, 0.3) * d.unit; v < long; {
			l := luck.span(0.35, 1.3) * d.unit
			w.move(d.at(q.at(u+luck.span(-0.05, 0.05)*d.unit, v))).line(d.at(q.at(u, math.Min(v+l, long+0.15*d.unit))))
			v += l + luck.span(0.16, 0.36)*d.unit
		}
	}
}

// foam is broken arcs round the foot of the fall.
func (d *drawer) foam(q quad, wide, long float64) markup.Node {
	if d.small() {
		return markup.None()
	}
	var w pen
	foot := pt{wide / 2, long - 0.3*d.unit}
	for k := range 3 {
		luck := sow(saltCascade+6, k, 0)
		ru, rv := wide/2+(float64(k)*1.0-0.3)*d.unit, (1.1+float64(k)*0.85)*d.unit
		at := func(a float64) pt { return d.at(q.at(foot.x+ru*math.Sin(a), foot.y+rv*math.Cos(a))) }
		for _, side := range []float64{-1, 1} {
			for m := range 2 {
				a := side * (0.08 + float64(m)*0.56)
				b := a + side*luck.span(0.34, 0.46)
				mid, p0, p1 := at((a+b)/2), at(a), at(b)
				w.move(p0).quad(mid.times(2).minus(p0.plus(p1).times(0.5)), p1)
			}
		}
	}
	return markup.E("g", markup.A("clip-path", d.url("water")), w.node("dr-foam"))
}
