package core_test

import (
	"math"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

func TestCirculation_TheChoiceAndTheRangeAgreeWithHandWork(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	s := computeCirculation(t, nil)
	for _, c := range []struct {
		why  string
		id   sheet.ID
		want float64
		tol  float64
	}{
		{"every pump, one to three of it, every pipe", "pump.tried", float64(3 * len(b.Pumps) * len(b.Pipes)), 0},
		{"seven tenths of the best", "pump.easy_from", 0.7 * s.Value("pump.best_flow"), 1e-9},
		{"a fifth over the best, short of the curve's end", "pump.easy_to", 1.2 * s.Value("pump.best_flow"), 1e-9},
		{"the pump's own line in the list", "pump.prime_lift", 2.4, 0},
	} {
		if got := s.Value(c.id); math.Abs(got-c.want) > c.tol {
			t.Errorf("%s: %s = %v, want %v", c.why, c.id, got, c.want)
		}
	}
	if n := s.Value("pump.suited"); n < 4 || n >= s.Value("pump.tried") {
		t.Errorf("%v of %v suit", n, s.Value("pump.tried"))
	}
	two := computeCirculation(t, func(d *design.Design) { d.Circulation.PumpCount = 2; d.Circulation.Pump = "P-100" })
	one := computeCirculation(t, func(d *design.Design) { d.Circulation.Pump = "P-100" })
	if math.Abs(two.Value("pump.best_flow")-2*one.Value("pump.best_flow")) > 2e-9 {
		t.Errorf("two pumps are best at %v, want twice %v", two.Value("pump.best_flow"), one.Value("pump.best_flow"))
	}
}

// Each row of the choice again, by making the design what the row says and
// reading the pump's bill by hand: price and pipe, and ten years of both modes.
func TestCirculation_TheChoiceIsWhatItsRowsCost(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	rows := computeCirculation(t, nil).Table("pump.choice").Rows
	if len(rows) != 4 {
		t.Fatalf("%d rows", len(rows))
	}
	yearly := map[string]float64{}
	for _, r := range rows {
		s := computeCirculation(t, func(d *design.Design) { mended(t, d, r.Mend) })
		for _, code := range []string{"flow_short", "suction_fast", "discharge_fast", "npsh_short", "outside_curve", "no_duty_point"} {
			if find(s, code) != nil {
				t.Errorf("%s: %s comes up", r.Name, code)
			}
		}
		var m pump.Model
		for _, p := range b.Pumps {
			if p.Name == r.Plain {
				m = p
			}
		}
		cascade, quiet := s.Value("pump.power"), s.Value("pump.power")
		if m.Drive == design.VariableSpeed {
			cascade, quiet = s.Value("pump.variable_power"), s.Value("quiet.power")
		}
		if math.Abs(cascade-r.Cells[2].Value) > 1e-3 || math.Abs(quiet-r.Cells[3].Value) > 1e-3 {
			t.Errorf("%s draws %v and %v W, but the row says %v and %v", r.Name, cascade, quiet, r.Cells[2].Value, r.Cells[3].Value)
		}
		// 153 days, 8 h with the cascade and 16 h quiet, at 16 cents.
		yearly[r.Name] = 153 * (8*cascade + 16*quiet) / 1000
		n := r.Cells[0].Value
		metres := 5*n + 14
		var pipe float64
		for _, size := range b.Pipes {
			if math.Abs(size.InsideDiameterM*1000-r.Cells[1].Value) < 1e-6 {
				metre, _ := money.ParseQuantity("1")
				pipe = size.PricePerM.Times(metre).Approx()
			}
		}
		buy := n*m.Price.Approx() + metres*pipe
		if math.Abs(buy-r.Cells[4].Amount.Approx()) > 0.011 {
			t.Errorf("%s costs %v to buy, want %.2f", r.Name, r.Cells[4].Amount, buy)
		}
		if want := 10 * 0.16 * yearly[r.Name]; math.Abs(want-r.Cells[5].Amount.Approx()) > 0.02 {
			t.Errorf("%s costs %v to run for ten years, want %.2f", r.Name, r.Cells[5].Amount, want)
		}
		if sum := r.Cells[4].Amount.Add(r.Cells[5].Amount); sum.Cmp(r.Cells[6].Amount) != 0 {
			t.Errorf("%s: %v to buy and %v to run make %v", r.Name, r.Cells[4].Amount, r.Cells[5].Amount, r.Cells[6].Amount)
		}
	}
	for name, kWh := range yearly {
		if kWh < yearly["to_run"]-1e-6 {
			t.Errorf("%s draws %.1f kWh a year, less than the one named least to run, %.1f", name, kWh, yearly["to_run"])
		}
	}
}

func TestCirculation_SaysWhatTheRuleOnMotorsSays(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	for _, c := range []struct {
		why, code string
		severity  sheet.Severity
		spoil     func(*pump.Model)
		drive     design.Drive
	}{
		{"one speed", "speed_rule", sheet.Care, func(*pump.Model) {}, design.SingleSpeed},
		{"a speed that can be set", "speed_rule_met", sheet.Fine, func(*pump.Model) {}, design.VariableSpeed},
		{"it stands in the water", "speed_rule_apart", sheet.Fine, func(m *pump.Model) { m.Class = pump.Submersible }, design.SingleSpeed},
	} {
		own := b
		own.Pumps = append([]pump.Model(nil), b.Pumps...)
		for i := range own.Pumps {
			c.spoil(&own.Pumps[i])
		}
		d := circulationDemo()
		d.Circulation.Drive = c.drive
		s := core.Compute(d, own)
		for _, code := range []string{"speed_rule", "speed_rule_met", "speed_rule_apart"} {
			f := find(s, code)
			if (f != nil) != (code == c.code) || f != nil && f.Severity != c.severity {
				t.Errorf("%s: %s is %+v, want only %s", c.why, code, f, c.code)
			}
		}
	}
}

// What stands in the pipes, in order of flow: jets only where there are some.
func TestCirculation_TheScheduleIsInOrderOfFlow(t *testing.T) {
	t.Parallel()
	order := func(s *sheet.Sheet) string {
		all := ""
		for _, r := range s.Table("circulation.schedule").Rows {
			all += r.Name + " "
		}
		return all
	}
	const usual = "intake suction_pipe elbow_90 ball_valve check_valve pump_self_priming discharge_pipe elbow_90 ball_valve zone cascade "
	if got := order(computeCirculation(t, nil)); got != usual {
		t.Errorf("in order of flow: %s, want %s", got, usual)
	}
	jets := computeCirculation(t, func(d *design.Design) { d.Circulation.JetsFlowM3PerS = 0.001 })
	if got := order(jets); got != usual+"jets " {
		t.Errorf("with jets: %s", got)
	}
	rows := computeCirculation(t, func(d *design.Design) { d.Circulation.PumpCount = 2 }).Table("circulation.schedule").Rows
	if flow := rows[1].Cells[3].Value + rows[1].Cells[3].Value - rows[0].Cells[3].Value; rows[1].Cells[0].Value != 2 || math.Abs(flow) > 2e-9 {
		t.Errorf("two pumps have suction pipes %+v", rows[1])
	}
}

// Where the builder stocks no wider pipe, a second pump with a pipe of its own
// slows the water.
func TestCirculation_ASecondPumpMendsASuctionThatCannotBeWidened(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	narrow := b.Pipes[:0:0]
	for _, p := range b.Pipes {
		if p.InsideDiameterM < 0.08 {
			narrow = append(narrow, p)
		}
	}
	b.Pipes = narrow
	d := circulationDemo()
	f := find(core.Compute(d, b), "suction_fast_no_wider")
	if f == nil || len(f.Mend) != 1 || f.Mend[0] != (sheet.Change{Field: "pumps", Value: "2"}) {
		t.Fatalf("the finding is %+v, want one that offers two pumps", f)
	}
	mended(t, &d, f.Mend)
	after := core.Compute(d, b)
	if find(after, f.Code) != nil {
		t.Errorf("with two pumps the water still moves at %v m/s", after.Value("suction.velocity"))
	}
}
