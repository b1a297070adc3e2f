package core_test

import (
	"math"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
)

func demoSheet(t *testing.T) *sheet.Sheet {
	t.Helper()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatalf("demo design: %v", faults)
	}
	return core.Compute(d, book.Demo())
}

// Of the core's rules the demo raises these six with a place on the plan: four
// to take care of, two that are as they should be.
func TestDemo_SixNotesStandOnThePlan(t *testing.T) {
	t.Parallel()
	rules := map[string]bool{}
	for _, r := range safety.Core() {
		rules[r.ID] = true
	}
	var placed []string
	for _, f := range demoSheet(t).Findings {
		if rules[f.Code] && f.Place != sheet.NoPlace {
			placed = append(placed, string(f.Severity)+":"+f.Code)
		}
	}
	want := "care:over_head_height care:no_diving_deck care:pump_near_water care:fence_missing fine:beach_easy fine:intake_gentle"
	if got := strings.Join(placed, " "); got != want {
		t.Errorf("on the plan: %s\nwant: %s", got, want)
	}
}

// The invented builder builds ponds like this one for some 72 to 118 thousand,
// mostly near 91: their own books, so the demo's prices must say the same.
func TestDemo_TheBudgetIsTheBuildersUsual(t *testing.T) {
	t.Parallel()
	s := demoSheet(t)
	for id, want := range map[sheet.ID]float64{"budget.low": 72e3, "budget.likely": 91e3, "budget.high": 118e3} {
		if got := s.Amount(id).Approx(); math.Abs(got-want) > 0.05*want {
			t.Errorf("%s is %.0f, and the builder's usual is %.0f", id, got, want)
		}
	}
}

// Shares of the items make up the whole; phases follow each other.
func TestDemo_TablesOfTheBudgetAddUp(t *testing.T) {
	t.Parallel()
	s := demoSheet(t)
	shares, crew := 0.0, 0.0
	for _, r := range s.Table("budget.items").Rows {
		shares += r.Cells[3].Value
		crew += r.Cells[4].Value
	}
	if math.Abs(shares-1) > 0.003 {
		t.Errorf("shares add up to %g", shares)
	}
	if math.Abs(crew-s.Value("budget.crew_days")) > 0.005 {
		t.Errorf("items take %g crew-days, the sheet says %g", crew, s.Value("budget.crew_days"))
	}
	next := 0.0
	for _, r := range s.Table("budget.works").Rows {
		if r.Cells[0].Value != next {
			t.Errorf("%s starts on day %g, want %g", r.Plain, r.Cells[0].Value, next)
		}
		next += r.Cells[1].Value + r.Cells[2].Value + r.Cells[3].Value
	}
	if n := len(s.Table("budget.drivers").Rows); n != 5 {
		t.Errorf("%d drivers, want five", n)
	}
}
