package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// run is the dashed way of the water from the intake over the pump to its
// outlet and to the jets, with arrowheads the way it goes. It lies under stones and deck.
func (d *drawer) run() markup.Node {
	if d.small() || d.o.State == Wrong {
		return layer("dr-pipes")
	}
	var run, heads pen
	for i, line := range [][]pt{d.all(d.suctionM), d.all(d.dischargeM), d.all(d.jetPipeM)} {
		if len(line) < 2 {
			continue
		}
		run.flow(thin(line, 0.5))
		shares := [][]float64{{0.55}, {0.36, 0.82}, {0.5}}[i]
		for _, s := range shares {
			if chainLong(line) > 40 {
				arrowhead(&heads, line, s)
			}
		}
	}
	return layer("dr-pipes", run.node("dr-run"), heads.node("dr-head"))
}

// fixtures draws the deck, the pump and the intake.
func (d *drawer) fixtures() markup.Node {
	if d.o.State == Wrong {
		return layer("dr-over")
	}
	kids := []markup.Node{d.deck()}
	if !d.small() && len(d.suctionM) > 1 {
		kids = append(kids, d.pump(), d.intake(), d.jets())
	}
	return layer("dr-over", kids...)
}

func chainLong(line []pt) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += line[i-1].to(line[i])
	}
	return sum
}

// alongChain returns the place at a share of a line's length and the way it
// goes there.
func alongChain(line []pt, share float64) (at, dir pt) {
	if len(line) < 2 {
		return line[0], pt{1, 0}
	}
	left := share * chainLong(line)
	for i := 1; i < len(line); i++ {
		l := line[i-1].to(line[i])
		if left <= l && l > 0 {
			return line[i-1].mix(line[i], left/l), line[i].minus(line[i-1]).unit()
		}
		left -= l
	}
	n := len(line)
	return line[n-1], line[n-1].minus(line[n-2]).unit()
}

// ruler walks along a line, of the plan or the picture, from its start.
type ruler struct {
	line []pt
	i    int     // the stretch it is on ends there
	past float64 // before that stretch
	long float64 // the stretch
}

func newRuler(line []pt) *ruler { return &ruler{line: line} }

// to goes on to a distance from the start, which may not be less than the one
// before; on is false beyond the end.
func (r *ruler) to(far float64) (at, dir pt, on bool) {
	for r.i == 0 || far > r.past+r.long || r.long == 0 {
		if r.i++; r.i >= len(r.line) {
			r.i--
			return pt{}, pt{}, false
		}
		r.past += r.long
		r.long = r.line[r.i-1].to(r.line[r.i])
	}
	a, b := r.line[r.i-1], r.line[r.i]
	return a.mix(b, (far-r.past)/r.long), b.minus(a).unit(), true
}

func arrowhead(w *pen, line []pt, share float64) {
	at, dir := alongChain(line, share)
	side := dir.left()
	w.ring([]pt{at.plus(dir.times(4.6)), at.minus(dir.times(4.4)).plus(side.times(3.9)), at.minus(dir.times(4.4)).minus(side.times(3.9))})
}

func (d *drawer) pump() markup.Node {
	c := d.at(pt{d.p.Pump.X, d.p.Pump.Y})
	var plate, eye, mark pen
	plate.soft([]pt{{c.x - 11, c.y - 11}, {c.x + 11, c.y - 11}, {c.x + 11, c.y + 11}, {c.x - 11, c.y + 11}}, 0.12)
	eye.disc(c, 6.6)
	mark.ring([]pt{{c.x - 3.4, c.y + 2}, {c.x, c.y - 4}, {c.x + 3.4, c.y + 2}})
	return markup.E("g", plate.node("dr-plate"), eye.node("dr-plate"), mark.node("dr-head"))
}

// intake is a small grate at the water's edge.
func (d *drawer) intake() markup.Node {
	c := d.at(pt{d.p.Intake.X, d.p.Intake.Y})
	var plate, bars pen
	const h = 5
	plate.ring([]pt{{c.x - h, c.y - h}, {c.x + h, c.y - h}, {c.x + h, c.y + h}, {c.x - h, c.y + h}})
	for _, dy := range []float64{-1.7, 1.7} {
		bars.move(pt{c.x - h, c.y + dy}).line(pt{c.x + h, c.y + dy})
	}
	return markup.E("g", plate.node("dr-plate"), bars.node("dr-bar"))
}

// jetPx is how far a jet's mouth reaches round its place in the wall.
const jetPx = 3.2

// jets are small mouths in the wall, each with the water that leaves it and its
// stub of pipe from behind.
func (d *drawer) jets() markup.Node {
	var stub, mouth, spray pen
	for i, j := range d.p.Jets {
		c := d.at(d.jetsM[i])
		in := pt{j.In.X, -j.In.Y} // down is north's other side on the picture
		if len(d.jetPipeM) > 0 {
			stub.move(c.minus(in.times(d.jetBehindPx(d.jetsM[i])))).line(c)
		}
		mouth.disc(c, jetPx)
		for _, turn := range []float64{-0.42, 0, 0.42} {
			way := in.turned(turn)
			spray.move(c.plus(way.times(jetPx + 2.4))).line(c.plus(way.times(jetPx + 9.6)))
		}
	}
	return markup.E("g", stub.node("dr-run"), spray.node("dr-spray"), mouth.node("dr-plate"))
}

// jetBehindPx is how far behind a jet its pipe runs.
func (d *drawer) jetBehindPx(at pt) float64 {
	return math.Min(at.fromChain(d.jetPipeM)*d.view.ScalePxPerM, 40)
}

// marks shows the deep place: a diamond with a sign downwards.
func (d *drawer) marks() markup.Node {
	if d.o.State == Wrong {
		return layer("dr-marks")
	}
	c := d.at(pt{d.p.Deep.X, d.p.Deep.Y})
	var mark, sign pen
	r := 11.0
	if d.o.Look == Phone {
		r = 10
	}
	mark.ring([]pt{{c.x, c.y - r}, {c.x + r, c.y}, {c.x, c.y + r}, {c.x - r, c.y}})
	sign.move(pt{c.x - 3.6, c.y - 1.6}).line(pt{c.x, c.y + 2}).line(pt{c.x + 3.6, c.y - 1.6})
	d.take(box{pt{c.x - r, c.y - r}, pt{c.x + r, c.y + r}})
	for _, p := range d.o.Pins {
		if p.Place == sheet.AtDeepEnd {
			return layer("dr-marks", d.cutMarks())
		}
	}
	return layer("dr-marks", mark.node("dr-deep"), sign.node("dr-deep-sign"), d.cutMarks())
}

// cutMarks show where the section is taken, unless it runs level with the
// section below.
func (d *drawer) cutMarks() markup.Node {
	a, b := d.at(pt{d.p.CutFrom.X, d.p.CutFrom.Y}), d.at(pt{d.p.CutTo.X, d.p.CutTo.Y})
	if d.which&partSection == 0 || d.levelCut() {
		return markup.None()
	}
	dir := b.minus(a).unit()
	var w pen
	w.move(a.minus(dir.times(20))).line(a.minus(dir.times(6)))
	w.move(b.plus(dir.times(6))).line(b.plus(dir.times(20)))
	w.move(a.plus(dir.times(6))).line(b.minus(dir.times(6)))
	return w.node("dr-cut")
}

// levelCut says whether the section runs nearly east, so that it can hang
// under the plan place by place.
func (d *drawer) levelCut() bool {
	v := pt{d.p.CutTo.X - d.p.CutFrom.X, d.p.CutTo.Y - d.p.CutFrom.Y}
	return math.Abs(v.y) < 0.15*v.size()
}
