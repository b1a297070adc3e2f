package drawing

import "math"

// End says how the bottom meets the land at one end of the section.
type endKind int

const (
	wallEnd endKind = iota
	beachEnd
	stepsEnd
)

// Thickness of what lies between the water and the liner, common practice, no
// source: boulders before a wall, gravel on a floor.
const (
	stoneThickM  = 0.34
	gravelThickM = 0.11
	freeboardM   = 0.16
)

// profile is the bottom along the cut, made ready for drawing, in px.
type profile struct {
	bottom      []pt // from the west end to the east end, both at the water line
	from, to    int  // the floor is bottom[from..to]; walls lie before and after
	west, east  endKind
	lands       [2][]pt // the ground west and east, from the water outward
	skins       []skin
	left, right float64
}

// cutAt is where a place along the cut lies in the picture.
func (d *drawer) cutAt(alongM, depthM float64) pt {
	return pt{d.cutLeftPx() + alongM*d.view.ScalePxPerM, d.view.WaterLinePx + depthM*d.view.ScalePxPerM}
}

func (d *drawer) cutLongM() float64 {
	if len(d.p.Section) == 0 {
		return 0
	}
	return d.p.Section[len(d.p.Section)-1].AlongM
}

// cutLeftPx is where the section starts: right under its place on the plan
// when the cut runs east, else centred under the water.
func (d *drawer) cutLeftPx() float64 {
	if d.levelCut() {
		return d.at(pt{d.p.CutFrom.X, 0}).x
	}
	box := noBox().all(d.rimM, 0)
	mid := d.at(box.lo.mix(box.hi, 0.5)).x
	return mid - d.cutLongM()*d.view.ScalePxPerM/2
}

// depthAlong is the depth of the bottom at a distance along the cut.
func (d *drawer) depthAlong(alongM float64) float64 {
	s := d.p.Section
	lo, hi := 1, len(s)
	for lo < hi {
		if mid := (lo + hi) / 2; alongM <= s[mid].AlongM {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	if lo >= len(s) {
		return 0
	}
	a, b := s[lo-1], s[lo]
	if b.AlongM == a.AlongM {
		return b.DepthM
	}
	return a.DepthM + (b.DepthM-a.DepthM)*(alongM-a.AlongM)/(b.AlongM-a.AlongM)
}

// profile is the section's, made once.
func (d *drawer) profile() profile {
	if d.side == nil {
		f := d.newProfile()
		d.side = &f
	}
	return *d.side
}

func (d *drawer) newProfile() profile {
	s := d.p.Section
	f := profile{left: d.cutAt(0, 0).x, right: d.cutAt(d.cutLongM(), 0).x}
	for _, q := range s {
		f.bottom = append(f.bottom, d.cutAt(q.AlongM, q.DepthM))
	}
	wl := d.view.WaterLinePx
	if f.bottom[0].y > wl+0.5 {
		f.bottom = append([]pt{{f.bottom[0].x, wl}}, f.bottom...)
	}
	if n := len(f.bottom); f.bottom[n-1].y > wl+0.5 {
		f.bottom = append(f.bottom, pt{f.bottom[n-1].x, wl})
	}
	f.west, f.east = d.endAt(1), d.endAt(-1)
	f.from, f.to = d.footOfWalls(f)
	f.lands = [2][]pt{d.land(f.left, -1, f.west), d.land(f.right, 1, f.east)}
	f.skins = d.skins(f)
	return f
}

// endAt tells a beach from a wall by the depth a step into the water.
func (d *drawer) endAt(dir float64) endKind {
	const stepM = 0.4
	at, edge := stepM, d.p.CutFrom
	if dir < 0 {
		at, edge = d.cutLongM()-stepM, d.p.CutTo
	}
	if (pt{edge.X, edge.Y}).near(d.flightM, 0.02) {
		return stepsEnd
	}
	if d.depthAlong(at) < 0.4*stepM {
		return beachEnd
	}
	return wallEnd
}

// footOfWalls finds where the walls at the two ends meet the floor: the last
// steep stretch before the middle, seen from each end.
func (d *drawer) footOfWalls(f profile) (from, to int) {
	n := len(f.bottom)
	mid := (f.left + f.right) / 2
	from, to = 0, n-1
	steep := func(i int) bool {
		v := f.bottom[i].minus(f.bottom[i-1])
		return math.Abs(v.y) > 1.1*math.Abs(v.x)
	}
	for i := 1; i < n && f.bottom[i].x < mid; i++ {
		if f.west == wallEnd && steep(i) {
			from = i
		}
	}
	for i := n - 1; i > 0 && f.bottom[i].x > mid; i-- {
		if f.east == wallEnd && steep(i) {
			to = i - 1
		}
	}
	return from, max(to, from)
}

// land is the ground from the water's edge out to the picture's side.
func (d *drawer) land(edge, dir float64, kind endKind) []pt {
	s, wl := d.view.ScalePxPerM, d.view.WaterLinePx
	at := func(outM, upM float64) pt { return pt{edge + dir*outM*s, wl - upM*s} }
	line := []pt{at(0, 0)}
	if kind == beachEnd {
		line = append(line, at(0.5, 0.08), at(1.1, 0.15), at(1.9, 0.2), at(2.6, 0.23))
	} else {
		line = append(line, at(0.02, freeboardM), at(0.5, freeboardM+0.02), at(1.2, freeboardM+0.05))
	}
	side := d.view.WidthPx
	if dir < 0 {
		side = 0
	}
	out := []pt{line[0]}
	for _, q := range line[1:] {
		if (q.x-side)*dir < -4 {
			out = append(out, q)
		}
	}
	last := out[len(out)-1]
	return append(out, pt{side, last.y - 1.5})
}

// earth is all below the ground and the bottom, down to the picture's foot.
func (d *drawer) earth(f profile) []pt {
	foot := d.view.HeightPx
	out := []pt{{0, foot}}
	west := f.lands[0]
	for i := len(west) - 1; i > 0; i-- {
		out = append(out, west[i])
	}
	out = append(out, f.bottom...)
	out = append(out, f.lands[1][1:]...)
	return append(out, pt{d.view.WidthPx, foot})
}

// skins are the lines that carry stones and gravel: each is widened to both
// sides and shows on the earth's side only.
type skin struct {
	line  []pt
	thick float64 // px
}

func (d *drawer) skins(f profile) []skin {
	s := d.view.ScalePxPerM
	stone, gravel := math.Max(stoneThickM*s, 5), math.Max(gravelThickM*s, 3)
	up := func(q pt) pt { return q.minus(pt{0, (freeboardM + 0.5) * s}) }
	n := len(f.bottom)
	var out []skin
	floor := append([]pt(nil), f.bottom[f.from:f.to+1]...)
	if f.west != wallEnd {
		floor = append(outward(f.lands[0], landingM(f.west)*s), floor...)
	} else {
		wall, foot := splitFoot(append([]pt{up(f.bottom[0])}, f.bottom[:f.from+1]...), stone-gravel)
		out = append(out, skin{wall, stone})
		floor = append(foot, floor...)
	}
	if f.east != wallEnd {
		far := outward(f.lands[1], landingM(f.east)*s)
		for i := len(far) - 1; i >= 0; i-- {
			floor = append(floor, far[i])
		}
	} else {
		wall := []pt{up(f.bottom[n-1])}
		for i := n - 1; i >= f.to; i-- {
			wall = append(wall, f.bottom[i])
		}
		wall, foot := splitFoot(wall, stone-gravel)
		out = append(out, skin{wall, stone})
		for i := len(foot) - 1; i >= 0; i-- {
			floor = append(floor, foot[i])
		}
	}
	return append(out, skin{floor, gravel})
}

// landingM is how far the gravel goes on over the land: a stretch of beach, or a
// landing before the steps.
func landingM(end endKind) float64 {
	if end == stepsEnd {
		return 0.5
	}
	return 1.5
}

// splitFoot cuts the last stretch off a wall, so that the thick coat of stone
// ends above the floor and runs into the thin coat of gravel.
func splitFoot(wall []pt, long float64) (rest, foot []pt) {
	total := chainLong(wall)
	if total < 2*long {
		return wall, nil
	}
	cut, _ := alongChain(wall, 1-long/total)
	left := total - long
	for i, q := range wall {
		if i > 0 {
			left -= wall[i-1].to(q)
		}
		if left >= 0 {
			rest = append(rest, q)
		} else {
			foot = append(foot, q)
		}
	}
	return append(rest, cut), append([]pt{cut}, foot...)
}

// outward is a stretch of ground from a reach away back to the water.
func outward(land []pt, reach float64) []pt {
	var out []pt
	for i := len(land) - 1; i > 0; i-- {
		if math.Abs(land[i].x-land[0].x) <= reach {
			out = append(out, land[i])
		}
	}
	return out
}
