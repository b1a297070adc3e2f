package geom

import "math"

// edge is one straight stretch of a rim.
type edge struct {
	a, d   vec     // start, and end minus start
	u      vec     // d in length one
	length float64 // of d
}

// chain is a part of the rim with an index for finding what is near: edges in
// rim order, each eight within a circle.
type chain struct {
	edges []edge
	discs []disc
}

type disc struct {
	c      vec
	r      float64
	lo, hi int32
}

// discEdges is how many edges share a circle. Eight balances the circles
// looked at against the edges behind each; see the benchmark.
const discEdges = 8

func newChain(edges []edge) chain {
	c := chain{edges: edges, discs: make([]disc, 0, len(edges)/discEdges+1)}
	for lo := 0; lo < len(edges); lo += discEdges {
		hi := min(lo+discEdges, len(edges))
		low, high := edges[lo].a, edges[lo].a
		for _, e := range edges[lo:hi] {
			for _, p := range [2]vec{e.a, e.a.plus(e.d)} {
				low = vec{math.Min(low.x, p.x), math.Min(low.y, p.y)}
				high = vec{math.Max(high.x, p.x), math.Max(high.y, p.y)}
			}
		}
		d := disc{c: low.to(high, 0.5), lo: int32(lo), hi: int32(hi)}
		d.r = high.minus(d.c).len() * (1 + 1e-12)
		c.discs = append(c.discs, d)
	}
	return c
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
	for i := range c.discs {
		d := &c.discs[i]
		x, y, r := p.x-d.c.x, p.y-d.c.y, d.r+best
		if float64(x*x)+float64(y*y) >= float64(r*r) {
			continue
		}
		for j := d.lo; j < d.hi; j++ {
			if d2 := c.edges[j].nearest2(p); d2 < best2 {
				best2, nearest = d2, int(j)
				best = math.Sqrt(d2)
			}
		}
	}
	return best, nearest
}

// toward returns the unit direction from p to its nearest place on edge i.
func (c *chain) toward(p vec, i int) vec {
	e := &c.edges[i]
	k := math.Min(math.Max(p.minus(e.a).dot(e.u), 0), e.length)
	return e.a.plus(e.u.times(k)).minus(p).unit()
}
