package drawing

import (
	"math"
	"sort"
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// Grip is what a thing at the water's edge, or an end of the section, is moved
// by: a button with a place of its own.
type Grip struct {
	Name       string // in the act's argument
	Spoken, At string // for those who cannot see it: what it is, and where
	BearingDeg float64
	Chosen     bool
	Place      sheet.XY // what is moved, in metres
}

// knobPx is what is seen of a grip.
const knobPx = 8.0

// held is a grip with the place it found, in px.
type held struct {
	Grip
	on, at pt
}

// heldGrips finds each grip a place: on its thing, or else further out, where
// no ring and no other grip answers to the same finger. One without room is
// left out; the fields say the same in words.
func (d *drawer) heldGrips() []held {
	if d.o.Rings != Drag || d.small() || d.o.State == Wrong {
		return nil
	}
	k := d.zoom()
	var taken []pt
	for _, i := range d.shownRings() {
		taken = append(taken, d.at(pt{d.p.Handles[i].X, d.p.Handles[i].Y}))
	}
	free := func(q pt) bool {
		for _, t := range taken {
			if t.to(q) < 2*reachPx*k {
				return false
			}
		}
		if d.onDimension(q, (knobPx+8)*k) {
			return false
		}
		return q.x > reachPx && q.y > reachPx && q.x < d.view.WidthPx-reachPx && q.y < d.view.PlanHeightPx-reachPx
	}
	middle := d.at(d.centre)
	var out []held
	for _, first := range []bool{true, false} { // the chosen one has its place first
		for _, g := range d.o.Grips {
			if g.Chosen != first {
				continue
			}
			on := d.at(pt{g.Place.X, g.Place.Y})
			way := on.minus(middle).unit()
			for _, turn := range []float64{0, 0.5, -0.5, 0.9, -0.9, 1.3, -1.3} {
				if q, ok := d.gripSpot(on, way.turned(turn), d.bulkPx(on), free); ok {
					taken, out = append(taken, q), append(out, held{g, on, q})
					break
				}
			}
		}
	}
	order := map[string]int{}
	for i, g := range d.o.Grips {
		order[g.Name] = i
	}
	sort.Slice(out, func(i, j int) bool { return order[out[i].Name] < order[out[j].Name] })
	return out
}

// onDimension says whether a place is nearer than so much to a dimension line,
// whose figure a grip would hide.
func (d *drawer) onDimension(q pt, nearPx float64) bool {
	for _, m := range []struct {
		line  dimension
		words string
	}{{d.across, d.o.Words.LengthText}, {d.down, d.o.Words.WidthText}} {
		if m.words != "" && q.fromLine(m.line.from, m.line.to) < nearPx {
			return true
		}
	}
	return false
}

// bulkPx is how far a grip beside a thing must stand from it, so that it hides
// none of its sign. On a rim there is no sign.
func (d *drawer) bulkPx(on pt) float64 {
	if on.to(d.at(pt{d.p.Pump.X, d.p.Pump.Y})) < 1 {
		return 24
	}
	return 0
}

// gripSpot is the nearest free place outward of a thing: on it, or clear of it.
func (d *drawer) gripSpot(on, way pt, bulkPx float64, free func(pt) bool) (pt, bool) {
	const stepPx, farPx = 6.0, 78.0
	for far := 0.0; far <= farPx; far += stepPx {
		if far > 0 && far < bulkPx {
			continue
		}
		if q := on.plus(way.times(far * d.zoom())); free(q) {
			return q, true
		}
	}
	return pt{}, false
}

// turned is a direction turned anticlockwise as the picture shows it.
func (a pt) turned(rad float64) pt {
	sin, cos := math.Sincos(rad)
	return pt{float64(a.x*cos) + float64(a.y*sin), float64(a.y*cos) - float64(a.x*sin)}
}

// grips are round knobs with an arrow both ways along the edge.
func (d *drawer) grips() markup.Node {
	if d.which&partPlan == 0 {
		return markup.None()
	}
	k := d.zoom()
	var kids []markup.Node
	for _, g := range d.heldGrips() {
		class := "dr-grip"
		if g.Chosen {
			class += " dr-chosen"
		}
		var line, arrow pen
		if g.on.to(g.at) > (knobPx+3)*k {
			line.move(g.on).line(g.at)
		}
		along := g.at.minus(d.at(d.centre)).unit().left()
		for _, dir := range []float64{-1, 1} {
			tip := g.at.plus(along.times(4.6 * dir * k))
			back := tip.minus(along.times(2.6 * dir * k))
			side := along.left().times(2.4 * k)
			arrow.move(back.plus(side)).line(tip).line(back.minus(side))
		}
		circle := func(class string, r float64) markup.Node {
			return markup.E("circle", markup.Class(class), markup.A("cx", px(g.at.x)), markup.A("cy", px(g.at.y)), markup.A("r", px(r*k)))
		}
		grip := markup.E("g", markup.Class(class), markup.A("id", d.id("grip-"+g.Name)), markup.A("data-act", "grip"), markup.A("data-arg", g.Name),
			markup.A("role", "slider"), markup.A("tabindex", "0"), markup.A("aria-label", g.Spoken), markup.A("aria-valuemin", "0"), markup.A("aria-valuemax", "359"),
			markup.A("aria-valuenow", strconv.Itoa(int(g.BearingDeg))), markup.A("aria-valuetext", g.At),
			circle("dr-reach", reachPx), line.node("dr-lead"), circle("dr-knob", knobPx), arrow.node("dr-ways"))
		grip.Key = "grip-" + g.Name
		kids = append(kids, grip)
	}
	if len(kids) == 0 {
		return markup.None()
	}
	return layer("dr-grips", kids...)
}
