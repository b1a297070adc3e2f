package form

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/measure"
)

// State is the form as it stands. It is a value: every change returns a new
// one and leaves the old as it was, so a page can keep old ones for undo.
type State struct {
	// System is what the reader sees.
	System  measure.System
	base    *Defaults  // never changed
	asks    []question // the form, top to bottom; never changed
	answers []answer   // one for each question
	fresh   []answer   // those the form began with; never changed
}

// answer is one question's text and what it means.
type answer struct {
	typed bool   // text is what a person wrote; otherwise it is worked out from good
	text  string // as written
	in    measure.System
	good  value         // the last answer that could be used
	fault *design.Fault // why text cannot be used
}

// New is the form before anyone has typed.
func New(d Defaults) State {
	s := State{System: d.System, base: &d, asks: d.asks()}
	for _, q := range s.asks {
		v, fault := q.read(d.Answers[q.field], d.System)
		if fault != measure.OK && q.kind != points {
			panic("form: the default of " + string(q.field) + " cannot be read")
		}
		s.fresh = append(s.fresh, answer{in: d.System, good: v})
	}
	s.answers = s.fresh
	return s
}

// Defaults is what the form started from.
func (s State) Defaults() Defaults { return *s.base }

// Terms is how this form's reader sees figures.
func (s State) Terms() measure.Terms {
	return measure.Terms{System: s.System, Currency: s.base.Currency}
}

func (s State) at(f Field) (int, question, bool) {
	for i := range s.asks {
		if s.asks[i].field == f {
			return i, s.asks[i], true
		}
	}
	return 0, question{}, false
}

// changed is the state with one answer replaced; the old one is not touched.
func (s State) changed(i int, a answer) State {
	next := make([]answer, len(s.answers))
	copy(next, s.answers)
	next[i] = a
	s.answers = next
	return s
}

// Text is what stands in a field: what was typed, or the answer in the
// reader's own units when the system has changed since.
func (s State) Text(f Field) string {
	if f == Units {
		return string(s.System)
	}
	if f == Bill {
		return s.Bill()
	}
	i, q, ok := s.at(f)
	if !ok {
		return ""
	}
	a := s.answers[i]
	if a.typed && (a.fault != nil || a.in == s.System) {
		return a.text
	}
	if own, there := s.Bearing(f); there {
		return strconv.Itoa(round(own))
	}
	return q.show(a.good, s.Terms())
}

// Understood is the field's last good answer in the reader's units, and then
// in the other system: "12 ft 6 in", "3.81 m".
func (s State) Understood(f Field) (own, other string) {
	i, q, ok := s.at(f)
	if !ok {
		return "", ""
	}
	t := s.Terms()
	own = q.show(s.answers[i].good, t)
	t.System = measure.Metric
	if s.System == measure.Metric {
		t.System = measure.US
	}
	return own, q.show(s.answers[i].good, t)
}

// On tells whether a switch is on, or a choice is anything but "none".
func (s State) On(f Field) bool {
	i, _, ok := s.at(f)
	return ok && s.answers[i].good.word != "off" && s.answers[i].good.word != "none"
}

// Word is the last good answer of a choice: "bean", "w", "single".
func (s State) Word(f Field) string {
	i, _, ok := s.at(f)
	if !ok {
		return ""
	}
	return s.answers[i].good.word
}

// Value is the last good answer of a number, in SI, for sliders.
func (s State) Value(f Field) float64 {
	i, _, ok := s.at(f)
	if !ok {
		return 0
	}
	return s.answers[i].good.n
}

// Choices lists what a choice may be.
func (s State) Choices(f Field) []string {
	_, q, _ := s.at(f)
	return q.choices
}

// With is the form after a person has written text in a field. A text that
// cannot be used stays, with a fault, and the last good answer stands in.
func (s State) With(f Field, text string) State {
	if f == Units {
		s.System, _ = measure.SystemOf(text)
		return s
	}
	i, q, ok := s.at(f)
	if !ok {
		return s
	}
	a := s.answers[i]
	v, fault := q.read(text, s.System)
	a.typed, a.text, a.in, a.fault = true, text, s.System, nil
	if fault != measure.OK {
		a.fault = &design.Fault{Path: string(f), Code: code(q, fault), Args: []design.Arg{{Name: "value", Text: text}}}
		return s.changed(i, a)
	}
	if wrong := s.refuses(i, q, v); wrong != nil {
		a.fault = wrong
		return s.changed(i, a)
	}
	a.good = v
	return s.changed(i, a).agreed(f).billed(f)
}

// code is the fault's code; a word that is not among the choices is its own.
func code(q question, fault measure.Fault) string {
	if q.kind == choice {
		return "unknown_choice"
	}
	return string(fault)
}

// refuses tells why a design with this answer, and every other one as it
// stands, is not one the check can work out.
func (s State) refuses(i int, q question, v value) *design.Fault {
	if wrong := q.amiss(v); wrong != nil {
		return wrong
	}
	a := s.answers[i]
	a.good = v
	asked := build(s.changed(i, a))
	if pts, ok := readPoints(v.word); q.kind == points && ok && len(pts) > 0 {
		// Whatever the shape is now, these must be one.
		asked.Outline = design.Outline{Shape: design.Freehand, Handles: pts}
	}
	faults := s.base.faults(asked)
	if len(faults) == 0 {
		return nil
	}
	worst := faults[0]
	for _, f := range faults {
		if q.decides(f.Path) {
			worst = f
			break
		}
	}
	worst.Path = string(q.field)
	return &worst
}

// decides tells whether a place in the design comes from this question.
func (q question) decides(path string) bool {
	for _, p := range q.paths {
		if len(path) >= len(p) && path[:len(p)] == p {
			return true
		}
	}
	return false
}

// SetField is With, for callers that hold a field's name as text. A name that
// is no field changes nothing.
func (s State) SetField(name, text string) State { return s.With(Field(name), text) }

// Step is the form after plus (1) or minus (−1) on a field. It starts from the
// last good answer; a step that would leave the limits changes nothing.
func (s State) Step(f Field, up int) State {
	i, q, ok := s.at(f)
	if !ok {
		return s
	}
	if own, there := s.Bearing(f); there {
		return s.Turned(f, own+float64(up)*q.stepUS)
	}
	v, ok := q.step(s.answers[i].good, s.Terms(), up)
	if !ok || s.refuses(i, q, v) != nil {
		return s
	}
	return s.changed(i, answer{in: s.System, good: v})
}

func (s State) put(f Field, v value) State {
	i, _, ok := s.at(f)
	if !ok {
		return s
	}
	return s.changed(i, answer{in: s.System, good: v})
}

// Faults lists what is wrong, in the order of the form; Path is the field.
func (s State) Faults() []design.Fault {
	var faults []design.Fault
	for _, a := range s.answers {
		if a.fault != nil {
			faults = append(faults, *a.fault)
		}
	}
	return faults
}

// Fault is what is wrong with one field.
func (s State) Fault(f Field) (design.Fault, bool) {
	i, _, ok := s.at(f)
	if !ok || s.answers[i].fault == nil {
		return design.Fault{}, false
	}
	return *s.answers[i].fault, true
}

// Design is the design the answers mean, the last good one standing in for
// each that is at fault, and every fault. The design itself is always sound.
func (s State) Design() (design.Design, []design.Fault) { return build(s), s.Faults() }

// Notices lists answers that are possible but look like a slip of the unit;
// Path is the field. They stop nothing. The limits are common practice, no
// source.
func (s State) Notices() []design.Fault {
	const largeM, smallM, deepM = 30.48, 3.0, 3.6
	var out []design.Fault
	note := func(f Field, code string) {
		text, _ := s.Understood(f)
		out = append(out, design.Fault{Path: string(f), Code: code, Args: []design.Arg{{Name: "value", Text: text}}})
	}
	for _, f := range []Field{Length, Width} {
		switch m := s.Value(f); {
		case m > largeM:
			note(f, "large")
		case m < smallM:
			note(f, "small")
		}
	}
	if s.Value(Deep) > deepM {
		note(Deep, "deep")
	}
	return out
}
