package drawing

import (
	"math"
	"sort"
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// reachPx is the radius within which a ring answers to a finger.
const reachPx = 22.0

// shownRings are the handles that get a ring: none under the deck or the
// cascade, which have their own way to move, and none so near to another that
// two would answer to one finger.
func (d *drawer) shownRings() []int {
	if d.o.Rings != Drag || d.small() {
		return nil
	}
	var shown []int
	if k := d.o.Chosen - 1; k >= 0 && k < len(d.p.Handles) {
		shown = append(shown, k)
	}
	for i, h := range d.p.Handles {
		q := pt{h.X, h.Y}
		if i == d.o.Chosen-1 || q.near(d.deckM, 0) || q.near(d.flightM, 0) || q.near(d.cascadeM, d.m(6)) {
			continue
		}
		free := true
		for _, j := range shown {
			if d.at(q).to(d.at(pt{d.p.Handles[j].X, d.p.Handles[j].Y})) < 2*reachPx*d.zoom() {
				free = false
			}
		}
		if free {
			shown = append(shown, i)
		}
	}
	sort.Ints(shown) // in one order, whichever is chosen
	return shown
}

// zoom is the size of a px of the screen in px of the picture, where the
// picture fills its usual width.
func (d *drawer) zoom() float64 {
	if d.o.Window[2] <= 0 {
		return 1
	}
	return d.o.Window[2] / d.view.WidthPx
}

// rings are what the outline is pulled by: each a button with a reach larger
// than what is seen.
func (d *drawer) rings() markup.Node {
	if d.which&partPlan == 0 {
		return markup.None()
	}
	var kids []markup.Node
	for _, i := range d.shownRings() {
		c := d.at(pt{d.p.Handles[i].X, d.p.Handles[i].Y})
		class, seen, dot := "dr-ring", 7.5, 2.2
		if i == d.o.Chosen-1 {
			class, seen, dot = "dr-ring dr-chosen", 9, 2.9
		}
		k := d.zoom()
		circle := func(class string, r float64) markup.Node {
			return markup.E("circle", markup.Class(class), markup.A("cx", px(c.x)), markup.A("cy", px(c.y)), markup.A("r", px(r*k)))
		}
		n := strconv.Itoa(i)
		ring := markup.E("g", markup.Class(class), markup.A("id", d.id("ring-"+n)), markup.A("data-act", "ring"), markup.A("data-arg", n),
			markup.A("role", "button"), markup.A("tabindex", "0"), markup.A("aria-label", d.o.Words.Ring(i)),
			circle("dr-reach", reachPx), circle("dr-eye", seen), circle("dr-pupil", dot))
		ring.Key = "ring-" + n
		kids = append(kids, ring)
	}
	if len(kids) == 0 {
		return markup.None()
	}
	return layer("dr-rings", kids...)
}

// pins are the numbers of notes on the plan: a diamond for care, round for
// fine, with a line to what they speak of.
func (d *drawer) pins() markup.Node {
	if len(d.o.Pins) == 0 || d.which&partPlan == 0 {
		return markup.None()
	}
	var kids []markup.Node
	ground := d.extent()
	edge := box{pt{math.Max(4, ground.lo.x-8), math.Max(4, ground.lo.y-8)}, pt{math.Min(d.view.WidthPx-16, ground.hi.x+10), math.Min(d.view.PlanHeightPx-3, ground.hi.y+8)}}
	for _, pin := range d.o.Pins {
		if pin.Place == sheet.AroundGround {
			kids = append(kids, boundary(edge))
			break
		}
	}
	for i, pin := range d.o.Pins {
		anchor, spot := d.pinPlace(pin, edge)
		if anchor.to(spot) > 20 {
			var line pen
			line.move(anchor).line(spot)
			kids = append(kids, line.node("dr-lead dr-"+string(pin.Mark)),
				markup.E("circle", markup.Class("dr-point dr-"+string(pin.Mark)), markup.A("cx", px(anchor.x)), markup.A("cy", px(anchor.y)), markup.A("r", "2.4")))
		}
		kids = append(kids, d.pin(i, pin, spot))
	}
	return layer("dr-pins", kids...)
}

// boundary is a dotted line round the ground with an opening for a gate.
func boundary(b box) markup.Node {
	const r = 12
	gate := b.lo.x + 0.28*b.wide()
	var w pen
	w.move(pt{gate, b.hi.y}).line(pt{b.lo.x + r, b.hi.y}).arc(r, pt{b.lo.x, b.hi.y - r})
	w.line(pt{b.lo.x, b.lo.y + r}).arc(r, pt{b.lo.x + r, b.lo.y})
	w.line(pt{b.hi.x - r, b.lo.y}).arc(r, pt{b.hi.x, b.lo.y + r})
	w.line(pt{b.hi.x, b.hi.y - r}).arc(r, pt{b.hi.x - r, b.hi.y}).line(pt{gate + 42, b.hi.y})
	return w.node("dr-boundary")
}

func (d *drawer) pin(i int, p Pin, c pt) markup.Node {
	var shape pen
	if p.Mark == sheet.Care {
		const r = 14.5
		shape.ring([]pt{{c.x, c.y - r}, {c.x + r, c.y}, {c.x, c.y + r}, {c.x - r, c.y}})
	} else {
		shape.disc(c, 12)
	}
	d.take(box{c.minus(pt{16, 16}), c.plus(pt{16, 16})})
	named := []markup.Attr{markup.A("aria-hidden", "true")}
	if p.Name != "" {
		named = []markup.Attr{markup.A("role", "img"), markup.A("aria-label", p.Name)}
	}
	return markup.E("g", markup.Class("dr-pin dr-"+string(p.Mark)), markup.A("id", d.id("pin-"+strconv.Itoa(i))), named,
		shape.node("dr-pinshape"), text("dr-pintext", strconv.Itoa(p.Number), pt{c.x, c.y + 4.6}, markup.A("text-anchor", "middle")))
}
