package budget

import (
	"slices"
	"sort"
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/sheet"
)

// Estimate is a rough budget. It is never a quotation.
type Estimate struct {
	// Low, Likely and High are what one in ten, half, and nine in ten ponds
	// like this one stay below, to the whole unit of money.
	Low, Likely, High money.Amount
	// Base is the likely amounts of the items added up, and the ratios are what
	// the three figures are of it.
	Base                             money.Amount
	LowRatio, LikelyRatio, HighRatio float64
	// StepUnits is what the spread deserves to be rounded to: 1000 and so on.
	StepUnits int64
	Lines     []Line
	Drivers   []Driver
	Savings   []Saving
	Stages    []Stage
	CrewDays  float64
	// CalendarDays count from the first day on site, days off and allowances
	// for weather and inspections among them.
	CalendarDays float64
	// WorkDays are those of CalendarDays that are not days off.
	WorkDays float64
}

// Line is one item with its amounts to the cent.
type Line struct {
	ID, Name, Phase, Feature string
	Quantity                 money.Quantity
	Unit                     sheet.Unit
	Range                    money.Range
	// MeanShare is its part of the mean cost.
	MeanShare float64
	CrewDays  float64
}

// Driver is something that spreads the range.
type Driver struct {
	// ID is an item's, or "market", "size" or "contingency".
	ID, Name string
	// VarianceShare is its part of the whole variance.
	VarianceShare float64
	// Swing is how far it alone moves the total, either way, one time in ten.
	Swing money.Amount
}

// Saving is what the likely figure falls by when a feature is left out.
type Saving struct {
	Feature, Name string
	Amount        money.Amount
}

// Ids of what is not an item of the book.
const (
	MarketDriver      = "market"
	SizeDriver        = "size"
	ContingencyDriver = "contingency"
)

// Make works out the estimate of the quantities on a sheet. Items whose clauses
// do not hold, or whose figure is nothing, are left out.
func Make(b PriceBook, s *sheet.Sheet, sizeToleranceRatio float64) Estimate {
	all := lines(b, s)
	base, k := weigh(all), sizePowers(sizeToleranceRatio)
	t := total(b, base, all, k)
	t.shares(all)
	e := Estimate{Base: t.base, Drivers: t.drivers(all)}
	e.LowRatio, e.Low = t.at(-z10)
	e.LikelyRatio, e.Likely = t.at(0)
	e.HighRatio, e.High = t.at(z10)
	e.StepUnits = stepFor(e.High.Sub(e.Low))
	for _, l := range all {
		e.Lines = append(e.Lines, l.Line)
	}
	if rest := t.contingencyLine(b, all); len(all) > 0 && rest.Range.High.Sign() > 0 {
		e.Lines = append(e.Lines, rest)
	}
	e.Savings = t.savings(b, all, e.Likely)
	e.schedule(b, all)
	return e
}

// line is an item in the making: the power of size it goes with, and its
// moments over the base.
type line struct {
	Line
	power                   int
	three                   Three // the part that goes with the quantity, over the base
	fixed                   float64
	likely, low, high, once money.Amount
}

func lines(b PriceBook, s *sheet.Sheet) []line {
	var all []line
	for _, it := range b.Items {
		if !sheet.AllHold(it.When, s) {
			continue
		}
		if l, ok := price(b, it, s); ok {
			all = append(all, l)
		}
	}
	return all
}

// price works one item out, exactly.
func price(b PriceBook, it Item, s *sheet.Sheet) (line, bool) {
	value, power := 1.0, 0
	if it.Quantity != Fixed {
		f, ok := s.Find(it.Quantity)
		if !ok || !(f.Value > 0) {
			return line{}, false
		}
		value, power = f.Value, sizePower(f.Unit)
	}
	q, err := money.ParseQuantity(num.Decimal(value, 6))
	if err != nil {
		return line{}, false
	}
	l := line{Line: Line{ID: it.ID, Name: it.Name, Phase: it.Phase, Feature: it.Feature, Quantity: q, Unit: it.Unit}, power: power}
	l.low = it.Low.Scale(b.RegionalIndex).Times(q)
	l.likely = it.Likely.Scale(b.RegionalIndex).Times(q)
	l.high = it.High.Scale(b.RegionalIndex).Times(q)
	l.once = it.FixedPart.Times(b.RegionalIndex)
	l.Range = money.Range{Low: l.low.Add(l.once).ToCent(), Likely: l.likely.Add(l.once).ToCent(), High: l.high.Add(l.once).ToCent()}
	l.CrewDays = sheet.Quantise(plain(it.CrewDaysPerUnit.Mul(q).Add(it.CrewDaysFixed)), 0.01)
	return l, true
}

// sizePower says how a quantity grows when every length of the pond grows:
// lengths with the first power, surfaces with the second, volumes with the
// third. Masses are layers and bands of a stated thickness, so surfaces.
func sizePower(u sheet.Unit) int {
	switch u {
	case sheet.Metre:
		return 1
	case sheet.SquareMetre, sheet.Tonne, sheet.Kilogram:
		return 2
	case sheet.CubicMetre:
		return 3
	}
	return 0
}

// spreadOf is all items as one figure over their base, the sum of the likely
// amounts.
type spreadOf struct {
	base        money.Amount
	all         raw
	items       raw
	market      Three
	contingency Three
	k           sizes
}

// weigh puts each line over the base, the sum of the likely amounts.
func weigh(all []line) (base money.Amount) {
	for _, l := range all {
		base = base.Add(l.likely).Add(l.once)
	}
	for i := range all {
		l := &all[i]
		l.three = Three{over(l.low, base), over(l.likely, base), over(l.high, base)}
		l.fixed = over(l.once, base)
	}
	return base
}

// total gathers weighed lines.
func total(b PriceBook, base money.Amount, all []line, k sizes) spreadOf {
	t := spreadOf{base: base, k: k, market: b.Market.three(0), contingency: b.Contingency.three(1)}
	var ps parts
	for _, l := range all {
		add(&ps, l.power, l.three)
		ps[0].mean += l.fixed
	}
	t.items = ps.sum(t.k)
	t.all = t.items.times(t.market.raw()).times(t.contingency.raw())
	return t
}

// shares sets each line's part of the mean cost at the stated size.
func (t spreadOf) shares(all []line) {
	whole := 0.0
	for _, l := range all {
		whole += l.three.MeanRatio() + l.fixed
	}
	whole *= t.contingency.MeanRatio()
	for i := range all {
		all[i].MeanShare = share(all[i].three.MeanRatio()+all[i].fixed, whole)
	}
}

func add(ps *parts, power int, t Three) {
	ps[power].mean += t.MeanRatio()
	ps[power].variance += t.VarianceRatio()
	ps[power].third += t.ThirdRatio()
}

// three is the spread with so much added to each point.
func (s Spread) three(addedRatio float64) Three {
	return Three{plain(s.Low) + addedRatio, plain(s.Likely) + addedRatio, plain(s.High) + addedRatio}
}

// at is the factor of the base and the amount at a normal deviate, to the whole
// unit of money. The factor is cut to a millionth, so a last bit that differs
// between machines is gone before money is made of it.
func (t spreadOf) at(z float64) (factorRatio float64, a money.Amount) {
	f := sheet.Quantise(t.all.quantile(z), 1e-6)
	return f, t.amount(f)
}

// amount is a factor of the base, to the whole unit of money.
func (t spreadOf) amount(factorRatio float64) money.Amount {
	q, err := money.ParseQuantity(num.Decimal(sheet.Quantise(factorRatio, 1e-6), 6))
	if err != nil {
		return money.Amount{}
	}
	return t.base.Times(q).ToStep(1)
}

// contingencyLine is the set-aside as a line, each point over the likely
// amounts of the items.
func (t spreadOf) contingencyLine(b PriceBook, all []line) Line {
	sum := money.Amount{}
	for _, l := range all {
		sum = sum.Add(l.Range.Likely)
	}
	l := Line{ID: ContingencyDriver, Unit: sheet.Count, Range: money.Range{
		Low: sum.Times(b.Contingency.Low).ToCent(), Likely: sum.Times(b.Contingency.Likely).ToCent(), High: sum.Times(b.Contingency.High).ToCent(),
	}}
	mean := t.contingency.MeanRatio()
	l.MeanShare = share(mean-1, mean)
	return l
}

// drivers ranks what spreads the range: each alone, all others at their mean.
func (t spreadOf) drivers(all []line) []Driver {
	market, rest := t.market.MeanRatio(), t.contingency.MeanRatio()
	outer := float64(market * market * rest * rest)
	variances := []float64{
		float64(t.market.VarianceRatio() * rest * rest * t.items.one * t.items.one),
		float64(t.contingency.VarianceRatio() * market * market * t.items.one * t.items.one),
		float64(outer * t.sizeVariance(all)),
	}
	list := []Driver{{ID: MarketDriver}, {ID: ContingencyDriver}, {ID: SizeDriver}}
	for _, l := range all {
		list = append(list, Driver{ID: l.ID, Name: l.Name})
		variances = append(variances, float64(outer*l.three.VarianceRatio()*t.k[2*l.power]))
	}
	whole := t.all.variance()
	for i, v := range variances {
		list[i].VarianceShare = share(v, whole)
		list[i].Swing = t.amount(raw{two: v}.quantile(z10))
	}
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].VarianceShare != list[j].VarianceShare {
			return list[i].VarianceShare > list[j].VarianceShare
		}
		return list[i].ID < list[j].ID
	})
	return slices.DeleteFunc(list, func(d Driver) bool { return d.VarianceShare == 0 })
}

// sizeVariance is what the size alone does to the mean of the items.
func (t spreadOf) sizeVariance(all []line) float64 {
	var ps parts
	for _, l := range all {
		ps[l.power].mean += l.three.MeanRatio()
		ps[0].mean += l.fixed
	}
	return ps.sum(t.k).variance()
}

// savings works the whole out again without each feature, in the book's order.
func (t spreadOf) savings(b PriceBook, all []line, likely money.Amount) []Saving {
	var list []Saving
	rest := make([]line, 0, len(all))
	for i, l := range all {
		first := slices.IndexFunc(all, func(m line) bool { return m.Feature == l.Feature })
		if l.Feature == "" || first != i {
			continue
		}
		rest = rest[:0]
		for _, m := range all {
			if m.Feature != l.Feature {
				rest = append(rest, m)
			}
		}
		_, without := total(b, t.base, rest, t.k).at(0)
		named, _ := b.feature(l.Feature)
		list = append(list, Saving{l.Feature, named.Name, likely.Sub(without)})
	}
	return list
}

// stepFor is the greatest power of ten that the spread holds twenty times: what
// is finer says nothing.
func stepFor(spread money.Amount) int64 {
	step := int64(1)
	for step < 1e12 && money.Cents(step*100*10*20).Cmp(spread) <= 0 {
		step *= 10
	}
	return step
}

// plain is a quantity as a number; it is never made into money again.
func plain(q money.Quantity) float64 {
	x, err := strconv.ParseFloat(q.String(), 64)
	if err != nil {
		return 0
	}
	return x
}

// over is how many times b goes into a, as a number.
func over(a, b money.Amount) float64 {
	q, ok := money.Ratio(a, b, 15)
	if !ok {
		return 0
	}
	return plain(q)
}

// share is a part of a whole, to a ten-thousandth.
func share(part, whole float64) float64 {
	if whole == 0 {
		return 0
	}
	return sheet.Quantise(part/whole, 1e-4)
}
