package geom

import "math"

// A node is a ray into the water from a place on the rim: at parameter t it
// is t from the rim, until at cut something else of the rim is as near.
type node struct {
	p, vel   vec
	skip     [2]int32 // edges the ray starts from
	cut      float64
	touch    int32
	narrowIn float64 // how much a strip after the node loses in width per unit t
}

// fanRad is the widest fan between two rays at a reflex corner.
const fanRad = 0.15

// rays sets out the nodes round the rim. A convex corner sends one ray along
// its bisector, a gentle reflex corner too; a sharp reflex corner sends a fan,
// since what is nearest to a corner lies on an arc about it. Long edges get
// rays between.
func (f *Field) rays(steps float64) []node {
	n := len(f.all.edges)
	longest := f.rim.perimeterM / steps
	nodes := make([]node, 0, n+int(steps))
	for i := range n {
		h := (i + n - 1) % n
		nodes = f.cornerRays(nodes, int32(h), int32(i))
		e := &f.all.edges[i]
		parts := math.Ceil(e.length/longest - 1e-9)
		for k := 1.0; k < parts; k++ {
			nodes = append(nodes, node{p: e.a.plus(e.d.times(k / parts)), vel: e.u.left(), skip: [2]int32{int32(i), int32(i)}})
		}
	}
	return nodes
}

// cornerRays adds the rays of the corner between edges h and i.
func (f *Field) cornerRays(nodes []node, h, i int32) []node {
	in, out := f.all.edges[h].u, f.all.edges[i].u
	p := f.all.edges[i].a
	turn := math.Atan2(in.cross(out), in.dot(out))
	skip := [2]int32{h, i}
	switch {
	case turn >= 0:
		half := math.Min(turn/2, math.Pi/2-1e-6)
		k := math.Tan(half)
		return append(nodes, node{p: p, vel: in.left().plus(in.times(-k)), skip: skip, narrowIn: k})
	case turn > -fanRad:
		return append(nodes, node{p: p, vel: in.plus(out).left().unit(), skip: skip, narrowIn: turn / 2})
	}
	parts := math.Ceil(-turn / fanRad)
	for k := 0.0; k <= parts; k++ {
		s, c := math.Sincos(turn * k / parts)
		nodes = append(nodes, node{
			p: p, vel: vec{float64(in.x*c) - float64(in.y*s), float64(in.x*s) + float64(in.y*c)}.left(), skip: skip,
		})
	}
	return nodes
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
	if hint != nd.skip[0] && hint != nd.skip[1] {
		cut = math.Min(cut, c.edges[hint].meets(nd.p, nd.vel))
	}
	at := nd.p.plus(nd.vel.times(cut))
	for i := range c.discs {
		d := &c.discs[i]
		x, y, r := at.x-d.c.x, at.y-d.c.y, d.r+cut
		if float64(x*x)+float64(y*y) >= float64(r*r) {
			continue
		}
		for j := d.lo; j < d.hi; j++ {
			if j == nd.skip[0] || j == nd.skip[1] {
				continue
			}
			if t := c.edges[j].meets(nd.p, nd.vel); t < cut {
				cut, touch = t, j
				at = nd.p.plus(nd.vel.times(t))
			}
		}
	}
	return cut, touch
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
