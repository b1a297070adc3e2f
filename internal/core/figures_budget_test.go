package core

import (
	"math/big"
	"strings"
	"testing"

	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
)

func decimal(t *testing.T, text string) money.Quantity {
	t.Helper()
	q, err := money.ParseQuantity(text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// boxPrices is two items, one of them of a feature.
func boxPrices(t *testing.T) budget.PriceBook {
	t.Helper()
	price := func(text string) money.Price {
		p, err := money.ParsePrice(text)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	spread := func(low, likely, high string) budget.Spread {
		return budget.Spread{Low: decimal(t, low), Likely: decimal(t, likely), High: decimal(t, high)}
	}
	return budget.PriceBook{
		Version: 1, RegionalIndex: decimal(t, "1"), Market: spread("0.9", "1", "1.2"), Contingency: spread("0", "0.1", "0.3"),
		Works:    budget.Works{CrewCount: 1, WorkdaysPerWeek: 5, Phases: []budget.Phase{{ID: "dig", Name: "Dig"}}},
		Features: []budget.Feature{{ID: "zone", Name: "Zone"}},
		Items: []budget.Item{
			{ID: "dig", Name: "Digging", Phase: "dig", Quantity: "takeoff.dig_pond", Unit: sheet.CubicMetre, Low: price("20"), Likely: price("33"), High: price("62"), CrewDaysPerUnit: decimal(t, "0.05")},
			{ID: "zone", Name: "Gravel", Phase: "dig", Feature: "zone", Quantity: "takeoff.zone_gravel_mass", Unit: sheet.Tonne, Low: price("58"), Likely: price("82"), High: price("140")},
		},
	}
}

// The working of each figure, multiplied out with exact rationals, is the
// figure to the dollar.
func TestBudgetFigures_TheWorkingLandsOnTheAmount(t *testing.T) {
	t.Parallel()
	s := takenOff(box(), boxRates())
	budgetFigures(s, box(), Book{Prices: boxPrices(t)})
	for _, id := range []sheet.ID{"budget.low", "budget.likely", "budget.high"} {
		f, _ := s.Find(id)
		at := strings.LastIndex(f.Working, "= ")
		product := big.NewRat(1, 1)
		for _, part := range strings.Split(f.Working[at+len("= "):], " × ") {
			x, ok := new(big.Rat).SetString(part)
			if !ok {
				t.Fatalf("%s: working %q", id, f.Working)
			}
			product.Mul(product, x)
		}
		if product.FloatString(0) != f.Amount.String() {
			t.Errorf("%s is %s, its working %s", id, f.Amount, product.FloatString(3))
		}
	}
	// By hand: 110.342 × 33 + 25.6 × 82 = 5740.486, a tenth set aside.
	rows := s.Table("budget.items").Rows
	if len(rows) != 3 || rows[0].Cells[1].Amount.String() != "3641.29" || rows[1].Cells[1].Amount.String() != "2099.2" || rows[2].Cells[1].Amount.String() != "574.05" {
		t.Errorf("items %v", rows)
	}
	if got := s.Value("budget.crew_days"); got != 5.52 {
		t.Errorf("crew-days %g, want 110.342 × 0.05 = 5.52", got)
	}
	if got := s.Value("budget.calendar_days"); got != 9 {
		t.Errorf("calendar days %g, want 6 working days, 8.4 on the calendar, 9", got)
	}
	if sv := s.Table("budget.savings").Rows; len(sv) != 1 || sv[0].Plain != "Zone" || sv[0].Cells[0].Amount.Sign() <= 0 {
		t.Errorf("savings %v", sv)
	}
}

// A wider doubt about the size never narrows the range.
func TestBudgetFigures_ADoubtfulSizeWidensTheRange(t *testing.T) {
	t.Parallel()
	last := money.Amount{}
	for _, tolerance := range []float64{0, 0.05, 0.1, 0.2} {
		d := box()
		d.Site.SizeToleranceRatio = tolerance
		s := takenOff(d, boxRates())
		budgetFigures(s, d, Book{Prices: boxPrices(t)})
		spread := s.Amount("budget.high").Sub(s.Amount("budget.low"))
		if spread.Cmp(last) < 0 {
			t.Errorf("within %g the range is %s wide, and narrower than before", tolerance, spread)
		}
		last = spread
	}
}

func codes(s *sheet.Sheet) string {
	var all []string
	for _, f := range s.Findings {
		all = append(all, f.Code)
	}
	return " " + strings.Join(all, " ") + " "
}

// The same pond with and without each thing that a person can change: the note
// comes and goes with the design itself, not only with a sheet made for it.
func TestSafetyFindings_FollowTheDesign(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code   string
		change func(d *design.Design) // from the box, which has the finding, to one that has not
	}{
		{"over_head_height", func(d *design.Design) { d.Bowl = shallow(1.7) }},
		{"steep_sides", func(d *design.Design) {
			d.Bowl.Wall = []design.Knot{{}, {InsetM: 2.2, DepthM: 2}}
		}},
		{"gate_and_climbing", func(d *design.Design) { d.Site.Fence = false }},
		{"dig_may_cave_in", func(d *design.Design) { d.Bowl = shallow(1.4) }},
		{"spoil_and_ladder", func(d *design.Design) { d.Bowl = shallow(1.1) }},
		{"depth_marks", func(d *design.Design) { d.Bowl = shallow(1.1) }},
		{"zone_little", func(d *design.Design) { d.Zone.AreaM2 = 22 }},
		{"no_pool_chemicals", func(d *design.Design) { d.Zone = nil }},
		{"no_diving_deck", func(d *design.Design) { d.Deck = nil }},
		{"lights_in_water", func(d *design.Design) { d.Running.Loads = d.Running.Loads[1:] }},
		{"uv_lamp", func(d *design.Design) { d.Running.Loads = d.Running.Loads[:1] }},
		{"pump_near_water", func(d *design.Design) { d.Circulation.PumpFromWaterM = 2 }},
		{"warm_water", func(d *design.Design) { d.Site.WaterTempDegC = 20 }},
	} {
		d := box()
		d.Zone.AreaM2, d.Site.WaterTempDegC, d.Circulation.PumpFromWaterM = 10, 27, 1.2
		d.Deck = &design.Deck{LengthM: 3, WidthM: 2, BearingDeg: 150}
		d.Running.Loads = []design.Load{{Name: "lights"}, {Name: "UV"}}
		s := takenOff(d, boxRates())
		safetyFindings(s, d, Book{})
		if !strings.Contains(codes(s), " "+c.code+" ") {
			t.Errorf("%s is not raised:%s", c.code, codes(s))
		}
		c.change(&d)
		s = takenOff(d, boxRates())
		safetyFindings(s, d, Book{})
		if strings.Contains(codes(s), " "+c.code+" ") {
			t.Errorf("%s stays", c.code)
		}
	}
}

func shallow(deepM float64) design.Bowl {
	return design.Bowl{DeepM: deepM, Wall: []design.Knot{{}, {InsetM: 0, DepthM: deepM}}}
}

// Core rules name figures that the core makes: a slip of spelling would silence
// one for ever. What the later steps add is named here, once.
func TestSafetyFindings_EveryRuleAsksForAFigureThatIsThere(t *testing.T) {
	t.Parallel()
	s := takenOff(box(), boxRates())
	for _, later := range []sheet.ID{"pump.count", "pump.one_speed", "pump.in_water", "intake.velocity", "intake.velocity_limit", "intake.least_open", "turnover.time", "site.coldest_month"} {
		if _, there := s.Find(later); !there {
			s.Add(sheet.Figure{ID: later})
		}
	}
	if unmet := safety.Unmet(safety.Core(), s); len(unmet) != 0 {
		t.Errorf("unmet %v", unmet)
	}
}

// A larger pond never costs less, digs less or holds less: every length of the
// box a tenth longer, again and again.
func TestBudgetFigures_ALargerPondCostsMore(t *testing.T) {
	t.Parallel()
	last := map[sheet.ID]float64{}
	for _, k := range []float64{1, 1.1, 1.21, 1.331, 2} {
		d := box()
		d.Outline.LengthM, d.Outline.WidthM = 10*k, 5*k
		d.Bowl = shallow(2 * k)
		d.Zone.AreaM2, d.Zone.DepthM = 16*k*k, k
		s := takenOff(d, boxRates())
		budgetFigures(s, d, Book{Prices: boxPrices(t)})
		for _, id := range []sheet.ID{"water.net_volume", "takeoff.dig_bank", "takeoff.liner_true_area", "takeoff.boulder_mass", "takeoff.fill_hours", "takeoff.cushion_volume"} {
			if s.Value(id) <= last[id] {
				t.Errorf("%g times as long: %s is %g, not more than %g", k, id, s.Value(id), last[id])
			}
			last[id] = s.Value(id)
		}
		for _, id := range []sheet.ID{"budget.low", "budget.likely", "budget.high"} {
			if x := s.Amount(id).Approx(); x <= last[id] {
				t.Errorf("%g times as long: %s is %g, not more than %g", k, id, x, last[id])
			} else {
				last[id] = x
			}
		}
	}
}
