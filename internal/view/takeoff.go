package view

import "strings"

// Takeoff lists the quantities of the works as the office orders them, in the
// order of the calculation.
func (v View) Takeoff() Table {
	t := v.heads("paper.takeoff", "paper.quantity", "paper.amount")
	for _, f := range v.page.Sheet.Figures {
		if strings.HasPrefix(string(f.ID), "takeoff.") {
			t.Rows = append(t.Rows, []string{v.page.Words.Name(f.ID), v.figure(f.ID).String()})
		}
	}
	return t
}
