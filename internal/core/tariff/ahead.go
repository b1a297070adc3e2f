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

// Factors returns what one a year adds up to, and what it is worth today.
//
//	total = Σ (1+r)^k, k = 0 … n−1;  present = Σ (1+r)^(k−1) / (1+d)^k, k = 1 … n
//
// r is the yearly rise and d the discount. The first year is at today's price;
// for the present worth each year is paid at its end. Both are kept to twelve
// decimals, far finer than a cent of any bill.
//
// Source: definition.
// Checked: the closed forms of a growing series, from memory.
func (a Ahead) Factors() (totalRatio, presentRatio float64) {
	for k := range a.Years {
		dear := math.Pow(1+a.RiseShare, float64(k))
		totalRatio += dear
		presentRatio += dear / math.Pow(1+a.DiscountShare, float64(k+1))
	}
	return totalRatio, presentRatio
}

// Total returns what a yearly cost adds up to, to the cent.
func (a Ahead) Total(year money.Amount) money.Amount {
	total, _ := a.Factors()
	return times(year, total)
}

// Present returns what the same years are worth today, to the cent.
func (a Ahead) Present(year money.Amount) money.Amount {
	_, present := a.Factors()
	return times(year, present)
}

// times takes a factor by its decimal text, so that no float enters an amount.
func times(a money.Amount, factorRatio float64) money.Amount {
	q, err := money.ParseQuantity(num.Decimal(factorRatio, 12))
	if err != nil {
		return money.Amount{}
	}
	return a.Times(q).ToCent()
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
