package geom

import "math"

// edge is one straight stretch of a rim.
type edge struct {
	a, d   vec     // start, and end minus start
	u      vec     // d in length one
	length float64 // of d
	id     int32   // the edge of the outline it is of
}

func newEdge(a, b vec, id int32) edge {
	d := b.minus(a)
	return edge{a: a, d: d, u: d.unit(), length: d.len(), id: id}
}

// chain is a part of the rim with an index for finding what is near: edges in
// rim order, each six within a circle, and each six of those within another.
type chain struct {
	edges  []edge
	discs  []disc
	groups []disc // of discs
	looks  *int   // what all searches have looked at; nil where nobody counts
}

// looked counts edges, discs and groups that a search held against a place.
func (c *chain) looked(n int) {
	if c.looks != nil {
		*c.looks += n
	}
}

type disc struct {
	c      vec
	r      float64
	lo, hi int32
}

// discEdges is how many edges share a circle, and circles a wider one: the
// circles looked at against what is behind each; see the benchmark.
const discEdges = 6

func newChain(edges []edge) chain {
	c := chain{edges: edges, discs: make([]disc, 0, len(edges)/discEdges+1)}
	for lo := 0; lo < len(edges); lo += discEdges {
		hi := min(lo+discEdges, len(edges))
		low, high := edges[lo].a, edges[lo].a
		for _, e := range edges[lo:hi] {
			for _, p := range [2]vec{e.a, e.a.plus(e.d)} {
				low = vec{least(low.x, p.x), least(low.y, p.y)}
				high = vec{most(high.x, p.x), most(high.y, p.y)}
			}
		}
		d := disc{c: low.to(high, 0.5), lo: int32(lo), hi: int32(hi)}
		d.r = high.minus(d.c).len() * (1 + 1e-12)
		c.discs = append(c.discs, d)
	}
	for lo := 0; lo < len(c.discs); lo += discEdges {
		hi := min(lo+discEdges, len(c.discs))
		g := disc{c: c.discs[(lo+hi)/2].c, lo: int32(lo), hi: int32(hi)}
		for _, d := range c.discs[lo:hi] {
			g.r = most(g.r, d.c.minus(g.c).len()+d.r)
		}
		g.r *= 1 + 1e-12
		c.groups = append(c.groups, g)
	}
	return c
}

// apart says whether a circle about p of radius r stays clear of the disc.
func (d *disc) apart(p vec, r float64) bool {
	x, y, s := p.x-d.c.x, p.y-d.c.y, d.r+r
	return float64(x*x)+float64(y*y) >= float64(s*s)
}

// distance returns how far p is from the chain and its nearest edge. hint is
// an edge likely to be near; it costs time only when it is not.
func (c *chain) distance(p vec, hint int) (far float64, nearest int) {
	return c.within(p, hint, math.Inf(1))
}

// within is distance for a caller to whom everything beyond reach is as far
// as reach.
func (c *chain) within(p vec, hint int, reach float64) (far float64, nearest int) {
	if len(c.edges) == 0 {
		return math.Inf(1), 0
	}
	best2, _ := c.nearest(p, c.edges[hint:hint+1], reach*reach)
	nearest = hint
	best := math.Sqrt(best2)
	looks := 1 + len(c.groups)
	for i := range c.groups {
		g := &c.groups[i]
		if g.apart(p, best) {
			continue
		}
		looks += int(g.hi - g.lo)
		for k := g.lo; k < g.hi; k++ {
			d := &c.discs[k]
			if d.apart(p, best) {
				continue
			}
			looks += int(d.hi - d.lo)
			if d2, j := c.nearest(p, c.edges[d.lo:d.hi], best2); j >= 0 {
				best2, nearest = d2, int(d.lo)+j
				best = math.Sqrt(d2)
			}
		}
	}
	c.looked(looks)
	return best, nearest
}

// nearest returns the square of the distance to the nearest of some edges and
// which it is, or -1 when none is nearer than best2. The loop is written out:
// most of the time of a whole evaluation is spent in it.
func (c *chain) nearest(p vec, edges []edge, best2 float64) (near2 float64, which int) {
	which = -1
	for i := range edges {
		e := &edges[i]
		rx, ry := p.x-e.a.x, p.y-e.a.y
		k := float64(rx*e.u.x) + float64(ry*e.u.y)
		var d2 float64
		switch {
		case k <= 0:
			d2 = float64(rx*rx) + float64(ry*ry)
		case k >= e.length:
			rx, ry = rx-e.d.x, ry-e.d.y
			d2 = float64(rx*rx) + float64(ry*ry)
		default:
			s := float64(rx*e.u.y) - float64(ry*e.u.x)
			d2 = float64(s * s)
		}
		if d2 < best2 {
			best2, which = d2, i
		}
	}
	return best2, which
}

// toward returns the unit direction from p to its nearest place on edge i.
func (c *chain) toward(p vec, i int) vec {
	e := &c.edges[i]
	k := least(most(p.minus(e.a).dot(e.u), 0), e.length)
	return e.a.plus(e.u.times(k)).minus(p).unit()
}

// holds says whether a chain that is a convex ring, anticlockwise, holds p.
func (c *chain) holds(p vec) bool {
	c.looked(len(c.edges))
	for i := range c.edges {
		if c.edges[i].u.cross(p.minus(c.edges[i].a)) < 0 {
			return false
		}
	}
	return true
}
