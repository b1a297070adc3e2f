// Package sheet is what comes out of the check: figures with how they were
// worked out and where the method comes from, findings, tables, curves, and
// the plan as plain polylines. It calculates nothing and holds no prose.
package sheet

import (
	"math"
	"slices"
	"sort"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/source"
)

// Unit names a unit in files and on the sheet. Only package measure turns one
// into what a person reads.
type Unit string

// The units. A new one is a reviewed line here.
const (
	Metre         Unit = "m"
	SquareMetre   Unit = "m2"
	CubicMetre    Unit = "m3"
	CubicMPerS    Unit = "m3/s"
	MetrePerS     Unit = "m/s"
	MetrePerH     Unit = "m/h"
	Hour          Unit = "h"
	HourPerYear   Unit = "h/a"
	Day           Unit = "d"
	Month         Unit = "month"
	Year          Unit = "a"
	Watt          Unit = "W"
	KilowattHour  Unit = "kWh"
	Pascal        Unit = "Pa"
	DegC          Unit = "degC"
	Kilogram      Unit = "kg"
	Tonne         Unit = "t"
	Ratio         Unit = "1"
	Count         Unit = "count"
	Millimetre    Unit = "mm"
	Money         Unit = "money"
	MoneyPerKWh   Unit = "money/kWh"
	MoneyPerM3    Unit = "money/m3"
	Degree        Unit = "deg"
	RevPerMin     Unit = "1/min"
	M2PerS        Unit = "m2/s"
	KgPerM3       Unit = "kg/m3"
	MillimetrePer Unit = "mm/d"
)

// ID names a figure for ever: "pond.gross_volume".
type ID string

// Figure is one value with its working.
type Figure struct {
	ID ID
	// Value is already quantised to Step. For Unit Money, MoneyPerKWh and
	// MoneyPerM3 it is unused and Amount holds the exact value.
	Value  float64
	Step   float64
	Unit   Unit
	Amount money.Amount
	// Working is symbols and numbers: "= V / Q = 62.6 / 0.00946".
	Working string
	Source  source.Key
}

// Severity orders findings.
type Severity string

// The severities: a caution, or something that is as it should be.
const (
	Care Severity = "care"
	Fine Severity = "fine"
)

// Finding is a result that is not a number.
type Finding struct {
	Code     string // "suction_too_fast"
	Severity Severity
	Figures  []ID // the figures it rests on, in the order its sentence names them
	Source   source.Key
	Place    Place // where on the plan it belongs, if anywhere
	// Text is set only by rules that come from a builder's file, where the
	// sentence is data; codes of the core are worded by package say.
	Title, Text, Defers string
	// Cited is the published text behind such a rule, as its file states it.
	Cited string
	// Mend is a change that would help, as form field and value; empty when none.
	// Else is another one.
	Mend, Else []Change
}

// Change is one edit of a design that a finding offers.
type Change struct{ Field, Value string }

// Place anchors a finding on the plan.
type Place string

// The places.
const (
	NoPlace      Place = ""
	AtDeepEnd    Place = "deep_end"
	AtDeck       Place = "deck"
	AtPump       Place = "pump"
	AtIntake     Place = "intake"
	AtBeach      Place = "beach"
	AtCascade    Place = "cascade"
	AtZone       Place = "zone"
	AtRim        Place = "rim"
	AroundGround Place = "ground"
)

// Sheet is the whole answer.
type Sheet struct {
	CoreVersion int
	Book        string
	Figures     []Figure
	Findings    []Finding
	Tables      []Table
	Curves      []Curve
	index       map[ID]int
}

// Table is a named grid of figures: months, stages, budget items.
type Table struct {
	ID      string
	Columns []Column
	Rows    []Row
}

// Column heads a table.
type Column struct {
	ID   string
	Unit Unit
}

// Row is one line; Name is a code that package say words (or a builder's own
// words when Plain is set).
type Row struct {
	Name  string
	Plain string
	Cells []Cell
	// Mend is the change that makes the design be what this row tells of;
	// empty where there is none.
	Mend []Change
}

// Cell is a value, or an amount where the column is money.
type Cell struct {
	Value  float64
	Amount money.Amount
}

// Curve is a line to draw: head against flow, and so on.
type Curve struct {
	ID           string
	XUnit, YUnit Unit
	Points       []XY
}

// XY is a point of a curve or of the plan.
type XY struct{ X, Y float64 }

// Add appends a figure, quantised to its step. A second figure of one id is a
// programmer's mistake.
func (s *Sheet) Add(f Figure) {
	if s.index == nil {
		const usual = 180 // figures of a sheet
		s.index, s.Figures = make(map[ID]int, usual), slices.Grow(s.Figures, usual)
	}
	if _, twice := s.index[f.ID]; twice {
		panic("sheet: figure added twice: " + string(f.ID))
	}
	f.Value = Quantise(f.Value, f.Step)
	s.index[f.ID] = len(s.Figures)
	s.Figures = append(s.Figures, f)
}

// Find returns a figure and whether the sheet has it.
func (s *Sheet) Find(id ID) (Figure, bool) {
	i, ok := s.index[id]
	if !ok {
		return Figure{}, false
	}
	return s.Figures[i], true
}

// Value returns a figure's value, or 0 when the sheet has no such figure.
func (s *Sheet) Value(id ID) float64 { f, _ := s.Find(id); return f.Value }

// Amount returns a money figure's amount, or zero.
func (s *Sheet) Amount(id ID) money.Amount { f, _ := s.Find(id); return f.Amount }

// Table returns a table by id, or an empty one.
func (s *Sheet) Table(id string) Table {
	for _, t := range s.Tables {
		if t.ID == id {
			return t
		}
	}
	return Table{}
}

// Curve returns a curve by id, or an empty one.
func (s *Sheet) Curve(id string) Curve {
	for _, c := range s.Curves {
		if c.ID == id {
			return c
		}
	}
	return Curve{}
}

// SortFindings puts cautions first and keeps the given order otherwise.
func (s *Sheet) SortFindings() {
	sort.SliceStable(s.Findings, func(i, j int) bool {
		return s.Findings[i].Severity == Care && s.Findings[j].Severity != Care
	})
}

// Quantise rounds x to a whole number of steps, half away from zero. A step of
// zero leaves x alone.
func Quantise(x, step float64) float64 {
	if step == 0 {
		return x
	}
	n := math.Round(x / step)
	if step < 1 {
		// Dividing by the whole reciprocal lands on the nearest decimal,
		// where multiplying by 0.1 would not.
		if inv := math.Round(1 / step); math.Abs(inv*step-1) < 1e-9 {
			return n / inv
		}
	}
	return n * step
}
