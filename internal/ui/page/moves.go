package page

import (
	"strconv"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// largestItems is how many items of the budget are shown before the rest is
// folded away.
const largestItems = 8

// Moves is what is behind the rough budget.
type Moves struct {
	Shares, All, Drivers, Savings part.Table
	Works                         markup.Node
	WorksTitle, WorksSays         string
	WorksTable                    part.Table
}

func paintMoves(m *Model, v view.View, widePx float64) {
	x := v.Moves()
	if len(x.Shares.Rows) == 0 {
		return
	}
	fold := m.Say("page.as_table")
	out := Moves{All: tableFrom(x.Shares), Drivers: tableFrom(x.Drivers), Savings: tableFrom(x.Savings),
		WorksTitle: x.Works.Title, WorksSays: x.Works.Says, WorksTable: tableFrom(x.Works.Table)}
	out.Shares = out.All
	out.Shares.Rows = out.All.Rows[:min(largestItems, len(out.All.Rows))]
	out.All.Fold, out.WorksTable.Fold = m.Say("moves.all"), fold
	out.Works = worksChart(m, x.Works, widePx).Node()
	m.Moves = out
}

func worksChart(m *Model, w view.Works, widePx float64) drawing.WorksBars {
	c := drawing.WorksBars{Caption: drawing.Caption{ID: "works", Title: w.Title, Says: w.Says}, WidthPx: widePx,
		Work: m.Say("works.work"), Weather: m.Say("works.weather"), Inspection: m.Say("works.inspection")}
	for _, p := range w.Phases {
		c.Rows = append(c.Rows, drawing.WorksRow{Name: p.Name, StartDays: p.Start, WorkDays: p.Work, WeatherDays: p.Weather, InspectionDays: p.Inspection})
	}
	for _, at := range drawing.Stops(0, max(w.Ends, 1), 4) {
		c.Ticks = append(c.Ticks, drawing.Tick{At: at, Text: measure.Round(at, 0)})
	}
	return c
}

// moves is folded under the budget: causes, savings, items and days.
func moves(m Model) markup.Node {
	x := m.Moves
	if len(x.All.Rows) == 0 {
		return markup.E("div")
	}
	titled := func(t part.Table) []markup.Node { return []markup.Node{markup.E("h3", t.Caption), t.Node()} }
	return markup.E("details", markup.Class("fold moves"), markup.A("id", "moves"), markup.E("summary", m.Say("moves.title")),
		markup.E("div", titled(x.Drivers), titled(x.Savings), titled(x.Shares), markup.E("p", m.Say("moves.share")), x.All.Node(),
			markup.E("h3", x.WorksTitle), markup.E("p", x.WorksSays), markup.E("div", markup.Class("works"), x.Works),
			markup.E("p", markup.Class(part.ClassNote), m.Say("works.axis")), x.WorksTable.Node()))
}

// paintMarks words the depth marks and returns them for the plan.
func paintMarks(m *Model, v view.View) []drawing.DepthTick {
	marks, table := v.DepthMarks()
	m.Marks = tableFrom(table)
	var ticks []drawing.DepthTick
	for i, x := range marks {
		words := x.Text
		if len(marks) > mostWordedMarks {
			words = ""
			if i%2 == 0 {
				words = x.Text
			}
		}
		ticks = append(ticks, drawing.DepthTick{At: x.At, Text: words})
	}
	return ticks
}

// mostWordedMarks is how many depth marks have room for their readings on the
// small plan; of more, every second is read off the table.
const mostWordedMarks = 8

// depthMarks is the schedule under the plan.
func depthMarks(m Model) markup.Node {
	if len(m.Marks.Rows) == 0 {
		return markup.E("div")
	}
	return markup.E("details", markup.Class("fold marks"), markup.A("id", "marks"),
		markup.E("summary", m.Marks.Caption+" ("+strconv.Itoa(len(m.Marks.Rows))+")"),
		markup.E("div", markup.E("p", m.Say("marks.says")), m.Marks.Node()))
}
