package form

import "tarnwright/internal/core/design"

// The ways in which electricity is priced.
const (
	byAverage = "average" // what homes of the region paid on average
	byOwn     = "own"     // a price that was typed
	byTariff  = "tariff"  // the builder's tariff, on top of the home's own use
)

// WasBill carries the way of pricing that stood in a form when it was shown:
// where that is sent back as it was, a price just typed wins.
const WasBill = "bill_was"

// Bill is how electricity is priced. A price that is not the region's is the
// home's own, however it came there. Without regions any price is the home's,
// and its word is that of the average.
func (s State) Bill() string {
	switch w := s.Word(Bill); {
	case w == byTariff:
		return byTariff
	case w == byOwn, !s.RegionPrice() && len(s.base.Regions) > 0:
		return byOwn
	}
	return byAverage
}

// Tariff is the name of the builder's tariff, or nothing.
func (s State) Tariff() string { return s.base.Tariff }

func (d Defaults) bills() []string {
	if d.Tariff == "" {
		return []string{byAverage, byOwn}
	}
	return []string{byAverage, byOwn, byTariff}
}

// billed makes price and way of pricing agree after one of the two was answered.
func (s State) billed(f Field) State {
	switch {
	case f == Power && len(s.base.Regions) > 0:
		return s.put(Bill, value{word: byOwn})
	case f == Power:
		return s.put(Bill, value{word: byAverage})
	case f == Place, f == Bill && s.Word(Bill) == byAverage:
		return s.put(Bill, value{word: byAverage}).priced()
	}
	return s
}

// priced is what the answers say of the price.
func priced(s State, site *design.Site) {
	site.ElectricityPerKWh = s.Word(Power)
	if s.Word(Bill) == byTariff {
		site.ElectricityPerKWh, site.HouseholdKWhPerMonth = "", s.Value(HomeUse)
	}
}

// amiss is what is wrong with an answer that no place in a design holds as it
// was given.
func (q question) amiss(v value) *design.Fault {
	var most float64
	var unit string
	switch q.kind {
	case hours:
		most, unit = 24, "h"
	case energy:
		most, unit = 100000, "kWh"
	default:
		return nil
	}
	if v.n >= 0 && v.n <= most {
		return nil
	}
	return &design.Fault{Path: string(q.field), Code: "out_of_range", Args: []design.Arg{{Name: "value", Value: v.n, Unit: unit},
		{Name: "low", Unit: unit}, {Name: "high", Value: most, Unit: unit}}}
}
