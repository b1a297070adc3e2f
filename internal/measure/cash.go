package measure

import (
	"strings"

	"tarnwright/internal/core/money"
)

// Money shows an amount to the whole unit: $612.
func (t Terms) Money(a money.Amount) Shown { return t.cash(a, 0) }

// PerArea shows an amount for each square metre, to the whole unit: $165 / sq ft.
func (t Terms) PerArea(perM2 money.Amount) Shown {
	unit, foot := "/"+nbsp+"m²", "1"
	if t.System == US {
		unit, foot = "/"+nbsp+"sq"+nbsp+"ft", "0.09290304"
	}
	q, err := money.ParseQuantity(foot)
	if err != nil {
		return None(unit)
	}
	return Shown{t.cash(perM2.Times(q), 0).Number, unit}
}

// Exact shows an amount to the cent.
func (t Terms) Exact(a money.Amount) Shown { return t.cash(a, 2) }

// Budget shows an amount to the thousand: $91,000.
func (t Terms) Budget(a money.Amount) Shown { return t.cash(a.ToStep(1000), 0) }

// BudgetRange shows two ends, the sign once: $72,000 – 118,000.
func (t Terms) BudgetRange(low, high money.Amount) Shown {
	return Shown{t.Budget(low).Number + nbsp + "–" + " " +
		strings.TrimPrefix(t.Budget(high).Number, Symbol(t.Currency)), ""}
}

func (t Terms) cash(a money.Amount, decimals int32) Shown {
	text := a.Fixed(decimals)
	lead := ""
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		text = rest
		if strings.Trim(rest, "0.") != "" {
			lead = minus
		}
	}
	return Shown{lead + Symbol(t.Currency) + group(text), ""}
}

// cents is price text with at least two decimals and no more than it needs.
func cents(text string) string {
	head, tail, _ := strings.Cut(shortest(text), ".")
	for len(tail) < 2 {
		tail += "0"
	}
	return group(head) + "." + tail
}

// Electricity shows a price of a kWh: $0.16 / kWh. Text that is not a price
// shows as a dash.
func (t Terms) Electricity(perKWh string) Shown {
	if _, err := money.ParsePrice(perKWh); err != nil {
		return None("/" + nbsp + "kWh")
	}
	return Shown{Symbol(t.Currency) + cents(perKWh), "/" + nbsp + "kWh"}
}

// Water shows a price of water: $6.20 / 1,000 gal, or $1.64 / m³.
func (t Terms) Water(perM3 string) Shown {
	unit := "/" + nbsp + "1,000" + nbsp + "gal"
	if t.System == Metric {
		unit = "/" + nbsp + "m³"
	}
	p, err := money.ParsePrice(perM3)
	if err != nil {
		return None(unit)
	}
	if t.System == Metric {
		return Shown{Symbol(t.Currency) + cents(p.Amount().Fixed(4)), unit}
	}
	q, err := money.ParseQuantity("3.785411784")
	if err != nil {
		return None(unit)
	}
	return Shown{Symbol(t.Currency) + cents(p.Scale(q).Amount().Fixed(4)), unit}
}
