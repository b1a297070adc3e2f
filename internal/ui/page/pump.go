package page

import (
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

func pumpView(m Model) []markup.Node {
	return []markup.Node{
		markup.E("section", markup.Class("settle"), markup.A("aria-labelledby", "settles"),
			markup.E("h1", markup.A("id", "settles"), m.Say("pump.title")),
			markup.E("div", markup.Class("chart"), m.PumpChart),
			markup.E("h2", m.HeadTitle),
			markup.E("div", markup.Class("headbar"), m.HeadBar),
			tableOf(m.HeadTable, "headtable")),
		markup.E("section", markup.Class("side"), markup.A("id", "figures"), markup.A("tabindex", "-1"), markup.A("aria-labelledby", "plain"),
			markup.E("h2", markup.A("id", "plain"), m.Say("pump.plain")),
			markup.E("p", markup.Class("inwords"), m.Plain),
			tableOf(m.Power, "power"),
			markup.E("div", markup.Class("choices"), inThisDrawing(m), pipeChoice(m),
				markup.E("div", markup.Class("update"), part.Button{Label: m.Say("page.update"), Form: part.DesignForm, ID: "update"}.Node())),
			pumpNotes(m),
			monthBars(m)),
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

func pipeChoice(m Model) markup.Node {
	if len(m.Pipes) == 0 {
		return markup.E("div", markup.Class(part.ClassRow))
	}
	return markup.E("div", markup.Class(part.ClassRow),
		markup.E("label", markup.Class(part.ClassKey), markup.A("for", part.ID(string(form.Pipe))), m.Say("ask.pipe")),
		markup.E("span", markup.Class("months"), choose(m, form.Pipe, m.Pipes)),
		part.FaultLine(string(form.Pipe), m.Answers[form.Pipe].Fault))
}

// pumpNotes are the notes that offer a change, with the buttons to try it.
func pumpNotes(m Model) markup.Node {
	var out []markup.Node
	for _, n := range m.Notes {
		if len(n.Mends) == 0 {
			continue
		}
		out = append(out, markup.E("li", part.Judgement(n.Care, n.Title), markup.E("p", n.Text), mends(n)))
	}
	if len(out) == 0 {
		return markup.E("div")
	}
	return markup.E("ul", markup.Class("tries"), out)
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

func monthBars(m Model) markup.Node {
	if m.Bars.IsNone() {
		return markup.E("div")
	}
	return markup.E("div", markup.Class("months-chart"),
		markup.E("h2", m.Say("pump.months")), m.Bars, tableOf(m.BarTable, "monthtable"))
}
