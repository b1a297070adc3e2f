package geom

import "math"

// deepestPlace returns where the pond is deepest, and how deep it is there.
// Where the deepest part is wide it is the place in it that is furthest from
// its edge; of several, the one nearest to the centroid.
func (f *Field) deepestPlace(nodes []node, strips []strip, level float64) (place vec, depth float64) {
	if level < 0 {
		return f.rim.centroid, 0
	}
	best, room := f.roomiest(strips, level)
	if room > 1e-6*f.rim.size {
		const fine = 1e-4 // of the size: where it is wide, nobody sees more
		return f.climb(best, fine, func(p vec) (float64, float64) { return f.room(level, p) }), level
	}
	// A point or a ridge: follow the depth itself, from where rays are cut.
	top := func(p vec) (float64, float64) {
		_, rim := f.room(level, p)
		return f.depth(p), rim
	}
	depth, _ = top(best)
	for i := range nodes {
		p := nodes[i].p.plus(nodes[i].vel.times(nodes[i].cut))
		if d := f.depth(p); d > depth*(1+1e-9) && f.inside(p) {
			best, depth = p, d
		}
	}
	best = f.climb(best, 1e-5, top)
	return best, f.depth(best)
}

// roomiest looks along the strips for the place with the most room.
func (f *Field) roomiest(strips []strip, level float64) (best vec, room float64) {
	snug := 1e-7 * f.rim.size
	near := 0.0
	try := func(st *strip, share float64) {
		p := st.o.plus(st.dir.times(st.end * share))
		r, _ := f.room(level, p)
		n := p.minus(f.rim.centroid).len()
		if (r > room+snug || (r >= room-snug && n < near-snug)) && f.inside(p) {
			best, room, near = p, r, n
		}
	}
	best, room = f.rim.centroid, math.Inf(-1)
	if r, _ := f.room(level, f.rim.centroid); f.inside(f.rim.centroid) {
		best, room = f.rim.centroid, r
	}
	try(longest(strips), 1) // first, so that most others need no look
	const looks = 90
	for i := 0; i < len(strips); i += 1 + len(strips)/looks {
		st := &strips[i]
		own := f.laws[st.side].bowl.reach(level)
		for _, share := range [3]float64{1, 0.75, 0.5} {
			if st.end*share-own < room-snug {
				break
			}
			try(st, share)
		}
	}
	return best, room
}

// longest returns the strip that reaches furthest from the rim.
func longest(strips []strip) *strip {
	best := &strips[0]
	for i := range strips {
		if strips[i].end > best.end {
			best = &strips[i]
		}
	}
	return best
}

// room is how far a place lies inside what is at least as deep as level,
// negative outside, and how far it is from the rim.
func (f *Field) room(level float64, p vec) (room, rim float64) {
	room, rim = math.Inf(1), math.Inf(1)
	for k := range f.laws {
		if l := &f.laws[k]; l.there() {
			far, _ := l.distance(p, 0)
			room = least(room, far-most(l.bowl.reach(level), 0))
			if side(k) != descent {
				rim = least(rim, far)
			}
		}
	}
	if len(f.floor.at) > 0 {
		room = least(room, f.floor.above(level, p.dot(f.axis)))
	}
	if f.flight != nil {
		room = least(room, f.flight.room(level, p))
	}
	return room, rim
}

// climb moves to where there is more of something, by ever smaller steps in
// eight directions tied to the outline and turned from step to step, so that a
// ridge is followed whichever way it runs. The second value of more is how far
// the place is from the rim; the last step is the fine share of the size.
func (f *Field) climb(p vec, fine float64, more func(vec) (value, rim float64)) vec {
	const ways, shrink, golden = 8, 0.6, 2.399963229728653
	u := f.all.edges[0].u
	best, rim := more(p)
	turn, left := 0.0, 600
	if !f.inside(p) {
		return p // on land there is always more room further off
	}
	for step := f.rim.size / 32; step > f.rim.size*fine; step *= shrink {
		turn += golden
		for moved := true; moved && left > 0; left-- {
			moved = false
			for i := range ways {
				s, c := math.Sincos(turn + 2*math.Pi*float64(i*3%ways)/ways)
				q := p.plus(u.times(c * step)).plus(u.left().times(s * step))
				if step >= rim && !f.inside(q) {
					continue
				}
				if v, m := more(q); v > best+1e-3*step {
					p, best, rim, moved = q, v, m, true
					break
				}
			}
		}
	}
	return p
}

// longestThrough returns the ends of the longest straight line over the water
// through p: the best of many directions, then narrowed by golden section.
func (r Rim) longestThrough(p vec) (from, to vec) {
	const tries = 90
	base := r.pts[0].minus(p)
	start := math.Atan2(base.y, base.x)
	best, angle := -1.0, start
	for i := range tries {
		a := start + math.Pi*float64(i)/tries
		if l := r.chord(p, a).length(); l > best*(1+1e-12) {
			best, angle = l, a
		}
	}
	const golden = 0.6180339887498949
	lo, hi := angle-math.Pi/tries, angle+math.Pi/tries
	for range 20 {
		a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if r.chord(p, a).length() > r.chord(p, b).length() {
			hi = b
		} else {
			lo = a
		}
	}
	if mid := (lo + hi) / 2; r.chord(p, mid).length() > best {
		angle = mid
	}
	c := r.chord(p, angle)
	return p.plus(c.dir.times(-c.back)), p.plus(c.dir.times(c.ahead))
}

// chord is a straight line over the water through a place.
type chord struct {
	dir         vec
	ahead, back float64
}

func (c chord) length() float64 { return c.ahead + c.back }

// chord returns the line through p at an angle, as far as the water goes.
func (r Rim) chord(p vec, angle float64) chord {
	s, c := math.Sincos(angle)
	out := chord{dir: vec{c, s}, ahead: math.Inf(1), back: math.Inf(1)}
	n := len(r.pts)
	prev := r.pts[n-1].minus(p)
	prevSide := out.dir.cross(prev)
	for _, q := range r.pts {
		d := q.minus(p)
		side := out.dir.cross(d)
		if (side > 0) != (prevSide > 0) {
			at := prev.to(d, prevSide/(prevSide-side)).dot(out.dir)
			if at >= 0 {
				out.ahead = least(out.ahead, at)
			} else {
				out.back = least(out.back, -at)
			}
		}
		prev, prevSide = d, side
	}
	if math.IsInf(out.ahead, 0) || math.IsInf(out.back, 0) {
		out.ahead, out.back = 0, 0
	}
	return out
}
