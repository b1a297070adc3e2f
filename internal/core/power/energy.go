package power

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
)

// Draw is a constant power and when it is drawn.
type Draw struct {
	Name  string
	KW    money.Quantity
	Times Timetable
}

// Energy is kilowatt-minutes by month and class. It stays in sixtieths of a
// kilowatt-hour because a third of an hour has no decimal end.
type Energy [12][]money.Quantity

// Loads returns the other loads of a design as draws.
func Loads(r design.Running) []Draw {
	var draws []Draw
	for _, l := range r.Loads {
		draws = append(draws, Draw{l.Name, kilowatts(num.Shortest(l.PowerKW)), LoadTimes(r.Year, l)})
	}
	return draws
}

// kilowatts reads decimal text that the program itself wrote. Text that is not
// a plain decimal counts as nothing; limits of the design keep it from coming up.
func kilowatts(text string) money.Quantity {
	q, err := money.ParseQuantity(text)
	if err != nil {
		return money.Quantity{}
	}
	return q
}

// Whole returns a whole number as a quantity.
func Whole(n int64) money.Quantity { return kilowatts(strconv.FormatInt(n, 10)) }

// Watts returns a power in watts as kilowatts, exact to the microwatt.
func Watts(powerW float64) money.Quantity {
	thousandth, _ := money.ParseQuantity("0.001")
	return kilowatts(num.Decimal(powerW, 6)).Mul(thousandth)
}

// NewEnergy returns no energy in so many classes.
func NewEnergy(classes int) Energy {
	var e Energy
	for m := range e {
		e[m] = make([]money.Quantity, classes)
	}
	return e
}

// Tally adds up what draws take, by month and class.
func Tally(draws []Draw, slots Slots, classes int) Energy {
	e := NewEnergy(classes)
	for _, d := range draws {
		for m, month := range d.Times.Minutes(slots, classes) {
			for c, minutes := range month {
				if minutes > 0 {
					e[m][c] = e[m][c].Add(d.KW.Mul(Whole(minutes)))
				}
			}
		}
	}
	return e
}

// Add returns both energies together; they must have the same classes.
func (e Energy) Add(o Energy) Energy {
	sum := NewEnergy(len(e[0]))
	for m := range e {
		for c := range e[m] {
			sum[m][c] = e[m][c].Add(o[m][c])
		}
	}
	return sum
}

// Month returns the kilowatt-minutes of a month, 0 for January.
func (e Energy) Month(m int) money.Quantity {
	var sum money.Quantity
	for _, q := range e[m] {
		sum = sum.Add(q)
	}
	return sum
}

// Year returns the kilowatt-minutes of the year.
func (e Energy) Year() money.Quantity {
	var sum money.Quantity
	for m := range e {
		sum = sum.Add(e.Month(m))
	}
	return sum
}

// Class returns the kilowatt-minutes of a class over the year.
func (e Energy) Class(c int) money.Quantity {
	var sum money.Quantity
	for m := range e {
		sum = sum.Add(e[m][c])
	}
	return sum
}

// KWh returns kilowatt-minutes as kilowatt-hours, for show and for carbon; no
// bill is made of it.
func KWh(kilowattMinutes money.Quantity) (energyKWh float64) {
	x, err := strconv.ParseFloat(kilowattMinutes.String(), 64)
	if err != nil {
		return 0
	}
	return x / HourMin
}

// Grid is how much carbon dioxide a kilowatt-hour brings with it. The source
// and its year stand beside it, because grids differ by a factor of four.
type Grid struct {
	Version  int     `json:"grid_version"`
	Invented bool    `json:"invented"`
	KgPerKWh float64 `json:"kg_per_kwh"`
	Year     int     `json:"year"`
	Source   string  `json:"source"`
}

// CarbonKg returns the carbon dioxide of an energy.
//
//	m = E × grid intensity
//
// Source: definition.
// Checked: 1533 kWh at 823.1 lb/MWh is 572 kg.
func (g Grid) CarbonKg(energyKWh float64) float64 { return energyKWh * g.KgPerKWh }

// Fault is what a builder's file has wrong, by path and code.
type Fault struct{ Path, Code string }

// Faults returns everything wrong with the grid's figures.
func (g Grid) Faults() []Fault {
	var faults []Fault
	if g.Version != 1 {
		faults = append(faults, Fault{"grid_version", "version"})
	}
	if !(g.KgPerKWh >= 0 && g.KgPerKWh < 3) {
		faults = append(faults, Fault{"kg_per_kwh", "span"})
	}
	if g.Year < 2000 || g.Year > 2100 {
		faults = append(faults, Fault{"year", "span"})
	}
	if g.Source == "" {
		faults = append(faults, Fault{"source", "missing"})
	}
	return faults
}
