package budget

import (
	"math"

	"tarnwright/internal/core/sheet"
)

// Stage is one phase of the works on the calendar of working days.
type Stage struct {
	ID, Name string
	// StartDays is how many working days have gone before it.
	StartDays float64
	// BuildDays is the work itself; the others are allowances after it.
	BuildDays, WeatherDays, InspectionDays float64
	CrewDays                               float64
}

// schedule puts the phases one after the other, each in half days: crew-days
// shared among the crews, an allowance for weather, and waiting for
// inspections. Seven days of the calendar hold so many working days.
//
// Source: practice.
// Checked: by hand in the package's tests.
func (e *Estimate) schedule(b PriceBook, all []line) {
	for _, p := range b.Works.Phases {
		crewDays := 0.0
		for _, l := range all {
			if l.Phase == p.ID {
				crewDays += l.CrewDays
			}
		}
		if crewDays == 0 {
			continue
		}
		e.CrewDays += crewDays
		st := Stage{ID: p.ID, Name: p.Name, StartDays: e.WorkDays, CrewDays: sheet.Quantise(crewDays, 0.01), BuildDays: halfDays(crewDays / float64(max(1, b.Works.CrewCount))),
			InspectionDays: halfDays(p.InspectionDays)}
		st.WeatherDays = halfDays(st.BuildDays * p.WeatherRatio)
		e.WorkDays += st.BuildDays + st.WeatherDays + st.InspectionDays
		e.Stages = append(e.Stages, st)
	}
	e.CrewDays = sheet.Quantise(e.CrewDays, 0.01)
	e.CalendarDays = math.Ceil(e.WorkDays*7/float64(max(1, b.Works.WorkdaysPerWeek)) - 1e-9)
}

// halfDays rounds up to half a day.
func halfDays(days float64) float64 { return max(0, math.Ceil(days*2-1e-9)) / 2 }
