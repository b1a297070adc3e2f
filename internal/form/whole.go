package form

import "tarnwright/internal/measure"

// Answers lists every last good answer, exact and in SI, and the units that
// are shown: all that a person decided about the pond.
func (s State) Answers() []Pair {
	pairs := []Pair{{string(Units), string(s.System)}}
	for i, q := range s.asks {
		pairs = append(pairs, Pair{string(q.field), q.exact(s.answers[i].good)})
	}
	return pairs
}

// Opened is the form with the answers of a list, taken together: one may be
// right only beside another. Names and answers that this form does not offer
// are left as they are in the form, and whole is false. When the pond as a
// whole cannot be worked out, what can be taken is taken one by one.
func Opened(d Defaults, kept []Pair) (s State, whole bool) {
	s, whole = New(d), true
	type known struct {
		i int
		v value
	}
	var all []known
	for _, p := range kept {
		if p.Name == string(Units) {
			if sys, ok := measure.SystemOf(p.Value); ok {
				s.System = sys
			}
			continue
		}
		i, q, ok := s.at(Field(p.Name))
		if !ok {
			whole = false
			continue
		}
		v, fault := q.read(p.Value, s.System)
		if fault != measure.OK {
			whole = false
			continue
		}
		all = append(all, known{i, v})
	}
	together := s
	for _, k := range all {
		together = together.changed(k.i, answer{in: s.System, good: k.v})
	}
	if len(d.faults(build(together))) == 0 {
		return together, whole
	}
	for _, k := range all {
		if s.refuses(k.i, s.asks[k.i], k.v) == nil {
			s = s.changed(k.i, answer{in: s.System, good: k.v})
		}
	}
	return s, false
}
