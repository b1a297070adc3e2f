package budget

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

func q(t *testing.T, s string) money.Quantity {
	t.Helper()
	v, err := money.ParseQuantity(s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func price3(t *testing.T, low, likely, high string) (l, m, h money.Price) {
	t.Helper()
	for i, s := range []string{low, likely, high} {
		v, err := money.ParsePrice(s)
		if err != nil {
			t.Fatal(err)
		}
		*[]*money.Price{&l, &m, &h}[i] = v
	}
	return l, m, h
}

func at(x float64) *float64 { return &x }

func item(t *testing.T, id string, quantity sheet.ID, unit sheet.Unit, prices ...string) Item {
	t.Helper()
	it := Item{ID: id, Name: id, Phase: "build", Quantity: quantity, Unit: unit}
	it.Low, it.Likely, it.High = price3(t, prices[0], prices[1], prices[2])
	return it
}

// book is a small price book with one item of each power of size.
func book(t *testing.T) PriceBook {
	t.Helper()
	b := PriceBook{
		Version: 1, RegionalIndex: q(t, "1.1"),
		Market:      Spread{q(t, "0.8"), q(t, "1"), q(t, "1.5")},
		Contingency: Spread{q(t, "0.05"), q(t, "0.1"), q(t, "0.2")},
		Works:       Works{CrewCount: 2, WorkdaysPerWeek: 5, Phases: []Phase{{"build", "Build", 0.2, 1}, {"plant", "Plant", 0, 0}}},
		Features:    []Feature{{"deck", "Deck"}},
		Items: []Item{
			item(t, "dig", "takeoff.dig_bank", sheet.CubicMetre, "40", "60", "120"),
			item(t, "liner", "takeoff.liner_area", sheet.SquareMetre, "20", "25", "40"),
			item(t, "rim", "takeoff.rim_length", sheet.Metre, "150", "260", "600"),
			item(t, "pump", Fixed, sheet.Count, "2000", "2600", "4000"),
			item(t, "deck", "deck.area", sheet.SquareMetre, "300", "420", "700"),
		},
	}
	b.Items[0].FixedPart, _ = money.Parse("900")
	b.Items[0].CrewDaysPerUnit = q(t, "0.05")
	b.Items[1].CrewDaysFixed = q(t, "2.5")
	b.Items[4].Feature = "deck"
	b.Items[4].When = []sheet.Clause{{Figure: "deck.area", Above: at(0)}}
	return b
}

func pond(deckM2 float64) *sheet.Sheet {
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "takeoff.dig_bank", Value: 80, Unit: sheet.CubicMetre})
	s.Add(sheet.Figure{ID: "takeoff.liner_area", Value: 160.5, Unit: sheet.SquareMetre})
	s.Add(sheet.Figure{ID: "takeoff.rim_length", Value: 25, Unit: sheet.Metre})
	s.Add(sheet.Figure{ID: "deck.area", Value: deckM2, Unit: sheet.SquareMetre})
	return s
}

// By hand: 80 × 60 × 1.1 + 900 × 1.1 = 6270, and so on; the set-aside is a
// tenth of 24 043.25 likely, 5 % at the low point, 20 % at the high one.
func TestMake_ItemsAreExact(t *testing.T) {
	t.Parallel()
	e := Make(book(t), pond(7.25), 0.05)
	want := []struct{ id, low, likely, high string }{
		{"dig", "4510", "6270", "11550"},
		{"liner", "3531", "4413.75", "7062"},
		{"rim", "4125", "7150", "16500"},
		{"pump", "2200", "2860", "4400"},
		{"deck", "2392.5", "3349.5", "5582.5"},
		{"contingency", "1202.16", "2404.33", "4808.65"},
	}
	if len(e.Lines) != len(want) {
		t.Fatalf("%d lines, want %d", len(e.Lines), len(want))
	}
	shares := 0.0
	for i, w := range want {
		l := e.Lines[i]
		shares += l.MeanShare
		if l.ID != w.id || l.Range.Low.String() != w.low || l.Range.Likely.String() != w.likely || l.Range.High.String() != w.high {
			t.Errorf("%s: %s %s %s, want %v", l.ID, l.Range.Low, l.Range.Likely, l.Range.High, w)
		}
	}
	near(t, "shares of the mean", shares, 1, 0.0003)
}

func TestMake_LeavesOutWhatDoesNotApply(t *testing.T) {
	t.Parallel()
	e := Make(book(t), pond(0), 0.05)
	for _, l := range e.Lines {
		if l.ID == "deck" {
			t.Error("a deck is priced where there is none")
		}
	}
	if len(e.Savings) != 0 {
		t.Errorf("savings %v, want none", e.Savings)
	}
}

// The same range by drawing every price, the market, the set-aside and the
// pond's size anew, 60 000 times: an independent method for the whole.
func TestMake_AgreesWithSimulation(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why                 string
		tolerance           float64
		market, contingency [3]string
	}{
		{"size as stated", 0, [3]string{"0.8", "1", "1.5"}, [3]string{"0.05", "0.1", "0.2"}},
		{"size within 5 %", 0.05, [3]string{"0.8", "1", "1.5"}, [3]string{"0.05", "0.1", "0.2"}},
		{"size within 20 %, a wide market and an unknown ground", 0.2, [3]string{"0.7", "0.95", "1.68"}, [3]string{"0.02", "0.08", "0.55"}},
	} {
		b := book(t)
		b.Market = Spread{q(t, c.market[0]), q(t, c.market[1]), q(t, c.market[2])}
		b.Contingency = Spread{q(t, c.contingency[0]), q(t, c.contingency[1]), q(t, c.contingency[2])}
		samples := simulate(t, b, c.tolerance)
		e := Make(b, pond(7.25), c.tolerance)
		for _, at := range []struct {
			why string
			got money.Amount
			p   float64
		}{{"P10", e.Low, 0.1}, {"P50", e.Likely, 0.5}, {"P90", e.High, 0.9}} {
			want := quantileOf(samples, at.p)
			near(t, c.why+", "+at.why, at.got.Approx(), want, 0.007*want)
		}
	}
}

func simulate(t *testing.T, b PriceBook, tolerance float64) []float64 {
	t.Helper()
	number := func(s Spread) Three { return Three{plain(s.Low), plain(s.Likely), plain(s.High)} }
	market, rest := number(b.Market), number(b.Contingency)
	var prices []Three
	for _, it := range b.Items {
		prices = append(prices, Three{plain(quantity(t, it.Low)), plain(quantity(t, it.Likely)), plain(quantity(t, it.High))})
	}
	r := rand.New(rand.NewPCG(3, uint64(tolerance*1000)))
	samples := make([]float64, 60000)
	for n := range samples {
		k := 1 + tolerance*draw(r, Three{-1, 0, 1})
		sum := 900.0
		for i, many := range []float64{80 * k * k * k, 160.5 * k * k, 25 * k, 1, 7.25 * k * k} {
			sum += draw(r, prices[i]) * many
		}
		samples[n] = sum * 1.1 * draw(r, market) * (1 + draw(r, rest))
	}
	return samples
}

// The dollar shown must be the same in the browser and on the server: this runs
// natively and under js/wasm.
func TestMake_IsTheSameOnEveryMachine(t *testing.T) {
	t.Parallel()
	e := Make(book(t), pond(7.25), 0.05)
	if e.Low.String() != "24563" || e.Likely.String() != "30237" || e.High.String() != "37304" {
		t.Errorf("%s – %s – %s, elsewhere 24563 – 30237 – 37304", e.Low, e.Likely, e.High)
	}
}

func quantity(t *testing.T, p money.Price) money.Quantity {
	t.Helper()
	return q(t, p.String())
}

// The spread is one of its parts alone when all others are fixed.
func TestMake_OneSpreadAlone(t *testing.T) {
	t.Parallel()
	b := book(t)
	none := Spread{q(t, "1"), q(t, "1"), q(t, "1")}
	b.Market, b.Contingency = none, Spread{}
	for i := range b.Items {
		b.Items[i].Low, b.Items[i].High = b.Items[i].Likely, b.Items[i].Likely
	}
	e := Make(b, pond(0), 0)
	if e.Low.String() != "20694" || e.Likely.String() != "20694" || e.High.String() != "20694" || len(e.Drivers) != 0 {
		t.Errorf("nothing is in doubt, yet %s – %s – %s, driven by %v", e.Low, e.Likely, e.High, e.Drivers)
	}
	b.Market = Spread{q(t, "0.8"), q(t, "1"), q(t, "1.2")}
	e = Make(b, pond(0), 0)
	if len(e.Drivers) != 1 || e.Drivers[0].ID != MarketDriver || e.Drivers[0].VarianceShare != 1 {
		t.Errorf("drivers %v, want the market alone", e.Drivers)
	}
	near(t, "P90, ± 20 % market: 20693.75 (1 + 1.2816 × 0.2/√7)", e.High.Approx(), 20693.75*(1+1.2815515655*0.2/math.Sqrt(7)), 1)
}

func TestMake_DriversMakeUpTheVariance(t *testing.T) {
	t.Parallel()
	e := Make(book(t), pond(7.25), 0.05)
	sum := 0.0
	for i, d := range e.Drivers {
		sum += d.VarianceShare
		if i > 0 && d.VarianceShare > e.Drivers[i-1].VarianceShare {
			t.Error("drivers are not in order")
		}
	}
	// What is missing from one is several moving together.
	near(t, "shares of the variance", sum, 0.99, 0.015)
}

// Leaving the deck out saves what a book without the deck is short of.
func TestMake_SavingIsTheDifference(t *testing.T) {
	t.Parallel()
	with, without := Make(book(t), pond(7.25), 0.05), Make(book(t), pond(0), 0.05)
	if len(with.Savings) != 1 || with.Savings[0].Feature != "deck" || with.Savings[0].Name != "Deck" {
		t.Fatalf("savings %v, want the deck", with.Savings)
	}
	near(t, "saving", with.Savings[0].Amount.Approx(), with.Likely.Sub(without.Likely).Approx(), 1)
	if with.Savings[0].Amount.Sign() <= 0 {
		t.Error("a deck costs nothing")
	}
}

func TestMake_RoundsToWhatTheSpreadDeserves(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		spread string
		want   int64
	}{{"0", 1}, {"199", 1}, {"200", 10}, {"9000", 100}, {"46000", 1000}, {"199999", 1000}, {"200000", 10000}} {
		a, err := money.Parse(c.spread)
		if err != nil {
			t.Fatal(err)
		}
		if got := stepFor(a); got != c.want {
			t.Errorf("spread %s: step %d, want %d", c.spread, got, c.want)
		}
	}
}

// By hand: 4 + 2.5 crew-days of two crews is 3.25, so 3.5 days; a fifth more
// for weather, 1 day; one inspection; 5.5 of 5 a week is 7.7, so 8 days.
func TestMake_Calendar(t *testing.T) {
	t.Parallel()
	e := Make(book(t), pond(0), 0.05)
	near(t, "crew-days", e.CrewDays, 6.5, 0)
	near(t, "working days", e.WorkDays, 5.5, 0)
	near(t, "calendar days", e.CalendarDays, 8, 0)
	if len(e.Stages) != 1 || e.Stages[0].ID != "build" {
		t.Errorf("stages %v, want the build alone", e.Stages)
	}
}

func TestMake_AnEmptyBookIsAnEmptyBudget(t *testing.T) {
	t.Parallel()
	e := Make(PriceBook{}, &sheet.Sheet{}, 0.05)
	if e.High.Sign() != 0 || len(e.Lines) != 0 || e.StepUnits != 1 {
		t.Errorf("estimate %+v, want nothing", e)
	}
}

func TestFaults_SeeEachSlip(t *testing.T) {
	t.Parallel()
	if f := book(t).Faults(); len(f) != 0 {
		t.Fatalf("a sound book has faults %v", f)
	}
	for _, c := range []struct {
		why, path, code string
		spoil           func(b *PriceBook)
	}{
		{"version", "prices_version", "version", func(b *PriceBook) { b.Version = 2 }},
		{"no index", "regional_index", "above_zero", func(b *PriceBook) { b.RegionalIndex = money.Quantity{} }},
		{"market falls", "market", "order", func(b *PriceBook) { b.Market.Low = q(t, "2") }},
		{"market may be nothing", "market.low", "above_zero", func(b *PriceBook) { b.Market.Low = money.Quantity{} }},
		{"contingency below nothing", "contingency.low", "not_negative", func(b *PriceBook) { b.Contingency.Low = q(t, "-1") }},
		{"no crew", "works.crew_count", "above_zero", func(b *PriceBook) { b.Works.CrewCount = 0 }},
		{"eight days a week", "works.workdays_per_week", "span", func(b *PriceBook) { b.Works.WorkdaysPerWeek = 8 }},
		{"two phases of one id", "works.phases[1].id", "twice", func(b *PriceBook) { b.Works.Phases[1].ID = "build" }},
		{"no items", "items", "missing", func(b *PriceBook) { b.Items = nil }},
		{"two items of one id", "items[1].id", "twice", func(b *PriceBook) { b.Items[1].ID = "dig" }},
		{"a phase nobody knows", "items[2].phase", "unknown_phase", func(b *PriceBook) { b.Items[2].Phase = "magic" }},
		{"a feature nobody knows", "items[4].feature", "unknown_feature", func(b *PriceBook) { b.Items[4].Feature = "moat" }},
		{"two features of one id", "features[1].id", "twice", func(b *PriceBook) { b.Features = append(b.Features, Feature{"deck", "Again"}) }},
		{"high below likely", "items[1].likely", "order", func(b *PriceBook) { b.Items[1].High = b.Items[1].Low }},
		{"low below nothing", "items[0].low", "not_negative", func(b *PriceBook) { b.Items[0].Low, _ = money.ParsePrice("-1") }},
		{"fixed by the metre", "items[3].unit", "unit", func(b *PriceBook) { b.Items[3].Unit = sheet.Metre }},
		{"a clause that says nothing", "items[4].when[0]", "unbounded", func(b *PriceBook) { b.Items[4].When = []sheet.Clause{{Figure: "deck.area"}} }},
	} {
		b := book(t)
		c.spoil(&b)
		if f := b.Faults(); len(f) != 1 || f[0] != (Fault{c.path, c.code}) {
			t.Errorf("%s: faults %v, want %s %s alone", c.why, f, c.path, c.code)
		}
	}
}

func TestUnmet_SeesFiguresThatAreNotThere(t *testing.T) {
	t.Parallel()
	b := book(t)
	if f := b.Unmet(pond(1)); len(f) != 0 {
		t.Fatalf("unmet %v, want none", f)
	}
	b.Items[0].Quantity, b.Items[1].Unit, b.Items[4].When[0].Figure = "takeoff.moat", sheet.Metre, "moat.depth"
	want := []Fault{{"items[0].quantity", "unknown_figure"}, {"items[1].unit", "unit"}, {"items[4].when[0].figure", "unknown_figure"}}
	got := b.Unmet(pond(1))
	if len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("unmet %v, want %v", got, want)
	}
}
