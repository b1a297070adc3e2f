package view

import (
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Choices is the pumps and pipes that would serve this pond, as the core ranked
// them, and why the first is first.
type Choices struct {
	Why   []string
	Table Table
	Note  string
	Tries []Try
}

// Try is a row of the table with the change that draws it.
type Try struct {
	Name string // "Pump V-100, 4 in pipe"
	Mend []sheet.Change
}

// Choice words the cheapest over ten years, the runner-up, the cheapest to buy
// and to run. A pump that holds two places is named once, with both.
func (v View) Choice() Choices {
	t := v.page.Sheet.Table("pump.choice")
	w := v.page.Words
	if len(t.Rows) == 0 {
		if !v.has("pump.tried") {
			return Choices{}
		}
		return Choices{Why: []string{w.Say("view.why.none")}}
	}
	out := Choices{Why: v.why(t), Note: w.Say("view.choice.note"), Table: Table{Caption: w.Say("view.choice"), Heads: []string{w.Say("view.choice.place"),
		w.Say("view.choice.pump"), w.Say("view.choice.bore"), w.Say("view.choice.power"), w.Say("view.choice.quiet"),
		w.Say("view.choice.price"), w.Say("view.choice.running"), w.Say("view.choice.ten")}}}
	for _, r := range t.Rows {
		row := []string{w.Say("view.choice." + r.Name), v.counted(t, r), v.bore(number(t, r, "bore")),
			measure.Power(number(t, r, "power")).String(), measure.Power(number(t, r, "quiet_power")).String(),
			v.cash(t, r, "price"), v.cash(t, r, "running"), v.cash(t, r, "ten_years")}
		if i := same(out.Table.Rows, row); i >= 0 {
			out.Table.Rows[i][0] = w.Say("view.choice.both", out.Table.Rows[i][0], row[0])
			continue
		}
		out.Table.Rows = append(out.Table.Rows, row)
		out.Tries = append(out.Tries, Try{Name: w.Say("view.try", v.counted(t, r), v.pipe(t, r)), Mend: r.Mend})
	}
	return out
}

// counted is a pump's name, with how many of it where that is not one.
func (v View) counted(t sheet.Table, r sheet.Row) string {
	if n := number(t, r, "count"); n > 1 {
		return v.page.Words.Say("view.pipes.times", measure.Round(n, 0), r.Plain)
	}
	return r.Plain
}

func (v View) cash(t sheet.Table, r sheet.Row, id string) string {
	return v.page.Terms.Money(amount(t, r, id)).String()
}

// pipe is the pipe of a choice as it is said in the trade, where the row knows
// that, or else by its inside.
func (v View) pipe(t sheet.Table, r sheet.Row) string {
	for _, c := range r.Mend {
		if c.Field == "pipe" && v.page.Terms.System == measure.US {
			return v.page.Words.Say("view.nominal", c.Value)
		}
	}
	return v.bore(number(t, r, "bore"))
}

// why is one paragraph: what the first costs, by how much the others differ,
// and which are the cheapest to buy and to run.
func (v View) why(t sheet.Table) []string {
	w := v.page.Words
	place := map[string]sheet.Row{}
	for _, r := range t.Rows {
		place[r.Name] = r
	}
	best := place["best"]
	more := func(r sheet.Row) string {
		return v.page.Terms.Money(amount(t, r, "ten_years").Sub(amount(t, best, "ten_years"))).String()
	}
	out := []string{w.Say("view.why.best", v.counted(t, best), v.pipe(t, best), v.cash(t, best, "ten_years"), v.cash(t, best, "price"), v.cash(t, best, "running"))}
	if next, ok := place["runner_up"]; ok {
		key := "view.why.next"
		if amount(t, next, "ten_years").Cmp(amount(t, best, "ten_years")) == 0 {
			key = "view.why.next.same"
		}
		out = append(out, w.Say(key, v.counted(t, next), v.pipe(t, next), more(next)))
	}
	buys, runs := alike(place["to_buy"], best), alike(place["to_run"], best)
	switch {
	case buys && runs:
		out = append(out, w.Say("view.why.both"))
	case buys:
		out = append(out, w.Say("view.why.also.buy"))
	case runs:
		out = append(out, w.Say("view.why.also.run"))
	}
	if r, ok := place["to_buy"]; ok && !buys {
		out = append(out, w.Say("view.why.buy", v.counted(t, r), v.pipe(t, r), v.cash(t, r, "price"), more(r)))
	}
	if r, ok := place["to_run"]; ok && !runs {
		out = append(out, w.Say("view.why.run", v.counted(t, r), v.pipe(t, r), v.cash(t, r, "running"), more(r)))
	}
	return append(out, v.lines("view.why.tried")...)
}

// alike tells whether two rows are the same pump, number and pipe.
func alike(a, b sheet.Row) bool {
	if a.Plain != b.Plain || len(a.Cells) != len(b.Cells) || len(a.Cells) < 2 {
		return false
	}
	return a.Cells[0].Value == b.Cells[0].Value && a.Cells[1].Value == b.Cells[1].Value
}

// same finds a row with the same pump, pipe and costs.
func same(rows [][]string, row []string) int {
	for i, r := range rows {
		equal := true
		for j := 1; j < len(row); j++ {
			equal = equal && r[j] == row[j]
		}
		if equal {
			return i
		}
	}
	return -1
}

// bore is the inside of a pipe, in the unit pipes are sold by.
func (v View) bore(mm float64) string {
	return v.page.Terms.Bore(mm / 1000).String()
}

// Stages is the water left when the pond is drawn down.
func (v View) Stages() Table {
	t := v.page.Sheet.Table("pond.stages")
	if len(t.Rows) == 0 {
		return Table{}
	}
	w := v.page.Words
	out := Table{Caption: w.Say("view.stages"), Heads: []string{w.Say("view.stages.depth"), w.Say("view.stages.area"), w.Say("view.stages.volume")}}
	for _, r := range t.Rows {
		row := []string{v.page.Terms.Depth(number(t, r, "depth")).String()}
		for _, id := range []string{"area", "volume"} {
			unit := sheet.SquareMetre
			if id == "volume" {
				unit = sheet.CubicMetre
			}
			row = append(row, v.page.Words.Shown(v.page.Terms.Quantity(number(t, r, id), unit)).String())
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}
