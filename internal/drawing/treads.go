package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// flight is the steps into the water as one outline, upper end first.
func flight(p sheet.Plan) []pt {
	if len(p.Treads) == 0 {
		return nil
	}
	first, last := p.Treads[0].Corners, p.Treads[len(p.Treads)-1].Corners
	return pts([]sheet.XY{first[0], first[1], last[2], last[3]})
}

// treads are the steps, each a slab with the tone of the water over it; the
// joints between slabs run down the flight, and those of two rows not in line.
func (d *drawer) treads() markup.Node {
	if len(d.flightM) == 0 || d.o.State == Wrong {
		return markup.None()
	}
	var kids []markup.Node
	var joints, edges pen
	for i, t := range d.p.Treads {
		c := d.all(pts(t.Corners[:]))
		var slab pen
		slab.ring(c)
		kids = append(kids, slab.node(toneClass(d.tone(t.DepthM))), slab.node("dr-tread"))
		edges.move(c[3]).line(c[2])
		if d.small() {
			continue
		}
		const slabM = 0.6
		n := max(1, math.Round(pt{t.Corners[0].X, t.Corners[0].Y}.to(pt{t.Corners[1].X, t.Corners[1].Y})/slabM))
		for k := 0.5 + 0.5*float64(i%2); k < n; k++ {
			joints.move(c[0].mix(c[1], k/n)).line(c[3].mix(c[2], k/n))
		}
	}
	return markup.E("g", markup.Class("dr-treads"), kids, joints.node("dr-joint"), edges.node("dr-riser"))
}

// treadWords are the depths on the first tread and the last, where they fit.
func (d *drawer) treadWords() []markup.Node {
	n := len(d.p.Treads)
	if n == 0 || d.small() || d.o.State == Wrong {
		return nil
	}
	var kids []markup.Node
	for _, i := range []int{n - 1, 0} {
		t := d.p.Treads[i]
		c := d.all(pts(t.Corners[:]))
		words := d.o.Words.Length(t.DepthM)
		if wordsWide(words, sansPx) > 0.95*c[2].to(c[3]) {
			words = d.o.Words.Number(t.DepthM)
		}
		wide := wordsWide(words, sansPx)
		at := middle(c)
		if i == 0 { // its upper part lies under the stones of the rim
			at = c[2].mix(c[3], 0.5).mix(at, 0.3)
		}
		r := box{pt{at.x - wide/2, at.y - 7}, pt{at.x + wide/2, at.y + 7}}
		if wide > 0.95*c[2].to(c[3]) || words == "" || !d.clear(r) {
			continue
		}
		d.take(r)
		kids = append(kids, text("dr-depth "+onTone(d.tone(t.DepthM)), words, pt{at.x, at.y + 4.5}, markup.A("text-anchor", "middle")))
	}
	return kids
}

// slabs are the stone of the steps in the section: one under each level
// stretch of the bottom that lies on a tread.
func (d *drawer) slabs(f profile) markup.Node {
	const thickM = 0.06
	s := d.view.ScalePxPerM
	var w pen
	var from, to pt
	lay := func() {
		if to.x > from.x {
			w.ring([]pt{from, to, {to.x, to.y + thickM*s}, {from.x, from.y + thickM*s}})
		}
	}
	for i := 1; i < len(f.bottom); i++ {
		a, b := f.bottom[i-1], f.bottom[i]
		if b.x-a.x < 1e-3 || math.Abs(b.y-a.y) > 0.02*(b.x-a.x) || !d.onTread(a, b) {
			continue
		}
		if math.Abs(a.y-to.y) > 0.01 || a.x-to.x > 0.1 {
			lay()
			from = a
		}
		to = b
	}
	lay()
	return w.node("dr-slab")
}

// onTread says whether a level stretch of the section, in px, is a step.
func (d *drawer) onTread(a, b pt) bool {
	at := d.underCut(a.mix(b, 0.5))
	depthM := (a.y - d.view.WaterLinePx) / d.view.ScalePxPerM
	for _, t := range d.p.Treads {
		if math.Abs(t.DepthM-depthM) < 0.01 && at.near(pts(t.Corners[:]), 0.01) {
			return true
		}
	}
	return false
}

// onFlight says whether a place of the section, in px, lies on the steps or on
// the face below the last.
func (d *drawer) onFlight(at pt) bool {
	return len(d.flightM) > 0 && d.underCut(at).near(d.flightM, 0.03) && at.y > d.view.WaterLinePx
}

// underCut is the place on the plan of one in the section, in px.
func (d *drawer) underCut(at pt) pt {
	k := (at.x - d.cutLeftPx()) / math.Max(d.cutLongM()*d.view.ScalePxPerM, 1e-9)
	return pt{d.p.CutFrom.X, d.p.CutFrom.Y}.mix(pt{d.p.CutTo.X, d.p.CutTo.Y}, k)
}
