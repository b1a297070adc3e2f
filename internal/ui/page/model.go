// Package page is what is on the page and what each action does to it: a state
// and a model go in, a tree comes out. The server writes the tree as HTML and
// the widget shows the same one. It works nothing out and touches no browser.
package page

import (
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// View names what the page shows.
type View string

// The views.
const (
	DrawView View = "draw"
	PumpView View = "pump"
	// CompareView sets up to three ponds side by side.
	CompareView View = "compare"
	SendView    View = "send"
)

// views lists them in the order of the tabs.
func views() []View { return []View{DrawView, PumpView, CompareView, SendView} }

// Builder is the pond builder as the page names it.
type Builder struct {
	Name            string // "Fernhollow Ponds"
	Short           string // "Fernhollow"
	Email, Phone    string
	PrivacyURL      string
	RetentionMonths string
	Invented        bool
	Logo            string // address of a picture, or nothing
}

// Answer is one question as it stands.
type Answer struct {
	Text  string // what was typed, or the value in the units shown
	Fault string
	Note  string
}

// Note is one of the things to know.
type Note struct {
	Number string
	Care   bool
	Title  string
	Text   string
	Source string
	Place  sheet.Place
	Mends  []Mend
}

// Mend is a change that a note offers.
type Mend struct {
	Label, Href string
	Act         part.Act
}

// Model is everything the tree shows, as text and drawings.
type Model struct {
	Say      func(key string, args ...string) string
	Builder  Builder
	Project  string
	Answers  map[form.Field]Answer
	Pipes    []part.Option
	Months   []part.Option
	Region   Region
	Drawn    string // which of several ponds is in hand
	LastGood bool   // the figures are of the last pond that could be worked out

	Links   map[View]string
	Hidden  []Pair // the whole design, as the form names it
	Another string // the address of a fresh start

	Drawing markup.Node // plan and section
	Outline string      // why the outline cannot be a pond, and where
	RingAt  [2]string   // where the chosen ring is, east and north
	Held    string      // where the thing in hand is
	Tables  []part.Table
	Pinned  markup.Node // plan with numbered notes
	Thumb   markup.Node
	Shapes  map[string]markup.Node
	Slide   part.Slider

	Readings  []part.Reading // their bodies are pictures
	Dock      []Dock
	Judged    []view.Note // the two shown beside the readings
	Noted     int         // how many notes there are
	Notes     []Note      // all of them, where they are read
	Moves     Moves
	Paper     markup.Node // the printed page
	Marks     part.Table
	Pumping   Pumping
	PumpChart markup.Node
	HeadTitle string
	HeadBar   markup.Node
	HeadTable part.Table
	Plain     string // how the pump settles, in plain words
	Compare   Compare
	Power     part.Table
	Bars      markup.Node
	BarTable  part.Table
	Spoken    string // one sentence for the status line

	kept *kept
}

// kept holds parts of a tree from one frame to the next; those that do not
// follow a person's pace are used again.
type kept struct {
	pace  Pace
	parts map[string]markup.Node

	answers map[form.Field]Answer // as they stood in the last frame
	behind  map[string]bool       // the groups of questions that no longer read so
}

func newKept(answers map[form.Field]Answer) *kept {
	return &kept{parts: map[string]markup.Node{}, answers: answers, behind: map[string]bool{}}
}

// follow notes which groups of questions other answers make read otherwise.
func (k *kept) follow(answers map[form.Field]Answer) {
	for f, a := range answers {
		if a != k.answers[f] {
			k.behind[groupOf(f)] = true
		}
	}
	k.answers = answers
}

// group is a group of questions, which is left as it is while a number of
// another group is typed.
func (m Model) group(name string, make func() markup.Node) markup.Node {
	from := Typing
	if m.kept != nil && m.kept.behind[name] {
		from = InHand
		delete(m.kept.behind, name)
	}
	return m.part("group-"+name, from, make)
}

// part is a part of the tree that is left as it is at some paces.
func (m Model) part(name string, from Pace, make func() markup.Node) markup.Node {
	if m.kept == nil {
		return make()
	}
	if n, ok := m.kept.parts[name]; ok && m.kept.pace >= from {
		return n
	}
	n := make()
	m.kept.parts[name] = n
	return n
}

// Pair is a name and a value of the form.
type Pair struct{ Name, Value string }

// Dock is one reading of the bar at the bottom of a phone.
type Dock struct {
	Title  string
	Figure part.Figure
}
