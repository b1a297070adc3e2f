package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// beyond is what stands behind the cut, fainter: the bank of the zone with its
// reeds, the cascade, or else a low row of stones along the far edge.
func (d *drawer) beyond() markup.Node {
	if len(d.p.Section) < 2 {
		return markup.None()
	}
	if d.moving() && d.o.Last != nil && d.o.Last.View.ScalePxPerM == d.view.ScalePxPerM {
		return d.o.Last.beyond
	}
	f := d.profile()
	s, wl := d.view.ScalePxPerM, d.view.WaterLinePx
	var reeds, heads, bank, stones, fall, drops, steps pen
	c0, c1, hasFall := d.seenBeyond(d.cascadeM)
	z0, z1, hasZone := d.seenBeyond(d.zoneM)
	rise := d.o.RiseM * s
	if hasZone {
		top := wl - rise
		if hasFall {
			z0, z1 = math.Min(z0, c0-0.6*s), math.Max(z1, c1+0.6*s)
		}
		z0, z1 = math.Max(z0, 14), math.Min(z1, d.view.WidthPx-14)
		d.reeds(&reeds, &heads, [2]float64{z0 + 0.3*s, z1 - 0.3*s}, [2]float64{c0 - 0.1*s, c1 + 0.1*s}, top)
		bank.flow([]pt{{z0 - 0.8*s, wl - 0.08*s}, {z0 - 0.35*s, wl - 0.4*rise}, {z0 + 0.15*s, wl - 0.88*rise}, {z0 + 0.7*s, top}, {z1 - 0.7*s, top}, {z1 - 0.15*s, wl - 0.88*rise}, {z1 + 0.35*s, wl - 0.4*rise}, {z1 + 0.8*s, wl - 0.08*s}})
		d.bankStones(&stones, z0+0.1*s, z1-0.1*s, rise)
	} else {
		d.bankStones(&stones, f.left+0.2*s, f.right-0.2*s, 0.16*s)
	}
	if hasFall {
		fall.ring([]pt{{c0, wl - rise}, {c1, wl - rise}, {c1 + 2, wl}, {c0 - 2, wl}})
		for k := range cascadeSteps {
			y := wl - rise*(1-float64(k)/cascadeSteps)
			steps.move(pt{c0 - 4, y}).line(pt{c1 + 4, y})
		}
		for i, x := 0, c0+2.0; x < c1; i, x = i+1, x+math.Max(0.085*s, 2.6) {
			luck := sow(saltSection+10, i, 0)
			for y := wl - rise + luck.span(0.5, 3); y < wl-1; {
				l := luck.span(3, 8)
				drops.move(pt{x, y}).line(pt{x + luck.span(-0.4, 0.4), math.Min(y+l, wl)})
				y += l + 2
			}
		}
	}
	return layer("dr-beyond", reeds.node("dr-blade"), heads.node("dr-heart"), bank.node("dr-bank"), stones.node("dr-farstone"),
		fall.node("dr-fallback"), drops.node("dr-drop"), steps.node("dr-lip"))
}

// seenBeyond returns where a feature behind the cut stands along it, in px.
func (d *drawer) seenBeyond(shapeM []pt) (from, to float64, ok bool) {
	if len(shapeM) < 3 {
		return 0, 0, false
	}
	a := pt{d.p.CutFrom.X, d.p.CutFrom.Y}
	along := pt{d.p.CutTo.X, d.p.CutTo.Y}.minus(a).unit()
	if along.cross(middle(shapeM).minus(a)) <= 0 {
		return 0, 0, false
	}
	from, to = math.Inf(1), math.Inf(-1)
	for _, q := range shapeM {
		t := d.cutAt(q.minus(a).dot(along), 0).x
		from, to = math.Min(from, t), math.Max(to, t)
	}
	return from, to, true
}

func (d *drawer) reeds(w, heads *pen, over, gap [2]float64, top float64) {
	s := d.view.ScalePxPerM
	pitch := math.Max(1.7, 0.045*s)
	for i, x := 0, over[0]; x < over[1]; i, x = i+1, x+pitch {
		luck := sow(saltSection+12, i, 0)
		if x > gap[0] && x < gap[1] || drift(saltSection+14, pt{float64(i), 0}, 13) < 0.17 {
			continue
		}
		h := luck.span(0.2, 0.8) * s
		lean := luck.span(-0.11, 0.11) * s
		tip := pt{x + lean, top - h}
		w.move(pt{x, top}).quad(pt{x + 0.2*lean, top - 0.6*h}, tip)
		if luck.part() < 0.12 {
			heads.ring([]pt{{tip.x - 1.2, tip.y}, {tip.x + 1.2, tip.y}, {tip.x + 1.2, tip.y + 6}, {tip.x - 1.2, tip.y + 6}})
		}
	}
}

func (d *drawer) bankStones(w *pen, from, to, high float64) {
	s, wl := d.view.ScalePxPerM, d.view.WaterLinePx
	pitch := math.Max(0.25*s, 6)
	for i, x := 0, from; x < to; i, x = i+1, x+pitch {
		luck := sow(saltSection+16, i, 0)
		r := luck.span(0.5, 0.85) * pitch
		y := wl - luck.span(0.1, 0.75)*math.Max(high-r, 1) - 0.4*r
		if high < 0.2*s {
			y = wl - 0.25*r
		}
		ps := make([]pt, 7)
		first := luck.span(0, 6)
		for k := range ps {
			a := first + float64(k)/7*2*math.Pi
			q := r * luck.span(0.88, 1.08)
			ps[k] = pt{x + q*math.Cos(a), math.Min(y+0.64*q*math.Sin(a), wl)}
		}
		w.soft(ps, 0.3)
	}
}
