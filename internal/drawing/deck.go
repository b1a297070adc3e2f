package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// deck draws the deck: boards, a ladder into the deeper side and two chairs
// where they fit.
func (d *drawer) deck() markup.Node {
	if len(d.deckM) < 4 {
		return markup.None()
	}
	q, long, wide := newQuad(d.deckM)
	var shadow, floor, boards, butts pen
	cast := d.all(d.deckM) // one of its own, to be moved
	for i := range cast {
		cast[i] = cast[i].plus(pt{1.8, 2.3})
	}
	shadow.ring(cast)
	floor.ring(d.deckPx)
	row := math.Max(0.15, d.m(5.6))
	for i, v := 0, 0.0; v < wide-0.3*row; i, v = i+1, v+row {
		if v > 0 {
			boards.move(d.at(q.at(0.03, v))).line(d.at(q.at(long-0.03, v)))
		}
		luck := sow(saltDeck, i, 0)
		for _, share := range []float64{luck.span(0.15, 0.45), luck.span(0.55, 0.9)} {
			if !d.small() {
				butts.move(d.at(q.at(share*long, v))).line(d.at(q.at(share*long, math.Min(v+row, wide))))
			}
		}
	}
	kids := []markup.Node{shadow.node("dr-shadow"), floor.node("dr-deck"), boards.node("dr-board"), butts.node("dr-board")}
	if !d.small() {
		kids = append(kids, d.ladder(q, long, wide))
	}
	return layer("dr-decking", append(kids, d.chairs(q, long, wide)...)...)
}

func (d *drawer) ladder(q quad, long, wide float64) markup.Node {
	deep := pt{d.p.Deep.X, d.p.Deep.Y}
	at, best := 0.0, math.Inf(1)
	for _, share := range []float64{0.22, 0.5, 0.76} {
		foot := q.at(share*long, -0.3)
		if far := foot.to(deep); foot.within(d.rimM) && far < best && far > d.m(28) {
			at, best = share*long, far
		}
	}
	if math.IsInf(best, 1) || long < 1.2 || wide < 0.8 {
		return markup.None()
	}
	step := math.Max(0.17, d.m(6))
	var w pen
	for _, u := range []float64{at - step, at + step} {
		w.move(d.at(q.at(u, 0.6*step))).line(d.at(q.at(u, -1.5*step)))
	}
	for _, v := range []float64{-0.55 * step, -1.2 * step} {
		w.move(d.at(q.at(at-step, v))).line(d.at(q.at(at+step, v)))
	}
	return markup.E("g", w.node("dr-ladder-edge"), w.node("dr-ladder"))
}

// chairs are two loungers of 0.55 × 1.0 m side by side, drawn a little short.
func (d *drawer) chairs(q quad, long, wide float64) []markup.Node {
	const half, length, gap = 0.25, 1.0, 0.32
	if long < 2.4 || wide < 1.7 || d.m(1) > 0.2 {
		return nil
	}
	var seat, slats, pillow pen
	from := wide - length - 0.22*wide
	for i := range 2 {
		u := 0.2*long + float64(i)*(2*half+gap)
		r := func(u0, v0, u1, v1 float64) []pt {
			return d.all([]pt{q.at(u+u0, from+v0), q.at(u+u1, from+v0), q.at(u+u1, from+v1), q.at(u+u0, from+v1)})
		}
		seat.soft(r(-half, 0, half, length), 0.12)
		for k := 1; k < 5; k++ {
			v := from + length*0.17*float64(k)
			slats.move(d.at(q.at(u-half, v))).line(d.at(q.at(u+half, v)))
		}
		pillow.soft(r(-0.19, 0.74*length, 0.19, 0.93*length), 0.2)
	}
	return []markup.Node{seat.node("dr-chair"), slats.node("dr-slat"), pillow.node("dr-pillow")}
}
