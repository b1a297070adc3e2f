package sheet_test

import (
	"testing"

	"tarnwright/internal/core/sheet"
)

func TestQuantise_LandsOnTheNearestDecimal(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ x, step, want float64 }{
		{0.30000000000000004, 0.1, 0.3}, {2.5, 1, 3}, {-2.5, 1, -3}, {1234.567, 0.01, 1234.57},
		{1234.567, 100, 1200}, {7, 0, 7}, {1e-7, 1e-6, 0}, {0.0123456789, 1e-9, 0.012345679},
	} {
		if got := sheet.Quantise(c.x, c.step); got != c.want {
			t.Errorf("Quantise(%v, %v) = %.17g, want %.17g", c.x, c.step, got, c.want)
		}
	}
}

func TestSheet_FindsWhatWasAdded(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "pond.area", Value: 53.88888, Step: 0.001, Unit: sheet.SquareMetre})
	if got := s.Value("pond.area"); got != 53.889 {
		t.Errorf("value = %v", got)
	}
	if _, ok := s.Find("pond.nothing"); ok || s.Value("pond.nothing") != 0 {
		t.Error("a figure nobody added was found")
	}
	defer func() {
		if recover() == nil {
			t.Error("the same figure twice passed")
		}
	}()
	s.Add(sheet.Figure{ID: "pond.area"})
}

func TestSortFindings_PutsCautionsFirstAndKeepsTheRest(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{Findings: []sheet.Finding{
		{Code: "a", Severity: sheet.Fine}, {Code: "b", Severity: sheet.Care}, {Code: "c", Severity: sheet.Fine}, {Code: "d", Severity: sheet.Care},
	}}
	s.SortFindings()
	got := ""
	for _, f := range s.Findings {
		got += f.Code
	}
	if got != "bdac" {
		t.Errorf("order = %s, want bdac", got)
	}
}
