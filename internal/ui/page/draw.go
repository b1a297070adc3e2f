package page

import (
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

func drawView(s State, m Model) []markup.Node {
	hint := "page.plan_still"
	if s.Live {
		hint = "page.plan_hint"
		switch {
		case s.Chosen > 0:
			hint = "ring.how"
		case s.Held != "":
			hint = "grip.how"
		}
	}
	return []markup.Node{
		m.part("questions", InHand, func() markup.Node { return questions(s, m) }),
		markup.E("section", markup.Class("mid"), markup.A("aria-labelledby", "project"),
			markup.E("div", markup.Class("mid-t"), markup.E("h1", markup.A("id", "project"), m.Project), markup.E("p", m.Drawn, m.Say(hint))),
			zoomTools(s, m),
			markup.E("div", markup.Class("sheet"), m.Drawing, handbar(s, m)),
			m.part("tables", Typing, func() markup.Node { return asTables(m) })),
		readings(m),
		dock(m),
	}
}

// questions is the left column. On a narrow page the strip above it picks one
// group; it is a set of radio buttons, so that it works without script.
func questions(s State, m Model) markup.Node {
	var strip []markup.Node
	for _, p := range parts() {
		strip = append(strip, markup.E("label", markup.E("input", markup.Class("choice"), markup.A("type", "radio"), markup.A("name", "part"), markup.A("form", part.DesignForm),
			markup.A("value", p), markup.A("id", "part-"+p), markup.Flag("checked", p == s.Part), markup.A("data-act", "part"), markup.A("data-arg", p)),
			markup.E("span", m.Say("page.part."+p))))
	}
	return markup.E("section", markup.Class("in p-"+s.Part), markup.A("aria-label", m.Say("page.parts")),
		markup.E("div", markup.Class(part.ClassStrip), markup.A("role", "radiogroup"), markup.A("aria-label", m.Say("page.parts")), strip),
		m.group("size", func() markup.Node { return group("size", m.Say("page.group.size"), sizeQuestions(m)) }),
		m.group("depth", func() markup.Node { return group("depth", m.Say("page.group.depth"), depthQuestions(s, m)) }),
		m.group("features", func() markup.Node { return group("features", m.Say("page.group.feat"), featureQuestions(s, m)) }),
		m.group("site", func() markup.Node { return group("site", m.Say("page.group.site"), siteQuestions(m)) }),
		stepper(s, m))
}

func parts() []string { return []string{"size", "depth", "features", "site"} }

// groupOf is the group that a question stands in.
func groupOf(f form.Field) string {
	switch f {
	case form.Shape, form.Length, form.Width, form.Handles:
		return "size"
	case form.Deep, form.Beach, form.BeachSlope, form.Shelf, form.Steps:
		return "depth"
	case form.Zone, form.ZoneArea, form.Cascade, form.Lip, form.Rise, form.Sheet, form.Jets, form.Nozzle, form.JetPipe, form.Deck, form.Fence, form.Patio, form.FirePit,
		form.BeachAt, form.ZoneAt, form.CascadeAt, form.StepsAt, form.DeckAt, form.PumpAt, form.IntakeAt:
		return "features"
	}
	return "site"
}

func group(name, title string, kids []markup.Node) markup.Node {
	return markup.E("section", markup.Class("grp g-"+name), markup.A("aria-labelledby", "g-"+name),
		markup.E("h2", markup.A("id", "g-"+name), markup.A("tabindex", "-1"), title), kids)
}

// label names a question; the note is the model's, or else the fixed one.
func label(m Model, f form.Field, fixed string) part.Label {
	note := m.Answers[f].Note
	if note == "" && fixed != "" {
		note = m.Say(fixed)
	}
	l := part.Label{Field: string(f), Name: m.Say("ask." + string(f)), Note: note}
	switch f {
	case form.Lip, form.Rise, form.Sheet:
		l.Before = m.Say("ask.cascade")
	case form.ZoneArea:
		l.Before = m.Say("ask.zone")
	case form.BeachSlope:
		l.Before = m.Say("ask.beach")
	}
	return l
}

func number(m Model, f form.Field) markup.Node {
	l := label(m, f, "")
	name := l.Name
	if l.Before != "" {
		name = l.Before + ": " + l.Name
	}
	return part.Number{Label: l, Value: m.Answers[f].Text, Fault: m.Answers[f].Fault,
		Less: m.Say("page.less", name), More: m.Say("page.more", name)}.Node()
}

func plain(m Model, f form.Field) markup.Node {
	return part.Number{Label: label(m, f, ""), Value: m.Answers[f].Text, Fault: m.Answers[f].Fault, Wide: true}.Node()
}

func toggle(m Model, f form.Field) markup.Node {
	return part.Switch{Label: label(m, f, "ask."+string(f)+".note"), On: m.Answers[f].Text == "on"}.Node()
}

// bare is a switch that its name says all about.
func bare(m Model, f form.Field) markup.Node {
	return part.Switch{Label: label(m, f, ""), On: m.Answers[f].Text == "on"}.Node()
}

func sizeQuestions(m Model) []markup.Node {
	var tiles []part.Option
	for _, v := range shapes() {
		tiles = append(tiles, shapeOption(m, v))
	}
	return []markup.Node{
		part.Choice{Label: part.Label{Field: string(form.Shape), Name: m.Say("ask.shape")}, Bare: true, Shapes: true,
			Value: m.Answers[form.Shape].Text, Fault: m.Answers[form.Shape].Fault, Options: tiles}.Node(),
		number(m, form.Length), number(m, form.Width),
	}
}

func depthQuestions(s State, m Model) []markup.Node {
	slide := m.Slide
	slide.Field, slide.Name = string(form.Deep), m.Say("ask.deep.slide")
	var beach []part.Option
	for _, v := range []string{"n", "e", "s", "w", "none"} {
		beach = append(beach, part.Option{Value: v, Label: m.Say("ask.beach." + v), Name: m.Say("ask.beach." + v + ".is")})
	}
	slider := markup.E("div", markup.Class("slider-off"))
	if s.Live {
		slider = slide.Node()
	}
	return []markup.Node{
		number(m, form.Deep), slider,
		part.Choice{Label: label(m, form.Beach, ""), Value: m.Answers[form.Beach].Text, Fault: m.Answers[form.Beach].Fault, Options: beach}.Node(),
		optional(m.Answers[form.Beach].Text != "none", number(m, form.BeachSlope)),
		toggle(m, form.Shelf), toggle(m, form.Steps),
	}
}

func featureQuestions(s State, m Model) []markup.Node {
	cascade := m.Answers[form.Cascade].Text == "on"
	return []markup.Node{
		toggle(m, form.Zone), optional(m.Answers[form.Zone].Text == "on", number(m, form.ZoneArea)),
		toggle(m, form.Cascade),
		optional(cascade, number(m, form.Lip)), optional(cascade, number(m, form.Rise)), optional(cascade, number(m, form.Sheet)),
		jetQuestion(m),
		toggle(m, form.Deck),
		bare(m, form.Fence), bare(m, form.Patio), bare(m, form.FirePit),
		standing(s, m),
	}
}

// optional keeps a question's place in the tree, and its answer in the form,
// while it is not asked.
func optional(asked bool, n markup.Node) markup.Node {
	if asked {
		return markup.E("div", markup.Class("sub"), n)
	}
	return markup.E("div", markup.Class("sub"), markup.Flag("hidden", true), n)
}

func siteQuestions(m Model) []markup.Node {
	out := append(powerQuestions(m), plain(m, form.Water),
		markup.E("div", markup.Class(part.ClassRow), markup.A("role", "group"), markup.A("aria-labelledby", "runs-name"),
			markup.E("span", markup.Class(part.ClassKey), markup.A("id", "runs-name"), m.Say("ask.runs")),
			markup.E("span", markup.Class("months"),
				choose(m, form.From, m.Months), markup.E("span", m.Say("ask.from_to")), choose(m, form.To, m.Months)),
			part.FaultLine("runs", m.Answers[form.From].Fault+m.Answers[form.To].Fault)))
	return append(append(out, hourQuestions(m)...), pumpChoice(m))
}

func choose(m Model, f form.Field, options []part.Option) markup.Node {
	var opts []markup.Node
	for _, o := range options {
		opts = append(opts, markup.E("option", markup.A("value", o.Value), markup.Flag("selected", o.Value == m.Answers[f].Text), o.Label))
	}
	return markup.E("select", markup.A("id", part.ID(string(f))), markup.A("name", string(f)), markup.A("form", part.DesignForm),
		markup.A("aria-label", m.Say("ask."+string(f))), markup.A("data-act", "field"), markup.A("data-arg", string(f)), opts)
}

func pumpChoice(m Model) markup.Node {
	return part.Choice{Label: label(m, form.Pump, ""), Value: m.Answers[form.Pump].Text, Options: []part.Option{
		{Value: "single", Label: m.Say("ask.pump.single"), Name: m.Say("ask.pump.single.is")},
		{Value: "variable", Label: m.Say("ask.pump.variable"), Name: m.Say("ask.pump.var.is")}}}.Node()
}
