package geom

import (
	"math"

	"tarnwright/internal/core/design"
)

// profile is depth against a distance, in straight stretches; two knots at
// one distance make a step. Before its first and beyond its last knot the
// depth stays.
type profile struct{ at, depth []float64 }

func (p *profile) add(at, depth float64) {
	p.at, p.depth = append(p.at, at), append(p.depth, depth)
}

// wallProfile is the wall as asked for.
func wallProfile(knots []design.Knot) profile {
	var p profile
	for _, k := range knots {
		p.add(k.InsetM, k.DepthM)
	}
	if len(p.at) == 0 {
		p.add(0, math.Inf(1))
	}
	return p
}

// beachProfiles gives the beach by the distance from its edge, and the descent
// below its toe by the distance from the body round that edge, empty when the
// beach has no descent of its own. Beyond the toe the first says no more: it
// drops to the deep part and leaves the depth to the second.
func beachProfiles(b design.Beach, deepM float64) (sand, drop profile) {
	sand.add(0, 0)
	toe := b.ToeDepthM
	if toe <= 0 || toe >= deepM {
		sand.add(b.RunPerRiseRatio*deepM, deepM)
		return sand, drop
	}
	run := b.RunPerRiseRatio * toe
	sand.add(run, toe)
	sand.add(run, deepM)
	if b.DescentRunPerRiseRatio > 0 {
		drop.add(run, toe)
		drop.add(run+float64(b.DescentRunPerRiseRatio*(deepM-toe)), deepM)
	}
	return sand, drop
}

func floorProfile(f design.Floor) profile {
	var p profile
	for _, k := range f.Knots {
		p.add(k.AlongM, k.DepthM)
	}
	return p
}

// value returns the depth at a distance, below a step that lies right there.
func (p *profile) value(at float64) float64 {
	n := len(p.at)
	if at < p.at[0] {
		return p.depth[0]
	}
	for i := n - 1; i >= 0; i-- {
		if at >= p.at[i] {
			if i == n-1 {
				return p.depth[i]
			}
			return p.depth[i] + float64((p.depth[i+1]-p.depth[i])*(at-p.at[i])/(p.at[i+1]-p.at[i]))
		}
	}
	return p.depth[0]
}

// stretch returns the depth at a and at b and the slope between, for a and b
// within one straight stretch: the values at a step are those on this side.
func (p *profile) stretch(a, b float64) (da, db, slope float64) {
	n := len(p.at)
	const hair = 1e-12 // a stretch that runs along a knot lies beyond it
	mid := (a + (b-a)/2) * (1 + hair)
	if mid <= p.at[0] {
		return p.depth[0], p.depth[0], 0
	}
	for i := n - 1; i >= 0; i-- {
		if mid >= p.at[i] {
			if i == n-1 || p.at[i+1] <= p.at[i] {
				return p.depth[i], p.depth[i], 0
			}
			slope = (p.depth[i+1] - p.depth[i]) / (p.at[i+1] - p.at[i])
			return p.depth[i] + float64(slope*(a-p.at[i])), p.depth[i] + float64(slope*(b-p.at[i])), slope
		}
	}
	return p.depth[0], p.depth[0], 0
}

// reach returns the least distance at which a profile that never rises is as
// deep as level, or +Inf where it never is.
func (p *profile) reach(level float64) float64 {
	level -= levelSlack(level)
	if p.depth[0] >= level {
		return math.Inf(-1)
	}
	for i := 1; i < len(p.at); i++ {
		if p.depth[i] >= level {
			return p.at[i-1] + float64((p.at[i]-p.at[i-1])*(level-p.depth[i-1])/(p.depth[i]-p.depth[i-1]))
		}
	}
	return math.Inf(1)
}

// levelSlack lets a shelf at exactly a level count as being as deep as it,
// whatever the last digit of either.
func levelSlack(level float64) float64 { return 1e-9 * math.Abs(level) }

// above returns the signed distance along the axis from at to the nearest
// place that is not as deep as level: positive where the floor is deep enough.
func (p *profile) above(level, at float64) float64 {
	level -= levelSlack(level)
	deep := p.value(at) >= level
	near := math.Inf(1)
	for i := 1; i < len(p.at); i++ {
		a, b := p.depth[i-1]-level, p.depth[i]-level
		if (a >= 0) != (b >= 0) {
			x := p.at[i-1] + float64((p.at[i]-p.at[i-1])*a/(a-b))
			near = least(near, math.Abs(at-x))
		}
	}
	if deep {
		return near
	}
	return -near
}

// shallower says whether p is nowhere deeper than q at the same distance.
func (p *profile) shallower(q *profile) bool {
	for _, at := range p.at {
		if p.value(at) > q.before(at) {
			return false
		}
	}
	for _, at := range q.at {
		if p.value(at) > q.before(at) {
			return false
		}
	}
	return true
}

// before returns the depth just above a step at this distance.
func (p *profile) before(at float64) float64 {
	for i := range p.at {
		if p.at[i] >= at {
			if i == 0 || p.at[i] == at {
				return p.depth[i]
			}
			break
		}
	}
	return p.value(at)
}
