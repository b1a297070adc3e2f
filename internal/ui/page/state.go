package page

import (
	"net/url"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
)

// State is what the page remembers. It is a value: Update returns a new one.
type State struct {
	Form   form.State
	View   View
	Part   string // the group of questions a narrow page shows
	Ask    string // how the questions are asked: AskSteps, AskAll, or "" as the width says
	Sheets bool   // the builder's page is printed as well
	Live   bool   // script runs
	Framed bool   // the page stands in another one, which keeps nothing
	Lang   string // the language that was chosen, "" for the browser's own

	Contact lead.Contact
	Checked bool // the contact was sent once, so its faults are shown as it is mended
	Faults  []lead.Fault
	Trouble string // why an enquiry has not gone: busy, failed, too_many, already_sent, design
	Sending bool
	Sent    string // the reference, once it has gone
	Key     string // made once for an enquiry

	Status string // the sentence of the status line
	Fix    string // the id of what should have the focus after this action

	Rings    []sheet.XY  // where the outline can be pulled, in metres
	Chosen   int         // the ring in hand, counted from 1
	RingText [2]string   // what was typed for its two places
	Held     string      // the grip in hand, by its name
	Centre   sheet.XY    // the middle of the water
	Ends     [2]sheet.XY // of the section
	Zoom     Near

	Beside // the ponds that are compared
	Device // what the page knows of the device it is on

	undo, redo []past
	last       string // what the last change touched, so that typing is one step
}

// Names in the address that are the page's own.
const (
	ViewName = "view"
	PartName = "part"
)

// New reads a state out of the page's address.
func New(v url.Values, d form.Defaults) State {
	s := State{Form: form.Read(v, d), View: viewOf(v.Get(ViewName)), Part: partOf(v.Get(PartName)), Lang: langOf(v.Get(LangName)),
		Ask: askOf(v.Get(AskName)), Sheets: v.Get(SheetsName) == bothSheets}.gone(v.Get(GoName))
	return readBeside(s, v, d)
}

func viewOf(name string) View {
	switch v := View(name); v {
	case PumpView, CompareView, SendView:
		return v
	}
	return DrawView
}

func partOf(name string) string {
	for _, p := range parts() {
		if p == name {
			return p
		}
	}
	return parts()[0]
}

// Address is the page's address for a state; nothing about a person is in it.
func (s State) Address() string { return s.address(s.Form, s.View) }

// address is the page's address with another pond in hand, in a view.
func (s State) address(f form.State, view View) string {
	v := f.Values()
	for _, p := range s.besidePairs() {
		v.Add(p.Name, p.Value)
	}
	if view != DrawView {
		v.Set(ViewName, string(view))
	}
	if s.Lang != "" {
		v.Set(LangName, s.Lang)
	}
	for _, p := range s.manner() {
		v.Set(p.Name, p.Value)
	}
	if len(v) == 0 {
		return "/"
	}
	return "/?" + v.Encode()
}

// CanUndo tells whether there is a step to take back.
func (s State) CanUndo() bool { return len(s.undo) > 0 }

// CanRedo tells whether there is a step to take again.
func (s State) CanRedo() bool { return len(s.redo) > 0 }
