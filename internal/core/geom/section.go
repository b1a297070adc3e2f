package geom

import (
	"cmp"
	"math"
	"slices"

	"tarnwright/internal/core/design"
)

// Sample is the bottom at a distance along a line.
type Sample struct{ AlongM, DepthM float64 }

// sectionSteps is how many even steps a section has; vertical faces add to them.
const sectionSteps = 160

// Bottom follows the bottom along a straight line from one place on the plan
// to another. At a vertical face two samples stand within a hair.
func (f *Field) Bottom(from, to design.Point) []Sample {
	a, b := f.rim.frame.in(from), f.rim.frame.in(to)
	length := b.minus(a).len()
	over, near := f.overWater(a, b), [3]int{}
	at := func(k float64) Sample {
		s := Sample{AlongM: length * k}
		in := false
		for _, at := range over {
			in = in != (at <= k)
		}
		if in {
			s.DepthM = f.depthNear(a.to(b, k), &near)
		}
		return s
	}
	prev := at(0)
	prev.DepthM = 0
	out := []Sample{prev}
	for i := 1; i <= sectionSteps; i++ {
		k := float64(i) / sectionSteps
		next := at(k)
		if i == sectionSteps {
			next.DepthM = 0
		}
		// Steeper than 3 in 1 over a whole step: close in on the face.
		if math.Abs(next.DepthM-prev.DepthM) > 3*length/sectionSteps {
			lo, hi := float64(i-1)/sectionSteps, k
			shallow, deep := prev, next
			for hi-lo > 1e-5 {
				mid := (lo + hi) / 2
				m := at(mid)
				if math.Abs(m.DepthM-shallow.DepthM) > math.Abs(deep.DepthM-m.DepthM) {
					hi, deep = mid, m
				} else {
					lo, shallow = mid, m
				}
			}
			if shallow.AlongM > prev.AlongM {
				out = append(out, shallow)
			}
			if deep.AlongM < next.AlongM {
				out = append(out, deep)
			}
		}
		out = append(out, next)
		prev = next
	}
	return f.faced(out, a, b, at)
}

// overWater lists where a line from a to b, as shares of it, passes onto the
// water and off it; one that starts on the water begins with a share below 0.
func (f *Field) overWater(a, b vec) []float64 {
	d := b.minus(a)
	var out []float64
	for i := range f.all.edges {
		e := &f.all.edges[i]
		r := e.a.minus(a)
		sa, sb := d.cross(r), d.cross(r.plus(e.d))
		if (sa > 0) == (sb > 0) {
			continue
		}
		out = append(out, r.plus(e.d.times(sa/(sa-sb))).dot(d)/d.len2())
	}
	return out
}

// faced puts two samples within a hair at every edge of the steps.
func (f *Field) faced(out []Sample, a, b vec, at func(k float64) Sample) []Sample {
	if f.flight == nil {
		return out
	}
	const hair = 1e-6
	for _, k := range f.flight.crossings(a, b) {
		if k > hair && k < 1-hair {
			out = append(out, at(k-hair), at(k+hair))
		}
	}
	for _, k := range [2]float64{hair, 1 - hair} {
		if !math.IsInf(f.flight.depth(a.to(b, k)), 1) { // a tread begins at the edge
			out = append(out, at(k))
		}
	}
	slices.SortStableFunc(out, func(a, b Sample) int { return cmp.Compare(a.AlongM, b.AlongM) })
	return out
}

// Chord returns the ends of the straight line over the water through a place
// in the water, along the direction toward another place.
func (r Rim) Chord(through, toward design.Point) (from, to design.Point) {
	p := r.frame.in(through)
	d := r.frame.in(toward).minus(p)
	c := r.chord(p, math.Atan2(d.y, d.x))
	return r.frame.out(p.plus(c.dir.times(-c.back))), r.frame.out(p.plus(c.dir.times(c.ahead)))
}
