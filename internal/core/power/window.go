// Package power turns a schedule into hours and kilowatt-hours by month and
// hour class, exactly: whole minutes of civil time times decimal kilowatts. It
// knows no prices.
package power

import (
	"iter"
	"time"

	"tarnwright/internal/core/design"
)

// DayMin is the minutes of a civil day. Clock changes are left out: over a
// year that runs the same hours every day they cancel, and within a season
// they are an hour of one day.
const DayMin = 1440

// HourMin is the minutes of an hour.
const HourMin = 60

// Date is a civil day. Its order as a number is its order in the year.
type Date struct{ Month, Day int }

func (d Date) rank() int { return d.Month*100 + d.Day }

// Window is a part of each day of a season. From and To are inclusive; From
// after To goes round the year's end. Start and end are minutes after midnight,
// half-open; an end at or before the start goes past midnight, and the minutes
// after it belong to the day on which they fall.
type Window struct {
	From, To         Date
	StartMin, EndMin int
}

// NewWindow reads a window from "MM-DD" and "HH:MM" texts.
func NewWindow(season, clock [2]string) (Window, bool) {
	var w Window
	var ok [4]bool
	w.From.Month, w.From.Day, ok[0] = design.MonthDay(season[0])
	w.To.Month, w.To.Day, ok[1] = design.MonthDay(season[1])
	w.StartMin, ok[2] = design.Minute(clock[0])
	w.EndMin, ok[3] = design.Minute(clock[1])
	return w, ok == [4]bool{true, true, true, true}
}

// InSeason says whether a day lies in the window's season.
func (w Window) InSeason(d Date) bool {
	from, to, at := w.From.rank(), w.To.rank(), d.rank()
	if from <= to {
		return from <= at && at <= to
	}
	return at >= from || at <= to
}

// Has says whether a minute of a day lies in the window's hours.
func (w Window) Has(minute int) bool {
	if w.StartMin < w.EndMin {
		return w.StartMin <= minute && minute < w.EndMin
	}
	return minute >= w.StartMin || minute < w.EndMin
}

// Day is one day of a year, as a tariff asks for it.
type Day struct {
	Date
	Year    int
	Weekday time.Weekday
}

// Weekend is Saturday and Sunday.
func (d Day) Weekend() bool { return d.Weekday == time.Saturday || d.Weekday == time.Sunday }

// Days gives every day of a year in order, 29 February only in leap years.
func Days(year int) iter.Seq[Day] {
	return func(yield func(Day) bool) {
		weekday := time.Date(year, time.January, 1, 0, 0, 0, 0, time.UTC).Weekday()
		for month := 1; month <= 12; month++ {
			for day := range monthDays(year, month) {
				if !yield(Day{Date{month, day + 1}, year, weekday}) {
					return
				}
				weekday = (weekday + 1) % 7
			}
		}
	}
}

// YearDays is how many days a year has.
func YearDays(year int) int {
	days := 0
	for month := 1; month <= 12; month++ {
		days += monthDays(year, month)
	}
	return days
}

// monthDays is how many days a month has.
func monthDays(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// MonthMin returns the minutes of each month of a year.
func MonthMin(year int) [12]int64 {
	var minutes [12]int64
	for m := range minutes {
		minutes[m] = int64(monthDays(year, m+1)) * DayMin
	}
	return minutes
}
