package core

import (
	"testing"

	"tarnwright/internal/core/sheet"
)

// Three ponds by hand, in square feet of 0.09290304 m²: 580, 699 and 409. Ten
// years of electricity at one price are ten times the year; the second pump
// costs 1,150 more. First: 91,000 + 1,150 + 2,680 + 1,140 = 95,970, the plain
// pump's 6,120 being more than 3,830. Second: 116,000 + 1,150 + 3,610 + 1,360.
// Third: 68,000 + 2,050 + 760, because 1,150 + 1,390 is more than 2,050.
func TestValueFigures_AgreeWithThreePondsByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why                             string
		areaM2                          float64
		budget, single, variable, water string
		total, perM2                    string
	}{
		{"variable speed is the better buy", 53.883763, "91000", "6120.00", "3830.00", "114.00", "95970", "1781.06"},
		{"and here", 64.939225, "116000", "8240.00", "4760.00", "136.00", "122120", "1880.53"},
		{"the plain pump is", 37.997343, "68000", "2050.00", "2540.00", "76.00", "70810", "1863.55"},
	} {
		s := &sheet.Sheet{}
		s.Add(sheet.Figure{ID: "pond.area", Value: c.areaM2, Step: 1e-6, Unit: sheet.SquareMetre})
		for id, text := range map[sheet.ID]string{"budget.likely": c.budget, "power.ten_year_single": c.single,
			"power.ten_year_variable": c.variable, "water.cost": c.water} {
			s.Add(sheet.Figure{ID: id, Amount: cash(t, text), Unit: sheet.Money})
		}
		valueFigures(s)
		if got := s.Amount("value.ten_years"); got.Cmp(cash(t, c.total)) != 0 {
			t.Errorf("%s: ten years = %s, want %s", c.why, got, c.total)
		}
		if got := s.Amount("value.per_m2"); got.Cmp(cash(t, c.perM2)) != 0 {
			t.Errorf("%s: %s a square metre, want %s", c.why, got, c.perM2)
		}
	}
}

// Nothing is made up where no pump was found.
func TestValueFigures_NeedAPumpAndABudget(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "pond.area", Value: 50, Step: 1, Unit: sheet.SquareMetre})
	s.Add(sheet.Figure{ID: "budget.likely", Amount: cash(t, "91000"), Unit: sheet.Money})
	if valueFigures(s); len(s.Figures) != 2 {
		t.Errorf("%d figures, want no more than were given", len(s.Figures))
	}
}
