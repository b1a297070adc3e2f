package form

import (
	"strconv"

	"tarnwright/internal/core/design"
)

// season is when the pump runs from one month through another, round the
// year's end if need be: all day in May to September, two thirds of it in
// April and October, a third in the months beyond.
func season(from, to, year int) []design.Span {
	var spans []design.Span
	last := (to-from+12)%12 + 1
	for n := 0; n < last; {
		first := (from-1+n)%12 + 1
		p := paceOf(first)
		end := first
		for n++; n < last && end < 12 && paceOf(end+1) == p; n++ {
			end++
		}
		spans = append(spans, design.Span{
			From: monthDay(first, 1),
			To:   monthDay(end, days(end, year)),
			Runs: day(p),
		})
	}
	return spans
}

// pace is how much of a day the pump runs.
type pace int

const (
	slack pace = iota // 3 h of cascade, 5 h quiet
	mild              // 6 h and 10 h
	full              // 8 h and 16 h
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

// day is the day's windows: the cascade in the afternoon, quiet flow round it.
func day(p pace) []design.Run {
	switch p {
	case full:
		return []design.Run{
			{Mode: design.CascadeMode, Start: "12:00", End: "20:00"},
			{Mode: design.QuietMode, Start: "20:00", End: "12:00"},
		}
	case mild:
		return []design.Run{
			{Mode: design.CascadeMode, Start: "12:00", End: "18:00"},
			{Mode: design.QuietMode, Start: "06:00", End: "12:00"},
			{Mode: design.QuietMode, Start: "18:00", End: "22:00"},
		}
	}
	return []design.Run{
		{Mode: design.CascadeMode, Start: "12:00", End: "15:00"},
		{Mode: design.QuietMode, Start: "09:00", End: "12:00"},
		{Mode: design.QuietMode, Start: "15:00", End: "17:00"},
	}
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
