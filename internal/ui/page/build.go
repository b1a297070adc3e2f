package page

import (
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// Answered is what the core said to the pond in a state.
type Answered struct {
	Sheet *sheet.Sheet
	Plan  sheet.Plan
	// Trial is the outline that was last drawn and cannot be a pond; empty
	// when it can.
	Trial sheet.Plan
	// Beside holds the answer of each of State.Options, in order, where the
	// view compares them; Steps what a step of each answer comes to.
	Beside []Answered
	Steps  []Stepped
}

// Kit is what does not change while the page is open.
type Kit struct {
	Words   say.Words
	Builder Builder
	Project string
	Grid    string // where the grid's carbon comes from
	// RegionsYear is the year of the regions' average prices.
	RegionsYear string
}

// Build words and draws everything the page shows.
func Build(s State, a Answered, k Kit) Model {
	m, _ := Paint(s, a, k, Easel{})
	return m
}

// word words everything the page shows, drawings aside.
func word(s State, v view.View, k Kit) Model {
	m := Model{Say: k.Words.Say, Builder: k.Builder, Project: k.Project,
		Answers: answers(s, k.Words), Links: links(s), Hidden: append(append(hidden(s), s.langPairs()...), s.manner()...), Another: s.fresh(),
		Drawn:  drawn(s, k.Words),
		Region: regionOf(s, k), Months: months(k.Words), Pipes: pipeOptions(s, form.Pipe), Shapes: map[string]markup.Node{},
		Spoken: v.Spoken()}
	m = follow(m, s, v, k.Words)
	m.Noted, m.Judged = v.Noted(), v.Judged()
	if s.View == SendView {
		for _, n := range v.Notes() {
			m.Notes = append(m.Notes, note(s, k.Words, n))
		}
	}
	return m
}

// follow words what follows a finger: the figures.
func follow(m Model, s State, v view.View, w say.Words) Model {
	m.LastGood, m.Readings, m.Dock = len(s.Form.Faults()) > 0, nil, nil
	for _, r := range v.Readings() {
		shown := reading(r, w)
		if r.Staff != nil {
			shown.Body = staffOf(r, v)
		}
		m.Readings = append(m.Readings, shown)
	}
	for _, d := range v.Dock() {
		m.Dock = append(m.Dock, Dock{Title: d.Title, Figure: figure(d.Figure)})
	}
	return m
}

// asked lists the questions in the order of the form.
func asked() []form.Field {
	return []form.Field{form.Units, form.Shape, form.Length, form.Width, form.Handles, form.Deep, form.Beach, form.BeachSlope,
		form.Shelf, form.Steps, form.Zone, form.ZoneArea, form.Cascade, form.Lip, form.Rise, form.Deck, form.Place, form.Power, form.Water,
		form.From, form.To, form.Pump, form.Model, form.Pumps, form.Pipe, form.Discharge, form.Stand, form.Mouth, form.Grate, form.Fence, form.Patio, form.FirePit,
		form.BeachAt, form.ZoneAt, form.CascadeAt, form.StepsAt, form.DeckAt, form.PumpAt, form.IntakeAt, form.Cut,
		form.Sheet, form.Jets, form.Nozzle, form.JetPipe, form.CascadeHours, form.Night, form.Winter, form.Bill, form.HomeUse}
}

func answers(s State, w say.Words) map[form.Field]Answer {
	out := map[form.Field]Answer{}
	for _, f := range asked() {
		a := Answer{Text: inWords(w, s.Form.Text(f))}
		if fault, ok := s.Form.Fault(f); ok {
			a.Fault = w.Fault(fault, s.Form.Terms())
		}
		out[f] = a
	}
	for _, n := range s.Form.Notices() {
		if a := out[form.Field(n.Path)]; a.Fault == "" {
			a.Note = w.Notice(n, s.Form.Terms())
			out[form.Field(n.Path)] = a
		}
	}
	return out
}

func links(s State) map[View]string {
	out := map[View]string{}
	for _, v := range views() {
		out[v] = s.address(s.Form, v)
	}
	return out
}

// hidden is the whole pond as a form sends it.
func hidden(s State) []Pair {
	var out []Pair
	seen := map[string]bool{}
	add := func(name, value string) {
		if !seen[name] {
			seen[name] = true
			out = append(out, Pair{name, value})
		}
	}
	for _, p := range s.Form.Hidden() {
		add(p.Name, p.Value)
	}
	for _, f := range asked() {
		if text := s.Form.Text(f); text != "" {
			add(string(f), text)
		}
	}
	return append(out, s.besidePairs()...)
}

func months(w say.Words) []part.Option {
	var out []part.Option
	for m := 1; m <= 12; m++ {
		out = append(out, part.Option{Value: measure.MonthName(m)[:3], Label: w.Month(m)})
	}
	return out
}

func pipeOptions(s State, f form.Field) []part.Option {
	var out []part.Option
	for _, name := range s.Form.Choices(f) {
		out = append(out, part.Option{Value: name, Label: name + " in"})
	}
	return out
}

// figure keeps a number apart from its unit; a lone text, like 6 ft 6 in, is
// all number.
func figure(s measure.Shown) part.Figure { return part.Figure{Value: s.Number, Unit: s.Unit} }

func reading(r view.Reading, w say.Words) part.Reading {
	out := part.Reading{ID: "r-" + r.ID, Title: r.Title, Big: r.Big, Join: r.Join, Note: r.Note,
		How: part.How{Title: r.Title, Prompt: w.Say("page.how"), Lines: r.How}}
	for _, c := range r.Cited {
		out.How.Cited = append(out.How.Cited, w.Say("page.source", c))
	}
	for _, f := range r.Figures {
		out.Figures = append(out.Figures, figure(f))
	}
	var bars []part.Bar
	for _, b := range r.Bars {
		bars = append(bars, part.Bar{Label: b.Label, Amount: b.Amount.String(), Share: b.Share, Solid: b.Solid})
	}
	out.Body = part.Bars(r.Title, "bar-"+r.ID, bars)
	return out
}

func tableFrom(t view.Table) part.Table {
	out := part.Table{Caption: t.Caption, Heads: t.Heads, Total: t.Total}
	for i, r := range t.Rows {
		var row []part.Cell
		for _, c := range r {
			row = append(row, part.Cell{Text: c, Large: t.Total && i == len(t.Rows)-1})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

func note(s State, w say.Words, n view.Note) Note {
	out := Note{Number: n.Number, Care: n.Care, Title: n.Title, Text: n.Text, Source: n.Cited, Place: n.Place}
	if n.Defers != "" {
		out.Text = strings.TrimSpace(out.Text + " " + n.Defers)
	}
	if len(n.Mend) > 0 {
		out.Mends = []Mend{mend(s, w, n.Mend)}
	}
	if len(n.Else) > 0 {
		out.Mends = append(out.Mends, mend(s, w, n.Else))
	}
	return out
}

// tryWords names an offered change: its own words where there are some, or
// else the question and the answer.
func tryWords(w say.Words, c sheet.Change, own string) string {
	for _, key := range []string{"try." + c.Field + "." + c.Value, "try." + c.Field} {
		if w.Has(key) {
			return w.Say(key, own)
		}
	}
	return w.Say("pump.try", w.Say("ask."+c.Field)+" "+own)
}

// Levels are the depths at which the plan is banded: every foot, or every
// 0.3 m, down to the deepest.
func Levels(s State) []float64 {
	stepM := StepM(s.Form.System)
	var out []float64
	for i := 1; float64(i)*stepM < s.Form.Value(form.Deep) && i <= 40; i++ {
		out = append(out, float64(i)*stepM)
	}
	return out
}

// StepM is the distance of two contours.
func StepM(sys measure.System) float64 {
	if sys == measure.Metric {
		return 0.3
	}
	lengthM, _ := measure.ParseLength("1 ft", measure.US)
	return lengthM
}
