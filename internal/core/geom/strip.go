package geom

import "math"

// A strip is the water that is nearest to one short stretch of rim: between
// two rays, up to where they are cut. At t from the rim it is
// (wide − narrow·t)·left(t) wide, where left falls in a straight line from 1
// to 0 between the two cuts.
type strip struct {
	side         side
	o, dir       vec // the ray along its middle
	wide, narrow float64
	cut          [2]float64 // nearer, further
	end          float64
	nodes        [2]int32
}

// strips joins the rays round the rim. Between two rays of one reflex corner
// the strip is a sector, as wide as its angle times t.
func (f *Field) strips(nodes []node) []strip {
	out := make([]strip, len(nodes))
	for i := range nodes {
		j := (i + 1) % len(nodes)
		a, b := &nodes[i], &nodes[j]
		out[i] = f.between(a, b)
		out[i].nodes = [2]int32{int32(i), int32(j)}
		out[i].bound(a.cut, b.cut)
	}
	return out
}

// between is the strip from one ray to the next, before it is cut.
func (f *Field) between(a, b *node) strip {
	e := a.skip[1]
	s := strip{side: a.after, o: a.p.to(b.p, 0.5), dir: a.vel.to(b.vel, 0.5)}
	if a.p == b.p {
		s.narrow = -math.Abs(math.Atan2(a.vel.cross(b.vel), a.vel.dot(b.vel)))
		s.dir = s.dir.unit()
		return s
	}
	s.wide = b.p.minus(a.p).len()
	s.narrow = a.vel.minus(b.vel).dot(f.all.edges[e].u)
	return s
}

func (s *strip) bound(a, b float64) {
	s.cut = [2]float64{least(a, b), most(a, b)}
	s.end = s.cut[1]
	if s.narrow > 0 && s.end*s.narrow > s.wide {
		s.end = s.wide / s.narrow
	}
}

// width returns the strip's width at t.
func (s *strip) width(t float64) float64 {
	w := s.wide - float64(s.narrow*t)
	if t > s.cut[0] && s.cut[1] > s.cut[0] {
		w *= (s.cut[1] - t) / (s.cut[1] - s.cut[0])
	}
	return most(w, 0)
}
