package waterbill_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/waterbill"
)

func near(got, want float64) bool {
	return math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))
}

// 25.4 mm over 1000 ft² is 623.377 US gallons; 1 mm over 100 m² is 100 litres.
func TestBasin_ByHand(t *testing.T) {
	t.Parallel()
	const gallonM3 = 0.003785411784
	inch := waterbill.Basin{SurfaceM2: 92.90304}.Month(25.4, 0, waterbill.Hours{})
	if got := inch.TopUpM3 / gallonM3; math.Abs(got-623.377) > 0.0005 {
		t.Errorf("an inch over 1000 ft² is %.3f gal, want 623.377", got)
	}
	b := waterbill.Basin{SurfaceM2: 100, NetM3: 60, SplashRatio: 0.1, CleanOutRatio: 0.1}
	rows := []struct {
		why                        string
		evaporationMm, rainMm      float64
		h                          waterbill.Hours
		splash, cleanOut, topUp, e float64
	}{
		{"100 l for each mm", 1, 0, waterbill.Hours{}, 0, 0, 0.1, 0.1},
		{"rain is taken off", 150, 50, waterbill.Hours{}, 0, 0, 10, 15},
		{"rain beyond the losses runs off", 20, 80, waterbill.Hours{}, 0, 0, 0, 2},
		{"splash for a third of the month", 150, 0, waterbill.Hours{CascadeShare: 1.0 / 3}, 0.5, 0, 15.5, 15},
		{"clean-out is not made up by rain", 20, 80, waterbill.Hours{CleanOut: true}, 0, 6, 6, 2},
	}
	for _, r := range rows {
		f := b.Month(r.evaporationMm, r.rainMm, r.h)
		if !near(f.SplashM3, r.splash) || !near(f.CleanOutM3, r.cleanOut) || !near(f.TopUpM3, r.topUp) || !near(f.EvaporationM3, r.e) {
			t.Errorf("%s: %+v", r.why, f)
		}
	}
}

func TestLevel_ByHand(t *testing.T) {
	t.Parallel()
	if got := waterbill.OvernightMm(7); !near(got, 3.5) {
		t.Errorf("overnight %g mm, want 3.5", got)
	}
	if got := waterbill.LeakMm(3.5); !near(got, 10) {
		t.Errorf("leak %g mm, want 10", got)
	}
}

func TestTariff_ByHand(t *testing.T) {
	t.Parallel()
	end := quantity(t, "20")
	steps := waterbill.Tariff{Version: 1, Name: "steps", HomeM3PerMonth: quantity(t, "15"),
		Tiers: []waterbill.Tier{{Name: "low", UpToM3: &end, PerM3: price(t, "1.10")}, {Name: "high", PerM3: price(t, "2.345")}}}
	rows := []struct {
		why  string
		tr   waterbill.Tariff
		m3   string
		want string
	}{
		{"one price: 1000 gal at 6.20 is 6.20", waterbill.Flat("flat", price(t, "1.637867")), "3.785411784", "6.20"},
		{"inside the first step", steps, "4", "4.40"},
		{"5 in the first step and 7 above it", steps, "12", "21.92"}, // 5.50 + 16.415 up
		{"nothing", steps, "0", "0"},
	}
	for _, r := range rows {
		want, err := money.Parse(r.want)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.tr.Cost(quantity(t, r.m3)); got.Cmp(want) != 0 {
			t.Errorf("%s: %s, want %s", r.why, got, r.want)
		}
		if f := r.tr.Faults(); len(f) > 0 {
			t.Errorf("%s: refused: %v", r.why, f)
		}
	}
}

func quantity(t *testing.T, s string) money.Quantity {
	t.Helper()
	q, err := money.ParseQuantity(s)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func price(t *testing.T, s string) money.Price {
	t.Helper()
	p, err := money.ParsePrice(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestFaults_OfFilesThatCannotServe(t *testing.T) {
	t.Parallel()
	end := quantity(t, "20")
	if f := (waterbill.Tariff{}).Faults(); len(f) != 3 {
		t.Errorf("an empty tariff has %v", f)
	}
	if f := (waterbill.Tariff{Version: 1, Name: "x", Tiers: []waterbill.Tier{{UpToM3: &end}}}).Faults(); len(f) != 1 || f[0].Path != "tiers[0].up_to_m3" {
		t.Errorf("a last tier with an end has %v", f)
	}
	c := demo(t)
	c.Months[6].TMinDegC, c.Months[2].RHMaxRatio = 40, 84
	f := waterbill.File{Version: 1, Climates: []waterbill.Climate{c, c}}.Faults()
	if len(f) != 5 || f[0].Path != "climates[0].months[2].rh_max_ratio" || f[2].Code != "twice" {
		t.Errorf("a spoilt climate has %v", f)
	}
}
