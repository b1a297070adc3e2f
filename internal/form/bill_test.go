package form_test

import (
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
)

// priced is a form of a book with a tariff and two places.
func priced() form.Defaults {
	d := form.Demo()
	d.Regions = []form.Region{{Code: "us", Name: "All", PerKWh: "0.16"}, {Code: "ca", Name: "California", PerKWh: "0.2951"}}
	d.Tariff = "Steps of the town"
	return d
}

func TestBill_TheThreeWaysOfPricing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why       string
		do        func(form.State) form.State
		way       string
		price     string
		household float64
	}{
		{"as it opens", func(s form.State) form.State { return s }, "average", "0.16", 0},
		{"a price is typed", func(s form.State) form.State { return s.With(form.Power, "0.22") }, "own", "0.22", 0},
		{"the average again", func(s form.State) form.State { return s.With(form.Power, "0.22").With(form.Bill, "average") }, "average", "0.16", 0},
		{"another place after a price", func(s form.State) form.State { return s.With(form.Power, "0.22").With(form.Place, "ca") }, "average", "0.2951", 0},
		{"the builder's tariff", func(s form.State) form.State { return s.With(form.Bill, "tariff").With(form.HomeUse, "1100 kWh") }, "tariff", "", 1100},
		{"a price typed over the tariff", func(s form.State) form.State { return s.With(form.Bill, "tariff").With(form.Power, "0.2") }, "own", "0.2", 0},
		{"a place over the tariff", func(s form.State) form.State { return s.With(form.Bill, "tariff").With(form.Place, "ca") }, "average", "0.2951", 0},
	} {
		s := c.do(form.New(priced()))
		look := func(how string, s form.State) {
			d, faults := s.Design()
			if len(faults) > 0 || len(design.Validate(d)) > 0 {
				t.Errorf("%s, %s: faults %+v %+v", c.why, how, faults, design.Validate(d))
			}
			if s.Bill() != c.way || d.Site.ElectricityPerKWh != c.price || d.Site.HouseholdKWhPerMonth != c.household {
				t.Errorf("%s, %s: %s at %q with %v kWh, want %s at %q with %v", c.why, how, s.Bill(), d.Site.ElectricityPerKWh, d.Site.HouseholdKWhPerMonth, c.way, c.price, c.household)
			}
		}
		look("by acts", s)
		look("by address", form.Read(s.Values(), priced()))
		v := sent(s)
		v.Set("bill", s.Bill())
		v.Set("home_use", s.Text(form.HomeUse))
		look("by a plain form sent back", form.Read(v, priced()))
	}
}

// A plain form sends every field: what the person has just changed must win
// over what only comes back as it was.
func TestBill_WhatWasJustAnsweredWins(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, from, name, text, way, price string }{
		{"a price beside the average", "average", "power", "0.31", "own", "0.31"},
		{"a price beside the tariff", "tariff", "power", "0.31", "own", "0.31"},
		{"a place beside an own price", "own", "state", "ca", "average", "0.2951"},
		{"the tariff", "average", "bill", "tariff", "tariff", ""},
		{"the average after an own price", "own", "bill", "average", "average", "0.16"},
	} {
		s := form.New(priced())
		if c.from == "own" {
			s = s.With(form.Power, "0.2")
		}
		s = s.With(form.Bill, c.from)
		v := sent(s)
		v.Set("bill", s.Bill())
		v.Set("home_use", s.Text(form.HomeUse))
		v.Set(c.name, c.text)
		got := form.Read(v, priced())
		d, _ := got.Design()
		if got.Bill() != c.way || d.Site.ElectricityPerKWh != c.price {
			t.Errorf("%s: %s at %q, want %s at %q", c.why, got.Bill(), d.Site.ElectricityPerKWh, c.way, c.price)
		}
	}
}

// A link of before there were ways of pricing keeps its price.
func TestBill_AnOldLinkKeepsItsPrice(t *testing.T) {
	t.Parallel()
	s, whole := form.Opened(priced(), []form.Pair{{Name: "power", Value: "0.21"}, {Name: "state", Value: "us"}, {Name: "bill", Value: "average"}})
	d, _ := s.Design()
	if !whole || s.Bill() != "own" || d.Site.ElectricityPerKWh != "0.21" {
		t.Errorf("%v %s at %q", whole, s.Bill(), d.Site.ElectricityPerKWh)
	}
}

func TestSeason_HoursNightAndWinter(t *testing.T) {
	t.Parallel()
	minutes := func(s form.State) map[string]int { // of a day of July and of January, by mode; night beats quiet
		d, faults := s.Design()
		if len(faults) > 0 || len(design.Validate(d)) > 0 {
			t.Fatalf("faults %+v %+v", faults, design.Validate(d))
		}
		out := map[string]int{}
		for _, at := range []string{"07-15", "01-15"} {
			for minute := range 1440 {
				best := ""
				for _, span := range d.Running.Spans {
					in := span.From <= at && at <= span.To
					if span.From > span.To {
						in = at >= span.From || at <= span.To
					}
					for _, run := range span.Runs {
						a, _ := design.Minute(run.Start)
						b, _ := design.Minute(run.End)
						on := a < b && a <= minute && minute < b || a >= b && (minute >= a || minute < b)
						if rank := map[string]int{"": 0, "winter": 1, "quiet": 2, "night": 3, "cascade": 4}; in && on && rank[string(run.Mode)] > rank[best] {
							best = string(run.Mode)
						}
					}
				}
				if best != "" {
					out[at[:2]+best]++
				}
			}
		}
		return out
	}
	is := func(why string, got map[string]int, want map[string]int) {
		for k, n := range want {
			if got[k] != n*60 {
				t.Errorf("%s: %s has %d min, want %d", why, k, got[k], n*60)
			}
		}
		sum, all := 0, 0
		for _, n := range got {
			sum += n
		}
		for _, n := range want {
			all += n * 60
		}
		if sum != all {
			t.Errorf("%s: %v, want %v", why, got, want)
		}
	}
	s := form.New(form.Demo())
	is("as it opens", minutes(s), map[string]int{"07cascade": 8, "07quiet": 16})
	is("no cascade", minutes(s.With(form.CascadeHours, "0")), map[string]int{"07quiet": 24})
	is("cascade all day", minutes(s.With(form.CascadeHours, "24")), map[string]int{"07cascade": 24})
	is("a slow night", minutes(s.With(form.Night, "slow")), map[string]int{"07cascade": 8, "07quiet": 8, "07night": 8})
	is("cascade into a slow night", minutes(s.With(form.Night, "slow").With(form.CascadeHours, "12")), map[string]int{"07cascade": 12, "07quiet": 6, "07night": 6})
	is("no pump at night", minutes(s.With(form.Night, "off")), map[string]int{"07cascade": 8, "07quiet": 8})
	is("a winter", minutes(s.With(form.Winter, "slow")), map[string]int{"07cascade": 8, "07quiet": 16, "01winter": 24})
	is("a winter in a year without one", minutes(s.With(form.Winter, "slow").With(form.From, "1").With(form.To, "12")), map[string]int{"07cascade": 8, "07quiet": 16, "01cascade": 3, "01quiet": 5})
	if _, faults := s.With(form.CascadeHours, "25").Design(); len(faults) != 1 || faults[0].Code != "out_of_range" {
		t.Errorf("25 h a day: %+v", faults)
	}
}

func TestJets_AreABranchOfTheDesign(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Jets, "4").With(form.Nozzle, "12").With(form.JetPipe, "2")
	d, faults := s.Design()
	if len(faults) > 0 || len(design.Validate(d)) > 0 {
		t.Fatalf("faults %+v %+v", faults, design.Validate(d))
	}
	if j := d.Circulation.Jets; j == nil || j.Count != 4 || j.NozzleM != 0.012 || j.Line.InsideDiameterM != 0.0525 {
		t.Errorf("jets %+v", j)
	}
	if again := form.Read(s.Values(), form.Demo()); again.Text(form.Jets) != "4" || again.Text(form.Nozzle) != "12" {
		t.Errorf("%v", s.Values())
	}
	if d, _ := s.With(form.Jets, "0").Design(); d.Circulation.Jets != nil {
		t.Error("no jets, and yet a branch")
	}
}
