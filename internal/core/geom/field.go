package geom

import (
	"math"

	"tarnwright/internal/core/design"
)

// Field is the depth at every place: the least of the greatest depth, the
// wall at the distance from the walled edge, the beach at the distance from
// the beach edge, and the floor along its axis. Below a beach's toe the
// descent is counted from the toe made straight: as if from the convex body
// round the beach edge, so that the bottom has no crease behind a curved beach.
type Field struct {
	rim    Rim   // with the beach's ends among its vertices
	sides  sides // each edge's part of the rim
	all    chain
	gentle []bool  // edges that are one chord of a curve
	place  []int32 // where each edge stands in its part
	laws   [3]law  // walled, beach, descent
	floor  profile
	axis   vec
	deepM  float64
	// beach from and to are indexes into the rim, equal when there is none.
	beachFrom, beachTo int
	beachM             float64
	ignores            [2]bool // a part whose water the other's law never touches
}

// law is a depth by the distance from something: from the walled part of the
// rim, from the beach part, or from the straightened toe of the beach.
type law struct {
	from  chain
	bowl  profile
	solid bool // from a convex body: inside it the distance is nought
}

func (l *law) there() bool { return len(l.from.edges) > 0 }

// distance returns how far a place is from what the law counts from, and the
// edge that is nearest.
func (l *law) distance(p vec, hint int) (far float64, nearest int) {
	far, nearest = l.from.distance(p, hint)
	if l.solid && far > 0 && l.from.holds(p) {
		far = 0
	}
	return far, nearest
}

type side uint8

type sides []side

const (
	walled side = iota
	beach
	descent
)

// NewField lays a bowl under a rim.
func NewField(r Rim, b design.Bowl) *Field {
	f := &Field{rim: r, deepM: b.DeepM}
	f.laws[walled].bowl = wallProfile(b.Wall)
	f.laws[beach].bowl = profile{at: []float64{0}, depth: []float64{b.DeepM}}
	if b.Floor != nil && len(b.Floor.Knots) > 0 {
		f.floor = floorProfile(*b.Floor)
		s, c := math.Sincos(b.Floor.AxisDeg * math.Pi / 180)
		f.axis = vec{c, s}
	}
	f.sides = make(sides, len(r.pts))
	if b.Beach != nil && b.Beach.WidthM > 0 {
		f.laws[beach].bowl, f.laws[descent].bowl = beachProfiles(*b.Beach, b.DeepM)
		f.layBeach(*b.Beach)
	}
	f.index()
	wall, sand := &f.laws[walled], &f.laws[beach]
	f.ignores[walled] = !sand.there() || wall.bowl.shallower(sand.bowl)
	f.ignores[beach] = !wall.there() || sand.bowl.shallower(wall.bowl)
	return f
}

// layBeach puts the beach's ends among the vertices and marks its edges.
func (f *Field) layBeach(b design.Beach) {
	r := &f.rim
	f.beachM = min(b.WidthM, r.perimeterM)
	if f.beachM >= r.perimeterM*(1-1e-9) {
		for i := range f.sides {
			f.sides[i] = beach
		}
		return
	}
	mid := r.hit(r.frame.turnBack(compass(b.BearingDeg)))
	from, to := f.split(mid-f.beachM/2), f.split(mid+f.beachM/2)
	if at := from; to.minus(at).len2() > 0 {
		f.beachFrom, f.beachTo = indexOf(r.pts, from), indexOf(r.pts, to)
	}
	f.sides = make(sides, len(r.pts))
	for i := f.beachFrom; i != f.beachTo; i = (i + 1) % len(r.pts) {
		f.sides[i] = beach
	}
}

// split makes the place at a distance along the rim a vertex and returns it.
func (f *Field) split(along float64) vec {
	r := &f.rim
	i, k := r.locate(along)
	a, b := r.pts[i], r.pts[(i+1)%len(r.pts)]
	const snug = 1e-6 // of the perimeter: no edge shorter than that
	switch length := b.minus(a).len(); {
	case k*length < snug*r.perimeterM:
		return a
	case (1-k)*length < snug*r.perimeterM:
		return b
	}
	p := a.to(b, k)
	r.pts = append(append(append([]vec(nil), r.pts[:i+1]...), p), r.pts[i+1:]...)
	r.of = append(append(append([]int(nil), r.of[:i+1]...), r.of[i]), r.of[i+1:]...)
	return p
}

func indexOf(pts []vec, p vec) int {
	for i, q := range pts {
		if q == p {
			return i
		}
	}
	return 0
}

// index builds the chains: the whole rim, its walls and its beach.
func (f *Field) index() {
	n := len(f.rim.pts)
	all := make([]edge, n)
	for i, a := range f.rim.pts {
		d := f.rim.pts[(i+1)%n].minus(a)
		all[i] = edge{a: a, d: d, u: d.unit(), length: d.len()}
	}
	f.all = newChain(all)
	var parts [2][]edge
	f.place = make([]int32, n)
	for i, e := range all {
		f.place[i] = int32(len(parts[f.sides[i]]))
		parts[f.sides[i]] = append(parts[f.sides[i]], e)
	}
	if len(parts[beach]) == 0 {
		f.laws[walled].from = f.all
		return
	}
	f.laws[walled].from, f.laws[beach].from = newChain(parts[walled]), newChain(parts[beach])
	if len(f.laws[descent].bowl.at) > 0 {
		f.laws[descent].from, f.laws[descent].solid = newChain(hullEdges(parts[beach])), true
	}
}

// hullEdges is the convex body round some edges, as edges.
func hullEdges(edges []edge) []edge {
	var pts []vec
	for _, e := range edges {
		pts = append(pts, e.a, e.a.plus(e.d))
	}
	hull := convexHull(pts)
	out := make([]edge, len(hull))
	far := 0
	for i, a := range hull {
		d := hull[(i+1)%len(hull)].minus(a)
		out[i] = edge{a: a, d: d, u: d.unit(), length: d.len()}
		if out[i].length > out[far].length {
			far = i
		}
	}
	// The longest edge first: it is the one that mostly looks to the water.
	return append(out[far:len(out):len(out)], out[:far]...)
}

// Rim returns the rim with the beach's ends among its points.
func (f *Field) Rim() Rim { return f.rim }

// BeachEnds returns indexes into the points of the rim between which,
// anticlockwise, the beach lies; equal when there is none or it is the whole.
func (f *Field) BeachEnds() (from, to int) { return f.beachFrom, f.beachTo }

// BeachWidthM returns the length of the beach along the edge, never more than
// the perimeter. Source: asked.
func (f *Field) BeachWidthM() (widthM float64) { return f.beachM }

// Depth returns the depth of the bottom at a place on the plan, 0 on land.
//
// Source: definition.
// Checked: Measure against quadrature of this function.
func (f *Field) Depth(p design.Point) (depthM float64) {
	v := f.rim.frame.in(p)
	if !f.inside(v) {
		return 0
	}
	return f.depth(v)
}

// depth is the field itself, for a place in the water.
func (f *Field) depth(v vec) float64 {
	d := f.deepM
	for i := range f.laws {
		if l := &f.laws[i]; l.there() {
			far, _ := l.distance(v, 0)
			d = min(d, l.bowl.value(far))
		}
	}
	if len(f.floor.at) > 0 {
		d = min(d, f.floor.value(v.dot(f.axis)))
	}
	return d
}

// inside says whether a place is in the water, by the even–odd rule.
func (f *Field) inside(v vec) bool {
	in := false
	n := len(f.rim.pts)
	for i, a := range f.rim.pts {
		b := f.rim.pts[(i+1)%n]
		if (a.y > v.y) != (b.y > v.y) && v.x < a.x+float64((b.x-a.x)*(v.y-a.y)/(b.y-a.y)) {
			in = !in
		}
	}
	return in
}
