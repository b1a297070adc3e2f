package core_test

import (
	"math"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/water"
)

// The price that ranks pumps is the home's own, else the builder's tariff's,
// else 16 cents: ten years of one pump go with it.
func TestCirculation_TheRankingTakesTheHomesOwnPrice(t *testing.T) {
	t.Parallel()
	running := func(home, rest string) float64 {
		d := circulationDemo()
		d.Site.ElectricityPerKWh = home
		var b core.Book
		demoPumps(t, &b)
		if rest != "" {
			p, err := money.ParsePrice(rest)
			if err != nil {
				t.Fatal(err)
			}
			b.Tariff = tariff.Flat("all", p)
		}
		for _, r := range core.Compute(d, b).Table("pump.choice").Rows {
			if r.Name == "to_run" {
				return r.Cells[5].Amount.Approx()
			}
		}
		t.Fatal("no pump is named least to run")
		return 0
	}
	usual := running("0.16", "0.40")
	for _, c := range []struct {
		why, home, rest string
		times           float64
	}{
		{"the home's own price before the builder's", "0.32", "0.40", 2},
		{"the builder's where the home has none", "", "0.40", 2.5},
		{"the usual where nobody has any", "", "", 1},
	} {
		if got := running(c.home, c.rest); math.Abs(got/usual-c.times) > 1e-4 {
			t.Errorf("%s: %.2f, want %v times %.2f", c.why, got, c.times, usual)
		}
	}
}

// Two pumps, each on its own suction line, again by the solver of any network.
func TestCirculation_TwoPumpsAreTheNetworks(t *testing.T) {
	t.Parallel()
	change := func(d *design.Design) {
		d.Circulation.PumpCount, d.Circulation.Pump = 2, "P-60"
		d.Cascade.RiseM = 1.4
	}
	s := computeCirculation(t, change)
	d := circulationDemo()
	change(&d)
	var b core.Book
	demoPumps(t, &b)
	in, out := d.Circulation.Suction, d.Circulation.Discharge
	ti, err := hydraulics.LineTerms(in)
	if err != nil {
		t.Fatal(err)
	}
	to, err := hydraulics.LineTerms(out)
	if err != nil {
		t.Fatal(err)
	}
	n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: water.ViscosityM2PerS(20)},
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "a1"}, {ID: "a2"}, {ID: "all"}, {ID: "lip", Surface: true, HeadM: 1.4 + 0.025}},
		Pipes: []hydraulics.Pipe{{ID: "out", From: "all", To: "lip", LengthM: out.LengthM, InsideDiameterM: out.InsideDiameterM, RoughnessM: out.RoughnessM, LossCoef: to.SumCoef() + 1}}}
	for _, k := range []string{"1", "2"} {
		n.Pipes = append(n.Pipes, hydraulics.Pipe{ID: "in" + k, From: "pond", To: "a" + k, LengthM: in.LengthM, InsideDiameterM: in.InsideDiameterM, RoughnessM: in.RoughnessM, LossCoef: ti.SumCoef() + 0.5})
		for _, p := range b.Pumps {
			if p.ID == "P-60" {
				n.Pumps = append(n.Pumps, hydraulics.Pump{ID: "pump" + k, From: "a" + k, To: "all", SpeedRatio: 1, Curve: p.Curve})
			}
		}
	}
	got, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	one, _ := got.Link("pump1")
	if v := s.Value("flow.duty"); math.Abs(v/got.PumpedM3PerS-1) > 1e-6 {
		t.Errorf("flow.duty = %.9f m³/s, want %.9f", v, got.PumpedM3PerS)
	}
	if v := s.Value("pump.head"); math.Abs(v/one.HeadM-1) > 1e-6 {
		t.Errorf("pump.head = %.9f m, want %.9f", v, one.HeadM)
	}
}
