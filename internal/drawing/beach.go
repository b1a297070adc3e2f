package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// beachReachM is how far the pebbles of a beach run out over the land.
const beachReachM = 1.7

// pebbles draws the beach: a fan of pebbles on the land that thins out, and
// fainter ones under the water. The larger are outlines, the smaller dots.
func (d *drawer) pebbles() markup.Node {
	if len(d.beachM) < 2 {
		return markup.None()
	}
	var land, landDots, wet, wetDots, lap pen
	size := d.unit * 0.29
	dot := 0.6
	if d.small() {
		size, dot = d.unit*0.5, 0.7
	}
	reach := math.Max(beachReachM, 2.2*d.unit)
	area := noBox().all(d.beachM, reach)
	i0, j0 := cellOf(area.lo, size)
	i1, j1 := cellOf(area.hi, size)
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			luck := sow(saltPebble, i, j)
			q := pt{(float64(i) + luck.span(0.1, 0.9)) * size, (float64(j) + luck.span(0.1, 0.9)) * size}
			far, share := d.onBeach(q)
			under := d.covered.at(d.at(q)) == 3
			limit := reach * math.Sqrt(math.Max(0, 1-share*share)) * (0.86 + 0.28*drift(saltPebble+2, q, 2.2*d.unit))
			if under {
				limit = 0.72 * reach * math.Sqrt(math.Max(0, 1-share*share))
			}
			if limit <= 0 || far > limit {
				continue
			}
			u := far / limit
			keep := math.Pow(1-u, 0.55)
			if under {
				keep = 0.85 * math.Pow(1-u, 1.2)
			}
			if luck.part() > keep {
				continue
			}
			r := (0.07 + math.Pow(luck.part(), 2.0)*0.17*(1-0.5*u)) * d.unit * d.view.ScalePxPerM
			outline, dots := &land, &landDots
			if under {
				outline, dots = &wet, &wetDots
			}
			if c := d.at(q); r < dot*1.9 || d.small() || d.quiet() {
				dots.dot(c)
			} else {
				pebble(outline, c, math.Min(r, 0.46*size*d.view.ScalePxPerM), &luck)
			}
		}
	}
	if !d.small() {
		d.lapping(&lap)
	}
	return layer("dr-pebbles", land.node("dr-pebble"), landDots.node("dr-grit"),
		wet.node("dr-pebble dr-under"), wetDots.node("dr-grit dr-under"), lap.node("dr-lap"))
}

// pebble is an egg of four soft corners, turned by chance.
func pebble(w *pen, c pt, r float64, luck *chance) {
	turn := luck.part() * math.Pi
	flat := luck.span(0.66, 0.9)
	var ps []pt
	for k := range 4 {
		a := float64(k) * math.Pi / 2
		u, v := 1.25*r*math.Cos(a+math.Pi/4), 1.25*r*flat*math.Sin(a+math.Pi/4)
		ps = append(ps, pt{c.x + u*math.Cos(turn) - v*math.Sin(turn), c.y + u*math.Sin(turn) + v*math.Cos(turn)})
	}
	w.soft(ps, 0.5)
}

// onBeach returns how far a place is from the beach's edge, and how far along
// it lies from the middle (0) to an end (1).
func (d *drawer) onBeach(q pt) (farM, share float64) {
	farM = math.Inf(1)
	at, passed, total := 0.0, 0.0, 0.0
	for i := 1; i < len(d.shoreM); i++ {
		a, b := d.shoreM[i-1], d.shoreM[i]
		l := a.to(b)
		if f := q.fromLine(a, b); f < farM {
			farM = f
			at = passed + math.Min(math.Max(q.minus(a).dot(b.minus(a).unit()), 0), l)
		}
		passed += l
		total = passed
	}
	if total == 0 {
		return farM, 1
	}
	return farM, math.Abs(2*at/total - 1)
}

// lapping is two broken lines in the water along the beach.
func (d *drawer) lapping(w *pen) {
	n := len(d.beachM)
	for _, in := range []float64{0.5, 1.05} {
		var line []pt
		for k := 2; k+2 < n; k++ {
			along := d.beachM[k+1].minus(d.beachM[k-1]).unit()
			line = append(line, d.at(d.beachM[k].plus(along.left().times(in*d.unit))))
		}
		if len(line) > 2 {
			w.flow(thin(line, 0.3))
		}
	}
}
