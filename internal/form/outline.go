package form

import "tarnwright/internal/core/design"

// WithHandles is the form after a ring was moved, added or taken away: a free
// shape through these points, with the size they have. Points that make no
// pond are kept as an attempt at fault, and the last good outline stands in.
func (s State) WithHandles(pts []design.Point) State {
	text := writePoints(pts)
	pts, ok := readPoints(text)
	if !ok || text == "" {
		return s
	}
	i, q, _ := s.at(Handles)
	if wrong := s.refuses(i, q, value{word: text}); wrong != nil {
		a := s.answers[i]
		a.typed, a.text, a.in, a.fault = true, text, s.System, wrong
		return s.changed(i, a)
	}
	lo, hi := bounds(pts)
	next := s.put(Shape, value{word: "free"}).put(Handles, value{word: text})
	return next.put(Length, value{n: tidy(hi.XM - lo.XM)}).put(Width, value{n: tidy(hi.YM - lo.YM)})
}

// Attempt is the outline that was last drawn and cannot be a pond, with what
// is wrong with it. ok is false when there is none.
func (s State) Attempt() (pts []design.Point, fault design.Fault, ok bool) {
	i, _, _ := s.at(Handles)
	a := s.answers[i]
	if a.fault == nil {
		return nil, design.Fault{}, false
	}
	pts, readable := readPoints(a.text)
	return pts, *a.fault, readable && len(pts) > 0
}

// Mended is the form with the last good outline in place of the attempt.
func (s State) Mended() State {
	i, _, _ := s.at(Handles)
	if s.answers[i].fault == nil {
		return s
	}
	return s.changed(i, answer{in: s.System, good: s.answers[i].good})
}
