package page

import (
	"net/url"
	"strings"

	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/part"
)

// Action is what a person did: the act's name, what it was done to, and the
// value of the control.
type Action struct{ Name, Arg, Value string }

// The acts of the page; they are the data-act of its controls.
const (
	ActField   = "field"   // a question was answered: field, text
	ActStep    = "step"    // plus or minus: "length+"
	ActSlide   = "slide"   // a slider: field, number in its own small unit
	ActSet     = "set"     // an offered change: "pipe=4", or several: "pipe=4;discharge=4"
	ActView    = "view"    // a tab
	ActPart    = "part"    // a group of questions
	ActGo      = "goto"    // another step, or another way to be asked
	ActReturn  = "return"  // where the browser's history leads: the query of an address
	ActUndo    = "undo"    // one step back
	ActRedo    = "redo"    // and on again
	ActRing    = "ring"    // a ring was put somewhere: index, "x,y" in metres
	ActNudge   = "nudge"   // a ring was moved by so much: index, "dx,dy" in metres
	ActChoose  = "choose"  // a ring was taken in hand: index, or "" for none
	ActContact = "contact" // a contact field: name, text
	ActSend    = "send"    // the enquiry should go; Value is a fresh key
	ActSent    = "sent"    // it went: reference
	ActFailed  = "failed"  // it did not: code
	ActFaults  = "faults"  // the server found faults: "email:no_at name:missing"
	ActFocus   = "focus"   // a link to a field
	ActStatus  = "status"  // the status line says
)

// most is how many steps can be taken back.
const most = 50

// Update is the state after an action. An act it does not know changes nothing.
func Update(s State, a Action) State {
	s.Fix = ""
	if begins(a) {
		s.Blank = false
	}
	if next, ok := s.reshaped(a); ok {
		return next
	}
	if next, ok := s.compared(a); ok {
		return next
	}
	if next, ok := s.onDevice(a); ok {
		return next
	}
	switch a.Name {
	case ActView:
		s.View, s.Chosen, s.Held, s.last = viewOf(a.Arg), 0, "", ""
		s.Fix = "tab-" + string(s.View)
	case ActPart:
		s.Part = partOf(a.Value)
	case ActGo:
		s = s.gone(a.Arg)
	case ActReturn:
		s = s.returned(a.Arg)
	case ActUndo:
		return s.back()
	case ActRedo:
		return s.onward()
	case ActChoose, ActHold, ActZoom, ActPan:
		return s.held(a)
	case ActFocus:
		s.Fix = a.Arg
	case ActStatus:
		s.Status = a.Value
	}
	return s.told(a)
}

// reshaped handles the acts that change the pond.
func (s State) reshaped(a Action) (State, bool) {
	var next form.State
	switch a.Name {
	case ActField:
		next = s.Form.With(form.Field(a.Arg), a.Value)
	case ActStep:
		if len(a.Arg) < 2 {
			return s, true
		}
		up := 1
		if strings.HasSuffix(a.Arg, "-") {
			up = -1
		}
		next = s.Form.Step(form.Field(a.Arg[:len(a.Arg)-1]), up)
	case ActSlide:
		next = s.slid(form.Field(a.Arg), a.Value)
	case ActSet:
		if !strings.Contains(a.Arg, "=") {
			return s, true
		}
		next = s.Form.Set(a.Arg)
	default:
		return s.handled(a)
	}
	return s.changed(next, a.Name+" "+a.Arg), true
}

// Follows tells whether an action changes a number, as happens many times in a
// row: a key, a slider, a button held down.
func Follows(a Action) bool {
	field := a.Arg
	switch a.Name {
	case ActStep:
		field = strings.TrimRight(a.Arg, "+-")
	case ActField, ActSlide:
	default:
		return false
	}
	switch form.Field(field) {
	case form.Length, form.Width, form.Deep, form.BeachSlope, form.ZoneArea, form.Lip, form.Rise, form.Power, form.HomeUse, form.Water:
		return true
	}
	return false
}

// changed keeps the pond as it was for undo. Typing in one field, sliding and
// dragging are one step until something else is touched; each press of a
// button is its own.
func (s State) changed(next form.State, touched string) State {
	if s.Blank {
		return s.begun(next, touched)
	}
	goesOn := touched == s.last && !strings.HasPrefix(touched, ActStep) && !strings.HasPrefix(touched, ActNudge) && !strings.HasPrefix(touched, ActTurn)
	if !goesOn {
		s = s.remembered()
	}
	s.Form, s.redo, s.last = next, nil, touched
	return s
}

// past is what undo brings back: the pond in hand and those beside it.
type past struct {
	pond   form.State
	beside Beside
}

// remembered keeps the ponds as they are for undo; what was undone is gone.
func (s State) remembered() State {
	s.undo = append(s.undo[:len(s.undo):len(s.undo)], past{s.Form, s.Beside})
	if len(s.undo) > most {
		s.undo = s.undo[len(s.undo)-most:]
	}
	s.redo, s.last = nil, ""
	return s
}

func (s State) back() State {
	if len(s.undo) == 0 {
		return s
	}
	n := len(s.undo) - 1
	s.redo = append(s.redo[:len(s.redo):len(s.redo)], past{s.Form, s.Beside})
	s.Form, s.Beside, s.undo, s.last, s.Chosen = s.undo[n].pond, s.undo[n].beside, s.undo[:n], "", 0
	return s
}

func (s State) onward() State {
	if len(s.redo) == 0 {
		return s
	}
	n := len(s.redo) - 1
	s.undo = append(s.undo[:len(s.undo):len(s.undo)], past{s.Form, s.Beside})
	s.Form, s.Beside, s.redo, s.last, s.Chosen = s.redo[n].pond, s.redo[n].beside, s.redo[:n], "", 0
	return s
}

// slid reads the slider's number in its small unit and writes the answer as a
// person would.
func (s State) slid(f form.Field, text string) form.State {
	unit := " in"
	if s.Form.System == measure.Metric {
		unit = " cm"
	}
	lengthM, fault := measure.ParseLength(text+unit, s.Form.System)
	if fault != measure.OK {
		return s.Form
	}
	shown := s.Form.Terms().Length(lengthM).String()
	return s.Form.With(f, strings.ReplaceAll(shown, "\u00a0", " "))
}

// told handles the acts of the enquiry.
func (s State) told(a Action) State {
	switch a.Name {
	case ActContact:
		s.Contact = contactWith(s.Contact, a.Arg, a.Value)
		if s.Checked {
			s.Faults = lead.Check(lead.Clean(s.Contact))
		}
	case ActSend:
		return s.sent(a.Value)
	case ActSent:
		s.Sending, s.Trouble, s.Sent, s.Key, s.Checked, s.Faults = false, "", a.Arg, "", false, nil
		s.Contact = lead.Contact{} // nothing is kept for the next visitor
		s.Fix = "sent"
	case ActFailed:
		s.Sending, s.Trouble = false, a.Arg
		if a.Arg == "already_sent" {
			s.Key = "" // what was changed since is a new enquiry, if it is sent once more
		}
		s.Fix = "send"
	case ActFaults:
		s.Sending, s.Checked, s.Faults = false, true, faultsOf(a.Value)
		s.Fix = "summary"
	}
	return s
}

// sent starts an enquiry on its way, or shows what is wrong with it. The key
// is made once and kept until it has gone.
func (s State) sent(key string) State {
	if s.Sending {
		return s
	}
	s.Checked, s.Trouble = true, ""
	s.Faults = lead.Check(lead.Clean(s.Contact))
	if len(s.Faults) > 0 {
		s.Fix = "summary"
		return s
	}
	if s.Key == "" {
		s.Key = key
	}
	s.Sending = true
	return s
}

func faultsOf(text string) []lead.Fault {
	var out []lead.Fault
	for _, w := range strings.Fields(text) {
		if field, code, ok := strings.Cut(w, ":"); ok {
			out = append(out, lead.Fault{Field: field, Code: code})
		}
	}
	return out
}

func contactWith(c lead.Contact, field, text string) lead.Contact {
	switch field {
	case lead.FieldName:
		c.Name = text
	case lead.FieldEmail:
		c.Email = text
	case lead.FieldPhone:
		c.Phone = text
	case lead.FieldTown:
		c.Town = text
	case lead.FieldStart:
		c.Start = text
	case lead.FieldNote:
		c.Note = text
	case lead.FieldConsent:
		c.Consent = text == "on"
	}
	return c
}

// FieldID is the id of a question's control, for callers that restore focus.
func FieldID(f form.Field) string { return part.ID(string(f)) }

// ContactValues writes a contact as a form sends it.
func ContactValues(c lead.Contact) url.Values {
	v := url.Values{}
	for name, text := range map[string]string{lead.FieldName: c.Name, lead.FieldEmail: c.Email, lead.FieldPhone: c.Phone,
		lead.FieldTown: c.Town, lead.FieldStart: c.Start, lead.FieldNote: c.Note} {
		if text != "" {
			v.Set(name, text)
		}
	}
	if c.Consent {
		v.Set(lead.FieldConsent, "on")
	}
	return v
}

// ContactOf reads a contact out of a sent form.
func ContactOf(v url.Values) lead.Contact {
	c := lead.Contact{}
	for _, f := range []string{lead.FieldName, lead.FieldEmail, lead.FieldPhone, lead.FieldTown, lead.FieldStart, lead.FieldNote, lead.FieldConsent} {
		c = contactWith(c, f, v.Get(f))
	}
	c.Start = strings.TrimSpace(c.Start)
	return c
}
