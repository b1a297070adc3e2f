package geom

import (
	"math"
	"slices"
)

// leastColumns is how many columns a flight is cut into across its width, or as
// many more as are no wider than a share of the pond's size, and treadPieces
// into how many pieces each tread is cut along them.
const (
	leastColumns = 12
	columnShare  = 0.01
	treadPieces  = 3.0
)

// columns is an even number: half as many tell the error.
func (f *Field) columns() int {
	return max(leastColumns, 2*int(math.Ceil(f.flight.half/(columnShare*f.rim.size))))
}

// onFlight is what a flight of steps changes of the sums of a bowl without it.
type onFlight struct {
	without, with *sums
	faces         float64 // more of vertical faces, less where treads cover some
	treads        float64 // plan area of the treads that stand clear of the bowl
}

// steps puts the flight into the sums and returns how far the volume may be
// off by it: the change from half as many columns.
func (f *Field) steps(s *sums) (treads, errorM3 float64) {
	if f.flight == nil {
		return 0, 0
	}
	columns := f.columns()
	fine, coarse := f.overFlight(s.levels, columns), f.overFlight(s.levels, columns/2)
	a, b := fine.without, fine.with
	for k := range s.levels {
		s.layerArea[k] += b.layerArea[k] - a.layerArea[k]
		s.layerVolume[k] += b.layerVolume[k] - a.layerVolume[k]
	}
	s.volume += b.volume - a.volume
	s.surface += b.surface - a.surface
	s.flat += b.flat - a.flat
	s.floor += b.floor - a.floor
	s.face += fine.faces
	taken := func(o onFlight) float64 { return o.without.volume - o.with.volume }
	return fine.treads, math.Abs(taken(fine) - taken(coarse))
}

// overFlight sums the water over the flight by columns that run down it, with
// the treads and without. Along a column both bottoms are chains of straight
// lines and are summed exactly; across columns the rule is of second order.
func (f *Field) overFlight(levels []float64, columns int) onFlight {
	fl := f.flight
	o := onFlight{without: newSums(levels), with: newSums(levels)}
	wide := 2 * fl.half / float64(columns)
	c := column{walker: walker{f: f, step: fl.tread / treadPieces}}
	for i := range columns {
		c.set(-fl.half+float64(wide*(float64(i)+0.5)), wide)
		for _, wet := range c.wet {
			o.faces += c.rimFaces(wet) * wide
			for k := 1; k < len(c.cuts); k++ {
				a, b := most(c.cuts[k-1], wet.from), least(c.cuts[k], wet.to)
				if b <= a {
					continue
				}
				c.sum(o.without, a, b, math.Inf(1))
				c.sum(o.with, a, b, fl.treadDepth((a+b)/2))
			}
			o.faces += (c.risers(wet) + c.covered(wet)) * wide
		}
	}
	for _, s := range [2]float64{-fl.half, fl.half} {
		c.set(s, wide)
		for _, wet := range c.wet {
			o.faces += c.cheek(wet)
		}
	}
	o.treads = o.with.treads
	return o
}

// wet is a stretch of a column over water, with how squarely the column meets
// the rim at its start and which part of the rim that is; a stretch that starts
// in open water meets none.
type wet struct {
	from, to float64
	square   float64
	side     side
	atRim    bool
}

// column runs down a flight at one distance from its middle.
type column struct {
	walker
	st   strip
	cuts []float64 // between them the tread and the floor are straight
	wet  []wet
}

// noSide is the side of a strip that has no law of its own.
const noSide side = 3

func (c *column) set(across, wide float64) {
	f, fl := c.f, c.f.flight
	never := math.Inf(1)
	c.st = strip{side: noSide, o: fl.at.plus(fl.across.times(across)), dir: fl.in, wide: wide, cut: [2]float64{never, never}}
	c.walker.st, c.speed = &c.st, c.st.dir.len()
	c.seen = [3]seen{{t: -1e9}, {t: -1e9}, {t: -1e9}}
	c.cuts = append(c.cuts[:0], -fl.back)
	for k := 1; k <= fl.count; k++ {
		c.cuts = append(c.cuts, float64(k)*fl.tread)
	}
	if len(f.floor.at) > 0 {
		x0, dx := c.st.o.dot(f.axis), fl.in.dot(f.axis)
		for _, at := range f.floor.at {
			if t := (at - x0) / dx; dx != 0 && t > -fl.back && t < fl.length() {
				c.cuts = append(c.cuts, t)
			}
		}
	}
	slices.Sort(c.cuts)
	c.findWet()
}

// findWet lists where the column lies over water.
func (c *column) findWet() {
	f, fl := c.f, c.f.flight
	c.wet = c.wet[:0]
	type meet struct {
		t, square float64
		side      side
	}
	var met []meet
	for i := range f.all.edges {
		e := &f.all.edges[i]
		a := e.a.minus(c.st.o)
		sa, sb := fl.in.cross(a), fl.in.cross(a.plus(e.d))
		if (sa > 0) == (sb > 0) {
			continue
		}
		k := sa / (sa - sb)
		met = append(met, meet{a.plus(e.d.times(k)).dot(fl.in), math.Abs(e.u.cross(fl.in)), f.sideAt(i, k)})
	}
	slices.SortFunc(met, func(a, b meet) int {
		switch {
		case a.t < b.t:
			return -1
		case a.t > b.t:
			return 1
		}
		return 0
	})
	for k := 0; k+1 < len(met); k += 2 {
		const snug = 1e-9 // of the size: right at the rim no edge is the nearest
		w := wet{from: met[k].t + snug*f.rim.size, to: least(met[k+1].t, fl.length()), square: met[k].square, side: met[k].side, atRim: true}
		if w.from < -fl.back {
			w.from, w.atRim = -fl.back, false
		}
		if w.to > w.from {
			c.wet = append(c.wet, w)
		}
	}
}

// sum puts the bottom from a to b into s, no deeper than a tread.
func (c *column) sum(s *sums, a, b, tread float64) {
	f, st := c.f, &c.st
	lines := [3]line{{a: f.deepM, b: f.deepM, what: onFloor}}
	n := 1
	if len(f.floor.at) > 0 {
		x0, dx := st.o.dot(f.axis), st.dir.dot(f.axis)
		fa, fb, slope := f.floor.span(x0+float64(a*dx), x0+float64(b*dx))
		lines[n] = line{a: fa, b: fb, slope: slope}
		if slope == 0 {
			lines[n].what = onFloor
		}
		n++
	}
	if !math.IsInf(tread, 1) {
		lines[n] = line{a: tread, b: tread, what: onTread}
		n++
	}
	top := math.Inf(1)
	for _, l := range lines[:n] {
		top = least(top, most(l.a, l.b))
	}
	c.s = s
	c.others(a, b, lines[:n], top)
}

func (c *column) place(t float64) vec { return c.st.o.plus(c.st.dir.times(t)) }

// hair is how far before and after a face its two depths are read, as a share
// of the size.
const hair = 1e-8

// drop is how much deeper a bottom is just after a place on the column than
// just before it, or the other way about.
func (c *column) drop(t float64, depth func(vec) float64) float64 {
	h := hair * c.f.rim.size
	return math.Abs(depth(c.place(t+h)) - depth(c.place(t-h)))
}

// risers is the height of the faces between treads and at the foot of the last.
func (c *column) risers(w wet) (height float64) {
	fl := c.f.flight
	for k := 1; k <= fl.count; k++ {
		if t := float64(k) * fl.tread; t > w.from && t <= w.to {
			height += c.drop(t, c.f.depth)
		}
	}
	return height
}

// rimFaces is what a tread leaves of a vertical face at the very edge, less
// than nothing since it covers some.
func (c *column) rimFaces(w wet) (change float64) {
	if !w.atRim || !(w.square > 0.02) {
		return 0
	}
	p := c.place(w.from)
	for _, face := range c.f.laws[w.side].bowl.steps() {
		if face.at == 0 {
			bowl := c.f.bowl(p)
			change += (least(bowl, c.f.flight.treadDepth(w.from)) - bowl) / w.square
		}
	}
	return change
}

// covered is what the treads cover of the vertical faces further in.
func (c *column) covered(w wet) (change float64) {
	for s := walled; s <= beach; s++ {
		faces := c.f.laws[s].bowl.steps()
		if len(faces) == 0 || !c.f.laws[s].there() {
			continue
		}
		pieces := math.Ceil((w.to-w.from)/c.step - 1e-9)
		t, far := w.from, c.far(s, w.from)
		for k := 1.0; k <= pieces; k++ {
			u := w.from + float64((w.to-w.from)*k/pieces)
			next := c.far(s, u)
			for _, face := range faces {
				if face.at <= 0 || (far < face.at) == (next < face.at) {
					continue
				}
				at := t + float64((u-t)*(face.at-far)/(next-far))
				const tangent = 0.1 // a column that hardly crosses the face
				rate := most(math.Abs(next-far)/(u-t), tangent)
				change += c.changeAt(at) / rate
			}
			t, far = u, next
		}
	}
	return change
}

// changeAt is how much less of a face of the bowl shows where the column
// crosses it. Where it falls together with a riser, the riser has what is left.
func (c *column) changeAt(t float64) float64 {
	fl := c.f.flight
	was := c.drop(t, c.f.bowl)
	if k := math.Round(t / fl.tread); k >= 1 && math.Abs(t-k*fl.tread) < 2*hair*c.f.rim.size {
		return -was
	}
	return c.drop(t, c.f.depth) - was
}

func (c *column) far(s side, t float64) float64 {
	far, _ := c.f.laws[s].distance(c.place(t), 0)
	return far
}

// cheek is the area of the face along one side of the flight.
func (c *column) cheek(w wet) (area float64) {
	const finer = 4
	for k := 1; k < len(c.cuts); k++ {
		a, b := most(c.cuts[k-1], w.from), least(c.cuts[k], w.to)
		if b <= a {
			continue
		}
		pieces := math.Ceil(finer*(b-a)/c.step - 1e-9)
		tread := c.f.flight.treadDepth((a + b) / 2)
		for i := range int(pieces) {
			t := a + float64((b-a)*(float64(i)+0.5)/pieces)
			area += (b - a) / pieces * most(c.f.bowl(c.place(t))-tread, 0)
		}
	}
	return area
}
