package form_test

import (
	"net/url"
	"testing"

	"tarnwright/internal/form"
)

func regional() form.Defaults {
	d := form.Demo()
	d.Regions = []form.Region{{Code: "us", Name: "All", PerKWh: "0.16"}, {Code: "ca", Name: "California", PerKWh: "0.2951"}, {Code: "wa", Name: "Washington", PerKWh: "0.1098"}}
	return d
}

// A region fills the price, and a price that is typed stands.
func TestRegion_FillsThePriceAndATypedOneStands(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, query, place, price string
		own                      bool // the price is the region's
	}{
		{"the whole country to begin with", "", "us", "0.16", true},
		{"a state alone", "state=ca", "ca", "0.2951", true},
		{"a state and a price", "state=ca&power=0.20", "ca", "0.2", false},
		{"the country's price in a state is a typed one", "state=ca&power=0.16", "ca", "0.16", false},
		{"a form in which the state was changed", "sent=1&state_was=us&state=ca&power=$0.16+/+kWh", "ca", "0.2951", true},
		{"a form in which only the price was", "sent=1&state_was=ca&state=ca&power=$0.21+/+kWh", "ca", "0.21", false},
		{"a form in which nothing was", "sent=1&state_was=ca&state=ca&power=$0.2951+/+kWh", "ca", "0.2951", true},
		{"back to the whole country", "sent=1&state_was=ca&state=us&power=$0.2951+/+kWh", "us", "0.16", true},
		{"no such state", "state=zz", "us", "0.16", true},
	} {
		v, err := url.ParseQuery(c.query)
		if err != nil {
			t.Fatal(err)
		}
		s := form.Read(v, regional())
		if s.Word(form.Place) != c.place || s.Word(form.Power) != c.price || s.RegionPrice() != c.own {
			t.Errorf("%s: %s at %s, its own %v; want %s at %s, %v", c.why, s.Word(form.Place), s.Word(form.Power), s.RegionPrice(), c.place, c.price, c.own)
		}
		again := form.Read(s.Values(), regional())
		if again.Word(form.Power) != s.Word(form.Power) || again.Word(form.Place) != s.Word(form.Place) {
			t.Errorf("%s: the address %q brings %s at %s back", c.why, s.Values().Encode(), again.Word(form.Place), again.Word(form.Power))
		}
	}
	s := form.New(regional()).With(form.Place, "wa").With(form.Power, "0.12").With(form.Place, "ca")
	if got := s.Word(form.Power); got != "0.2951" {
		t.Errorf("a state chosen after a price was typed: %s, want 0.2951", got)
	}
	d, faults := s.Design()
	if d.Site.ElectricityPerKWh != "0.2951" || len(faults) > 0 {
		t.Errorf("the design pays %s, faults %v", d.Site.ElectricityPerKWh, faults)
	}
}
