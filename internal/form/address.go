package form

import (
	"net/url"
	"strconv"
	"strings"

	"tarnwright/internal/measure"
)

// Names in the page's address beside the fields.
const (
	// Kept carries last good answers, exact, of fields whose text does not
	// say them: "length:10.3632m;deep:1.9812m".
	Kept = "kept"
	// Sent marks an address that a whole form wrote, so a switch that is
	// missing is off.
	Sent = "sent"
	// HadName carries the pump from the list that stood in a form when it was
	// shown.
	HadName = "had"
	// StepName is the submit button of plus and minus: "length+", "length-".
	StepName = "step"
	// SetName is the submit button of an offered change: "pipe=4", or several:
	// "pipe=4;discharge=4".
	SetName = "set"
)

// Pair is a name and a value of a hidden field.
type Pair struct{ Name, Value string }

// Read makes the form out of an address. A name that is missing has its
// default; a text that shows a kept or a default answer, in either system,
// is that answer, so changing units back and forth loses nothing.
func Read(v url.Values, d Defaults) State {
	s := New(d)
	if sys, ok := measure.SystemOf(last(v, Units)); ok {
		s.System = sys
	}
	kept := readKept(last(v, Kept))
	sent, priced := v.Get(Sent) != "", false
	moved := v.Has(WasName) && v.Get(WasName) != last(v, Place)
	for i, q := range s.asks {
		if q.field == Power && moved {
			continue // the price beside the old place
		}
		if text, ok := kept[q.field]; ok {
			if val, fault := q.read(text, s.System); fault == measure.OK && s.refuses(i, q, val) == nil {
				s = s.changed(i, answer{in: s.System, good: val})
			}
		}
		text := last(v, q.field)
		if !v.Has(string(q.field)) {
			if !sent || len(q.choices) != 2 || q.choices[1] != "off" {
				continue
			}
			text = "off"
		}
		if q.field == Bill && (moved || priced) && v.Get(WasBill) == text {
			continue // sent back as it was, beside another place or a price just typed
		}
		price := s.Word(Power)
		s = s.heard(i, q, text)
		priced = priced || q.field == Power && s.Word(Power) != price
	}
	// Where the pump from the list is the one that stood there before, a kind
	// that does not go with it is what the person has just chosen.
	if sent && v.Get(HadName) == last(v, Model) && v.Has(string(Pump)) {
		s = s.With(Pump, last(v, Pump))
	}
	return s.pressed(v)
}

// heard takes a submitted text, unless it only repeats what was shown.
func (s State) heard(i int, q question, text string) State {
	if own, ok := s.Bearing(q.field); ok && strings.TrimSuffix(strings.TrimSpace(text), "°") == strconv.Itoa(round(own)) {
		return s
	}
	t := s.Terms()
	said := strings.Replace(strings.Join(strings.Fields(text), " "), " ft²", " sq ft", 1) // as other languages write it
	for _, sys := range measure.Systems() {
		t.System = sys
		if said == q.show(s.answers[i].good, t) {
			return s
		}
	}
	return s.With(q.field, text)
}

// pressed does what the submit button asked for.
func (s State) pressed(v url.Values) State {
	if step := v.Get(StepName); len(step) > 1 {
		name, way := step[:len(step)-1], step[len(step)-1]
		switch way {
		case '+':
			s = s.Step(Field(name), 1)
		case '-':
			s = s.Step(Field(name), -1)
		}
	}
	return s.Set(v.Get(SetName))
}

// Set makes one or several offered changes: "pipe=4;discharge=4".
func (s State) Set(changes string) State {
	for _, c := range strings.Split(changes, ";") {
		if name, text, ok := strings.Cut(c, "="); ok {
			s = s.SetField(name, text)
		}
	}
	return s
}

// last is the last value of a name: a switch writes "off" before "on".
func last(v url.Values, f Field) string {
	all := v[string(f)]
	if len(all) == 0 {
		return ""
	}
	return all[len(all)-1]
}

func readKept(text string) map[Field]string {
	kept := map[Field]string{}
	for _, pair := range strings.Split(text, ";") {
		if name, val, ok := strings.Cut(pair, ":"); ok {
			kept[Field(name)] = strings.ReplaceAll(val, "_", ";")
		}
	}
	return kept
}

// Values is the shortest address that Read makes this form of.
func (s State) Values() url.Values {
	v := url.Values{}
	if s.System != s.base.System {
		v.Set(string(Units), string(s.System))
	}
	kept := ""
	for i, q := range s.asks {
		a := s.answers[i]
		if a.fault != nil {
			v.Set(string(q.field), a.text)
			kept += s.keep(i, q)
			continue
		}
		if a.good != s.usual(i, q) {
			v.Set(string(q.field), q.short(a.good, s.Terms()))
		}
	}
	if kept != "" {
		v.Set(Kept, strings.TrimPrefix(kept, ";"))
	}
	return v
}

// Pond is the same for all forms of one pond, in whichever units it is shown.
func (s State) Pond() string {
	s.System = s.base.System
	return s.Values().Encode()
}

// Ground is the same for all forms of ponds that are dug, planted and piped
// alike, whatever they cost to run.
func (s State) Ground() string {
	next := make([]answer, len(s.answers))
	copy(next, s.answers)
	for i, q := range s.asks {
		switch q.field {
		case Place, Power, Water, Bill, HomeUse, From, To, CascadeHours, Night, Winter:
			next[i] = s.fresh[i]
		}
	}
	s.answers = next
	return s.Pond()
}

// keep writes one last good answer when it is not the default.
func (s State) keep(i int, q question) string {
	if q.kind == choice || s.answers[i].good == s.usual(i, q) || q.exact(s.answers[i].good) == "" {
		return ""
	}
	return ";" + string(q.field) + ":" + strings.ReplaceAll(q.exact(s.answers[i].good), ";", "_")
}

// Hidden lists the hidden fields a plain form carries, so that what is shown
// rounded is not lost by sending it.
func (s State) Hidden() []Pair {
	kept := ""
	for i, q := range s.asks {
		kept += s.keep(i, q)
	}
	pairs := []Pair{{Sent, "1"}, {HadName, s.Word(Model)}, {WasName, s.Word(Place)}, {WasBill, s.Bill()}}
	if kept != "" {
		pairs = append(pairs, Pair{Kept, kept[1:]})
	}
	if h := s.Word(Handles); h != "" {
		pairs = append(pairs, Pair{string(Handles), h})
	}
	return pairs
}
