package page

import (
	"strconv"

	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// drawingTables say in words what the drawing shows: the water by depth, where
// things stand, and the bottom along the section.
func drawingTables(s State, a Answered, v view.View, w say.Words) []part.Table {
	t := s.Form.Terms()
	stages := tableFrom(v.Stages())
	places := part.Table{Caption: w.Say("table.places"), Heads: []string{w.Say("table.thing"), w.Say("table.bearing")}}
	for _, name := range gripNames() {
		if at, ok := s.GripDeg(name); ok {
			places.Rows = append(places.Rows, []part.Cell{{Text: w.Say("grip." + name)}, {Text: bearingWords(w, at)}})
		}
	}
	if n := len(a.Plan.Jets); n > 0 {
		places.Rows = append(places.Rows, []part.Cell{{Text: w.Say("plan.jets") + ", " + v.Say("plan.jets.note")}, {Text: bearingWords(w, s.BearingOf(a.Plan.Jets[n/2].At))}})
	}
	for i, r := range s.Rings {
		places.Rows = append(places.Rows, []part.Cell{{Text: w.Say("plan.ring", strconv.Itoa(i+1))},
			{Text: w.Say("table.at", eastWords(w, t, r.X, "east", "west"), eastWords(w, t, r.Y, "north", "south"))}})
	}
	return []part.Table{stages, places, stepsTable(a, w, t), sectionTable(s, a, w)}
}

// stepsTable is the depth of each step into the water.
func stepsTable(a Answered, w say.Words, t measure.Terms) part.Table {
	out := part.Table{Caption: w.Say("grip.stairs_at"), Heads: []string{w.Say("table.thing"), w.Say("table.depth")}}
	for i, step := range a.Plan.Treads {
		out.Rows = append(out.Rows, []part.Cell{{Text: w.Say("table.step", strconv.Itoa(i+1))}, {Text: t.Depth(step.DepthM).String()}})
	}
	return out
}

func eastWords(w say.Words, t measure.Terms, m float64, plus, minus string) string {
	if m < 0 {
		return w.Say("table."+minus, t.Length(-m).String())
	}
	return w.Say("table."+plus, t.Length(m).String())
}

// sectionTable is the depth every two contours along the section.
func sectionTable(s State, a Answered, w say.Words) part.Table {
	t := s.Form.Terms()
	out := part.Table{Caption: w.Say(sectionWords(s)), Heads: []string{w.Say("table.along"), w.Say("table.depth")}}
	sec := a.Plan.Section
	if len(sec) < 2 {
		return out
	}
	stepM := 2 * StepM(t.System)
	i := 1
	for alongM := 0.0; alongM <= sec[len(sec)-1].AlongM; alongM += stepM {
		for i+1 < len(sec) && sec[i].AlongM < alongM {
			i++
		}
		p, q := sec[i-1], sec[i]
		depthM := p.DepthM
		if q.AlongM > p.AlongM {
			depthM += (q.DepthM - p.DepthM) * min(max((alongM-p.AlongM)/(q.AlongM-p.AlongM), 0), 1)
		}
		out.Rows = append(out.Rows, []part.Cell{{Text: t.Length(alongM).String()}, {Text: t.Depth(depthM).String()}})
	}
	return out
}

// asTables folds the tables away under the drawing.
func asTables(m Model) markup.Node {
	var kids []markup.Node
	for _, t := range m.Tables {
		if len(t.Rows) > 0 {
			kids = append(kids, markup.E("div", markup.E("h2", t.Caption), t.Node()))
		}
	}
	return markup.E("details", markup.Class("fold as-tables"), markup.A("id", "drawing-tables"), markup.E("summary", m.Say("page.as_table")),
		part.Scroll(m.Say("page.as_table"), kids...))
}
