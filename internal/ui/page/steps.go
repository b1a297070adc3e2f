package page

import (
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// Stepped is a pond with one answer a step further, and what the core said.
type Stepped struct {
	Field form.Field
	Form  form.State
	Sheet *sheet.Sheet
}

// Sensitivity is what one step of each answer does to the yearly bill.
type Sensitivity struct {
	Open  bool
	Show  Mend
	Lede  string
	Chart markup.Node
	Table part.Table
}

// stepsOf are the answers that are stepped.
func stepsOf() []form.Field {
	return []form.Field{form.Length, form.Width, form.Deep, form.ZoneArea, form.Lip, form.Rise, form.Sheet, form.Jets, form.Pipe, form.Discharge,
		form.To, form.CascadeHours, form.Power, form.HomeUse, form.Water}
}

// StepsAsked lists the ponds to work out for the sensitivity of the one whose
// months are shown; none while nobody looks at it.
func (s State) StepsAsked() []Stepped {
	if s.View != CompareView || !s.Steps {
		return nil
	}
	all := s.Options()
	f := all[min(s.Months, len(all)-1)].Form
	was := f.Values().Encode()
	var out []Stepped
	for _, q := range stepsOf() {
		next := f.Step(q, 1)
		if understood(next, q) == understood(f, q) {
			next = next.Step(q, 1) // so short a step that it reads the same
		}
		if skipped(f, q) || next.Values().Encode() == was {
			continue
		}
		out = append(out, Stepped{Field: q, Form: next})
	}
	return out
}

func sensitivity(s State, a Answered, k Kit) Sensitivity {
	w := k.Words
	arg := "steps " + strconv.Itoa(s.Months)
	out := Sensitivity{Open: s.Steps, Show: Mend{Label: w.Say("compare.steps.show"), Act: part.Act{Name: ActCompare, Arg: arg},
		Href: Update(s, Action{Name: ActCompare, Arg: arg}).Address()}}
	if !s.Steps {
		return out
	}
	out.Show.Label = w.Say("compare.steps.hide")
	all := s.Options()
	at := min(s.Months, len(all)-1)
	if at >= len(a.Beside) {
		return out
	}
	f, v := all[at].Form, view.Of(a.Beside[at].Sheet, w, s.Form.Terms())
	now, ok := v.Bill(variable(f))
	if !ok || len(a.Steps) == 0 {
		out.Lede = w.Say("view.duty.none")
		return out
	}
	out.Lede = w.Say("compare.steps.lede", letter(at), now)
	var asked []view.Step
	for _, x := range a.Steps {
		asked = append(asked, view.Step{Name: askName(w, x.Field), Step: w.Say("compare.steps.from", answerWords(w, x.Field, understood(f, x.Field)), answerWords(w, x.Field, understood(x.Form, x.Field))),
			Variable: variable(x.Form), View: view.Of(x.Sheet, w, s.Form.Terms())})
	}
	chart := drawing.StepBars{Caption: drawing.Caption{ID: "cmp-steps", Title: w.Say("compare.steps.title"), Says: out.Lede}}
	out.Table = part.Table{Caption: w.Say("compare.steps.title"), Heads: []string{w.Say("compare.steps.what"), w.Say("compare.steps.step"), w.Say("compare.steps.by")},
		Fold: w.Say("page.as_table")}
	short := chart
	short.ID, short.WidthPx = "cmp-steplets", 300
	for _, r := range v.Steps(variable(f), asked) {
		short.Bars = append(short.Bars, drawing.StepBar{Name: r.Name, Text: r.By, Amount: r.Amount})
		chart.Bars = append(chart.Bars, drawing.StepBar{Name: r.Name + ", " + r.Step, Text: r.By, Amount: r.Amount})
		out.Table.Rows = append(out.Table.Rows, []part.Cell{{Text: r.Name}, {Text: r.Step}, {Text: r.By}})
	}
	out.Chart = markup.E("div", markup.Class("drawn"), markup.E("div", markup.Class("at-wide"), chart.Node()), markup.E("div", markup.Class("at-narrow"), short.Node()))
	return out
}

// variable tells whether the pump that is drawn can slow down.
func variable(f form.State) bool { return f.Word(form.Pump) == "variable" }

// steps is the chart, or what opens it: working it out takes a moment.
func steps(_ State, m Model) markup.Node {
	x := m.Compare.Steps
	button := part.Button{Label: x.Show.Label, Href: x.Show.Href, Act: x.Show.Act, Ghost: true, ID: "steps"}.Node()
	kids := []markup.Node{markup.E("h2", m.Say("compare.steps.title"))}
	if x.Open {
		kids = append(kids, markup.E("p", markup.Class(part.ClassNote), x.Lede), x.Chart, tableOf(x.Table, "steptable"))
	}
	return markup.E("div", markup.Class("cmp-steps"), kids, markup.E("p", markup.Class("acts"), button))
}
