package view

import (
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Choice is the pumps that would serve this pond, as the core ranked them: the
// cheapest over ten years, the runner-up, the cheapest to buy and to run. A
// pump that holds two places is named once, with both.
func (v View) Choice() Table {
	t := v.page.Sheet.Table("pump.choice")
	if len(t.Rows) == 0 {
		return Table{}
	}
	w := v.page.Words
	out := Table{Caption: w.Say("view.choice"), Heads: []string{w.Say("view.choice.place"), w.Say("view.choice.pump"),
		w.Say("view.choice.bore"), w.Say("view.choice.power"), w.Say("view.choice.quiet"), w.Say("view.choice.ten")}}
	for _, r := range t.Rows {
		name := r.Plain
		if n := number(t, r, "count"); n > 1 {
			name = measure.Round(n, 0) + " × " + name
		}
		row := []string{w.Say("view.choice." + r.Name), name, v.bore(number(t, r, "bore")),
			measure.Power(number(t, r, "power")).String(), measure.Power(number(t, r, "quiet_power")).String(),
			v.page.Terms.Money(amount(t, r, "ten_years")).String()}
		if i := same(out.Rows, row); i >= 0 {
			out.Rows[i][0] = w.Say("view.choice.both", out.Rows[i][0], row[0])
			continue
		}
		out.Rows = append(out.Rows, row)
	}
	return out
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
			row = append(row, v.page.Terms.Quantity(number(t, r, id), unit).String())
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}
