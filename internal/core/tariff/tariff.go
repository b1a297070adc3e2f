// Package tariff turns kilowatt-hours by month and hour class into bill lines,
// months and a year, in exact decimal. What a pond costs is the bill with it
// less the bill without it.
package tariff

import (
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
)

// Tariff is what one kilowatt-hour costs and when. The parts combine: periods
// and the rest price every kilowatt-hour by its hour; tiers add to that by the
// month's running total; then fixed charges, the minimum, the tax.
type Tariff struct {
	Version  int    `json:"tariff_version"`
	Invented bool   `json:"invented,omitempty"`
	Name     string `json:"name"`
	// Year and Source say where the prices come from.
	Year   int    `json:"year,omitempty"`
	Source string `json:"source,omitempty"`
	// Periods are looked through in order; the first that has the hour prices it.
	Periods []Period `json:"periods,omitempty"`
	// RestName and RestPerKWh price every hour that no period has. A tariff
	// of tiers alone leaves the price out.
	RestName   string       `json:"rest_name,omitempty"`
	RestPerKWh *money.Price `json:"rest_per_kwh,omitempty"`
	// Holidays, "YYYY-MM-DD", are billed as weekend.
	Holidays []string `json:"holidays,omitempty"`
	// Tiers go by the kilowatt-hours of a calendar month, household first.
	Tiers []Tier `json:"tiers,omitempty"`

	FixedPerMonth   money.Amount   `json:"fixed_per_month,omitzero"`
	MinimumPerMonth money.Amount   `json:"minimum_per_month,omitzero"`
	TaxShare        money.Quantity `json:"tax_share,omitzero"` // 0.05 is 5 %
	Rounding        Rounding       `json:"rounding"`
}

// Days says on which days a period holds.
type Days string

// The days; empty is every day.
const (
	EveryDay Days = "every_day"
	Weekdays Days = "weekday"
	Weekends Days = "weekend" // Saturday, Sunday and holidays
)

// Period prices part of the day in part of the year.
type Period struct {
	Name string `json:"name"`
	// From and To are inclusive "MM-DD" and may go round the year's end; both
	// empty is the whole year.
	From string `json:"from,omitempty"`
	To   string `json:"to,omitempty"`
	Days Days   `json:"days,omitempty"`
	// Hours are half-open; none is the whole day.
	Hours  []Hours     `json:"hours,omitempty"`
	PerKWh money.Price `json:"per_kwh"`
}

// Hours is part of a day, "HH:MM"; an end at or before the start goes past
// midnight.
type Hours struct {
	Start string `json:"start"`
	End   string `json:"end"`
}

// Tier is a step of the month's total. UpToKWh is where it ends; the last tier
// has none.
type Tier struct {
	Name    string          `json:"name"`
	UpToKWh *money.Quantity `json:"up_to_kwh,omitempty"`
	PerKWh  money.Price     `json:"per_kwh"`
}

// Level is what is rounded to the cent.
type Level string

// The levels.
const (
	ByLine  Level = "line"  // every line and the tax; the rule of the house
	ByMonth Level = "month" // only the month's total
	ByYear  Level = "year"  // only the year's total
)

// Mode is how a half cent goes.
type Mode string

// The modes.
const (
	HalfUp   Mode = "half_up" // away from zero; the rule of the house
	HalfEven Mode = "half_even"
)

// Rounding is a tariff's rule; left out it is half up once per line.
type Rounding struct {
	Level Level `json:"level,omitempty"`
	Mode  Mode  `json:"mode,omitempty"`
}

// Flat returns a tariff of one price for every kilowatt-hour.
func Flat(name string, perKWh money.Price) Tariff {
	return Tariff{Version: 1, Name: name, RestName: "all", RestPerKWh: &perKWh}
}

// Classes is how many hour classes the tariff bills: its periods and the rest.
func (t Tariff) Classes() int { return len(t.Periods) + 1 }

// rest is the class of every hour that no period has.
func (t Tariff) rest() int { return len(t.Periods) }

// Slots cuts a day into the tariff's classes.
func (t Tariff) Slots() power.Slots {
	if len(t.Periods) == 0 {
		return power.OneClass()
	}
	windows := make([][]power.Window, len(t.Periods))
	for i, p := range t.Periods {
		windows[i] = p.windows()
	}
	// Days of one season and kind are cut alike, so a cut is kept by its
	// pattern: bit i says that period i holds on that day.
	cuts := map[uint64][]power.Slot{}
	return func(d power.Day) []power.Slot {
		var pattern uint64
		for i, p := range t.Periods {
			if len(windows[i]) > 0 && p.on(t.free(d)) && windows[i][0].InSeason(d.Date) {
				pattern |= 1 << i
			}
		}
		cut, known := cuts[pattern]
		if !known {
			cut = t.cut(pattern, windows)
			cuts[pattern] = cut
		}
		return cut
	}
}

// free says whether a day is billed as weekend.
func (t Tariff) free(d power.Day) dayKind {
	if d.Weekend() {
		return Weekends
	}
	for _, h := range t.Holidays {
		if h == isoDay(d) {
			return Weekends
		}
	}
	return Weekdays
}

// dayKind is Weekdays or Weekends.
type dayKind = Days

func (p Period) on(kind dayKind) bool { return p.Days == "" || p.Days == EveryDay || p.Days == kind }

func isoDay(d power.Day) string {
	two := func(n int) string {
		if n < 10 {
			return "0" + strconv.Itoa(n)
		}
		return strconv.Itoa(n)
	}
	return strconv.Itoa(d.Year) + "-" + two(d.Month) + "-" + two(d.Day)
}

// windows reads the period's season and hours. Text that cannot be read gives
// none; Faults has told before.
func (p Period) windows() []power.Window {
	season := [2]string{p.From, p.To}
	if p.From == "" && p.To == "" {
		season = [2]string{"01-01", "12-31"}
	}
	hours := p.Hours
	if len(hours) == 0 {
		hours = []Hours{{"00:00", "24:00"}}
	}
	var windows []power.Window
	for _, h := range hours {
		if w, ok := power.NewWindow(season, [2]string{h.Start, h.End}); ok {
			windows = append(windows, w)
		}
	}
	return windows
}

// cut lists the slots of a day on which the periods of the pattern hold.
func (t Tariff) cut(pattern uint64, windows [][]power.Window) []power.Slot {
	var slots []power.Slot
	for minute := range power.DayMin {
		class := t.rest()
		for i := range t.Periods {
			if pattern&(1<<i) != 0 && hasMinute(windows[i], minute) {
				class = i
				break
			}
		}
		if n := len(slots); n > 0 && slots[n-1].Class == class {
			slots[n-1].EndMin = minute + 1
			continue
		}
		slots = append(slots, power.Slot{EndMin: minute + 1, Class: class})
	}
	return slots
}

func hasMinute(windows []power.Window, minute int) bool {
	for _, w := range windows {
		if w.Has(minute) {
			return true
		}
	}
	return false
}
