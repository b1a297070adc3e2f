package tariff

import (
	"math"
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
)

// Ahead looks some years forward. Shares are a year's: 0.03 is 3 %.
type Ahead struct {
	Years                    int
	RiseShare, DiscountShare float64
}

// Total returns what a yearly cost adds up to: the first year at today's price,
// each later one dearer by the rise. It is rounded to the cent once.
func (a Ahead) Total(year money.Amount) money.Amount { return a.sum(year, 0) }

// Present returns what the same years are worth today, each paid at its end.
func (a Ahead) Present(year money.Amount) money.Amount { return a.sum(year, a.DiscountShare) }

func (a Ahead) sum(year money.Amount, discountShare float64) money.Amount {
	var sum money.Amount
	for k := range a.Years {
		factor := math.Pow(1+a.RiseShare, float64(k)) / math.Pow(1+discountShare, float64(k+1))
		if discountShare == 0 {
			factor = math.Pow(1+a.RiseShare, float64(k))
		}
		// Twelve decimals: far finer than a cent of any bill, and the same on
		// every machine.
		q, err := money.ParseQuantity(num.Decimal(factor, 12))
		if err != nil {
			return money.Amount{}
		}
		sum = sum.Add(year.Times(q))
	}
	return sum.ToCent()
}

// PaybackMonths returns how many months of saving make up for a dearer price,
// at today's price of power; ok is false when nothing is saved. A pump that is
// no dearer pays back at once.
func PaybackMonths(extra, savingAYear money.Amount) (paybackMonths float64, ok bool) {
	if savingAYear.Sign() <= 0 {
		return 0, false
	}
	if extra.Sign() <= 0 {
		return 0, true
	}
	ratio, ok := money.Ratio(extra, savingAYear, 9)
	if !ok {
		return 0, false
	}
	years, err := strconv.ParseFloat(ratio.String(), 64)
	return years * 12, err == nil
}
