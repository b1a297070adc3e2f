package power

import (
	"math"
	"slices"

	"tarnwright/internal/core/design"
)

// Timetable says when one thing runs: at every minute that lies in a window of
// On and in none of Off. A minute in two windows counts once.
type Timetable struct {
	Year    int
	On, Off []Window
}

// Slot is a part of a day up to EndMin that a tariff bills as one class.
type Slot struct{ EndMin, Class int }

// Slots cuts a day into classes: slots in order, the last one to midnight.
type Slots func(Day) []Slot

// OneClass returns slots that bill every minute alike.
func OneClass() Slots {
	whole := []Slot{{DayMin, 0}}
	return func(Day) []Slot { return whole }
}

// PumpTimes returns when the pump runs in a mode. Where windows of several modes
// overlap one of them runs: the cascade, then the night, quiet hours, winter.
// Windows that cannot be read are left
// out; a validated design has none.
func PumpTimes(r design.Running, m design.Mode) Timetable {
	t := Timetable{Year: r.Year, On: windowsOf(r, m)}
	for _, before := range []design.Mode{design.CascadeMode, design.NightMode, design.QuietMode, design.WinterMode} {
		if before == m || len(t.On) == 0 {
			break
		}
		t.Off = append(t.Off, windowsOf(r, before)...)
	}
	return t
}

func windowsOf(r design.Running, m design.Mode) []Window {
	var windows []Window
	for _, span := range r.Spans {
		for _, run := range span.Runs {
			w, ok := NewWindow([2]string{span.From, span.To}, [2]string{run.Start, run.End})
			if ok && run.Mode == m {
				windows = append(windows, w)
			}
		}
	}
	return windows
}

// LoadTimes returns when another load runs.
func LoadTimes(year int, l design.Load) Timetable {
	t := Timetable{Year: year}
	for _, s := range l.Spans {
		if w, ok := NewWindow([2]string{s.From, s.To}, [2]string{s.Start, s.End}); ok {
			t.On = append(t.On, w)
		}
	}
	return t
}

// Minutes counts the minutes that run, by month and class.
func (t Timetable) Minutes(slots Slots, classes int) [12][]int64 {
	var count [12][]int64
	for m := range count {
		count[m] = make([]int64, classes)
	}
	if len(t.On) == 0 {
		return count
	}
	var seen cut
	for day := range Days(t.Year) {
		seen.take(t, day.Date, slots(day), classes)
		for c, minutes := range seen.minutes {
			count[day.Month-1][c] += minutes
		}
	}
	return count
}

// cut is a day's minutes by class. Most days are cut as the one before, so it
// is worked out again only when something changes.
type cut struct {
	turn    int // the rank of the first day on which a season may begin or be over
	slots   []Slot
	minutes []int64
	on, off []Window // in season
	edges   []int    // between which nothing changes
}

func (c *cut) take(t Timetable, d Date, slots []Slot, classes int) {
	if c.minutes != nil && d.rank() < c.turn && slices.Equal(slots, c.slots) {
		return
	}
	if c.minutes == nil {
		c.minutes = make([]int64, classes)
	}
	clear(c.minutes)
	c.on, c.off = inSeason(c.on[:0], t.On, d), inSeason(c.off[:0], t.Off, d)
	c.turn, c.slots = min(turn(t.On, d), turn(t.Off, d)), slots
	c.edges = breaks(c.edges[:0], c.on, c.off)
	start := 0
	for _, s := range slots {
		c.minutes[s.Class] += between(c.edges, start, s.EndMin, c.on, c.off)
		start = s.EndMin
	}
}

// turn returns the rank of the first day after d on which one of the windows
// comes into season or has gone out of it.
func turn(windows []Window, d Date) int {
	first := math.MaxInt
	for _, w := range windows {
		for _, at := range [2]int{w.From.rank(), w.To.rank() + 1} {
			if at > d.rank() {
				first = min(first, at)
			}
		}
	}
	return first
}

// inSeason adds to a list the windows that are in season on a day.
func inSeason(in, windows []Window, d Date) []Window {
	for _, w := range windows {
		if w.InSeason(d) {
			in = append(in, w)
		}
	}
	return in
}

// breaks puts into an empty list the minutes at which something may start or
// stop, ends of the day included.
func breaks(edges []int, lists ...[]Window) []int {
	edges = append(edges, 0, DayMin)
	for _, windows := range lists {
		for _, w := range windows {
			edges = append(edges, w.StartMin, w.EndMin)
		}
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// between counts the running minutes from start to end; between two edges
// nothing starts or stops.
func between(edges []int, start, end int, on, off []Window) int64 {
	var minutes int64
	for i := 1; i < len(edges); i++ {
		from, to := max(edges[i-1], start), min(edges[i], end)
		if from < to && has(on, from) && !has(off, from) {
			minutes += int64(to - from)
		}
	}
	return minutes
}

func has(windows []Window, minute int) bool {
	return slices.ContainsFunc(windows, func(w Window) bool { return w.Has(minute) })
}

// MonthMin counts the minutes that run, by month.
func (t Timetable) MonthMin() [12]int64 {
	var months [12]int64
	for m, classes := range t.Minutes(OneClass(), 1) {
		months[m] = classes[0]
	}
	return months
}

// YearMin counts the minutes that run in the year.
func (t Timetable) YearMin() int64 {
	var year int64
	for _, m := range t.MonthMin() {
		year += m
	}
	return year
}
