// Package geom turns an outline into one simple polygon and a bowl into a
// depth field, and measures them: areas, volumes, contours, sections.
//
// Everything is worked out in the outline's own frame, so that where a pond
// lies and how it is turned cannot change a figure.
package geom

import (
	"errors"
	"math"
	"slices"

	"tarnwright/internal/core/design"
)

// Rim is the water's edge: a simple polygon, anticlockwise.
type Rim struct {
	pts        []vec
	of         []int // the handle each edge starts from
	handles    []vec
	frame      frame
	areaM2     float64
	perimeterM float64 // of the polygon
	edgeM      float64 // of the curve it stands for
	centroid   vec
	lo, hi     vec
	size       float64 // twice the reach from the centroid, however it is turned
}

// NewRim draws an outline. The error is a [*CrossingError] where the outline
// meets itself, or says that it encloses nothing; the rim returned with a
// CrossingError can still be drawn.
func NewRim(o design.Outline) (Rim, error) {
	d := draw(o)
	r := Rim{frame: newFrame(o), handles: d.handles}
	r.lo, r.hi = box(d.pts)
	size := r.hi.minus(r.lo).len()
	if !(size > 0) || math.IsInf(size, 0) {
		return Rim{frame: r.frame}, errors.New("the outline encloses no water")
	}
	r.pts, r.of = make([]vec, 0, len(d.pts)), make([]int, 0, len(d.pts))
	for i, p := range d.pts {
		if k := len(r.pts); k > 0 && p.minus(r.pts[k-1]).len() <= 1e-9*size {
			continue
		}
		r.pts, r.of = append(r.pts, p), append(r.of, d.of[i])
	}
	for k := len(r.pts) - 1; k > 0 && r.pts[k].minus(r.pts[0]).len() <= 1e-9*size; k-- {
		r.pts, r.of = r.pts[:k], r.of[:k]
	}
	crossing := r.crossing()
	r.sumUp()
	if r.areaM2 < 0 {
		r.reverse()
		r.sumUp()
	}
	if crossing != nil {
		return r, crossing
	}
	if d.curved && len(r.pts) > 3 {
		// The chords of a curve are as much too short before the vertices are
		// moved out as they are too long after it.
		chords := r.perimeterM
		r.pts = swell(r.pts)
		r.sumUp()
		r.edgeM = (chords + r.perimeterM) / 2
	}
	if len(r.pts) < 3 || r.areaM2 <= 1e-9*size*size {
		return r, errors.New("the outline encloses no water")
	}
	return r, nil
}

// sumUp sets area, perimeter and centroid by the shoelace formula, taken
// about the first vertex so that a place far away costs no digits.
func (r *Rim) sumUp() {
	var twice, perimeter, cx, cy float64
	n := len(r.pts)
	for i, p := range r.pts {
		q := r.pts[(i+1)%n]
		perimeter += q.minus(p).len()
		p, q = p.minus(r.pts[0]), q.minus(r.pts[0])
		k := p.cross(q)
		twice += k
		cx += float64((p.x + q.x) * k)
		cy += float64((p.y + q.y) * k)
	}
	r.areaM2, r.perimeterM, r.edgeM = twice/2, perimeter, perimeter
	r.centroid = r.lo.to(r.hi, 0.5)
	if twice != 0 {
		c := vec{r.pts[0].x + cx/(3*twice), r.pts[0].y + cy/(3*twice)}
		if c.minus(r.centroid).len() < r.hi.minus(r.lo).len() {
			r.centroid = c
		}
	}
	reach2 := 0.0
	for _, p := range r.pts {
		reach2 = most(reach2, p.minus(r.centroid).len2())
	}
	r.size = 2 * math.Sqrt(reach2)
}

// reverse turns the rim round; an edge keeps its handle.
func (r *Rim) reverse() {
	n := len(r.pts)
	pts, of := make([]vec, n), make([]int, n)
	for i := range n {
		pts[i] = r.pts[n-1-i]
		of[i] = r.of[(2*n-2-i)%n]
	}
	r.pts, r.of = pts, of
}

// Points returns the rim on the plan, anticlockwise, first point not repeated.
func (r Rim) Points() []design.Point { return r.frame.outAll(r.pts) }

// Handles returns the rings that reshape the outline, on the plan.
func (r Rim) Handles() []design.Point { return r.frame.outAll(r.handles) }

// AreaM2 returns the water's surface by the shoelace formula.
//
// Source: definition.
// Checked: reference/geometry.json; the L of the handbook, 576 square feet.
func (r Rim) AreaM2() (areaM2 float64) { return r.areaM2 }

// PerimeterM returns the length of the water's edge.
//
// Source: definition.
// Checked: reference/geometry.json.
func (r Rim) PerimeterM() (perimeterM float64) { return r.edgeM }

// LengthM returns the outline's length in its own frame, east to west before
// it is turned. Source: definition.
func (r Rim) LengthM() (lengthM float64) { return r.hi.x - r.lo.x }

// WidthM returns the outline's width in its own frame, north to south before
// it is turned. Source: definition.
func (r Rim) WidthM() (widthM float64) { return r.hi.y - r.lo.y }

// Centroid returns the centre of the water's surface.
func (r Rim) Centroid() design.Point { return r.frame.out(r.centroid) }

// Corners returns the corners of the outline's box on the plan: south-west,
// south-east, north-east, north-west before it is turned.
func (r Rim) Corners() [4]design.Point {
	return [4]design.Point{
		r.frame.out(r.lo), r.frame.out(vec{r.hi.x, r.lo.y}), r.frame.out(r.hi), r.frame.out(vec{r.lo.x, r.hi.y}),
	}
}

// Spot is a place on the rim.
type Spot struct {
	At     design.Point
	AlongM float64 // along the rim from its first point, anticlockwise
	// Out points away from the water, in length one.
	Out design.Point
}

// At returns the outermost place of the rim in a compass direction seen from
// the centroid.
func (r Rim) At(bearingDeg float64) Spot {
	s := r.hit(r.frame.turnBack(compass(bearingDeg)))
	return r.Along(s)
}

// Along returns the place at a distance along the rim.
func (r Rim) Along(alongM float64) Spot {
	i, k := r.locate(alongM)
	a, b := r.pts[i], r.pts[(i+1)%len(r.pts)]
	out := r.frame.turn(b.minus(a).unit().left().times(-1))
	return Spot{At: r.frame.out(a.to(b, k)), AlongM: alongM, Out: design.Point{XM: out.x, YM: out.y}}
}

// AlongOf returns how far along the rim, in metres from its first point, the
// place nearest to p lies.
//
// Source: definition.
func (r Rim) AlongOf(p design.Point) (alongM float64) {
	v := r.frame.in(p)
	best, sum := math.Inf(1), 0.0
	for i, a := range r.pts {
		d := r.pts[(i+1)%len(r.pts)].minus(a)
		k := least(most(v.minus(a).dot(d)/d.len2(), 0), 1)
		if off := v.minus(a.plus(d.times(k))).len2(); off < best {
			best, alongM = off, sum+float64(k*d.len())
		}
		sum += d.len()
	}
	return alongM
}

// hit returns how far along the rim a ray from the centroid leaves the water
// for good.
func (r Rim) hit(dir vec) float64 {
	best, along, sum := -1.0, 0.0, 0.0
	nearest, fallback := math.Inf(-1), 0.0
	for i, a := range r.pts {
		b := r.pts[(i+1)%len(r.pts)]
		sa, sb := dir.cross(a.minus(r.centroid)), dir.cross(b.minus(r.centroid))
		length := b.minus(a).len()
		if (sa <= 0) != (sb <= 0) {
			k := sa / (sa - sb)
			if far := a.to(b, k).minus(r.centroid).dot(dir); far > best {
				best, along = far, sum+float64(k*length)
			}
		}
		if d := a.minus(r.centroid).dot(dir); d > nearest {
			nearest, fallback = d, sum
		}
		sum += length
	}
	if best < 0 {
		return fallback
	}
	return along
}

// locate returns the edge at a distance along the rim and the share of it.
func (r Rim) locate(along float64) (edge int, share float64) {
	n := len(r.pts)
	along = math.Mod(along, r.perimeterM)
	if along < 0 {
		along += r.perimeterM
	}
	for i, a := range r.pts {
		length := r.pts[(i+1)%n].minus(a).len()
		if along <= length && length > 0 {
			return i, along / length
		}
		along -= length
	}
	return n - 1, 1
}

// Box is the smallest rectangle round the water, however it is turned.
type Box struct{ LengthM, WidthM float64 }

// Smallest returns the rectangle of least area round the rim; one of its
// sides lies along an edge of the convex hull.
//
// Source: freeman1975.
// Checked: a turned rectangle and a right triangle by hand.
func (r Rim) Smallest() Box {
	hull := convexHull(r.pts)
	n := len(hull)
	best, least := Box{}, math.Inf(1)
	// The hull's extremes along an edge only move on as the edge turns.
	ahead, across, back := 1, 1, 1
	for i, a := range hull {
		u := hull[(i+1)%n].minus(a).unit()
		at := func(k int) vec { return hull[k%n].minus(a) }
		ahead = max(ahead, i+1)
		for k := 0; k < n && at(ahead+1).dot(u) > at(ahead).dot(u); k++ {
			ahead++
		}
		across = max(across, ahead)
		for k := 0; k < n && at(across+1).dot(u.left()) > at(across).dot(u.left()); k++ {
			across++
		}
		back = max(back, across)
		for k := 0; k < n && at(back+1).dot(u) < at(back).dot(u); k++ {
			back++
		}
		l, w := at(ahead).dot(u)-at(back).dot(u), at(across).dot(u.left())
		if area := l * w; area < least*(1-1e-9) {
			least = area
			best = Box{LengthM: max(l, w), WidthM: min(l, w)}
		}
	}
	return best
}

// Hull returns the convex body round some places, anticlockwise.
func Hull(places []design.Point) []design.Point {
	pts := make([]vec, len(places))
	for i, p := range places {
		pts[i] = vec{p.XM, p.YM}
	}
	hull := convexHull(pts)
	out := make([]design.Point, len(hull))
	for i, p := range hull {
		out[i] = design.Point{XM: p.x, YM: p.y}
	}
	return out
}

// convexHull returns the hull, anticlockwise, by Andrew's monotone chain.
func convexHull(pts []vec) []vec {
	ps := make([]vec, len(pts))
	for i, k := range inOrder(pts) {
		ps[i] = pts[k]
	}
	hull := make([]vec, 0, len(ps)+1)
	for pass := 0; pass < 2; pass++ {
		start := len(hull)
		for _, p := range ps {
			for len(hull) >= start+2 && hull[len(hull)-1].minus(hull[len(hull)-2]).cross(p.minus(hull[len(hull)-1])) <= 0 {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
		slices.Reverse(ps)
	}
	return hull
}
