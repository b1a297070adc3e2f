package form

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
)

// year is what a person says of the pump's year.
type year struct {
	from, to int // the first and the last month of the season
	number   int
	cascadeH float64 // the cascade's hours on a day of high season
	night    string  // quiet, slow or off, from ten to six in high season
	winter   string  // off, or slow all day in the months without a season
}

// spans is when the pump runs from one month through another, round the year's
// end if need be: all day in May to September, two thirds of it in April and
// October, a third in the months beyond; and the winter, if it runs then.
func (y year) spans() []design.Span {
	var spans []design.Span
	last := (y.to-y.from+12)%12 + 1
	for n := 0; n < last; {
		first := (y.from-1+n)%12 + 1
		p := paceOf(first)
		end := first
		for n++; n < last && end < 12 && paceOf(end+1) == p; n++ {
			end++
		}
		spans = append(spans, design.Span{
			From: monthDay(first, 1),
			To:   monthDay(end, days(end, y.number)),
			Runs: y.day(p),
		})
	}
	if y.winter == slowly && last < 12 {
		first, end := y.to%12+1, (y.from+10)%12+1
		spans = append(spans, design.Span{From: monthDay(first, 1), To: monthDay(end, days(end, y.number)),
			Runs: []design.Run{{Mode: design.WinterMode, Start: "00:00", End: "24:00"}}})
	}
	return spans
}

// slowly is the answer that runs the pump at its slow flow.
const slowly = "slow"

// pace is how much of a day the pump runs.
type pace int

const (
	slack pace = iota // 3 h of cascade for 8 in high season, quiet from 9 to 5
	mild              // 6 h for 8, quiet from 6 to 10
	full              // the hours asked for, quiet round the clock
)

func paceOf(month int) pace {
	switch month {
	case 5, 6, 7, 8, 9:
		return full
	case 4, 10:
		return mild
	}
	return slack
}

// Times of the day, in minutes after midnight.
const (
	noon, nightFalls, nightEnds = 12 * 60, 22 * 60, 6 * 60
	dayMin                      = 24 * 60
)

// day is the day's windows: the cascade from noon on, quiet flow round it.
func (y year) day(p pace) []design.Run {
	share, opens, shuts := 1.0, noon, noon+dayMin
	switch p {
	case mild:
		share, opens, shuts = 0.75, 6*60, 22*60
	case slack:
		share, opens, shuts = 0.375, 9*60, 17*60
	}
	end := noon + int(math.Round(y.cascadeH*share*60))
	var runs []design.Run
	add := func(m design.Mode, from, to int) {
		if from < to {
			runs = append(runs, design.Run{Mode: m, Start: clock(from), End: clock(to)})
		}
	}
	add(design.CascadeMode, noon, end)
	if p != full {
		add(design.QuietMode, opens, noon)
		add(design.QuietMode, end, shuts)
		return runs
	}
	if y.night == "quiet" {
		add(design.QuietMode, end, shuts)
		return runs
	}
	if y.night == slowly {
		add(design.NightMode, nightFalls, nightEnds+dayMin)
	}
	add(design.QuietMode, end, nightFalls)
	add(design.QuietMode, nightEnds, noon)
	return runs
}

// clock writes a minute of the day; a day later it is the same hour.
func clock(minute int) string {
	return two(minute%dayMin/60) + ":" + two(minute%60)
}

func monthDay(month, day int) string { return two(month) + "-" + two(day) }

func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// days is the length of a month by the Gregorian rule.
func days(month, year int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}
