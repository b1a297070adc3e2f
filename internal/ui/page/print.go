package page

import (
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// PaperID is the printed page; the screen does not show it.
const PaperID = "paper"

// paperWidePx is the drawing's own width: narrower than on the screen, so that
// its words are larger on paper.
const paperWidePx = 560.0

// paintPaper draws the one page that is printed, in black ink.
func paintPaper(m *Model, s State, a Answered, v view.View) {
	price := m.Answers[form.Power].Text
	if m.Answers[form.Bill].Text == "tariff" {
		price = s.Form.Tariff()
	}
	x := v.Paper(price)
	o := options(s, a, v)
	o.ID, o.Colour, o.DepthTicks = "ink", drawing.Ink, paperTicks(v)
	o.WidthPx, o.MaxPlanHeightPx = paperWidePx, 0.66*paperWidePx
	first := markup.E("section", markup.Class("paper"), markup.A("id", PaperID),
		paperHead(*m, x),
		markup.E("div", markup.Class("pp-top"),
			markup.E("div", markup.Class("pp-drawing"), drawing.Sheet(a.Plan, o).Node),
			markup.E("div", markup.Class("pp-side"), paperReadings(x.Readings))),
		paperWords(*m, x),
		paperFoot(*m, x, paperCode(s, *m)))
	second := markup.None()
	if s.Sheets {
		second = builderPaper(*m, v, x)
	}
	m.Paper = markup.E("div", markup.Class("papers"), first, second)
}

func paperTicks(v view.View) []drawing.DepthTick {
	marks, _ := v.DepthMarks()
	var out []drawing.DepthTick
	for _, x := range marks {
		words := ""
		if len(marks) <= mostWordedMarks {
			words = x.Text
		}
		out = append(out, drawing.DepthTick{At: x.At, Text: words})
	}
	return out
}

func paperHead(m Model, x view.Paper) markup.Node {
	return markup.E("div", markup.Class("pp-head"),
		markup.E("div", markup.E("p", markup.Class("pp-who"), part.Icon(part.MarkBuilder), m.Builder.Name), markup.E("h1", markup.Class("pp-project"), m.Project)),
		markup.E("div", markup.Class("pp-kind"), markup.E("p", x.Kind), markup.E("p", x.Size)))
}

// paperReadings are the figures of the screen, without bars and lines.
func paperReadings(readings []view.Reading) []markup.Node {
	var out []markup.Node
	for _, r := range readings {
		var figs []markup.Node
		for i, f := range r.Figures {
			if i > 0 && r.Join != "" {
				figs = append(figs, markup.E("span", markup.Class("join"), " "+r.Join+" "))
			}
			figs = append(figs, figure(f).Node())
		}
		for _, b := range r.Bars {
			figs = append(figs, markup.E("span", markup.Class("pp-pair"), figure(b.Amount).Node(), markup.E("small", b.Label)))
		}
		note := markup.None()
		if r.Note != "" {
			note = markup.E("p", markup.Class(part.ClassNote), r.Note)
		}
		out = append(out, markup.E("div", markup.Class("pp-fig"), markup.E("p", markup.Class("pp-t"), r.Title), markup.E("p", markup.Class("pp-v "+part.ClassNumber), figs), note))
	}
	return out
}

func paperWords(m Model, x view.Paper) markup.Node {
	var rows, placed []markup.Node
	for _, e := range x.How {
		rows = append(rows, markup.E("dt", e.Name), markup.E("dd", e.Text))
	}
	for _, n := range m.Notes {
		if n.Place == "" {
			continue
		}
		placed = append(placed, markup.E("li", mark(n.Care), markup.E("span", n.Title)))
	}
	return markup.E("div", markup.Class("pp-words"),
		markup.E("div", markup.E("p", markup.Class("pp-h"), m.Say("print.how")), markup.E("dl", rows)),
		markup.E("div", markup.E("p", markup.Class("pp-h"), m.Say("print.know")), markup.E("ul", placed)),
		markup.E("div", markup.Class("pp-wide"), line(x.Also), line(x.Marks), line(x.Moves)))
}

func mark(care bool) markup.Node {
	if care {
		return part.Icon(part.MarkCare)
	}
	return part.Icon(part.MarkFine)
}

func line(text string) markup.Node {
	if text == "" {
		return markup.None()
	}
	return markup.E("p", text)
}

func paperFoot(m Model, x view.Paper, code markup.Node) markup.Node {
	contact := m.Builder.Name + ", " + m.Builder.Email
	if m.Builder.Phone != "" {
		contact += ", " + m.Builder.Phone
	}
	invented := markup.None()
	if m.Builder.Invented {
		invented = markup.E("p", m.Say("page.invented"))
	}
	sign := func(key string) markup.Node {
		return markup.E("p", markup.Class("pp-sign"), m.Say(key))
	}
	return markup.E("div", markup.Class("pp-foot"),
		markup.E("div", markup.E("p", m.Say("page.rough")), invented, markup.E("p", contact+". "+x.Version)),
		markup.E("div", markup.Class("pp-signs"), sign("print.with"), sign("print.date")), code)
}
