package core

import (
	"strings"

	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/core/waterbill"
)

// watering gathers what the year's water needs.
type watering struct {
	s       *sheet.Sheet
	climate waterbill.Climate
	tariff  waterbill.Tariff
	key     source.Key
	basin   waterbill.Basin
	days    [12]float64
	cascade [12]float64 // share of the month
	clean   int         // month of the clean-out, 0 for January
}

// waterFigures adds the water lost and topped up over a year, what it costs,
// and how far the level falls overnight. Without a climate there is none.
func waterFigures(s *sheet.Sheet, d design.Design, b Book) {
	climate, ok := climateOf(d, b)
	if !ok {
		return
	}
	w := watering{s: s, climate: climate, tariff: b.WaterTariff, key: "tariff"}
	if p, err := money.ParsePrice(d.Site.WaterPerM3); err == nil {
		w.tariff, w.key = waterbill.Flat("home", p), "asked"
	}
	w.basin = waterbill.Basin{SurfaceM2: s.Value("pond.area") + s.Value("zone.area"), NetM3: s.Value("water.net_volume"),
		SplashRatio: d.Site.SplashRatio, CleanOutRatio: d.Site.CleanOutRatio}
	w.season(d)
	w.add("water.surface", w.basin.SurfaceM2, sheet.SquareMetre, "definition",
		with("= pond + planted gravel = %s + %s", s.Value("pond.area"), s.Value("zone.area")))
	w.year()
	w.level()
}

// climateOf is the design's climate, or the builder's first.
func climateOf(d design.Design, b Book) (waterbill.Climate, bool) {
	for _, c := range b.Climates {
		if c.ID == d.Site.Climate {
			return c, true
		}
	}
	if len(b.Climates) == 0 {
		return waterbill.Climate{}, false
	}
	return b.Climates[0], true
}

// season works out days, the cascade's share of each month, and the month of
// the clean-out: the first in which the pump runs after one in which it does
// not, else April.
func (w *watering) season(d design.Design) {
	cascade := power.PumpTimes(d.Running, design.CascadeMode).MonthMin()
	quiet := power.PumpTimes(d.Running, design.QuietMode).MonthMin()
	w.clean = 3
	for m, minutes := range power.MonthMin(d.Running.Year) {
		w.days[m] = float64(minutes) / power.DayMin
		if d.Cascade != nil {
			w.cascade[m] = float64(cascade[m]) / float64(minutes)
		}
		before := (m + 11) % 12
		if cascade[m]+quiet[m] > 0 && cascade[before]+quiet[before] == 0 {
			w.clean = m
		}
	}
}

func (w watering) add(id sheet.ID, x float64, u sheet.Unit, key source.Key, working string) {
	w.s.Add(sheet.Figure{ID: id, Value: x, Step: fineStep, Unit: u, Source: key, Working: working})
}

// year adds the months and their sums.
func (w watering) year() {
	t := sheet.Table{ID: "water.months", Columns: []sheet.Column{
		{ID: "evaporation", Unit: sheet.CubicMetre}, {ID: "rain", Unit: sheet.CubicMetre}, {ID: "splash", Unit: sheet.CubicMetre},
		{ID: "clean_out", Unit: sheet.CubicMetre}, {ID: "top_up", Unit: sheet.CubicMetre}, {ID: "cost", Unit: sheet.Money},
		{ID: "overnight", Unit: sheet.Millimetre}, {ID: "leak", Unit: sheet.Millimetre},
	}}
	var sum waterbill.Flow
	var cost money.Amount
	var mm, rains, splashes, topUps terms
	for m := range 12 {
		day := w.climate.EvaporationMmPerDay(m + 1)
		rain := w.climate.Months[m].RainMm
		f := w.basin.Month(day*w.days[m], rain, waterbill.Hours{CascadeShare: w.cascade[m], CleanOut: m == w.clean})
		// A water meter counts litres, so the bill does.
		paid := w.tariff.Cost(exact(num.Decimal(f.TopUpM3, 3)))
		night := waterbill.OvernightMm(day)
		t.Rows = append(t.Rows, sheet.Row{Name: strconv.Itoa(m + 1), Cells: []sheet.Cell{
			fine(f.EvaporationM3), fine(f.RainM3), fine(f.SplashM3), fine(f.CleanOutM3), fine(f.TopUpM3), {Amount: paid},
			fine(night), fine(waterbill.LeakMm(night)),
		}})
		mm.add(digits(day * w.days[m]))
		rains.add(digits(rain))
		topUps.add(digits(f.TopUpM3))
		if w.cascade[m] > 0 {
			splashes.add(digits(f.EvaporationM3) + " × " + digits(w.cascade[m]))
		}
		sum = plus(sum, f)
		cost = cost.Add(paid)
	}
	w.s.Tables = append(w.s.Tables, t)
	area := w.basin.SurfaceM2
	w.add("water.evaporation", sum.EvaporationM3, sheet.CubicMetre, "penman1956", with("= A × mm ÷ 1000 = %s × (", area)+mm.text.String()+") ÷ 1000")
	w.add("water.rain", sum.RainM3, sheet.CubicMetre, "builder", with("= A × mm ÷ 1000 = %s × (", area)+rains.text.String()+") ÷ 1000")
	w.add("water.splash", sum.SplashM3, sheet.CubicMetre, "asked",
		with("= share × Σ evaporation × share of the month that the cascade runs = %s × (", w.basin.SplashRatio)+splashes.text.String()+")")
	w.add("water.clean_out", sum.CleanOutM3, sheet.CubicMetre, "asked", with("= share × water = %s × %s", w.basin.CleanOutRatio, w.basin.NetM3))
	w.add("water.top_up", sum.TopUpM3, sheet.CubicMetre, "definition", "= "+topUps.text.String())
	w.add("water.top_up_depth", sum.TopUpM3/area, sheet.Metre, "definition", with("= top-up ÷ A = %s ÷ %s", sum.TopUpM3, area))
	w.s.Add(sheet.Figure{ID: "water.cost", Amount: cost, Unit: sheet.Money, Source: w.key, Working: costWorking(t)})
}

func fine(x float64) sheet.Cell { return sheet.Cell{Value: sheet.Quantise(x, fineStep)} }

func plus(a, b waterbill.Flow) waterbill.Flow {
	return waterbill.Flow{
		EvaporationM3: a.EvaporationM3 + b.EvaporationM3, SplashM3: a.SplashM3 + b.SplashM3, CleanOutM3: a.CleanOutM3 + b.CleanOutM3,
		RainM3: a.RainM3 + b.RainM3, TopUpM3: a.TopUpM3 + b.TopUpM3,
	}
}

// terms is a sum written out.
type terms struct{ text strings.Builder }

func (t *terms) add(term string) {
	if t.text.Len() > 0 {
		t.text.WriteString(" + ")
	}
	t.text.WriteString(term)
}

func costWorking(t sheet.Table) string {
	var costs terms
	for _, r := range t.Rows {
		costs.add(r.Cells[5].Amount.String())
	}
	return "= " + costs.text.String()
}

// level adds the fall to expect overnight in the month that dries most, and
// the fall that points to a leak. The other months stand in the table.
func (w watering) level() {
	most, day := 0, 0.0
	for m := range 12 {
		if x := w.climate.EvaporationMmPerDay(m + 1); m == 0 || x > day {
			most, day = m, x
		}
	}
	night := waterbill.OvernightMm(day)
	w.add("level.overnight_drop", night, sheet.Millimetre, "practice", with("= half of the day's evaporation = %s ÷ 2, month %s", day, float64(most+1)))
	w.add("level.leak_drop", waterbill.LeakMm(night), sheet.Millimetre, "practice", with("= 2 × overnight + 3 = 2 × %s + 3", night))
}
