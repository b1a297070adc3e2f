package geom

import (
	"math"
	"slices"
)

// A node is a ray into the water from a place on the rim: at parameter t it
// is t from the rim, until at cut something else of the rim is as near.
type node struct {
	p, vel vec
	skip   [3]int32 // edges the ray does not see; the second is the one after it
	after  side     // of the rim just after the ray
	cut    float64
	touch  int32 // the edge that cuts it, by its place in the chain
}

func (nd *node) sees(id int32) bool {
	return id != nd.skip[0] && id != nd.skip[1] && id != nd.skip[2]
}

// fanRad is the widest fan between two rays at a reflex corner.
const fanRad = 0.15

// rays sets out the nodes round the rim. A convex corner sends one ray along
// its bisector, a gentle reflex corner too; a sharp reflex corner sends a fan,
// since what is nearest to a corner lies on an arc about it. Long edges get
// rays between, and so does an edge where the beach begins or ends.
func (f *Field) rays(steps float64) []node {
	n := len(f.all.edges)
	longest := f.rim.perimeterM / steps
	nodes := make([]node, 0, n+int(steps))
	f.gentle = make([]bool, n)
	for i := range n {
		h := (i + n - 1) % n
		f.gentle[i] = f.all.edges[i].length <= longest && f.turn(h, i) && f.turn(i, (i+1)%n)
		nodes = f.cornerRays(nodes, int32(h), int32(i))
	}
	// Each edge's own rays need the corner rays at both its ends.
	out := make([]node, 0, cap(nodes))
	for k := range nodes {
		a, b := &nodes[k], &nodes[(k+1)%len(nodes)]
		out = append(out, *a)
		if a.p != b.p {
			out = f.edgeRays(out, a, b, longest)
		}
	}
	return out
}

// edgeRays adds the rays along an edge, between those of its ends.
func (f *Field) edgeRays(out []node, a, b *node, longest float64) []node {
	i := int(a.skip[1])
	var room [8]float64
	shares := f.sharesOf(i, room[:0])[1:]
	for parts, k := math.Ceil(f.all.edges[i].length/longest-1e-9), 1.0; k < parts; k++ {
		shares = append(shares, k/parts)
	}
	slices.Sort(shares)
	for k, share := range shares {
		if k > 0 && share-shares[k-1] < 1e-9 {
			continue
		}
		nd := f.onEdge(a, b, share)
		nd.after = f.sideAt(i, share)
		out = append(out, nd)
	}
	return out
}

// turn says whether the rim turns gently from one edge to the next.
func (f *Field) turn(h, i int) bool {
	return math.Abs(f.all.edges[h].u.cross(f.all.edges[i].u)) < fanRad && f.all.edges[h].u.dot(f.all.edges[i].u) > 0
}

// cornerRays adds the rays of the corner between edges h and i.
func (f *Field) cornerRays(nodes []node, h, i int32) []node {
	in, out := f.all.edges[h].u, f.all.edges[i].u
	p := f.all.edges[i].a
	turn := math.Atan2(in.cross(out), in.dot(out))
	skip := [3]int32{h, i, i}
	after := f.sideAt(int(i), 0)
	switch {
	case turn >= 0:
		half := least(turn/2, math.Pi/2-1e-6)
		k := math.Tan(half)
		return append(nodes, node{p: p, vel: in.left().plus(in.times(-k)), skip: skip, after: after})
	case turn > -fanRad:
		return append(nodes, node{p: p, vel: in.plus(out).left().unit(), skip: skip, after: after})
	}
	parts := math.Ceil(-turn / fanRad)
	for k := 0.0; k <= parts; k++ {
		s, c := math.Sincos(turn * k / parts)
		nodes = append(nodes, node{
			p: p, vel: vec{float64(in.x*c) - float64(in.y*s), float64(in.x*s) + float64(in.y*c)}.left(), skip: skip, after: after,
		})
	}
	return nodes
}

// refine puts rays between those whose cuts do not lie in a straight line, where
// the water's skeleton bends, until what the strips miss there is small.
func (f *Field) refine(nodes []node, steps float64) []node {
	size := f.rim.size
	r := refiner{f: f, size: size, tol: missedShare * rimSteps * rimSteps / (steps * steps) * most(f.rim.areaM2, 1e-3*size*size)}
	r.out = make([]node, 0, len(nodes)*3/2)
	n := len(nodes)
	for i := range nodes {
		a, b := &nodes[i], &nodes[(i+1)%n]
		r.out = append(r.out, *a)
		before, after := &nodes[(i+n-1)%n], &nodes[(i+2)%n]
		bend := most(math.Abs(before.cut-2*a.cut+b.cut), math.Abs(a.cut-2*b.cut+after.cut))
		if bend*f.opening(a, b) > 4*r.tol {
			r.between(a, b, 0)
		}
	}
	return r.out
}

// missedShare is how much of the water a strip may miss where rays are cut
// unevenly, at the usual number of rays.
const missedShare = 1e-5

// opening is how wide a strip is where the nearer of its rays is cut.
func (f *Field) opening(a, b *node) float64 {
	s := f.between(a, b)
	return most(0, s.wide-float64(s.narrow*least(a.cut, b.cut)))
}

type refiner struct {
	f         *Field
	out       []node
	size, tol float64
}

const deepestSplit = 9

func (r *refiner) between(a, b *node, depth int) {
	open := r.f.opening(a, b)
	if depth == deepestSplit || open == 0 {
		return
	}
	mid := r.f.onEdge(a, b, 0.5)
	mid.cut, mid.touch = r.f.all.cut(&mid, r.size, a.touch)
	if math.Abs(mid.cut-(a.cut+b.cut)/2)*open < r.tol && (depth > 0 || r.f.gentle[a.skip[1]]) {
		return
	}
	r.between(a, &mid, depth+1)
	r.out = append(r.out, mid)
	r.between(&mid, b, depth+1)
}

// floorSteps and beachSteps are how many slices the pond's length is cut into
// at least where the floor falls along an axis, or a beach decides the depth of
// water that is nearer to a wall.
const (
	floorSteps = 400
	beachSteps = 85
)

// slice puts rays between so that other laws than the strip's own hardly
// change across it. They are cut where a straight line between their
// neighbours' cuts says.
func (f *Field) slice(nodes []node) []node {
	if len(f.floor.at) == 0 && len(f.marks) == 0 {
		return nodes
	}
	out := make([]node, 0, 2*len(nodes))
	for i := range nodes {
		a, b := &nodes[i], &nodes[(i+1)%len(nodes)]
		out = append(out, *a)
		d := b.p.minus(a.p)
		parts := 1.0
		if len(f.floor.at) > 0 {
			parts = math.Ceil(math.Abs(d.dot(f.axis))*floorSteps/f.rim.size - 1e-9)
		}
		if len(f.marks) > 0 {
			parts = most(parts, math.Ceil(d.len()*beachSteps/f.rim.size-1e-9))
		}
		for k := 1.0; k < parts; k++ {
			s := *a
			s.p, s.vel = a.p.to(b.p, k/parts), a.vel.to(b.vel, k/parts)
			s.cut = a.cut + float64((b.cut-a.cut)*k/parts)
			out = append(out, s)
		}
	}
	return out
}

// onEdge is the ray at a share of the way between two. On one chord of a curve
// it leans as the curve would have it there and does not see the chords on
// either side.
func (f *Field) onEdge(a, b *node, share float64) node {
	i := a.skip[1]
	nd := node{p: a.p.to(b.p, share), vel: a.vel.to(b.vel, share), skip: [3]int32{i, i, i}, after: a.after}
	switch {
	case a.p == b.p:
		nd.vel, nd.skip = nd.vel.unit(), a.skip
	case f.gentle[i]:
		n := int32(len(f.all.edges))
		nd.skip = [3]int32{(i + n - 1) % n, i, (i + 1) % n}
		u := f.all.edges[i].u
		turn := a.vel.minus(b.vel).dot(u)
		nd.p = nd.p.plus(u.left().times(-turn * b.p.minus(a.p).len() * share * (1 - share) / 2))
	default:
		nd.vel = f.all.edges[i].u.left()
	}
	return nd
}

// cutAll finds where each ray is cut by the chain. Neighbours mostly meet the
// same edge, so each search starts with the one before.
func (c *chain) cutAll(nodes []node, size float64) {
	hint := int32(0)
	for i := range nodes {
		nd := &nodes[i]
		nd.cut, nd.touch = c.cut(nd, size, hint)
		hint = nd.touch
	}
}

// cut returns the least t at which the circle about the ray's point with
// radius t meets an edge other than those the ray starts from. Circles that
// touch the rim at one place lie one within the next, so only edges that
// reach into the best circle so far can cut sooner.
func (c *chain) cut(nd *node, size float64, hint int32) (cut float64, touch int32) {
	cut, touch = size, hint
	if nd.sees(c.edges[hint].id) {
		cut = least(cut, c.edges[hint].meets(nd.p, nd.vel))
	}
	at := nd.p.plus(nd.vel.times(cut))
	looks := 1 + len(c.groups)
	for i := range c.groups {
		g := &c.groups[i]
		if g.apart(at, cut) {
			continue
		}
		looks += int(g.hi - g.lo)
		for k := g.lo; k < g.hi; k++ {
			d := &c.discs[k]
			if d.apart(at, cut) {
				continue
			}
			looks += int(d.hi - d.lo)
			for j := d.lo; j < d.hi; j++ {
				e := &c.edges[j]
				if e.later(nd.p, nd.vel, cut) || !nd.sees(e.id) {
					continue
				}
				if t := e.meets(nd.p, nd.vel); t < cut {
					cut, touch = t, j
					at = nd.p.plus(nd.vel.times(t))
				}
			}
		}
	}
	c.looked(looks)
	return cut, touch
}

// later says, most of the time when it is so, that the circle meets the edge no
// sooner than at t: its whole line is met later still. It is written out and
// divides nothing, for most edges end here.
func (e *edge) later(p, vel vec, t float64) bool {
	off := float64(e.u.x*(p.y-e.a.y)) - float64(e.u.y*(p.x-e.a.x))
	away := float64(e.u.x*vel.y) - float64(e.u.y*vel.x)
	if off < 0 {
		off, away = -off, -away
	}
	return off >= float64(t*(1-away))
}

// meets returns the t at which the circle about p + t·vel with radius t first
// meets the edge: where it touches the line if that is on the edge, else an
// end of it.
func (e *edge) meets(p, vel vec) float64 {
	r := p.minus(e.a)
	off := e.u.cross(r) // left of the edge is positive
	away := e.u.cross(vel)
	if off < 0 {
		off, away = -off, -away
	}
	if away >= 1-1e-12 {
		return math.Inf(1)
	}
	t := off / (1 - away)
	k := r.dot(e.u) + float64(t*vel.dot(e.u))
	if k >= 0 && k <= e.length {
		return t
	}
	r = r.times(-1)
	if k > e.length {
		r = r.plus(e.d)
	}
	// |r − t·vel| = t, the smaller root.
	b, c := r.dot(vel), r.len2()
	if b <= 0 {
		return math.Inf(1)
	}
	root := float64(b*b) - float64((vel.len2()-1)*c)
	if root < 0 {
		return math.Inf(1)
	}
	return c / (b + math.Sqrt(root))
}
