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
				low = vec{min(low.x, p.x), min(low.y, p.y)}
				high = vec{max(high.x, p.x), max(high.y, p.y)}
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
			g.r = max(g.r, d.c.minus(g.c).len()+d.r)
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

func (e *edge) nearest2(p vec) float64 {
	rx, ry := p.x-e.a.x, p.y-e.a.y
	k := float64(rx*e.u.x) + float64(ry*e.u.y)
	if k <= 0 {
		return float64(rx*rx) + float64(ry*ry)
	}
	if k >= e.length {
		rx, ry = rx-e.d.x, ry-e.d.y
		return float64(rx*rx) + float64(ry*ry)
	}
	s := float64(rx*e.u.y) - float64(ry*e.u.x)
	return float64(s * s)
}

// distance returns how far p is from the chain and its nearest edge. hint is
// an edge likely to be near; it costs time only when it is not.
func (c *chain) distance(p vec, hint int) (far float64, nearest int) {
	if len(c.edges) == 0 {
		return math.Inf(1), 0
	}
	nearest = hint
	best2 := c.edges[hint].nearest2(p)
	best := math.Sqrt(best2)
	for i := range c.groups {
		g := &c.groups[i]
		if g.apart(p, best) {
			continue
		}
		for k := g.lo; k < g.hi; k++ {
			d := &c.discs[k]
			if d.apart(p, best) {
				continue
			}
			for j := d.lo; j < d.hi; j++ {
				if d2 := c.edges[j].nearest2(p); d2 < best2 {
					best2, nearest = d2, int(j)
					best = math.Sqrt(d2)
				}
			}
		}
	}
	return best, nearest
}

// toward returns the unit direction from p to its nearest place on edge i.
func (c *chain) toward(p vec, i int) vec {
	e := &c.edges[i]
	k := min(max(p.minus(e.a).dot(e.u), 0), e.length)
	return e.a.plus(e.u.times(k)).minus(p).unit()
}

// holds says whether a chain that is a convex ring, anticlockwise, holds p.
func (c *chain) holds(p vec) bool {
	for i := range c.edges {
		if c.edges[i].u.cross(p.minus(c.edges[i].a)) < 0 {
			return false
		}
	}
	return true
}
