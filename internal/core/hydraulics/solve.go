package hydraulics

import (
	"errors"
	"math"
)

// wallSPerM2 is how steeply a check valve or a pump resists backward flow
// while the set of open links is being found, in m of head per m³/s: stiff
// enough that what leaks is lost in the last digits of any real flow.
const wallSPerM2 = 1e8

// leastSlope keeps Newton's step finite where a link's slope vanishes.
const leastSlope = 1e-7

// mostSteps bounds the descent; the reference networks take under twenty.
const mostSteps = 400

// link is a pipe or a running pump during a solve.
type link struct {
	from, to int
	pipe     *Resistance
	head     *Head
	speed    float64
	oneWay   bool
	shut     bool
	q        float64
	seed     float64
	d        float64 // Newton's step
	h, slope float64
}

// loss returns the fall in head from From to To at q, rising in q.
func (l *link) loss(q float64) (h, slope float64) {
	if l.oneWay && q < 0 {
		if l.head != nil {
			h, _ = l.head.At(0, l.speed)
		}
		return -h + wallSPerM2*q, wallSPerM2
	}
	if l.head != nil {
		h, slope = l.head.At(q, l.speed)
		return -h, -slope
	}
	h, slope, l.seed = l.pipe.loss(q, l.seed)
	return h, slope
}

// solver holds a network being solved.
type solver struct {
	links    []link
	fixed    []bool
	heads    []float64
	known    []bool
	row      []int // of each junction in the linear system, −1 if none
	matrix   []float64
	right    []float64
	junction int
	steps    int
}

// Solve finds the flow in every link and the head at every junction.
//
// The flows are the least of a convex function, the content: what each link
// would take, summed, with water in balance at every junction. Friction rises
// and pump curves fall with flow, so there is one answer. Newton's step on
// flows and heads together gives a direction that always falls; a line search
// on the slope along it makes every step safe from any start. Check valves and
// pumps are walls against backward flow; the links that end against their wall
// are shut and the rest is solved again without them.
//
// Source: todini1988.
// Checked: reference/hydraulics.json, 40 networks, to 1e-6 against exact
// Colebrook–White and Hazen–Williams, and to 1e-5 against the EPANET engine
// with its own law and constants.
func Solve(n Network) (Solution, error) {
	if faults := n.Check(); len(faults) > 0 {
		return Solution{}, errors.Join(faults...)
	}
	s := newSolver(n)
	for range len(s.links) + 2 {
		s.reach()
		s.descend()
		if !s.shutOrOpen() {
			break
		}
	}
	return s.answer(n), nil
}

func newSolver(n Network) *solver {
	if n.Settings.Law == "" {
		n.Settings.Law = Colebrook
	}
	index := make(map[string]int, len(n.Nodes))
	s := &solver{fixed: make([]bool, len(n.Nodes)), heads: make([]float64, len(n.Nodes)),
		known: make([]bool, len(n.Nodes)), row: make([]int, len(n.Nodes))}
	for i, v := range n.Nodes {
		index[v.ID] = i
		s.fixed[i] = v.Surface
		if v.Surface {
			s.heads[i] = v.HeadM
		}
	}
	s.links = make([]link, 0, len(n.Pipes)+len(n.Pumps))
	for _, p := range n.Pipes {
		r := ready(p, n.Settings)
		s.links = append(s.links, link{from: index[p.From], to: index[p.To], pipe: &r, oneWay: p.CheckValve,
			q: math.Pi * p.InsideDiameterM * p.InsideDiameterM / 4})
	}
	for _, p := range n.Pumps {
		h, _ := NewHead(p.Curve) // checked above
		s.links = append(s.links, link{from: index[p.From], to: index[p.To], head: &h, speed: p.SpeedRatio, oneWay: true,
			shut: p.Off, q: h.most * p.SpeedRatio / 2})
	}
	return s
}

// reach finds which nodes open links join to a water surface, and numbers the
// junctions among them.
func (s *solver) reach() {
	copy(s.known, s.fixed)
	for again := true; again; {
		again = false
		for i := range s.links {
			l := &s.links[i]
			if !l.shut && s.known[l.from] != s.known[l.to] {
				s.known[l.from], s.known[l.to], again = true, true, true
			}
		}
	}
	s.junction = 0
	for i := range s.row {
		s.row[i] = -1
		if s.known[i] && !s.fixed[i] {
			s.row[i] = s.junction
			s.junction++
		}
	}
	for i := range s.links {
		l := &s.links[i]
		if l.shut || !s.known[l.from] || !s.known[l.to] {
			l.q, l.d = 0, 0
		}
	}
	if need := s.junction * s.junction; len(s.matrix) < need {
		s.matrix, s.right = make([]float64, need), make([]float64, s.junction)
	}
}

// runs says whether a link takes part.
func (s *solver) runs(l *link) bool { return !l.shut && s.known[l.from] && s.known[l.to] }

// fineShare is the share of the largest flow under which a step is rounding or
// close to it: taken whole, without a search.
const fineShare = 1e-9

// leastFlow is the flow, in m³/s, against which a network at rest is judged.
const leastFlow = 1e-5

// descend takes Newton's steps until they no longer move any flow.
func (s *solver) descend() {
	last := math.Inf(1)
	for k := range mostSteps {
		s.newton()
		most, step := leastFlow, 0.0
		for i := range s.links {
			l := &s.links[i]
			step = math.Max(step, math.Abs(l.d))
			most = math.Max(most, math.Abs(l.q))
		}
		t := 1.0
		if k > 0 && step > fineShare*most { // the first step only brings the flows into balance
			t = s.search()
		}
		for i := range s.links {
			s.links[i].q += t * s.links[i].d
		}
		s.steps++
		if k > 0 && (step <= 1e-12*most || step <= fineShare*most && step >= last/2) {
			return
		}
		last = step
	}
}

// newton solves for the heads and sets each link's step.
func (s *solver) newton() {
	n := s.junction
	m, b := s.matrix[:n*n], s.right[:n]
	clear(m)
	clear(b)
	for i := range s.links {
		if l := &s.links[i]; s.runs(l) {
			l.h, l.slope = l.loss(l.q)
			l.slope = math.Max(l.slope, leastSlope)
			s.stamp(l, m, b)
		}
	}
	cholesky(m, b, n)
	for i, r := range s.row {
		if r >= 0 {
			s.heads[i] = b[r]
		}
	}
	for i := range s.links {
		if l := &s.links[i]; s.runs(l) {
			l.d = (s.heads[l.from] - s.heads[l.to] - l.h) / l.slope
		}
	}
}

// stamp adds a link to the balance of its two ends.
func (s *solver) stamp(l *link, m, b []float64) {
	g := 1 / l.slope
	w := l.q - g*l.h
	n := s.junction
	f, t := s.row[l.from], s.row[l.to]
	if f >= 0 {
		m[f*n+f] += g
		b[f] -= w
		if t < 0 {
			b[f] += g * s.heads[l.to]
		}
	}
	if t >= 0 {
		m[t*n+t] += g
		b[t] += w
		if f < 0 {
			b[t] += g * s.heads[l.from]
		}
	}
	if f >= 0 && t >= 0 {
		m[f*n+t] -= g
		m[t*n+f] -= g
	}
}

// cholesky solves m x = b in place for a symmetric positive m.
func cholesky(m, b []float64, n int) {
	for j := range n {
		d := m[j*n+j]
		for k := range j {
			d -= m[j*n+k] * m[j*n+k]
		}
		d = math.Sqrt(math.Max(d, math.SmallestNonzeroFloat64))
		m[j*n+j] = d
		for i := j + 1; i < n; i++ {
			v := m[i*n+j]
			for k := range j {
				v -= m[i*n+k] * m[j*n+k]
			}
			m[i*n+j] = v / d
		}
	}
	for i := range n {
		for k := range i {
			b[i] -= m[i*n+k] * b[k]
		}
		b[i] /= m[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			b[i] -= m[k*n+i] * b[k]
		}
		b[i] /= m[i*n+i]
	}
}

// search returns how much of the step to take: the slope of the content along
// it must have fallen to half or less, on either side of the least.
func (s *solver) search() float64 {
	start := s.along(0)
	if start >= 0 { // nothing left to gain but rounding
		return 1
	}
	lo, hi, t := 0.0, math.Inf(1), 1.0
	for range 80 {
		g := s.along(t)
		switch {
		case math.Abs(g) <= -start/2:
			return t
		case g < 0:
			lo = t
		default:
			hi = t
		}
		if math.IsInf(hi, 1) {
			t *= 2
		} else {
			t = lo + (hi-lo)/2
		}
	}
	return t
}

// along is the slope of the content at a share of the step.
func (s *solver) along(t float64) float64 {
	sum := 0.0
	for i := range s.links {
		l := &s.links[i]
		if !s.runs(l) {
			continue
		}
		h := l.h
		if t > 0 {
			h, _ = l.loss(l.q + t*l.d)
		}
		sum += float64((h - (s.heads[l.from] - s.heads[l.to])) * l.d)
	}
	return sum
}

// shutOrOpen shuts the one-way links that lean on their wall; it says whether
// anything changed.
func (s *solver) shutOrOpen() bool {
	changed := false
	for i := range s.links {
		l := &s.links[i]
		if l.oneWay && s.runs(l) && l.q < 0 {
			l.shut, changed = true, true
		}
	}
	return changed
}

// stillShare is the share of the largest flow under which a link counts as
// standing still.
const stillShare = 1e-9

func (s *solver) answer(n Network) Solution {
	most := leastFlow
	for i := range s.links {
		most = math.Max(most, math.Abs(s.links[i].q))
	}
	a := Solution{Steps: s.steps, Links: make([]LinkFlow, 0, len(s.links)), Nodes: make([]NodeHead, 0, len(n.Nodes))}
	for i, p := range n.Pipes {
		l := &s.links[i]
		h, _ := l.loss(math.Max(l.q, floorOf(l)))
		f := LinkFlow{ID: p.ID, FlowM3PerS: l.q, HeadM: h, VelocityMPerS: VelocityMPerS(l.q, p.InsideDiameterM), State: Flowing}
		switch {
		case l.shut:
			f.State = Checked
		case math.Abs(l.q) <= stillShare*most:
			f.State = Still
		}
		a.Links = append(a.Links, f)
	}
	for i, p := range n.Pumps {
		l := &s.links[len(n.Pipes)+i]
		f := pumpFlow(l, p)
		a.PumpedM3PerS += f.FlowM3PerS
		a.Links = append(a.Links, f)
	}
	for i, v := range n.Nodes {
		h := NodeHead{ID: v.ID, HeadM: s.heads[i], Known: s.known[i]}
		if !h.Known {
			h.HeadM = 0
		}
		a.Nodes = append(a.Nodes, h)
	}
	return a
}

func floorOf(l *link) float64 {
	if l.oneWay {
		return 0
	}
	return math.Inf(-1)
}

func pumpFlow(l *link, p Pump) LinkFlow {
	f := LinkFlow{ID: p.ID, FlowM3PerS: l.q, State: Flowing}
	if p.Off {
		f.State = Off
		return f
	}
	f.HeadM, _ = l.head.At(l.q, l.speed)
	switch {
	case l.shut:
		f.State = DeadHead
	case l.q > l.head.most*p.SpeedRatio*(1+1e-9):
		f.State = Beyond
	}
	return f
}
