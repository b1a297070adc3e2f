package drawing

import "math"

// dimension is a measure drawn beside the plan, in px.
type dimension struct{ fromEdge, toEdge, from, to pt }

// fit finds a scale, and a smaller one while the picture is higher than it may
// be: what is not drawn to scale stays as high as it was.
func (d *drawer) fit() {
	most := d.o.MaxPlanHeightPx
	d.fitTo(most)
	for range 6 {
		over := d.view.HeightPx - d.o.MaxHeightPx
		if d.o.MaxHeightPx <= 0 || over < 1 || d.o.View != nil {
			return
		}
		scaled := d.view.ScalePxPerM * (d.bodyM().high() + d.p.DeepM + 2)
		most = d.bodyM().high() * d.view.ScalePxPerM * math.Max(0.3, 1-over/scaled)
		d.fitTo(most)
	}
}

// fitTo finds the scale and place at which the plan, its measures and what
// stands round it fill the picture, and how high the picture becomes.
func (d *drawer) fitTo(mostPlanPx float64) {
	o := d.o
	if d.view.WidthPx = o.WidthPx; o.View != nil {
		d.view = *o.View
		d.measure()
		switch {
		case o.Detail == Following && d.fits():
			d.sink(d.view.PlanHeightPx)
			return
		case o.Detail == Following:
			d.o.View = nil // what is kept is carried over to the new scale
		case o.Detail == Moving || d.holds():
			return
		}
		d.view = View{WidthPx: o.WidthPx}
	}
	side, top, foot := 62.0, 18.0, 14.0
	switch o.Look {
	case Phone:
		side, top, foot = 24, 18, 6
	case Thumbnail:
		side, top, foot = 6, 6, 6
	}
	body := d.bodyM()
	left, right := side, side
	if o.Look == Phone {
		left = 36
	}
	d.view.ScalePxPerM = math.Min((o.WidthPx-left-right)/body.wide(), mostPlanPx/body.high())
	for range 4 {
		s := d.view.ScalePxPerM
		d.view.EastPx = left + (o.WidthPx-left-right-s*body.wide())/2 - s*body.lo.x
		d.view.NorthPx = top + s*body.hi.y
		whole := d.extent()
		if over := whole.wide() / (o.WidthPx - 12); over > 1 {
			d.view.ScalePxPerM /= over
			continue
		}
		d.view.EastPx += math.Max(0, 6-whole.lo.x) - math.Max(0, whole.hi.x-o.WidthPx+6)
		d.view.NorthPx += math.Max(0, top-6-whole.lo.y)
		break
	}
	d.measure()
	bottom := d.extent().hi.y + foot
	bottom += d.furniturePx()
	d.view.PlanHeightPx = bottom
	d.view.HeightPx = bottom
	if d.which&partSection != 0 {
		if d.which&partPlan == 0 {
			d.view.HeightPx, bottom = 0, 0
		}
		d.sink(bottom)
	}
}

// sink sets the section under what ends at topPx, as deep as the pond is.
func (d *drawer) sink(topPx float64) {
	if d.which&partSection != 0 {
		d.view.WaterLinePx = topPx + d.aboveWaterPx()
		d.view.HeightPx = d.view.WaterLinePx + d.view.ScalePxPerM*(d.p.DeepM+0.45) + d.belowSectionPx()
	}
}

// fits says whether the plan has room in the picture that it is to be drawn in.
func (d *drawer) fits() bool {
	e, v := d.extent(), d.view
	return e.lo.x >= -0.5 && e.hi.x <= v.WidthPx+0.5 && e.lo.y >= -0.5 && e.hi.y+d.furniturePx() <= v.PlanHeightPx+0.5
}

// holds says whether it has, and the section too.
func (d *drawer) holds() bool {
	v := d.view
	if !d.fits() {
		return false
	}
	if d.which&partSection == 0 || len(d.p.Section) < 2 {
		return true
	}
	foot := v.WaterLinePx + float64(v.ScalePxPerM*(d.p.DeepM+0.45)) + d.belowSectionPx()
	return math.Abs(v.PlanHeightPx+d.aboveWaterPx()-v.WaterLinePx) < 1 && math.Abs(foot-v.HeightPx) < 1
}

// furnished says whether the row with north, scale and key is drawn.
func (d *drawer) furnished() bool {
	return d.full() && (d.o.Words.North != "" || d.o.Words.Depth != "")
}

// furniturePx is the height of that row.
func (d *drawer) furniturePx() float64 {
	if d.furnished() {
		return furnitureHighPx
	}
	return 0
}

// bodyM is what has to fit: everything drawn at the plan's scale, in metres.
func (d *drawer) bodyM() box {
	b := noBox().all(d.rimM, 0.45)
	for _, q := range d.beachM {
		b = b.with(q.plus(q.minus(d.centre).unit().times(beachReachM)), 0)
	}
	b = b.all(d.zoneM, 0.1).all(d.cascadeM, 0.3).all(d.deckM, 0.1)
	if d.small() {
		return b
	}
	return b.all(d.suctionM, 0.2).all(d.dischargeM, 0.2).all(d.jetPipeM, 0.2).with(pt{d.p.Pump.X, d.p.Pump.Y}, 0.3)
}

// extent is what the plan covers in the picture, measures included.
func (d *drawer) extent() box {
	m := d.bodyM()
	lo, hi := d.at(pt{m.lo.x, m.hi.y}), d.at(pt{m.hi.x, m.lo.y})
	b := box{lo, hi}
	if d.small() {
		return b
	}
	d.measure()
	if d.o.Words.LengthText != "" {
		b = b.all([]pt{d.across.from, d.across.to}, 9)
	}
	if d.o.Words.WidthText != "" {
		b = b.all([]pt{d.down.from, d.down.to}, 9)
	}
	return b
}

// measure sets the two dimension lines clear of everything that stands on
// their side.
func (d *drawer) measure() {
	if d.small() {
		return
	}
	var solid []pt
	for _, part := range [][]pt{d.rimM, d.deckM, d.zoneM, d.suctionM, d.dischargeM, d.jetPipeM} {
		solid = append(solid, part...)
	}
	d.across = d.dimension(pt{d.p.Lengthwise[0].X, d.p.Lengthwise[0].Y}, pt{d.p.Lengthwise[1].X, d.p.Lengthwise[1].Y}, solid)
	for _, q := range d.beachM {
		solid = append(solid, q.plus(q.minus(d.centre).unit().times(beachReachM)))
	}
	d.down = d.dimension(pt{d.p.Widthwise[0].X, d.p.Widthwise[0].Y}, pt{d.p.Widthwise[1].X, d.p.Widthwise[1].Y}, solid)
}

func (d *drawer) dimension(a, b pt, solid []pt) dimension {
	along := b.minus(a).unit()
	out := along.left()
	if d.centre.minus(a).dot(out) > 0 {
		out = out.times(-1)
	}
	reach := 0.0
	for _, q := range solid {
		if t := q.minus(a).dot(along); t > -0.5 && t < a.to(b)+0.5 {
			reach = math.Max(reach, q.minus(a).dot(out))
		}
	}
	gap := 18.0
	if d.o.Look == Phone {
		gap = 10
	}
	off := out.times(reach + 0.3 + d.m(gap))
	return dimension{d.at(a), d.at(b), d.at(a.plus(off)), d.at(b.plus(off))}
}
