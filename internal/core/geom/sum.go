package geom

import (
	"math"
)

// line is one of the depths that hold over a stretch of ray, straight in t.
type line struct {
	a, b  float64 // depth at either end
	slope float64 // of the bottom, depth per distance
	what  bottom
}

// bottom says what a line is the depth of.
type bottom uint8

const (
	onLaw bottom = iota // a wall or a beach
	onFloor
	onTread
)

// sum walks every strip.
func (f *Field) sum(strips []strip, levels []float64) *sums {
	s := newSums(levels)
	w := walker{f: f, s: s, step: f.rim.size / raySteps}
	for i := range strips {
		w.walk(&strips[i])
	}
	return s
}

// raySteps is how many pieces a ray as long as the pond is cut into where two
// distances decide the depth.
const raySteps = 28

// walker carries what is the same for every strip and room to work in.
type walker struct {
	f      *Field
	s      *sums
	st     *strip
	step   float64
	breaks []float64
	hint   [3]int
	seen   [3]seen
	room   [6]line
	active []follow
	halves [2][3]follow // of a piece
	spare  []follow     // of the pieces that are split at a knot
	speed  float64      // how fast the ray goes
}

func (w *walker) walk(st *strip) {
	if !(st.end > 0) {
		return
	}
	w.st, w.speed = st, st.dir.len()
	w.seen = [3]seen{{t: -1}, {t: -1}, {t: -1}}
	w.findBreaks()
	for k := 1; k < len(w.breaks); k++ {
		if w.breaks[k] > w.breaks[k-1] {
			w.stretch(w.breaks[k-1], w.breaks[k])
		}
	}
}

// findBreaks lists where the strip's own law, the floor or the width bends.
func (w *walker) findBreaks() {
	f, st := w.f, w.st
	bs := append(w.breaks[:0], 0)
	in := func(t float64) {
		if t > 0 && t < st.end {
			bs = append(bs, t)
		}
	}
	in(st.cut[0])
	for _, at := range f.laws[st.side].bowl.at {
		in(at)
	}
	if len(f.floor.at) > 0 {
		x0, dx := st.o.dot(f.axis), st.dir.dot(f.axis)
		for _, at := range f.floor.at {
			if dx != 0 {
				in((at - x0) / dx)
			}
		}
	}
	bs = append(bs, st.end)
	for i := 1; i < len(bs); i++ { // few, and mostly in order
		for k := i; k > 0 && bs[k] < bs[k-1]; k-- {
			bs[k], bs[k-1] = bs[k-1], bs[k]
		}
	}
	w.breaks = bs
}

// stretch sums from a to b, where each law but the other part's is straight.
func (w *walker) stretch(a, b float64) {
	f, st := w.f, w.st
	var lines [4]line
	n := 0
	lines[n] = line{a: f.deepM, b: f.deepM, what: onFloor}
	n++
	da, db, slope := f.laws[st.side].bowl.stretch(a, b)
	lines[n] = line{a: da, b: db, slope: slope}
	n++
	if len(f.floor.at) > 0 {
		x0, dx := st.o.dot(f.axis), st.dir.dot(f.axis)
		pa, pb := x0+float64(a*dx), x0+float64(b*dx)
		fa, fb, slope := f.floor.span(pa, pb)
		lines[n] = line{a: fa, b: fb, slope: slope}
		if slope == 0 {
			lines[n].what = onFloor
		}
		n++
	}
	top := math.Inf(1)
	for _, l := range lines[:n] {
		top = least(top, most(l.a, l.b))
	}
	w.others(a, b, lines[:n], top)
}

// span is stretch for places that may run either way along the axis.
func (p *profile) span(a, b float64) (da, db, slope float64) {
	if a <= b {
		return p.stretch(a, b)
	}
	db, da, slope = p.stretch(b, a)
	return da, db, slope
}

// follow is a law whose distance is not the ray's own, between two places on
// the ray: the distance at either and how fast it grows there.
type follow struct {
	law          side
	farT, farU   float64
	rateT, rateU float64
}

// others sums a stretch on which laws of other distances may decide. Their
// distances are followed by pieces, each as two straight halves through a
// middle that takes the bend of the distance from its derivatives.
func (w *walker) others(a, b float64, lines []line, top float64) {
	active := w.active[:0]
	for k := range w.f.laws {
		if !w.mayDecide(side(k)) || w.tooDeep(side(k), a, b, top) {
			continue
		}
		far, rate := w.distance(side(k), a)
		if w.f.laws[k].bowl.value(far-float64(w.speed*(b-a))) < top {
			active = append(active, follow{law: side(k), farU: far, rateU: rate})
		}
	}
	w.active = active
	if len(active) == 0 {
		w.lowest(a, b, lines)
		return
	}
	pieces := math.Ceil((b-a)/w.step - 1e-9)
	t := a
	for k := 1.0; k <= pieces; k++ {
		u := a + float64((b-a)*k/pieces)
		w.piece(span{a, b, t, u}, lines, top)
		t = u
	}
}

// seen is the last distance by a law that was looked up on the ray.
type seen struct{ t, far, rate float64 }

// tooDeep says, from the last distance looked up alone, that a law cannot be
// shallower than top from a to b: no distance changes faster than its place.
func (w *walker) tooDeep(s side, a, b, top float64) bool {
	k := w.seen[s]
	if k.t < 0 {
		return false
	}
	gap := most(math.Abs(a-k.t), math.Abs(b-k.t))
	return w.f.laws[s].bowl.value(k.far-float64(w.speed*gap)) >= top
}

// mayDecide says whether a law can be the least in this strip.
func (w *walker) mayDecide(s side) bool {
	if s == w.st.side || !w.f.laws[s].there() {
		return false
	}
	return s == descent || w.st.side == noSide || !w.f.ignores[w.st.side]
}

// span is from t to u within a stretch from a to b.
type span struct{ a, b, t, u float64 }

func (w *walker) piece(p span, lines []line, top float64) {
	quiet := true
	for i := range w.active {
		o := &w.active[i]
		o.farT, o.rateT = o.farU, o.rateU
		o.farU, o.rateU = w.distance(o.law, p.u)
		if w.f.laws[o.law].bowl.value(least(o.farT, o.farU)-float64(w.speed*(p.u-p.t)/2)) < top {
			quiet = false
		}
	}
	if quiet {
		w.part(p, lines, nil)
		return
	}
	m := (p.t + p.u) / 2
	first, second := &w.halves[0], &w.halves[1]
	for i := range w.active {
		o := w.active[i]
		straight := (o.farT + o.farU) / 2
		// An eighth of the change of rate is the bend; a third more gives the
		// straight halves the same mean as the bent line.
		mid := straight + float64((p.u-p.t)*(o.rateT-o.rateU)/6)
		if math.Abs(mid-straight) > 0.1*(p.u-p.t) { // a jump of the nearest place, not a bend
			mid, _ = w.distance(o.law, m)
		}
		first[i], second[i] = o, o
		first[i].farU, second[i].farT = mid, mid
	}
	n := len(w.active)
	w.part(span{p.a, p.b, p.t, m}, lines, first[:n])
	w.part(span{p.a, p.b, m, p.u}, lines, second[:n])
}

// distance returns how far the ray's point at t is by a law and how fast that
// grows.
func (w *walker) distance(s side, t float64) (far, rate float64) {
	if w.seen[s].t == t {
		return w.seen[s].far, w.seen[s].rate
	}
	l := &w.f.laws[s]
	p := w.st.o.plus(w.st.dir.times(t))
	far, w.hint[s] = l.distance(p, w.hint[s])
	if far > 0 {
		rate = -l.from.toward(p, w.hint[s]).dot(w.st.dir)
	}
	w.seen[s] = seen{t, far, rate}
	return far, rate
}

// part sums from t to u, on which every followed distance is straight; it is
// split where one of them passes a knot of its law.
func (w *walker) part(p span, lines []line, others []follow) {
	for i, o := range others {
		lo, hi := least(o.farT, o.farU), most(o.farT, o.farU)
		for _, at := range w.f.laws[o.law].bowl.at {
			if at <= lo+1e-12*hi || at >= hi-1e-12*hi {
				continue
			}
			k := (at - o.farT) / (o.farU - o.farT)
			if m := p.t + float64((p.u-p.t)*k); m > p.t && m < p.u {
				w.split(p, m, i, at, k, lines, others)
				return
			}
		}
	}
	n := 0
	ka, kb := (p.t-p.a)/(p.b-p.a), (p.u-p.a)/(p.b-p.a)
	within := &w.room
	for _, l := range lines {
		within[n] = line{a: l.a + float64((l.b-l.a)*ka), b: l.a + float64((l.b-l.a)*kb), slope: l.slope, what: l.what}
		n++
	}
	for _, o := range others {
		oa, ob, slope := w.f.laws[o.law].bowl.span(o.farT, o.farU)
		within[n] = line{a: oa, b: ob, slope: slope}
		n++
	}
	w.lowest(p.t, p.u, within[:n])
}

// split is part on either side of m, a share k of the way, where followed
// distance i passes a knot of its law.
func (w *walker) split(p span, m float64, i int, at, k float64, lines []line, others []follow) {
	from := len(w.spare)
	w.spare = append(append(w.spare, others...), others...)
	n := len(others)
	first, second := w.spare[from:from+n], w.spare[from+n:]
	for j, q := range others {
		mid := q.farT + float64((q.farU-q.farT)*k)
		if j == i {
			mid = at
		}
		first[j].farU, second[j].farT = mid, mid
	}
	w.part(span{p.a, p.b, p.t, m}, lines, first)
	w.part(span{p.a, p.b, m, p.u}, lines, second)
	w.spare = w.spare[:from]
}

// lowest follows the least of several straight lines from a to b.
func (w *walker) lowest(a, b float64, lines []line) {
	k := 0.0 // share of the way
	for k < 1 {
		best, next := 0, 1.0
		value, rise := math.Inf(1), math.Inf(1)
		for i := range lines {
			v, r := lines[i].a+float64((lines[i].b-lines[i].a)*k), lines[i].b-lines[i].a
			if v < value-1e-12 || (v <= value+1e-12 && r < rise) {
				best, value, rise = i, v, r
			}
		}
		for i := range lines {
			r := lines[i].b - lines[i].a
			if r >= rise {
				continue
			}
			v := lines[i].a + float64(r*k)
			if at := k + (v-value)/(rise-r); at > k+1e-12 && at < next {
				next = at
			}
		}
		l := &lines[best]
		w.add(a+float64((b-a)*k), a+float64((b-a)*next),
			line{a: value, b: l.a + float64((l.b-l.a)*next), slope: l.slope, what: l.what})
		k = next
	}
}
