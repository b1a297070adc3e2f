package page

import (
	"strconv"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// Ids that the style sheet, the widget and the tests know.
const (
	RootID   = "tarnwright"
	StatusID = "status"
	LeadForm = "lead"
)

// Tree is the whole page.
func Tree(s State, m Model) markup.Node {
	class := "tw v-" + string(s.View)
	if s.Ask != "" {
		class += " ask-" + s.Ask
	}
	if s.Live {
		class += " live"
	}
	figures := "#figures"
	if s.Blank && s.View == DrawView {
		figures = "#" + BeginID
	}
	return markup.E("div", markup.A("id", RootID), markup.Class(class), markup.A("data-view", string(s.View)),
		markup.E("a", markup.Class("skip"), markup.A("href", figures), m.Say("page.skip")),
		m.part("form", InHand, func() markup.Node { return designForm(s, m) }),
		m.part("header", InHand, func() markup.Node { return header(s, m) }),
		m.part("device", InHand, func() markup.Node { return device(s, m) }),
		markup.E("main", markup.Class("main"), markup.A("id", "main"), body(s, m)),
		m.part("footer", Typing, func() markup.Node { return footer(s, m) }),
		markup.E("p", markup.Class(part.ClassHidden), markup.A("id", StatusID), markup.A("role", "status"), markup.A("aria-atomic", "true"), s.Status))
}

func body(s State, m Model) []markup.Node {
	switch s.View {
	case PumpView:
		return pumpView(m)
	case CompareView:
		return compareView(s, m)
	case SendView:
		return sendView(s, m)
	}
	if s.Blank {
		return beginView(m)
	}
	return drawView(s, m)
}

// designForm holds what the view does not show; its first button is what the
// Enter key presses, so that no stepper is.
func designForm(s State, m Model) markup.Node {
	shown := shownFields(s.View)
	var hidden []markup.Node
	pairs := m.Hidden
	if s.View != DrawView { // where the radio buttons say it
		pairs = append(pairs[:len(pairs):len(pairs)], Pair{PartName, s.Part})
	}
	for _, p := range pairs {
		if !shown[form.Field(p.Name)] {
			hidden = append(hidden, markup.E("input", markup.A("type", "hidden"), markup.A("name", p.Name), markup.A("value", p.Value)))
		}
	}
	return markup.E("form", markup.A("id", part.DesignForm), markup.A("method", "get"), markup.A("action", "/"), markup.Flag("novalidate", true),
		markup.E("button", markup.A("type", "submit"), markup.Class(part.ClassHidden), markup.A("tabindex", "-1"), m.Say("page.update")),
		markup.E("input", markup.A("type", "hidden"), markup.A("name", "view"), markup.A("value", string(s.View))),
		markup.E("div", markup.Class("hold"), hidden))
}

// shownFields lists the questions that a view asks in the open.
func shownFields(v View) map[form.Field]bool {
	shown := map[form.Field]bool{form.Units: true}
	add := func(fields ...form.Field) {
		for _, f := range fields {
			shown[f] = true
		}
	}
	switch v {
	case DrawView:
		add(form.Shape, form.Length, form.Width, form.Deep, form.Beach, form.BeachSlope, form.Shelf, form.Steps, form.Zone, form.Cascade,
			form.ZoneArea, form.Lip, form.Rise, form.Deck, form.Fence, form.Patio, form.FirePit, form.Place, form.Power, form.Water, form.From, form.To, form.Pump,
			form.BeachAt, form.ZoneAt, form.CascadeAt, form.StepsAt, form.DeckAt, form.PumpAt, form.IntakeAt,
			form.Sheet, form.Jets, form.CascadeHours, form.Night, form.Winter, form.Bill, form.HomeUse)
	case PumpView:
		add(form.Pump, form.Model, form.Pumps, form.Pipe, form.Discharge, form.Stand, form.Mouth, form.Grate, form.Nozzle, form.JetPipe)
	case CompareView:
		add(calledName)
	}
	return shown
}

func header(s State, m Model) markup.Node {
	return markup.E("header", markup.Class("bar"),
		markup.E("div", markup.Class("brand"), logo(m.Builder),
			markup.E("p", markup.E("span", markup.Class("project"), m.Project), markup.E("span", markup.Class("who"), m.Builder.Name))),
		part.Tabs(m.Say("page.views"), tabs(s, m)),
		markup.E("div", markup.Class("bar-acts"), tools(s, m), language(s, m), units(m), action(s, m)))
}

// logo is the builder's logo, which their name beside it puts in words.
func logo(b Builder) markup.Node {
	if b.Logo == "" {
		return part.Icon(part.MarkBuilder)
	}
	return markup.E("img", markup.Class("logo"), markup.A("src", b.Logo), markup.A("alt", ""))
}

func tabs(s State, m Model) []part.Tab {
	var out []part.Tab
	for _, v := range views() {
		out = append(out, part.Tab{Label: m.Say("page.view." + string(v)), Href: m.Links[v], Here: s.View == v, Act: part.Act{Name: "view", Arg: string(v)}})
	}
	return out
}

func units(m Model) markup.Node {
	return part.Choice{Label: part.Label{Field: string(form.Units), Name: m.Say("page.units")}, Bare: true, Value: m.Answers[form.Units].Text,
		Options: []part.Option{
			{Value: "us", Label: m.Say("page.units.us"), Name: m.Say("page.units.us.name")},
			{Value: "metric", Label: m.Say("page.units.metric"), Name: m.Say("page.units.m.name")}}}.Node()
}

// tools are of use only where script keeps the steps.
func tools(s State, m Model) markup.Node {
	if !s.Live || s.View == SendView {
		return markup.E("div", markup.Class("tools"))
	}
	return markup.E("div", markup.Class("tools"),
		part.Button{Icon: part.MarkUndo, Name: m.Say("page.undo"), Act: part.Act{Name: "undo"}, IconOnly: true, Off: !s.CanUndo(), ID: "undo"}.Node(),
		part.Button{Icon: part.MarkRedo, Name: m.Say("page.redo"), Act: part.Act{Name: "redo"}, IconOnly: true, Off: !s.CanRedo(), ID: "redo"}.Node())
}

func action(s State, m Model) markup.Node {
	if s.View != SendView {
		return part.Button{Label: m.Say("page.send_to", m.Builder.Short), Href: m.Links[SendView], Act: part.Act{Name: "view", Arg: string(SendView)}, ID: "go-send"}.Node()
	}
	if !s.Live {
		return markup.E("span", markup.Class("btn-gap"))
	}
	return part.Button{Label: m.Say("page.print"), Act: part.Act{Name: "print"}, Ghost: true, ID: "print"}.Node()
}

func footer(s State, m Model) markup.Node {
	invented := markup.None()
	if m.Builder.Invented {
		invented = markup.E("p", m.Say("page.invented"))
	}
	return markup.E("footer", markup.Class("rough"), markup.E("p", m.Say("page.rough")), invented, language(s, m))
}

// readings is the column of results with the first notes below it.
func readings(m Model) markup.Node {
	var out []markup.Node
	if m.LastGood {
		out = append(out, markup.E("p", markup.Class("lastgood"), part.Icon(part.MarkCare), markup.E("span", m.Say("page.last_good"))))
	}
	for _, r := range m.Readings {
		r.Stale = r.Stale || m.LastGood
		r.Working = m.part("how-"+r.ID, Typing, r.How.Node)
		out = append(out, r.Node())
	}
	out = append(out, m.part("moves", Typing, func() markup.Node { return moves(m) }))
	var judged []markup.Node
	for _, n := range m.Judged {
		judged = append(judged, part.Judgement(n.Care, n.Title))
	}
	more := markup.None()
	if n := m.Noted; n > 0 {
		text := m.Say("page.read_notes", strconv.Itoa(n))
		if n == 1 {
			text = m.Say("page.read_note")
		}
		more = markup.E("a", markup.Class(part.ClassLink), markup.A("href", m.Links[SendView]), markup.A("id", "read-notes"),
			markup.A("data-act", "view"), markup.A("data-arg", string(SendView)), text)
	}
	return markup.E("section", markup.Class("out"), markup.A("id", "figures"), markup.A("tabindex", "-1"), markup.A("aria-label", m.Say("page.figures")),
		out, markup.E("div", markup.Class(part.ClassReading+" judged"), judged, more))
}

func dock(m Model) markup.Node {
	var items []markup.Node
	for _, d := range m.Dock {
		items = append(items, markup.E("div", markup.E("span", markup.Class("dk-t"), d.Title), markup.E("span", markup.Class("dk-v "+part.ClassNumber), d.Figure.Node())))
	}
	return markup.E("div", markup.Class("dock"), items,
		part.Button{Icon: part.MarkUp, Name: m.Say("page.more_figures"), Href: "#figures", IconOnly: true}.Node())
}
