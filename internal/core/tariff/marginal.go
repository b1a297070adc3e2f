package tariff

import "tarnwright/internal/core/money"

// Marginal returns what one kilowatt-hour more costs a home that takes so many
// a month, in an hour that no period prices: the rest's price and that of the
// step the home has reached, with tax. It ranks; a bill is made by Bill. ok is
// false when the tariff prices neither.
func (t Tariff) Marginal(homeKWhPerMonth money.Quantity) (p money.Price, ok bool) {
	if t.RestPerKWh != nil {
		p, ok = *t.RestPerKWh, true
	}
	for _, step := range t.Tiers {
		if step.UpToKWh == nil || homeKWhPerMonth.Cmp(*step.UpToKWh) < 0 {
			p, ok = p.Add(step.PerKWh), true
			break
		}
	}
	return p.Add(p.Scale(t.TaxShare)), ok
}
