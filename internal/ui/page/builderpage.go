package page

import (
	"tarnwright/internal/markup"
	"tarnwright/internal/qr"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// BuilderPaperID is the second printed page, for the builder; it is there when
// it is asked for.
const BuilderPaperID = "paper-2"

// ActSheets asks for the builder's page, or takes it back.
const ActSheets = "sheets"

// onPaper offers what is printed: one page for the homeowner, and a second for
// the builder.
func onPaper(s State, m Model) markup.Node {
	says, label := "paper.says", "paper.both"
	if s.Sheets {
		says, label = "paper.says.2", "paper.one"
	}
	other := s
	other.Sheets = !s.Sheets
	acts := []markup.Node{part.Button{Label: m.Say(label), Href: other.Address(), Act: part.Act{Name: ActSheets}, Ghost: true, ID: "sheets"}.Node()}
	if s.Live {
		acts = append([]markup.Node{part.Button{Label: m.Say("page.print"), Act: part.Act{Name: "print"}, Ghost: true, ID: "print-here"}.Node()}, acts...)
	}
	return markup.E("section", markup.Class("share on-paper"), markup.A("aria-labelledby", "paper-title"),
		markup.E("h2", markup.A("id", "paper-title"), m.Say("paper.title")), markup.E("p", m.Say(says)), markup.E("p", markup.Class("acts"), acts))
}

// paperCode is the code that opens this pond on a phone; nothing where no link
// can be made, or where it is too long for a code.
func paperCode(s State, m Model) markup.Node {
	if s.Origin == "" {
		return markup.None()
	}
	code, err := qr.Draw(s.linkTo())
	if err != nil {
		return markup.None()
	}
	return markup.E("div", markup.Class("pp-code"), codePicture(code, "paper-qr", m.Say("share.picture")), markup.E("p", m.Say("print.code")))
}

// builderPaper is the takeoff and the schedules of the same pond.
func builderPaper(m Model, v view.View, x view.Paper) markup.Node {
	pipes, notes := v.Schedule()
	moves := v.Moves()
	duty := markup.None()
	for _, r := range x.Readings {
		if r.ID == "duty" {
			duty = markup.E("div", markup.Class("pp-duty"), paperReadings([]view.Reading{r}))
		}
	}
	var says []markup.Node
	for _, n := range append([]string{x.Marks}, notes...) {
		says = append(says, line(n))
	}
	x.Kind = m.Say("paper.builder")
	return markup.E("section", markup.Class("paper paper-2"), markup.A("id", BuilderPaperID),
		paperHead(m, x),
		markup.E("div", markup.Class("pp-cols"),
			markup.E("div", schedule(v.Takeoff()), schedule(moves.Works.Table), markup.E("div", markup.Class("pp-says"), says)),
			markup.E("div", duty, schedule(pipes), schedule(v.Items()))),
		markup.E("div", markup.Class("pp-end"), markup.E("p", m.Say("page.rough")), markup.E("p", x.Version)))
}

// schedule is a table with its name over it; without rows it is nothing.
func schedule(t view.Table) markup.Node {
	if len(t.Rows) == 0 {
		return markup.None()
	}
	return markup.E("div", markup.Class("pp-table"), markup.E("p", markup.Class("pp-h"), t.Caption), tableFrom(t).Node())
}
