package page

import (
	"net/url"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// ActEach answers one question for all ponds that are compared: field, text.
// They stand on one site, whose power costs the same whichever is built.
const ActEach = "each"

// Names by which a form sends that answer, and what stood there before. Sent
// back as it was, it answers nothing.
const (
	eachName    = "each"
	eachWasName = "each_was"
)

// Each is the question that is asked for all ponds at once.
type Each struct {
	Field       form.Field
	Name, Note  string
	Text, Fault string
	Differs     string // the words for ponds that have answers of their own
}

// each is which question that is: the price of power, or, where the builder's
// tariff sets the price of all, what the home takes without the pond.
func (s State) each() form.Field {
	for _, o := range s.Options() {
		if o.Form.Bill() != "tariff" {
			return form.Power
		}
	}
	return form.HomeUse
}

// eachText is what stands there for all; nothing, where they differ.
func (s State) eachText() (text string, alike bool) {
	f := s.each()
	text = s.Form.Text(f)
	_, wrong := s.Form.Fault(f)
	for _, o := range s.Options() {
		_, too := o.Form.Fault(f)
		if o.Form.Text(f) != text && (wrong || too || understood(o.Form, f) != understood(s.Form, f)) {
			return "", false
		}
	}
	return text, true
}

// answeredForAll gives all ponds an answer. Typing on is one step for undo.
func (s State) answeredForAll(f form.Field, text string) State {
	if f != s.each() {
		return s
	}
	touched := ActEach + " " + string(f)
	if s.last != touched {
		s = s.remembered()
	}
	s = s.allWith(f, text)
	s.redo, s.last = nil, touched
	return s
}

// allWith is the state with one answer in every pond.
func (s State) allWith(f form.Field, text string) State {
	all := s.Options()
	for i := range all {
		all[i].Form = all[i].Form.With(f, text)
	}
	return s.withOptions(all, s.At)
}

// readEach takes the answer out of a form that was sent without script.
func (s State) readEach(v url.Values) State {
	text := v.Get(eachName)
	if !v.Has(eachName) || text == v.Get(eachWasName) {
		return s
	}
	return s.allWith(s.each(), text)
}

func (c comparing) each() Each {
	e := Each{Field: c.s.each(), Note: c.w.Say("compare.each")}
	e.Name = c.w.Say("ask." + string(e.Field))
	text, alike := c.s.eachText()
	e.Text = inWords(c.w, text)
	if !alike {
		e.Differs = c.w.Say("compare.differs")
	}
	if fault, ok := c.s.Form.Fault(e.Field); ok && alike {
		e.Fault = c.w.Fault(fault, c.s.Form.Terms())
	}
	return e
}

func compareEach(m Model) markup.Node {
	e := m.Compare.Each
	return markup.E("div", markup.Class("cmp-each"),
		part.Number{Label: part.Label{Field: eachName, Name: e.Name, Note: e.Note}, Value: e.Text, Fault: e.Fault, Wide: true,
			Placeholder: e.Differs, Act: part.Act{Name: ActEach, Arg: string(e.Field)}}.Node(),
		markup.E("input", markup.A("type", "hidden"), markup.A("name", eachWasName), markup.A("form", part.DesignForm), markup.A("value", e.Text)),
		markup.E("div", markup.Class("update"), part.Button{Label: m.Say("page.update"), Form: part.DesignForm, Ghost: true, ID: "update-each"}.Node()))
}
