package page

import (
	"strconv"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// Pumping is what the pump's view shows beside the chart and the head.
type Pumping struct {
	Easy string

	Models, Counts, Discharges, JetPipes, Stands []part.Option

	PipeTitle string
	Pipework  markup.Node
	PipeTable part.Table

	Schedule part.Table
	Advice   []string

	Why    []string
	Choice part.Table
	Note   string
	Tries  []Mend

	Notes []Note
	Asks  part.Table
	Jets  string // how the jets stand to the rest

	Suction  []part.Bar
	Lift     []string
	Cautions []string
	Cited    []string
}

func pumpView(m Model) []markup.Node {
	return []markup.Node{
		markup.E("section", markup.Class("settle"), markup.A("aria-labelledby", "settles"),
			markup.E("h1", markup.A("id", "settles"), m.Say("pump.title")),
			markup.E("div", markup.Class("chart"), m.PumpChart),
			markup.E("p", markup.Class(part.ClassNote+" easy"), m.Pumping.Easy),
			markup.E("h2", m.HeadTitle),
			markup.E("div", markup.Class("headbar"), m.HeadBar),
			tableOf(m.HeadTable, "headtable"),
			markup.E("h2", m.Pumping.PipeTitle),
			markup.E("div", markup.Class("headbar"), m.Pumping.Pipework),
			tableOf(m.Pumping.PipeTable, "pipetable"),
			choiceOf(m), forBuilder(m)),
		markup.E("section", markup.Class("side"), markup.A("id", "figures"), markup.A("tabindex", "-1"), markup.A("aria-labelledby", "plain"),
			markup.E("h2", markup.A("id", "plain"), m.Say("pump.plain")),
			markup.E("p", markup.Class("inwords"), m.Plain),
			tableOf(m.Power, "power"),
			markup.E("div", markup.Class("choices"), inThisDrawing(m),
				picked(m, form.Model, m.Pumping.Models), picked(m, form.Pumps, m.Pumping.Counts),
				picked(m, form.Pipe, m.Pipes), picked(m, form.Discharge, m.Pumping.Discharges), jetParts(m),
				picked(m, form.Stand, m.Pumping.Stands), number(m, form.Mouth), number(m, form.Grate),
				markup.E("div", markup.Class("update"), part.Button{Label: m.Say("page.update"), Form: part.DesignForm, ID: "update"}.Node())),
			pumpNotes(m), asksOf(m), suctionOf(m), beforeItRuns(m), monthBars(m)),
	}
}

func tableOf(t part.Table, class string) markup.Node {
	if len(t.Rows) == 0 {
		return markup.E("div", markup.Class(class))
	}
	return markup.E("div", markup.Class(class), t.Node())
}

func inThisDrawing(m Model) markup.Node {
	c := part.Choice{Label: part.Label{Field: string(form.Pump), Name: m.Say("pump.choose")}, Value: m.Answers[form.Pump].Text, Options: []part.Option{
		{Value: "single", Label: m.Say("ask.pump.single"), Name: m.Say("ask.pump.single.is")},
		{Value: "variable", Label: m.Say("ask.pump.variable"), Name: m.Say("ask.pump.var.is")}}}
	return c.Node()
}

// picked is a question answered from a list.
func picked(m Model, f form.Field, options []part.Option) markup.Node {
	if len(options) == 0 {
		return markup.E("div", markup.Class(part.ClassRow))
	}
	return markup.E("div", markup.Class(part.ClassRow),
		markup.E("label", markup.Class(part.ClassKey), markup.A("for", part.ID(string(f))), m.Say("ask."+string(f))),
		markup.E("span", markup.Class("months"), choose(m, f, options)),
		part.FaultLine(string(f), m.Answers[f].Fault))
}

// pumpNotes are the notes on pump and pipes, each with its source and the
// button that tries what would mend it.
func pumpNotes(m Model) markup.Node {
	var out []markup.Node
	for _, n := range m.Pumping.Notes {
		out = append(out, markup.E("li", part.Judgement(n.Care, n.Title), markup.E("p", n.Text), mends(n), cited(m, n)))
	}
	if len(out) == 0 {
		return markup.E("div")
	}
	return markup.E("ul", markup.Class("tries"), markup.A("aria-label", m.Say("pump.notes")), out)
}

func cited(m Model, n Note) markup.Node {
	if n.Source == "" {
		return markup.None()
	}
	return markup.E("details", markup.Class("cited"),
		markup.E("summary", m.Say("pump.source"), markup.E("span", markup.Class(part.ClassHidden), ": "+n.Title)),
		markup.E("p", markup.Class(part.ClassSource), n.Source))
}

func mends(n Note) markup.Node {
	var out []markup.Node
	for i, c := range n.Mends {
		out = append(out, part.Button{Label: c.Label, Href: c.Href, Act: c.Act, Ghost: true, ID: "try-" + n.Number + "-" + string(rune('a'+i))}.Node())
	}
	if len(out) == 0 {
		return markup.None()
	}
	return markup.E("p", markup.Class("acts"), out)
}

// choiceOf says which pump is chosen and why, with a button for each of the
// others.
func choiceOf(m Model) markup.Node {
	p := m.Pumping
	if len(p.Why) == 0 {
		return markup.E("div")
	}
	text := ""
	for i, w := range p.Why {
		if i > 0 {
			text += " "
		}
		text += w
	}
	var acts []markup.Node
	for i, t := range p.Tries {
		acts = append(acts, part.Button{Label: t.Label, Href: t.Href, Act: t.Act, Ghost: true, ID: "try-pump-" + strconv.Itoa(i)}.Node())
	}
	row := markup.None()
	if len(acts) > 0 {
		row = markup.E("p", markup.Class("acts"), acts)
	}
	return markup.E("section", markup.Class("why"), markup.A("aria-labelledby", "why"),
		markup.E("h2", markup.A("id", "why"), m.Say("view.why")), markup.E("p", text), row,
		tableOf(p.Choice, "choicetable"), markup.E("p", markup.Class(part.ClassNote), p.Note))
}

// forBuilder is what only the builder needs, folded away.
func forBuilder(m Model) markup.Node {
	if len(m.Pumping.Schedule.Rows) == 0 {
		return markup.E("div")
	}
	var lines []markup.Node
	for _, l := range m.Pumping.Advice {
		lines = append(lines, markup.E("p", l))
	}
	return markup.E("details", markup.Class("fold builder"), markup.E("summary", m.Say("view.builder")),
		part.Scroll(m.Pumping.Schedule.Caption, m.Pumping.Schedule.Node()), lines)
}

// asksOf is what asks for flow.
func asksOf(m Model) markup.Node {
	if len(m.Pumping.Asks.Rows) == 0 {
		return markup.E("div")
	}
	note := m.Say("view.asks.note")
	if m.Pumping.Jets != "" {
		note = m.Pumping.Jets
	}
	return markup.E("div", markup.Class("block"), markup.E("h2", m.Say("view.asks")), m.Pumping.Asks.Node(),
		markup.E("p", markup.Class(part.ClassNote), note))
}

// suctionOf is what keeps the pump full of water.
func suctionOf(m Model) markup.Node {
	if len(m.Pumping.Lift) == 0 {
		return markup.E("div")
	}
	var lines []markup.Node
	for _, l := range m.Pumping.Lift {
		lines = append(lines, markup.E("p", markup.Class(part.ClassNote), l))
	}
	return markup.E("div", markup.Class("block"), markup.E("h2", m.Say("view.lift")),
		part.Bars(m.Say("view.lift.bars"), "bar-suction", m.Pumping.Suction), lines)
}

// beforeItRuns are the cautions that hold for every pump in water that people
// swim in; they are never folded.
func beforeItRuns(m Model) markup.Node {
	var items []markup.Node
	for _, c := range m.Pumping.Cautions {
		items = append(items, markup.E("li", part.Judgement(true, c)))
	}
	var sources []markup.Node
	for _, c := range m.Pumping.Cited {
		sources = append(sources, markup.E("p", markup.Class(part.ClassSource), c))
	}
	return markup.E("div", markup.Class("block"), markup.E("h2", m.Say("pump.care")), markup.E("ul", items),
		markup.E("p", m.Say("pump.care.local")),
		markup.E("details", markup.Class("cited"), markup.E("summary", m.Say("pump.source"), markup.E("span", markup.Class(part.ClassHidden), ": "+m.Say("pump.care"))), sources))
}

func monthBars(m Model) markup.Node {
	if m.Bars.IsNone() {
		return markup.E("div")
	}
	return markup.E("div", markup.Class("months-chart"),
		markup.E("h2", m.Say("pump.months")), m.Bars, tableOf(m.BarTable, "monthtable"))
}
