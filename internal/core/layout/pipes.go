package layout

import (
	"math"

	"tarnwright/internal/core/geom"
)

// pipeClearM is how far pipes keep from the water, common practice, no source.
const pipeClearM = 0.9

// suctionRoute runs from the intake to the pump, round the water.
func (s *site) suctionRoute() []vec {
	return s.route(s.intake, s.pump)
}

// dischargeRoute runs from the pump to the far side of the zone, to the
// cascade, or back into the pond opposite the intake.
func (s *site) dischargeRoute() []vec {
	switch {
	case len(s.zone) > 0:
		end, in := s.zoneEntry()
		return soften(append(s.route(s.pump, end), in))
	case len(s.cascade) > 0:
		lip := s.cascade[0].to(s.cascade[1], 0.5)
		return s.route(s.pump, lip)
	}
	back := s.rim.At(math.Mod(s.d.Circulation.IntakeBearingDeg+180, 360))
	return s.route(s.pump, of(back.At))
}

// zoneEntry returns the zone's end that is nearer to the pump round the pond,
// and a place a little way inside it.
func (s *site) zoneEntry() (end, in vec) {
	st := s.facing(s.d.Zone.BearingDeg, s.size/3)
	mid := middle(s.zone)
	side := st.along
	if s.pump.minus(mid).dot(side) < 0 {
		side = side.times(-1)
	}
	best := math.Inf(-1)
	for _, p := range s.zone {
		if d := p.minus(mid).dot(side); d > best {
			best, end = d, p
		}
	}
	return end, end.to(mid, 0.12)
}

func middle(ring []vec) vec {
	var mid vec
	for _, p := range ring {
		mid = mid.plus(p.times(1 / float64(len(ring))))
	}
	return mid
}

// route joins two places outside the water: straight where that keeps clear of
// water and zone, else along the hull of the water widened by the clearance.
func (s *site) route(from, to vec) []vec {
	if s.clear(from, to) {
		return []vec{from, to}
	}
	ring := s.bypass()
	if len(ring) < 3 {
		return []vec{from, to}
	}
	i, j := nearest(ring, from), nearest(ring, to)
	n := len(ring)
	ahead, back := (j-i+n)%n, (i-j+n)%n
	way := 1
	steps := ahead
	if back < ahead {
		way, steps = -1, back
	}
	path := []vec{from}
	for k := 0; k <= steps; k++ {
		path = append(path, ring[((i+way*k)%n+n)%n])
	}
	return soften(s.shorten(append(path, to)))
}

// bypass returns the convex hull of the water, widened, at even steps.
func (s *site) bypass() []vec {
	hull := vecs(geom.Hull(s.rimPoints))
	clear := min(pipeClearM, s.size/6)
	var ring []vec
	for i, p := range hull {
		a := p.minus(hull[(i+len(hull)-1)%len(hull)]).unit().left().times(-1)
		b := hull[(i+1)%len(hull)].minus(p).unit().left().times(-1)
		ring = append(ring, p.plus(a.times(clear)), p.plus(b.times(clear)))
	}
	return even(ring, 96)
}

// even resamples a ring at n even steps.
func even(ring []vec, n int) []vec {
	total := 0.0
	for i, p := range ring {
		total += ring[(i+1)%len(ring)].minus(p).len()
	}
	out := make([]vec, 0, n)
	passed := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		l := q.minus(p).len()
		for len(out) < n && float64(len(out))*total/float64(n) < passed+l {
			out = append(out, p.to(q, (float64(len(out))*total/float64(n)-passed)/l))
		}
		passed += l
	}
	return out
}

func nearest(ring []vec, p vec) int {
	best, at := math.Inf(1), 0
	for i, q := range ring {
		if d := q.minus(p).len(); d < best {
			best, at = d, i
		}
	}
	return at
}

// shorten leaves out every bend of a way round that is not needed: from each
// place it goes on to the furthest that a clear straight line leads to, but
// never by more than a quarter of the pond, so that the way keeps its sweep.
func (s *site) shorten(path []vec) []vec {
	out := []vec{path[0]}
	for i := 0; i < len(path)-1; {
		next := i + 1
		for j := len(path) - 1; j > i+1; j-- {
			last := j == len(path)-1
			if (last || path[j].minus(path[i]).len() < s.size/4) && s.clear(path[i], path[j]) {
				next = j
				break
			}
		}
		out = append(out, path[next])
		i = next
	}
	return out
}

// clear says whether the straight line between two places stays out of the
// water and the zone, but for its ends.
func (s *site) clear(a, b vec) bool {
	margin := min(pipeClearM, s.size/6) * 0.75
	steps := math.Ceil(b.minus(a).len() / (s.size / 60))
	for k := 0.0; k <= steps; k++ {
		p := a.to(b, k/max(steps, 1))
		end := min(p.minus(a).len(), p.minus(b).len())
		if s.fromWater(p) < min(end*0.7, margin)-1e-6*s.size {
			return false
		}
		if end > 0.02*s.size && holds(s.zone, p) {
			return false
		}
	}
	return true
}

// holds says whether a place lies within a ring, by the even–odd rule.
func holds(ring []vec, p vec) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+float64((b.x-a.x)*(p.y-a.y)/(b.y-a.y)) {
			in = !in
		}
	}
	return in
}

// soften rounds the bends of a way by cutting its corners three times.
func soften(path []vec) []vec {
	for range 3 {
		if len(path) < 3 {
			return path
		}
		out := []vec{path[0]}
		for i := 1; i+1 < len(path); i++ {
			out = append(out, path[i].to(path[i-1], 0.25), path[i].to(path[i+1], 0.25))
		}
		path = append(out, path[len(path)-1])
	}
	return path
}
