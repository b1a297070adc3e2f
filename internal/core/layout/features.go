package layout

import "math"

// Sizes of what has no size in the design; common practice, no source.
const (
	zoneLengthRatio  = 2.3  // of a zone that has room: length over width
	zoneGapM         = 1.5  // between the water and the zone
	overlapM         = 0.25 // of the cascade's foot and the deck over the water
	cascadeRunPerM   = 0.9  // of a cascade without a zone: run for each metre of rise
	cascadeLeastRunM = 0.8
)

// zoneRing returns the outline of the regeneration zone: a soft blob of
// exactly the area asked for, its long side to the water, pushed out until
// all of it is clear.
func (s *site) zoneRing() []vec {
	z := s.d.Zone
	ratio := zoneLengthRatio
	if roomy := 0.9 * s.size; z.AreaM2*ratio > roomy*roomy {
		ratio = math.Max(1, roomy*roomy/z.AreaM2)
	}
	blob := zoneBlob()
	k := math.Sqrt(z.AreaM2 / ringArea(blob))
	long, wide := k*math.Sqrt(ratio), k/math.Sqrt(ratio)
	st := s.facing(z.BearingDeg, s.size/3)
	gap := s.zoneGap()
	ring := make([]vec, len(blob))
	centre := s.rimEdge(st).plus(st.out.times(gap))
	least := make([]float64, len(blob)) // no place is nearer to the water than that
	for i := range least {
		least[i] = math.Inf(-1)
	}
	near := 0
	for range 60 {
		for i, p := range blob {
			// The blob's own south looks to the water.
			ring[i] = centre.plus(st.along.times(-p.x * long)).plus(st.out.times(p.y * wide))
		}
		var clear float64
		clear, near = s.clearance(ring, least, near)
		if clear >= gap*(1-1e-9) {
			break
		}
		push := math.Max(gap-clear, 1e-3)
		centre = centre.plus(st.out.times(push))
		for i := range least {
			least[i] -= push * (1 + 1e-9)
		}
	}
	return ring
}

// clearance returns how far the nearest place of a ring is from the water, and
// which it is. Places that cannot be the nearest are left alone; the one that
// was nearest before is asked first.
func (s *site) clearance(ring []vec, least []float64, first int) (farM float64, near int) {
	farM, near = s.fromWater(ring[first]), first
	least[first] = farM
	for i, p := range ring {
		if i == first || least[i] >= farM {
			continue
		}
		if least[i] = s.fromWater(p); least[i] < farM {
			farM, near = least[i], i
		}
	}
	return farM, near
}

// zoneGap leaves room for the cascade between the zone and the water.
func (s *site) zoneGap() float64 {
	if s.d.Cascade == nil {
		return zoneGapM
	}
	return math.Max(zoneGapM, s.cascadeRun())
}

func (s *site) cascadeRun() float64 {
	return math.Max(cascadeLeastRunM, cascadeRunPerM*s.d.Cascade.RiseM)
}

// rimEdge returns the middle of a stretch.
func (s *site) rimEdge(st stretch) vec { return st.mid }

// zoneBlob is the zone's shape before it is sized: soft, with a gentle waist
// to the water side.
func zoneBlob() []vec {
	return smooth([]vec{
		{-1.00, 0.05}, {-0.80, -0.72}, {-0.32, -0.92}, {0.12, -0.84}, {0.62, -0.95}, {0.95, -0.50},
		{1.00, 0.30}, {0.66, 0.88}, {0.20, 0.78}, {-0.28, 1.00}, {-0.78, 0.80},
	})
}

// smooth is the closed uniform Catmull–Rom curve, twelve steps a handle.
func smooth(hs []vec) []vec {
	const steps = 12
	n := len(hs)
	out := make([]vec, 0, n*steps)
	for i := range n {
		p0, p1, p2, p3 := hs[(i+n-1)%n], hs[i], hs[(i+1)%n], hs[(i+2)%n]
		for k := range steps {
			t := float64(k) / steps
			a := p1.times(2)
			b := p2.minus(p0).times(t)
			c := p0.times(2).minus(p1.times(5)).plus(p2.times(4)).minus(p3).times(t * t)
			d := p1.times(3).minus(p0).minus(p2.times(3)).plus(p3).times(t * t * t)
			out = append(out, a.plus(b).plus(c).plus(d).times(0.5))
		}
	}
	return out
}

func ringArea(ring []vec) float64 {
	sum := 0.0
	for i, p := range ring {
		sum += p.cross(ring[(i+1)%len(ring)])
	}
	return math.Abs(sum) / 2
}

// cascadeQuad returns lip left, lip right, foot right and foot left as water
// flows. With a zone behind it the lip stands at the zone's edge.
func (s *site) cascadeQuad() []vec {
	c := s.d.Cascade
	st := s.facing(c.BearingDeg, c.LipM)
	run := s.cascadeRun()
	half := st.along.times(c.LipM / 2)
	if far := firstHit(st.mid, st.out, s.zone); far < 3*run+zoneGapM {
		run = far
	}
	lip, foot := st.mid.plus(st.out.times(run)), st.mid.minus(st.out.times(overlapM))
	// Water flows against out: left of that is against along turned twice.
	return []vec{lip.minus(half), lip.plus(half), foot.plus(half), foot.minus(half)}
}

// firstHit returns how far along a ray a ring is first met, or +Inf.
func firstHit(from, dir vec, ring []vec) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sa, sb := dir.cross(a.minus(from)), dir.cross(b.minus(from))
		if (sa <= 0) == (sb <= 0) {
			continue
		}
		if at := a.to(b, sa/(sa-sb)).minus(from).dot(dir); at > 0 {
			best = math.Min(best, at)
		}
	}
	return best
}

// deckQuad returns the deck's corners, the first two over the water. It stands
// far enough in for its whole edge to be over water, but never by more than
// half its width.
func (s *site) deckQuad() []vec {
	k := s.d.Deck
	st := s.facing(k.BearingDeg, k.LengthM)
	inner := 0.0
	for i, a := range s.rimVecs {
		for _, share := range [2]float64{0, 0.5} {
			p := a.to(s.rimVecs[(i+1)%len(s.rimVecs)], share).minus(st.mid)
			if math.Abs(p.dot(st.along)) <= k.LengthM/2 {
				if d := p.dot(st.out); d > -k.WidthM && d < inner {
					inner = d
				}
			}
		}
	}
	in := math.Max(inner-overlapM, -k.WidthM/2)
	half := st.along.times(k.LengthM / 2)
	edge := st.mid.plus(st.out.times(in))
	back := edge.plus(st.out.times(k.WidthM))
	return []vec{edge.minus(half), edge.plus(half), back.plus(half), back.minus(half)}
}
