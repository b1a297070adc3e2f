package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// DepthTick is a depth mark at the rim: where it stands and what it reads.
type DepthTick struct {
	At   sheet.XY
	Text string
}

// ticks draws the depth marks: a short stroke across the rim, and the reading
// beside it where it covers least.
func (d *drawer) ticks() markup.Node {
	if len(d.o.DepthTicks) == 0 || d.small() {
		return markup.None()
	}
	var strokes pen
	kids := make([]markup.Node, 0, 2+len(d.o.DepthTicks))
	for _, t := range d.o.DepthTicks {
		at, out := d.at(pt{t.At.X, t.At.Y}), d.outward(pt{t.At.X, t.At.Y})
		strokes.move(at.minus(out.times(6))).line(at.plus(out.times(8)))
		d.take(box{at.minus(pt{5, 5}), at.plus(pt{5, 5})})
	}
	under := strokes.node("dr-tickhalo")
	kids = append(kids, under, strokes.node("dr-tick"))
	for _, t := range d.o.DepthTicks {
		kids = append(kids, d.tickWords(t))
	}
	return layer("dr-ticks", kids...)
}

// outward is the direction away from the water at a place of the rim, in the
// picture, where y runs down.
func (d *drawer) outward(p pt) pt {
	best, dir := math.Inf(1), pt{}
	for i, a := range d.rimM {
		b := d.rimM[(i+1)%len(d.rimM)]
		if far := p.fromLine(a, b); far < best && a.to(b) > 0 {
			best, dir = far, b.minus(a).unit().left().times(-1)
		}
	}
	return pt{dir.x, -dir.y}
}

func (d *drawer) tickWords(t DepthTick) markup.Node {
	at, out := d.at(pt{t.At.X, t.At.Y}), d.outward(pt{t.At.X, t.At.Y})
	wide, high := wordsWide(t.Text, sansPx)+4, 15.0
	best, cost := box{}, math.Inf(1)
	for i, turn := range []float64{0, 0.5, -0.5, 1, -1, 1.4, -1.4} {
		way := pt{out.x*math.Cos(turn) - out.y*math.Sin(turn), out.x*math.Sin(turn) + out.y*math.Cos(turn)}
		for j, far := range []float64{12, 20, 32} {
			mid := at.plus(way.times(far)).plus(pt{way.x * wide / 2, way.y * high / 2})
			r := box{mid.minus(pt{wide / 2, high / 2}), mid.plus(pt{wide / 2, high / 2})}
			c := 3*float64(i) + 4*float64(j)
			if !d.clear(r) {
				c += 400
			}
			if r.lo.x < 0 || r.lo.y < 0 || r.hi.x > d.view.WidthPx || r.hi.y > d.view.PlanHeightPx {
				c += 800
			}
			if c += d.busy.under(r, cost-c+1); c < cost {
				best, cost = r, c
			}
		}
	}
	d.take(best)
	return text("dr-note dr-ticktext", t.Text, pt{(best.lo.x + best.hi.x) / 2, best.lo.y + 12}, anchored("middle"))
}
