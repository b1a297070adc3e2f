package geom

import "math"

// onto puts a ring that runs through squares of a lattice on the contour of a
// level: the middle of each stretch is moved square to it to where the field
// says, and so are the middles of its halves, as long as they stray.
func (f *Field) onto(level float64, ring []vec, step float64) []vec {
	c := closer{f: f, level: level, step: step}
	for i, a := range ring {
		c.out = append(c.out, a)
		c.between(a, ring[(i+1)%len(ring)], 0)
	}
	return c.out
}

type closer struct {
	f     *Field
	level float64
	step  float64
	hints [3]int
	out   []vec
}

// between adds what a stretch needs, the deeper water on its left.
func (c *closer) between(a, b vec, depth int) {
	const deepest = 3
	d := b.minus(a)
	long := d.len()
	if depth == deepest || long < 0.05*c.step {
		return
	}
	m := a.to(b, 0.5)
	off := c.room(m)
	if math.Abs(off) < 0.01*c.step {
		return
	}
	right := d.left().times(-1 / long)
	off = least(most(off, -c.step), c.step)
	q := m.plus(right.times(off))
	// One step of the secant: at a corner of the field the room falls slower
	// than the way.
	if left := c.room(q); left != off {
		if k := off / (off - left); k > 0 && k < 3 {
			q = m.plus(right.times(off * k))
		}
	}
	if math.Abs(c.room(q)) > math.Abs(off) {
		return
	}
	c.between(a, q, depth+1)
	c.out = append(c.out, q)
	c.between(q, b, depth+1)
}

// slips says whether a strip of one side of a contour lies hidden between two
// neighbours of the lattice that are both on the other side.
func (f *Field) slips(t *tracer, level float64) bool {
	l := t.l
	c := closer{f: f, level: level, step: l.step}
	for j := 1; j < l.ny-1; j++ {
		for i := 1; i < l.nx-1; i++ {
			k := j*l.nx + i
			if !l.water[k] {
				continue
			}
			for _, o := range [2]int{k + 1, k + l.nx} {
				a, b := t.phi[k], t.phi[o]
				// No room changes faster than the way.
				if !l.water[o] || (a > 0) != (b > 0) || math.Abs(a)+math.Abs(b) >= l.step {
					continue
				}
				mid := c.room(l.node(i, j).to(l.node(o%l.nx, o/l.nx), 0.5))
				if (mid > 0) != (a > 0) {
					return true
				}
			}
		}
	}
	return false
}

// room is how far a place lies inside what is at least as deep as the level,
// carried on across the rim as the lattice has it.
func (c *closer) room(p vec) float64 {
	f := c.f
	room, land, onLand := math.Inf(1), math.Inf(1), 0.0
	for s := range f.laws {
		l := &f.laws[s]
		if !l.there() {
			continue
		}
		far, near := l.distance(p, c.hints[s])
		c.hints[s] = near
		reach := most(l.bowl.reach(c.level), 0)
		room = least(room, far-reach)
		if side(s) != descent && far < land {
			land, onLand = far, -far-reach
		}
	}
	if land < c.step && !f.inside(p) {
		room = onLand
	} else if len(f.floor.at) > 0 {
		room = least(room, f.floor.above(c.level, p.dot(f.axis)))
	}
	if f.flight != nil {
		room = least(room, f.flight.room(c.level, p))
	}
	return room
}
