package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// depthRow writes the depth at even distances on one base line below the
// section, with a dotted line up through the water at each.
func (d *drawer) depthRow(f profile) markup.Node {
	s := d.view.ScalePxPerM
	long := d.cutLongM()
	room := 66.0
	every := d.o.ScaleStepM
	for _, n := range []float64{1, 2, 3, 6, 10, 20, 40, 100} {
		if every = n * d.o.ScaleStepM; every*s >= room {
			break
		}
	}
	if d.o.Look == Phone {
		every = long / 4
	}
	base := d.view.HeightPx - d.belowSectionPx() + 6
	var line, dots, wet, drop pen
	var kids []markup.Node
	for k := 1; float64(k)*every < long-0.25*every; k++ {
		at := float64(k) * every
		z := d.depthAlong(at)
		top, foot := d.cutAt(at, 0), d.cutAt(at, z)
		wet.move(top.plus(pt{0, 3})).line(foot)
		drop.move(foot.plus(pt{0, gravelThickM*s + 8})).line(pt{foot.x, base})
		dots.disc(pt{foot.x, base}, 1.9)
		kids = append(kids, text("dr-fig", d.o.Words.Length(z), pt{foot.x, base + 20}, markup.A("text-anchor", "middle")))
	}
	if d.full() {
		line.move(pt{f.left, base}).line(pt{f.right, base})
		if d.o.Words.DepthEvery != nil {
			words := d.o.Words.DepthEvery(every)
			if first := f.left + every*s - 28; 24+wordsWide(words, sansPx) < first {
				kids = append(kids, text("dr-note", words, pt{24, base + 20}))
			}
		}
	} else {
		dots = pen{}
	}
	return markup.E("g", wet.node("dr-sounding"), drop.node("dr-extend"), line.node("dr-thin"), dots.node("dr-head"), kids)
}

// leaders name the water line, the liner and the gravel beside the section.
func (d *drawer) leaders(f profile) markup.Node {
	if !d.full() {
		return markup.None()
	}
	s, w := d.view.ScalePxPerM, d.o.Words
	deep := d.p.DeepM * s
	wl := d.view.WaterLinePx
	water, level := d.waterLeader(f)
	x := d.leaderPx(f) + 12
	n := len(f.bottom)
	wall, _ := alongChain(f.bottom[f.to:], 0.5)
	if f.to == n-1 {
		wall = d.cutAt(0.82*d.cutLongM(), d.depthAlong(0.82*d.cutLongM())+gravelThickM)
	} else {
		wall = wall.plus(pt{stoneThickM*s + 1, 0})
	}
	bed := f.bottom[f.from].mix(f.bottom[f.to], 0.92)
	for share := 0.82; share > 0 && d.onFlight(pt{bed.x, bed.y + 1}); share -= 0.1 { // no gravel on the steps
		bed = f.bottom[f.from].mix(f.bottom[f.to], share)
	}
	bed = d.cutAt((bed.x-f.left)/s, d.depthAlong((bed.x-f.left)/s)+0.5*gravelThickM)
	var lines, points pen
	kids := []markup.Node{}
	for _, l := range []struct {
		words     string
		to, start pt
	}{
		{w.WaterLine, level, water}, {w.Liner, wall, pt{x, wl + math.Max(0.5*deep, 22)}}, {w.Gravel, bed, pt{x, wl + math.Max(0.5*deep, 22) + math.Max(30, 0.36*deep)}},
	} {
		if l.words == "" {
			continue
		}
		lines.move(l.to).line(l.start).line(l.start.plus(pt{13, 0}))
		points.disc(l.to, 2)
		kids = append(kids, text("dr-note", l.words, l.start.plus(pt{17, 4})))
	}
	return markup.E("g", lines.node("dr-leader"), points.node("dr-head"), kids)
}

// leaderPx is how far right the leaders beside the section begin.
func (d *drawer) leaderPx(f profile) float64 {
	return math.Min(f.right+1.05*d.view.ScalePxPerM, d.view.WidthPx-14-wordsWide(d.o.Words.WaterLine, sansPx)-22)
}

// waterLeader goes from the water line up to where its name begins.
func (d *drawer) waterLeader(f profile) (name, level pt) {
	s, wl := d.view.ScalePxPerM, d.view.WaterLinePx
	return pt{math.Min(d.leaderPx(f), f.right+0.5*s), wl - math.Max(0.75*s, 26)}, pt{f.right - 0.45*s, wl}
}

// projectors tie the ends of the section to their places on the plan.
func (d *drawer) projectors(f profile) markup.Node {
	if !d.full() || !d.levelCut() {
		return markup.None()
	}
	var w pen
	top := d.view.PlanHeightPx - d.furniturePx() + 58
	for _, x := range []float64{f.left, f.right} {
		w.move(pt{x, top}).line(pt{x, d.view.WaterLinePx - 4})
	}
	return w.node("dr-extend")
}
