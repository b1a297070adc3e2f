package core

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
)

// coldest adds the coldest month's mean air temperature at the site: half way
// between its usual highest and lowest, as FAO-56 takes a mean. A design that
// names no climate, or one the builder does not have, is at the builder's
// first; without any the figure is left out.
func coldest(s *sheet.Sheet, d design.Design, b Book) {
	if len(b.Climates) == 0 {
		return
	}
	at := b.Climates[0]
	for _, c := range b.Climates {
		if c.ID == d.Site.Climate {
			at = c
		}
	}
	month, mean := 0, 0.0
	for i, m := range at.Months {
		if x := (m.TMaxDegC + m.TMinDegC) / 2; i == 0 || x < mean {
			month, mean = i, x
		}
	}
	m := at.Months[month]
	s.Add(sheet.Figure{ID: "site.coldest_month", Value: mean, Step: fineStep, Unit: sheet.DegC, Source: "builder",
		Working: with("= (highest + lowest) ÷ 2 in month %s = (%s + %s) ÷ 2", float64(month+1), m.TMaxDegC, m.TMinDegC)})
}
