package drawing

import "math"

// survey marks everything that words should keep off.
func (d *drawer) survey() {
	d.busy = newRaster(d.view.WidthPx, d.view.PlanHeightPx, 6)
	b := &d.busy
	unit := d.unit * d.view.ScalePxPerM
	wall := newRuler(d.wallM)
	for far := 0.06 * d.unit; ; far += 0.72 * d.unit {
		at, along, on := wall.to(far)
		if !on {
			break
		}
		out := along.left().times(-1)
		b.disc(d.at(at.plus(out.times(1.9*d.unit))), 0.6*unit, 1)
		b.disc(d.at(at.plus(out.times(0.6*d.unit))), 0.6*unit, 4)
	}
	b.shape(d.rimPx, 0, 6)
	b.shape(d.fan(), 0, 3)
	b.shape(d.zonePx, 0, 6)
	b.shape(d.deckPx, 0, 6)
	if len(d.cascadeM) == 4 {
		q, wide, long := newQuad(d.cascadeM)
		e := d.unit
		b.shape(d.all([]pt{q.at(-e, 0), q.at(wide+e, 0), q.at(wide+e, long), q.at(-e, long)}), 0, 14) // its lines are close
	}
	b.line(d.all(d.suctionM), 0, 5)
	b.line(d.all(d.dischargeM), 0, 5)
	b.line(d.all(d.jetPipeM), 0, 5)
	for _, q := range d.all(d.jetsM) {
		b.disc(q, 10, 5)
	}
	b.line([]pt{d.across.from, d.across.to}, 0, 6)
	b.line([]pt{d.down.from, d.down.to}, 0, 6)
	c := d.at(pt{d.p.Pump.X, d.p.Pump.Y})
	b.disc(c, 13, 6)
	for _, t := range d.grove {
		b.disc(t.at, t.r*0.9, 3)
	}
}

// fan is the beach on the land as one outline, in px.
func (d *drawer) fan() []pt {
	if len(d.beachM) < 2 {
		return nil
	}
	out := d.all(d.beachM)
	for i := len(d.beachM) - 1; i >= 0; i-- {
		_, share := d.onBeach(d.beachM[i])
		reach := beachReachM * math.Sqrt(math.Max(0, 1-share*share))
		out = append(out, d.at(d.beachM[i].plus(d.beachM[i].minus(d.centre).unit().times(reach))))
	}
	return out
}

// blocked marks where the ground is covered, with a margin: 1 within the wide
// margin of plants, 2 within the narrow one of dots.
func (d *drawer) blocked() raster {
	r := newRaster(d.view.WidthPx, math.Max(d.view.PlanHeightPx, d.view.HeightPx), 3)
	unit := d.unit * d.view.ScalePxPerM
	for _, m := range []struct {
		reach float64
		n     uint8
	}{{0.8 * unit, 1}, {0.2 * unit, 2}} {
		for _, ring := range [][]pt{d.rimPx, d.zonePx, d.deckPx} {
			r.shape(ring, m.reach, m.n)
		}
	}
	r.shape(d.all(d.cascadeM), 2*unit, 2)
	r.shape(d.fan(), 0, 2)
	r.area(d.rimPx, 3)
	return r
}

func (d *drawer) take(r box) { d.taken = append(d.taken, r) }

func (d *drawer) clear(r box) bool {
	for _, t := range d.taken {
		if t.meets(r) {
			return false
		}
	}
	return true
}
