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
// On a flight of steps it is no deeper than the treads.
type Field struct {
	rim    Rim    // with the beach's ends among its vertices
	marks  []mark // where it passes from wall to beach and back
	all    chain
	gentle []bool // edges that are one chord of a curve
	laws   [3]law // walled, beach, descent
	floor  profile
	axis   vec
	deepM  float64
	// beach from and to are indexes into the rim, equal when there is none.
	beachFrom, beachTo int
	beachM             float64
	ignores            [2]bool // a part whose water the other's law never touches
	flight             *flight // nil without steps
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
	return l.within(p, hint, math.Inf(1))
}

// within is distance for a caller to whom everything beyond reach is as far
// as reach.
func (l *law) within(p vec, hint int, reach float64) (far float64, nearest int) {
	far, nearest = l.from.within(p, hint, reach)
	if l.solid && far > 0 && l.from.holds(p) {
		far = 0
	}
	return far, nearest
}

type side uint8

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
	if b.Beach != nil && b.Beach.WidthM > 0 {
		f.laws[beach].bowl, f.laws[descent].bowl = beachProfiles(*b.Beach, b.DeepM)
		f.layBeach(*b.Beach)
	}
	f.index()
	wall, sand := &f.laws[walled], &f.laws[beach]
	f.ignores[walled] = !sand.there() || wall.bowl.shallower(&sand.bowl)
	f.ignores[beach] = !wall.there() || sand.bowl.shallower(&wall.bowl)
	if b.Steps != nil {
		f.layFlight(*b.Steps)
	}
	return f
}

// mark is where the rim passes from one part to another: on an edge of the
// outline, at a share of it; nought is its first vertex.
type mark struct {
	edge  int
	share float64
	to    side
}

// layBeach marks the beach's ends.
func (f *Field) layBeach(b design.Beach) {
	r := &f.rim
	f.beachM = min(b.WidthM, r.perimeterM)
	mid := r.hit(r.frame.turnBack(compass(b.BearingDeg)))
	from, to := r.mark(mid-f.beachM/2, beach), r.mark(mid+f.beachM/2, walled)
	if f.beachM >= r.perimeterM*(1-1e-9) || from.edge == to.edge && from.share == to.share {
		f.marks = []mark{{to: beach}}
		return
	}
	if to.edge < from.edge || to.edge == from.edge && to.share < from.share {
		from, to = to, from
	}
	f.marks = []mark{from, to}
}

// mark returns the place at a distance along the rim; one hardly off a vertex
// is that vertex.
func (r Rim) mark(along float64, to side) mark {
	i, k := r.locate(along)
	n := len(r.pts)
	length := r.pts[(i+1)%n].minus(r.pts[i]).len()
	const snug = 1e-6 // of the perimeter: no piece of an edge shorter than that
	switch {
	case k*length < snug*r.perimeterM:
		k = 0
	case (1-k)*length < snug*r.perimeterM:
		i, k = (i+1)%n, 0
	}
	return mark{i, k, to}
}

// sideAt returns the part of the rim just after a place on an edge.
func (f *Field) sideAt(edge int, share float64) side {
	if len(f.marks) == 0 {
		return walled
	}
	s := f.marks[len(f.marks)-1].to
	for _, m := range f.marks {
		if m.edge < edge || m.edge == edge && m.share <= share {
			s = m.to
		}
	}
	return s
}

// sharesOf puts in out where an edge is cut: at its first vertex and at marks.
func (f *Field) sharesOf(edge int, out []float64) []float64 {
	out = append(out[:0], 0)
	for _, m := range f.marks {
		if m.edge == edge && m.share > 0 {
			out = append(out, m.share)
		}
	}
	return out
}

// index builds the chains: the whole rim, its walls and its beach, and puts
// the beach's ends among the points of the rim.
func (f *Field) index() {
	n := len(f.rim.pts)
	all := make([]edge, n)
	for i, a := range f.rim.pts {
		all[i] = newEdge(a, f.rim.pts[(i+1)%n], int32(i))
	}
	f.all = newChain(all)
	if len(f.marks) == 0 {
		f.laws[walled].from = f.all
		return
	}
	var parts [2][]edge
	var count [2]int
	for i := range n {
		count[f.sideAt(i, 0)]++
	}
	for s := range parts {
		const cut = 2 // edges that both parts have a piece of
		parts[s] = make([]edge, 0, count[s]+cut)
	}
	pts, of := make([]vec, 0, n+2), make([]int, 0, n+2)
	var shares []float64
	for i, e := range all {
		shares = f.sharesOf(i, shares)
		for k, share := range shares {
			a, b := e.a.plus(e.d.times(share)), f.rim.pts[(i+1)%n]
			if k+1 < len(shares) {
				b = e.a.plus(e.d.times(shares[k+1]))
			}
			s := f.sideAt(i, share)
			parts[s] = append(parts[s], newEdge(a, b, int32(i)))
			pts, of = append(pts, a), append(of, f.rim.of[i])
			for _, m := range f.marks {
				if len(f.marks) == 2 && m.edge == i && m.share == share {
					if m.to == beach {
						f.beachFrom = len(pts) - 1
					} else {
						f.beachTo = len(pts) - 1
					}
				}
			}
		}
	}
	f.rim.pts, f.rim.of = pts, of
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
		out[i] = newEdge(a, hull[(i+1)%len(hull)], -1)
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

// FromEdge returns how far a place on the plan is from the water's edge,
// negative in the water, and which stretch of the edge is nearest; hint is one
// that is likely to be near, 0 where none is known.
//
// Source: definition.
// Checked: layout keeps every feature clear of the water.
func (f *Field) FromEdge(p design.Point, hint int) (farM float64, nearest int) {
	v := f.rim.frame.in(p)
	farM, nearest = f.all.distance(v, hint)
	r := &f.rim
	slack := 1e-2 * r.size // a curve's vertices lie a little outside its box
	if v.x > r.lo.x-slack && v.x < r.hi.x+slack && v.y > r.lo.y-slack && v.y < r.hi.y+slack && f.inside(v) {
		farM = -farM
	}
	return farM, nearest
}

// depth is the field itself, for a place in the water.
func (f *Field) depth(v vec) float64 {
	var near [3]int
	return f.depthNear(v, &near)
}

// depthNear is depth for one of many places in a row: near are the edges that
// were nearest to the last one, by law.
func (f *Field) depthNear(v vec, near *[3]int) float64 {
	d := f.bowlNear(v, near)
	if f.flight != nil {
		d = least(d, f.flight.depth(v))
	}
	return d
}

// bowl is the field without its steps.
func (f *Field) bowl(v vec) float64 {
	var near [3]int
	return f.bowlNear(v, &near)
}

func (f *Field) bowlNear(v vec, near *[3]int) float64 {
	d := f.deepM
	for i := range f.laws {
		if l := &f.laws[i]; l.there() {
			far, at := l.distance(v, near[i])
			near[i] = at
			d = least(d, l.bowl.value(far))
		}
	}
	if len(f.floor.at) > 0 {
		d = least(d, f.floor.value(v.dot(f.axis)))
	}
	return d
}

// inside says whether a place is in the water, by the even–odd rule.
func (f *Field) inside(v vec) bool {
	in := false
	n := len(f.rim.pts)
	f.all.looked(n)
	for i, a := range f.rim.pts {
		b := f.rim.pts[(i+1)%n]
		if (a.y > v.y) != (b.y > v.y) && v.x < a.x+float64((b.x-a.x)*(v.y-a.y)/(b.y-a.y)) {
			in = !in
		}
	}
	return in
}
