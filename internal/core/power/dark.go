package power

import (
	"strconv"

	"tarnwright/internal/core/design"
)

// Sun is when the sun rises and sets in each month, minutes after midnight by
// the sun's own clock: noon is when it stands highest. The clock on the wall
// differs by longitude, by the season's shift and by up to a quarter of an
// hour through the year; over a night the two ends shift together, so the dark
// hours stay.
type Sun [12]SunDay

// SunDay is one month's middle day. A month whose sun does not set has Up 0
// and Down 1440; one whose sun does not rise has both at 720.
type SunDay struct{ UpMin, DownMin int }

// SunFrom returns the sun of a year from the daylight hours of each month's
// middle day, to the minute.
func SunFrom(daylightH [12]float64) Sun {
	var s Sun
	for m, h := range daylightH {
		half := int(h*HourMin/2 + 0.5)
		half = max(0, min(DayMin/2, half))
		s[m] = SunDay{DayMin/2 - half, DayMin/2 + half}
	}
	return s
}

// Lit returns a load with its dusks and dawns set to clock times: each window
// that names one becomes a window a month. Windows with clock times stay.
func Lit(l design.Load, s Sun) design.Load {
	out := l
	out.Spans = nil
	for _, w := range l.Spans {
		if !bySun(w.Start) && !bySun(w.End) {
			out.Spans = append(out.Spans, w)
			continue
		}
		for m := range s {
			for _, part := range inMonth(w.From, w.To, m+1) {
				start, end := s[m].clock(w.Start), s[m].clock(w.End)
				// Sun up all day leaves nothing dark; equal ends would mean
				// the whole day.
				if start == end || s[m].UpMin == 0 {
					continue
				}
				out.Spans = append(out.Spans, design.LoadWindow{From: part[0], To: part[1], Start: start, End: end})
			}
		}
	}
	return out
}

func bySun(t string) bool { return t == design.Dusk || t == design.Dawn }

func (d SunDay) clock(t string) string {
	switch t {
	case design.Dusk:
		return hhmm(d.DownMin)
	case design.Dawn:
		return hhmm(d.UpMin)
	}
	return t
}

func hhmm(minute int) string { return two(minute/HourMin) + ":" + two(minute%HourMin) }

func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// inMonth returns the parts of a season that lie in a month: none, one, or two
// when it goes round the year's end and meets itself.
func inMonth(from, to string, month int) [][2]string {
	first, last := two(month)+"-01", two(month)+"-"+two(longestMonth(month))
	if from <= to {
		return clip(from, to, first, last)
	}
	return append(clip(from, "12-31", first, last), clip("01-01", to, first, last)...)
}

func longestMonth(month int) int { return monthDays(leapYear, month) }

// leapYear is any year with a 29 February, so that a season to the month's end
// takes that day along.
const leapYear = 2024

func clip(from, to, first, last string) [][2]string {
	from, to = max(from, first), min(to, last)
	if from > to {
		return nil
	}
	return [][2]string{{from, to}}
}
