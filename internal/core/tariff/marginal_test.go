package tariff_test

import (
	"testing"

	"tarnwright/internal/core/tariff"
)

// By hand, and against the bill itself: one kilowatt-hour more in a month.
func TestMarginal_IsWhatOneKilowattHourMoreCosts(t *testing.T) {
	t.Parallel()
	upTo := quantity(t, "500")
	steps := []tariff.Tier{{Name: "first", UpToKWh: &upTo, PerKWh: price(t, "0.10")}, {Name: "second", PerKWh: price(t, "0.25")}}
	for _, c := range []struct {
		why, home, want string
		tr              tariff.Tariff
		ok              bool
	}{
		{"nothing is priced", "300", "0", tariff.Tariff{}, false},
		{"one price", "300", "0.16", tariff.Flat("all", price(t, "0.16")), true},
		{"one price and tax", "300", "0.172", tariff.Tariff{RestPerKWh: ptr(price(t, "0.16")), TaxShare: quantity(t, "0.075")}, true},
		{"in the first step", "499", "0.10", tariff.Tariff{Tiers: steps}, true},
		{"at its end the second has begun", "500", "0.25", tariff.Tariff{Tiers: steps}, true},
		{"a step on top of the rest", "900", "0.30", tariff.Tariff{RestPerKWh: ptr(price(t, "0.05")), Tiers: steps}, true},
	} {
		got, ok := c.tr.Marginal(quantity(t, c.home))
		one := quantity(t, "1")
		if ok != c.ok || got.Times(one).Cmp(price(t, c.want).Times(one)) != 0 {
			t.Errorf("%s: %s, %v; want %s, %v", c.why, got, ok, c.want, c.ok)
		}
	}
	// The bill of a year at 40 kWh more a month.
	tr := tariff.Tariff{Version: 1, Name: "both", RestName: "all", RestPerKWh: ptr(price(t, "0.05")), Tiers: steps, TaxShare: quantity(t, "0.10"), Rounding: tariff.Rounding{Level: tariff.ByYear}}
	less, more := tr.Bill(tr.Home(quantity(t, "600"))), tr.Bill(tr.Home(quantity(t, "640")))
	p, _ := tr.Marginal(quantity(t, "600"))
	want := p.Times(quantity(t, "480"))
	if got := more.Total.Sub(less.Total); got.Cmp(want) != 0 {
		t.Errorf("480 kWh more cost %s on the bill, %s at the margin", got, want)
	}
}
