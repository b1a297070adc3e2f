package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
)

// pt is a place on the plan in metres or in the picture in px.
type pt struct{ x, y float64 }

func (a pt) plus(b pt) pt       { return pt{a.x + b.x, a.y + b.y} }
func (a pt) minus(b pt) pt      { return pt{a.x - b.x, a.y - b.y} }
func (a pt) times(k float64) pt { return pt{a.x * k, a.y * k} }
func (a pt) dot(b pt) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a pt) cross(b pt) float64 { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a pt) size() float64      { return math.Sqrt(a.dot(a)) }
func (a pt) to(b pt) float64    { return b.minus(a).size() }
func (a pt) left() pt           { return pt{-a.y, a.x} }
func (a pt) mix(b pt, k float64) pt {
	return pt{a.x + float64((b.x-a.x)*k), a.y + float64((b.y-a.y)*k)}
}

func (a pt) unit() pt {
	l := a.size()
	if l == 0 {
		return pt{}
	}
	return a.times(1 / l)
}

// polar is the point at a distance in a direction from a.
func (a pt) polar(dist, rad float64) pt {
	return pt{a.x + dist*math.Cos(rad), a.y + dist*math.Sin(rad)}
}

func pts(xys []sheet.XY) []pt {
	out := make([]pt, len(xys))
	for i, p := range xys {
		out[i] = pt{p.X, p.Y}
	}
	return out
}

// fromLine returns how far p is from the straight stretch a to b.
func (p pt) fromLine(a, b pt) float64 {
	d := b.minus(a)
	// Compared by hand: in a browser math.Min is a call, and this runs thousands
	// of times for each move of a ring.
	k, l := p.minus(a).dot(d), d.dot(d)
	switch {
	case !(k > 0): // before a, or there is no stretch
		return p.to(a)
	case k >= l:
		return p.to(b)
	}
	return p.to(a.plus(d.times(k / l)))
}

// fromChain returns how far p is from an open line.
func (p pt) fromChain(chain []pt) float64 {
	best := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		if far := p.fromLine(chain[i-1], chain[i]); far < best {
			best = far
		}
	}
	return best
}

// fromRing returns how far p is from a closed line.
func (p pt) fromRing(ring []pt) float64 {
	if len(ring) == 0 {
		return math.Inf(1)
	}
	return math.Min(p.fromChain(ring), p.fromLine(ring[len(ring)-1], ring[0]))
}

// within says whether p lies inside a closed line.
func (p pt) within(ring []pt) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+float64((b.x-a.x)*(p.y-a.y)/(b.y-a.y)) {
			in = !in
		}
	}
	return in
}

// near says whether p lies inside a closed line or within a margin of it.
func (p pt) near(ring []pt, margin float64) bool {
	return len(ring) > 0 && (p.within(ring) || p.fromRing(ring) < margin)
}

func middle(ps []pt) pt {
	var sum pt
	for _, p := range ps {
		sum = sum.plus(p)
	}
	return sum.times(1 / math.Max(1, float64(len(ps))))
}

// thin leaves out points that lie within tol of the line through their
// neighbours (Douglas and Peucker's rule), ends kept.
func thin(ps []pt, tol float64) []pt {
	if len(ps) < 3 {
		return ps
	}
	keep := make([]bool, len(ps))
	keep[0], keep[len(ps)-1] = true, true
	spans := [][2]int{{0, len(ps) - 1}}
	for len(spans) > 0 {
		s := spans[len(spans)-1]
		spans = spans[:len(spans)-1]
		far, at := tol, -1
		for i := s[0] + 1; i < s[1]; i++ {
			if e := ps[i].fromLine(ps[s[0]], ps[s[1]]); e > far {
				far, at = e, i
			}
		}
		if at > 0 {
			keep[at] = true
			spans = append(spans, [2]int{s[0], at}, [2]int{at, s[1]})
		}
	}
	out := make([]pt, 0, len(ps))
	for i, k := range keep {
		if k {
			out = append(out, ps[i])
		}
	}
	return out
}

// box is an upright rectangle.
type box struct{ lo, hi pt }

func noBox() box { return box{pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}} }

// apart is how far the sides of two boxes lie from each other at most.
func (b box) apart(c box) float64 {
	return max(math.Abs(b.lo.x-c.lo.x), math.Abs(b.lo.y-c.lo.y), math.Abs(b.hi.x-c.hi.x), math.Abs(b.hi.y-c.hi.y))
}

func (b box) with(p pt, margin float64) box {
	if x := p.x - margin; x < b.lo.x {
		b.lo.x = x
	}
	if y := p.y - margin; y < b.lo.y {
		b.lo.y = y
	}
	if x := p.x + margin; x > b.hi.x {
		b.hi.x = x
	}
	if y := p.y + margin; y > b.hi.y {
		b.hi.y = y
	}
	return b
}

func (b box) all(ps []pt, margin float64) box {
	for _, p := range ps {
		b = b.with(p, margin)
	}
	return b
}

func (b box) wide() float64 { return b.hi.x - b.lo.x }
func (b box) high() float64 { return b.hi.y - b.lo.y }

func (b box) meets(c box) bool {
	return b.lo.x < c.hi.x && c.lo.x < b.hi.x && b.lo.y < c.hi.y && c.lo.y < b.hi.y
}
