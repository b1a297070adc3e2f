package geom

import (
	"math"

	"tarnwright/internal/core/design"
)

// flight is a straight flight of steps: a rectangle on the plan whose upper end
// lies along the edge of the water, and on it the bottom is no deeper than the
// treads. The first tread lies one riser below the water line.
type flight struct {
	at         vec // the middle of its upper end
	in, across vec // the way down, and square to it to the right
	half       float64
	back       float64 // the first tread reaches back to the rim by so much at most
	tread      float64
	riser      float64
	count      int
}

// layFlight puts a flight where the bearing meets the rim, square to the rim's
// chord over its width, and so far in that the whole of its upper end is over
// water.
func (f *Field) layFlight(st design.Steps) {
	r := f.rim
	along := r.hit(r.frame.turnBack(compass(st.BearingDeg)))
	spot := func(at float64) vec {
		i, k := r.locate(at)
		return r.pts[i].to(r.pts[(i+1)%len(r.pts)], k)
	}
	half := least(st.WidthM/2, r.perimeterM/8)
	across := spot(along + half).minus(spot(along - half)).unit()
	if across == (vec{}) || st.Count < 1 {
		return
	}
	fl := flight{at: spot(along), in: across.left(), across: across, half: st.WidthM / 2, tread: st.TreadM, riser: st.RiserM, count: st.Count}
	near, far := fl.reach(r, along)
	far = least(far, st.WidthM)
	fl.at = fl.at.plus(fl.in.times(far))
	fl.back = far - near + 1e-6*r.size
	f.flight = &fl
}

// reach follows the rim both ways from where the flight stands until it leaves
// the flight's width, and returns how far out and how far in it goes.
func (fl *flight) reach(r Rim, along float64) (near, far float64) {
	edge, share := r.locate(along)
	n := len(r.pts)
	from := r.pts[edge].to(r.pts[(edge+1)%n], share)
	for _, way := range [2]int{1, -1} {
		a := from
		for k := range n {
			i := edge + 1 + k
			if way < 0 {
				i = edge - k
			}
			b := r.pts[((i%n)+n)%n]
			sa, sb := fl.across.dot(a.minus(fl.at)), fl.across.dot(b.minus(fl.at))
			gone := math.Abs(sb) > fl.half
			if gone {
				b = a.to(b, (math.Copysign(fl.half, sb)-sa)/(sb-sa))
			}
			t := fl.in.dot(b.minus(fl.at))
			near, far = least(near, t), most(far, t)
			if gone {
				break
			}
			a = b
		}
	}
	return near, far
}

func (fl *flight) length() float64 { return float64(fl.count) * fl.tread }

// depth is the depth of the tread at a place, or +Inf off the flight.
func (fl *flight) depth(p vec) float64 {
	v := p.minus(fl.at)
	t := v.dot(fl.in)
	if math.Abs(v.dot(fl.across)) > fl.half || t < -fl.back || t > fl.length() {
		return math.Inf(1)
	}
	return fl.treadDepth(t)
}

// treadDepth is the depth of the tread that lies t from the upper end.
func (fl *flight) treadDepth(t float64) float64 {
	k := least(most(math.Floor(t/fl.tread), 0), float64(fl.count-1))
	return fl.riser * (k + 1)
}

// room is how far a place lies from the treads that are shallower than level,
// negative on them, and +Inf when there are none.
func (fl *flight) room(level float64, p vec) float64 {
	shallower := math.Ceil((level-levelSlack(level))/fl.riser) - 1
	if shallower < 1 {
		return math.Inf(1)
	}
	v := p.minus(fl.at)
	t := v.dot(fl.in)
	foot := least(shallower, float64(fl.count)) * fl.tread
	side := math.Abs(v.dot(fl.across)) - fl.half
	end := most(t-foot, -fl.back-t)
	if side > 0 && end > 0 {
		return vec{side, end}.len()
	}
	return most(side, end)
}

// Tread is one step as it lies on the plan: its corners, the first two at its
// upper end, and its depth. The first reaches back over the rim.
type Tread struct {
	Corners [4]design.Point
	DepthM  float64
}

// Treads returns the steps of the flight from the edge down, or nothing.
func (f *Field) Treads() []Tread {
	fl := f.flight
	if fl == nil {
		return nil
	}
	out := make([]Tread, fl.count)
	corner := func(t, s float64) design.Point {
		return f.rim.frame.out(fl.at.plus(fl.in.times(t)).plus(fl.across.times(s)))
	}
	for k := range out {
		from, to := float64(k)*fl.tread, float64(k+1)*fl.tread
		if k == 0 {
			from = -fl.back
		}
		out[k] = Tread{
			Corners: [4]design.Point{corner(from, -fl.half), corner(from, fl.half), corner(to, fl.half), corner(to, -fl.half)},
			DepthM:  fl.riser * float64(k+1),
		}
	}
	return out
}

// crossings lists where a line from a to b, as shares of it, passes from one
// tread to another or onto or off the flight.
func (fl *flight) crossings(a, b vec) []float64 {
	ta, tb := fl.in.dot(a.minus(fl.at)), fl.in.dot(b.minus(fl.at))
	sa, sb := fl.across.dot(a.minus(fl.at)), fl.across.dot(b.minus(fl.at))
	var out []float64
	meet := func(va, vb, at float64) {
		if (va < at) == (vb < at) {
			return
		}
		k := (at - va) / (vb - va)
		t, s := ta+float64((tb-ta)*k), sa+float64((sb-sa)*k)
		const hair = 1e-9
		if math.Abs(s) <= fl.half*(1+hair) && t >= -fl.back && t <= fl.length()*(1+hair) {
			out = append(out, k)
		}
	}
	meet(sa, sb, -fl.half)
	meet(sa, sb, fl.half)
	for k := 1; k <= fl.count; k++ {
		meet(ta, tb, float64(k)*fl.tread)
	}
	return out
}
