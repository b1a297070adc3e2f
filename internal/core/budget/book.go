// Package budget turns a builder's price book and the quantities on a sheet
// into a rough range: what each item may cost, what the whole may cost with its
// spread, what drives the spread, what leaving a feature out saves, and how
// long the works take. Amounts are decimal throughout; only plain ratios are
// ever a float.
package budget

import (
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

// PriceBook is a builder's own prices, in the currency of their book and for
// SI units.
type PriceBook struct {
	Version int `json:"prices_version"`
	// Invented says that the prices belong to a made-up builder.
	Invented bool `json:"invented"`
	// RegionalIndex scales every price: "1" where the prices were made.
	RegionalIndex money.Quantity `json:"regional_index"`
	// Market is what all prices together may do, around 1: it is what ties the
	// items to each other.
	Market Spread `json:"market"`
	// Contingency is the share set aside for what nobody can see yet.
	Contingency Spread `json:"contingency"`
	Works       Works  `json:"works"`
	// Features are what a person may leave out.
	Features []Feature `json:"features,omitempty"`
	Items    []Item    `json:"items"`
}

// Spread is a low, likely and high ratio.
type Spread struct {
	Low    money.Quantity `json:"low"`
	Likely money.Quantity `json:"likely"`
	High   money.Quantity `json:"high"`
}

// Works say how crew-days become days on the calendar.
type Works struct {
	CrewCount       int     `json:"crew_count"`
	WorkdaysPerWeek int     `json:"workdays_per_week"`
	Phases          []Phase `json:"phases"`
}

// Phase is one stage of the works; the list is in order of work.
type Phase struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	// WeatherRatio is the share of working days likely to be lost.
	WeatherRatio   float64 `json:"weather_ratio"`
	InspectionDays float64 `json:"inspection_days"`
}

// Feature names a group of items.
type Feature struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// Fixed is the quantity of an item that is simply there or not.
const Fixed = "fixed"

// Item is one line of the price book.
type Item struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Phase string `json:"phase"`
	// Feature groups the items that go when a person leaves something out.
	Feature string `json:"feature,omitempty"`
	// Quantity is a figure's id, or "fixed" for one of it.
	Quantity sheet.ID `json:"quantity"`
	// Unit is that figure's unit, written out so that a slip is caught.
	Unit   sheet.Unit  `json:"unit"`
	Low    money.Price `json:"low"`
	Likely money.Price `json:"likely"`
	High   money.Price `json:"high"`
	// FixedPart is paid once, whatever the quantity.
	FixedPart       money.Amount   `json:"fixed_part,omitzero"`
	CrewDaysPerUnit money.Quantity `json:"crew_days_per_unit,omitzero"`
	CrewDaysFixed   money.Quantity `json:"crew_days_fixed,omitzero"`
	When            []sheet.Clause `json:"when,omitempty"`
}

// Fault is one thing wrong with a price book. Code is one of: version, above_zero,
// not_negative, order, missing, twice, unknown_phase,
// unknown_feature, unbounded, span, unknown_figure,
// unit.
type Fault struct{ Path, Code string }

// Faults returns all that is wrong with the book by itself.
func (b PriceBook) Faults() []Fault {
	var faults faultList
	faults.when(b.Version != 1, "prices_version", "version")
	faults.when(b.RegionalIndex.Sign() <= 0, "regional_index", "above_zero")
	faults.spread(b.Market, "market")
	faults.when(b.Market.Low.Sign() <= 0, "market.low", "above_zero")
	faults.spread(b.Contingency, "contingency")
	faults.when(b.Works.CrewCount < 1, "works.crew_count", "above_zero")
	faults.when(b.Works.WorkdaysPerWeek < 1 || b.Works.WorkdaysPerWeek > 7, "works.workdays_per_week", "span")
	faults.when(len(b.Works.Phases) == 0, "works.phases", "missing")
	for i, p := range b.Works.Phases {
		at := "works.phases[" + strconv.Itoa(i) + "]."
		_, same := b.phase(p.ID)
		faults.when(p.ID == "" || p.Name == "", at+"id", "missing")
		faults.when(same != i, at+"id", "twice")
		faults.when(!(p.WeatherRatio >= 0 && p.WeatherRatio <= 2), at+"weather_ratio", "span")
		faults.when(!(p.InspectionDays >= 0 && p.InspectionDays <= 90), at+"inspection_days", "span")
	}
	for i, f := range b.Features {
		at := "features[" + strconv.Itoa(i) + "]."
		_, same := b.feature(f.ID)
		faults.when(f.ID == "" || f.Name == "", at+"id", "missing")
		faults.when(same != i, at+"id", "twice")
	}
	faults.when(len(b.Items) == 0, "items", "missing")
	for i, it := range b.Items {
		faults.item(b, i, it)
	}
	return faults
}

// Unmet returns what the book asks of a sheet and does not find there: figures
// by another name, or in another unit.
func (b PriceBook) Unmet(s *sheet.Sheet) []Fault {
	var faults faultList
	for i, it := range b.Items {
		at := "items[" + strconv.Itoa(i) + "]."
		if it.Quantity != Fixed {
			f, ok := s.Find(it.Quantity)
			faults.when(!ok, at+"quantity", "unknown_figure")
			faults.when(ok && f.Unit != it.Unit, at+"unit", "unit")
		}
		for j, c := range it.When {
			_, ok := s.Find(c.Figure)
			faults.when(!ok, at+"when["+strconv.Itoa(j)+"].figure", "unknown_figure")
		}
	}
	return faults
}

// phase finds a phase and where it first stands.
func (b PriceBook) phase(id string) (Phase, int) {
	for i, p := range b.Works.Phases {
		if p.ID == id {
			return p, i
		}
	}
	return Phase{}, -1
}

// feature finds a feature and where it first stands.
func (b PriceBook) feature(id string) (Feature, int) {
	for i, f := range b.Features {
		if f.ID == id {
			return f, i
		}
	}
	return Feature{}, -1
}

type faultList []Fault

func (l *faultList) when(wrong bool, path, code string) {
	if wrong {
		*l = append(*l, Fault{path, code})
	}
}

func (l *faultList) spread(s Spread, path string) {
	l.when(s.Low.Sign() < 0, path+".low", "not_negative")
	l.when(s.Low.Cmp(s.Likely) > 0 || s.Likely.Cmp(s.High) > 0, path, "order")
}

func (l *faultList) item(b PriceBook, i int, it Item) {
	at := "items[" + strconv.Itoa(i) + "]."
	l.when(it.ID == "", at+"id", "missing")
	l.when(it.Name == "", at+"name", "missing")
	for _, before := range b.Items[:i] {
		if before.ID == it.ID && it.ID != "" {
			l.when(true, at+"id", "twice")
			break
		}
	}
	_, known := b.phase(it.Phase)
	l.when(known < 0, at+"phase", "unknown_phase")
	_, grouped := b.feature(it.Feature)
	l.when(it.Feature != "" && grouped < 0, at+"feature", "unknown_feature")
	l.when(it.Quantity == "", at+"quantity", "missing")
	l.when(it.Quantity == Fixed && it.Unit != sheet.Count, at+"unit", "unit")
	l.when(it.Low.Sign() < 0, at+"low", "not_negative")
	low, likely, high := it.Low.Amount(), it.Likely.Amount(), it.High.Amount()
	l.when(low.Cmp(likely) > 0 || likely.Cmp(high) > 0, at+"likely", "order")
	l.when(it.FixedPart.Sign() < 0, at+"fixed_part", "not_negative")
	l.when(it.CrewDaysPerUnit.Sign() < 0, at+"crew_days_per_unit", "not_negative")
	l.when(it.CrewDaysFixed.Sign() < 0, at+"crew_days_fixed", "not_negative")
	for j, c := range it.When {
		l.when(!c.Bounded(), at+"when["+strconv.Itoa(j)+"]", "unbounded")
	}
}
