package waterbill

import "tarnwright/internal/core/money"

// Tariff is what water from the tap costs. Tiers go by the cubic metres of a
// calendar month, household first. Fixed charges stay out: a pond does not
// change them.
type Tariff struct {
	Version  int    `json:"water_tariff_version"`
	Invented bool   `json:"invented"`
	Name     string `json:"name"`
	Year     int    `json:"year,omitempty"`
	Source   string `json:"source,omitempty"`
	// HomeM3PerMonth is the household's own use.
	HomeM3PerMonth money.Quantity `json:"home_m3_per_month,omitzero"`
	Tiers          []Tier         `json:"tiers"`
}

// Tier is a step of the month's total; the last has no end.
type Tier struct {
	Name   string          `json:"name"`
	UpToM3 *money.Quantity `json:"up_to_m3,omitempty"`
	PerM3  money.Price     `json:"per_m3"`
}

// Flat returns a tariff of one price for every cubic metre.
func Flat(name string, perM3 money.Price) Tariff {
	return Tariff{Version: 1, Name: name, Tiers: []Tier{{Name: "all", PerM3: perM3}}}
}

// Bill returns a month's bill for so many cubic metres: each tier is a line and
// is rounded to the cent once.
func (t Tariff) Bill(monthM3 money.Quantity) money.Amount {
	var sum money.Amount
	var below money.Quantity
	for i, tier := range t.Tiers {
		top := monthM3
		if tier.UpToM3 != nil && i < len(t.Tiers)-1 && tier.UpToM3.Cmp(top) < 0 {
			top = *tier.UpToM3
		}
		if part := top.Sub(below); part.Sign() > 0 {
			sum = sum.Add(tier.PerM3.Times(part).ToCent())
			below = top
		}
	}
	return sum
}

// Cost returns what the pond's water adds to the home's month.
func (t Tariff) Cost(pondM3 money.Quantity) money.Amount {
	return t.Bill(t.HomeM3PerMonth.Add(pondM3)).Sub(t.Bill(t.HomeM3PerMonth))
}
