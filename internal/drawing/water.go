package drawing

import (
	"math"
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// deepestTone is the last tone of the ramp; deeper water keeps it.
const deepestTone = 6

// standTone is the tone of water that most people swim in rather than stand:
// the ramp jumps there, and its contour is heavier.
const standTone = 4

// tone is the step of the ramp at a depth: one tone is always one depth.
func (d *drawer) tone(depthM float64) int {
	return min(int(depthM/d.o.DepthStepM+1e-6), deepestTone)
}

func toneClass(n int) string { return "dr-d" + strconv.Itoa(n) }

// contourClass is the class of the line between the tone and the one above.
func contourClass(n int) string {
	switch {
	case n == standTone:
		return "dr-line dr-line-deep dr-line-stand"
	case n > standTone:
		return "dr-line dr-line-deep"
	}
	return "dr-line"
}

// bands are the areas below each level; an outline that cannot be a pond has
// none.
func (d *drawer) bands() []sheet.Band {
	if d.o.State == Wrong {
		return nil
	}
	return d.p.Bands
}

// water draws the depth bands with a contour between each two.
func (d *drawer) water() markup.Node {
	kids := []markup.Node{d.edge(toneClass(0))}
	var bands []markup.Node
	for _, b := range d.bands() {
		var w pen
		for _, ring := range b.Rings {
			d.closed(&w, d.placed(ring))
		}
		level := d.tone(b.LevelM)
		class := toneClass(level) + " " + contourClass(level)
		if b.LevelM > (deepestTone+0.5)*d.o.DepthStepM {
			class = toneClass(deepestTone) + " " + contourClass(deepestTone)
		}
		bands = append(bands, w.node(class))
	}
	kids = append(kids, markup.E("g", markup.A("clip-path", d.url("water")), bands, d.treads()))
	return layer("dr-water", kids...)
}

// rim draws the water's edge: a wall is the heaviest line of the plan, a beach
// lighter, because one can walk over it.
func (d *drawer) rim() markup.Node {
	if len(d.beachM) == 0 {
		return layer("dr-rim", d.edge("dr-wall"), d.crossing())
	}
	var wall, beach pen
	d.open(&wall, d.wallM)
	d.open(&beach, d.beachM)
	return layer("dr-rim", wall.node("dr-wall"), beach.node("dr-shoreline"), d.crossing())
}

// crossing shows where an outline crosses itself.
func (d *drawer) crossing() markup.Node {
	if d.o.Crossing == nil {
		return markup.None()
	}
	var w pen
	w.disc(d.at(pt{d.o.Crossing.X, d.o.Crossing.Y}), 14)
	return w.node("dr-cross")
}

// bandMark is where a contour's depth is written.
type bandMark struct {
	at     pt // px
	tone   int
	levelM float64
}

// bandMarks finds a place for each contour's number just inside the deeper
// side, on a line beside the section from the gentler end to the deep place.
func (d *drawer) bandMarks() []bandMark {
	deep := pt{d.p.Deep.X, d.p.Deep.Y}
	from, to := pt{d.p.CutFrom.X, d.p.CutFrom.Y}, pt{d.p.CutTo.X, d.p.CutTo.Y}
	start := from
	if to.to(deep) > from.to(deep) {
		start = to
	}
	along := deep.minus(start).unit()
	side := along.left()
	if side.y < 0 || side.y == 0 && side.x < 0 {
		side = side.times(-1)
	}
	shift := side.times(math.Min(0.09*from.to(to), d.m(46)))
	var marks []bandMark
	last := math.Inf(-1)
	for i, b := range d.bands() {
		t, ok := firstInside(start.plus(shift), along, b.Rings)
		if !ok {
			continue
		}
		next := start.to(deep)
		if i+1 < len(d.p.Bands) {
			if n, more := firstInside(start.plus(shift), along, d.p.Bands[i+1].Rings); more {
				next = n
			}
		}
		tone := d.tone(b.LevelM)
		room := (next - t) * d.view.ScalePxPerM
		if room < 14 && tone != standTone || (t-last)*d.view.ScalePxPerM < 13 || b.LevelM > (deepestTone+0.5)*d.o.DepthStepM && room < 22 {
			continue
		}
		last = t
		in := math.Min(room/2, 11)
		if len(marks) == 0 { // the first is written with its unit
			in = math.Min(room/2, wordsWide(d.o.Words.Length(b.LevelM), sansPx)/2+6)
		}
		marks = append(marks, bandMark{d.at(start.plus(shift).plus(along.times(t + d.m(in)))), tone, b.LevelM})
	}
	return marks
}
