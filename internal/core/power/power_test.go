package power_test

import (
	"math"
	"testing"
	"time"
	_ "time/tzdata" // so that the clock changes are known everywhere

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
)

func window(t *testing.T, from, to, start, end string) power.Window {
	t.Helper()
	w, ok := power.NewWindow([2]string{from, to}, [2]string{start, end})
	if !ok {
		t.Fatalf("%s to %s, %s to %s cannot be read", from, to, start, end)
	}
	return w
}

func TestTimetable_CountsMinutesByHand(t *testing.T) {
	t.Parallel()
	all := func(start, end string) []power.Window { return []power.Window{window(t, "01-01", "12-31", start, end)} }
	rows := []struct {
		why   string
		table power.Timetable
		month int
		want  int64
		year  int64
	}{
		{"a common year is 8760 h", power.Timetable{Year: 2025, On: all("00:00", "24:00")}, 2, 28 * 1440, 8760 * 60},
		{"a leap year is 8784 h", power.Timetable{Year: 2024, On: all("00:00", "24:00")}, 2, 29 * 1440, 8784 * 60},
		{"1900 was not a leap year", power.Timetable{Year: 1900, On: all("00:00", "24:00")}, 2, 28 * 1440, 8760 * 60},
		{"a run past midnight", power.Timetable{Year: 2025, On: all("22:30", "06:15")}, 1, 31 * 465, 365 * 465},
		{"an end at the start is the whole day", power.Timetable{Year: 2025, On: all("08:00", "08:00")}, 1, 31 * 1440, 8760 * 60},
		{"a season round the year's end", power.Timetable{Year: 2025, On: []power.Window{window(t, "11-15", "02-10", "00:00", "01:00")}}, 2, 600, (16 + 31 + 31 + 10) * 60},
		{"29 February is skipped in a common year", power.Timetable{Year: 2025, On: []power.Window{window(t, "02-29", "02-29", "00:00", "01:00")}}, 2, 0, 0},
		{"and is a day in a leap year", power.Timetable{Year: 2024, On: []power.Window{window(t, "02-29", "02-29", "00:00", "01:00")}}, 2, 60, 60},
		{"a minute in two windows counts once", power.Timetable{Year: 2025, On: append(all("08:00", "12:00"), all("10:00", "13:00")...)}, 1, 31 * 300, 365 * 300},
		{"what is off is taken out", power.Timetable{Year: 2025, On: all("08:00", "12:00"), Off: all("09:00", "10:30")}, 1, 31 * 150, 365 * 150},
		{"never on", power.Timetable{Year: 2025}, 1, 0, 0},
	}
	for _, r := range rows {
		if got := r.table.MonthMin()[r.month-1]; got != r.want {
			t.Errorf("%s: month %d has %d min, want %d", r.why, r.month, got, r.want)
		}
		if got := r.table.YearMin(); got != r.year {
			t.Errorf("%s: %d min in the year, want %d", r.why, got, r.year)
		}
	}
}

func TestDays_AgreeWithTheCalendar(t *testing.T) {
	t.Parallel()
	for year := 1996; year <= 2104; year++ {
		at := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)
		for d := range power.Days(year) {
			if int(at.Month()) != d.Month || at.Day() != d.Day || at.Weekday() != d.Weekday || d.Year != year {
				t.Fatalf("%v, want %s", d, at.Format("Mon 2006-01-02"))
			}
			at = at.AddDate(0, 0, 1)
		}
		if at.Year() != year+1 {
			t.Errorf("%d ends on %s", year, at.Format("2006-01-02"))
		}
	}
}

// A walk through every minute of the year is the other way to count.
func TestTimetable_AgreesWithAMinuteWalk(t *testing.T) {
	t.Parallel()
	table := power.Timetable{Year: 2024,
		On:  []power.Window{window(t, "02-29", "10-03", "21:37", "04:11"), window(t, "09-15", "03-02", "03:05", "17:44")},
		Off: []power.Window{window(t, "06-01", "01-15", "02:30", "03:10")}}
	slots := func(d power.Day) []power.Slot {
		if d.Weekend() {
			return []power.Slot{{EndMin: 1440, Class: 0}}
		}
		return []power.Slot{{EndMin: 7*60 + 13, Class: 0}, {EndMin: 22 * 60, Class: 1}, {EndMin: 1440, Class: 0}}
	}
	var want [12][2]int64
	for at := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() == 2024; at = at.Add(time.Minute) {
		day, minute := power.Date{Month: int(at.Month()), Day: at.Day()}, at.Hour()*60+at.Minute()
		on := false
		for _, w := range table.On {
			on = on || w.InSeason(day) && w.Has(minute)
		}
		for _, w := range table.Off {
			on = on && (!w.InSeason(day) || !w.Has(minute))
		}
		class := 0
		if wd := at.Weekday(); wd != time.Saturday && wd != time.Sunday && minute >= 433 && minute < 1320 {
			class = 1
		}
		if on {
			want[at.Month()-1][class]++
		}
	}
	for m, got := range table.Minutes(slots, 2) {
		if got[0] != want[m][0] || got[1] != want[m][1] {
			t.Errorf("month %d: %v, want %v", m+1, got, want[m])
		}
	}
}

// Clocks change, bills are counted here in civil days of 24 h. Over a whole year
// of the same daily hours the two ways agree, as the reference's variants in
// testdata/reference/energy.json say; within a season they differ by an hour.
func TestTimetable_ClockChangesCancelOverAYear(t *testing.T) {
	t.Parallel()
	rows := []struct {
		zone       string
		year       int
		start, end string
		want       int64
	}{
		{"America/New_York", 2025, "00:00", "24:00", 525600},
		{"America/New_York", 2025, "00:00", "06:00", 131400},
		{"America/New_York", 2024, "01:30", "02:30", 21960},
		{"Europe/Berlin", 2025, "02:00", "03:00", 21900},
	}
	for _, r := range rows {
		zone, err := time.LoadLocation(r.zone)
		if err != nil {
			t.Fatal(err)
		}
		w := window(t, "01-01", "12-31", r.start, r.end)
		var elapsed int64
		for at := time.Date(r.year, 1, 1, 0, 0, 0, 0, zone); at.Year() == r.year; at = at.Add(time.Minute) {
			if w.Has(at.Hour()*60 + at.Minute()) {
				elapsed++
			}
		}
		if got := (power.Timetable{Year: r.year, On: []power.Window{w}}).YearMin(); got != r.want || elapsed != r.want {
			t.Errorf("%s %d %s to %s: %d civil and %d true minutes, want %d", r.zone, r.year, r.start, r.end, got, elapsed, r.want)
		}
	}
}

func TestPumpTimes_TheCascadeWinsWhereBothAreSet(t *testing.T) {
	t.Parallel()
	r := design.Running{Year: 2025, Spans: []design.Span{{From: "06-01", To: "06-30", Runs: []design.Run{
		{Mode: design.QuietMode, Start: "00:00", End: "24:00"}, {Mode: design.CascadeMode, Start: "10:00", End: "18:00"}}}}}
	if got := power.PumpTimes(r, design.CascadeMode).YearMin(); got != 30*8*60 {
		t.Errorf("cascade %d min, want %d", got, 30*8*60)
	}
	if got := power.PumpTimes(r, design.QuietMode).YearMin(); got != 30*16*60 {
		t.Errorf("quiet %d min, want %d", got, 30*16*60)
	}
}

func TestNewWindow_RefusesWhatIsNoDayOrTime(t *testing.T) {
	t.Parallel()
	for _, r := range [][4]string{{"02-30", "03-01", "00:00", "01:00"}, {"1-1", "12-31", "00:00", "01:00"}, {"01-01", "12-31", "24:01", "01:00"}, {"01-01", "12-31", "00:00", "1:00"}} {
		if _, ok := power.NewWindow([2]string{r[0], r[1]}, [2]string{r[2], r[3]}); ok {
			t.Errorf("%v was read", r)
		}
	}
}

func TestTally_IsKilowattsTimesMinutes(t *testing.T) {
	t.Parallel()
	all := power.Timetable{Year: 2025, On: []power.Window{window(t, "01-01", "12-31", "00:00", "00:20")}}
	e := power.Tally([]power.Draw{{KW: power.Watts(611.7), Times: all}, {KW: power.Whole(2), Times: all}}, power.OneClass(), 1)
	want, err := money.ParseQuantity("19065.41") // 365 × 20 × 2.6117
	if err != nil {
		t.Fatal(err)
	}
	if got := e.Year(); got.Cmp(want) != 0 {
		t.Errorf("%s kW min, want 19065.41", got)
	}
	if got := power.KWh(e.Year()); math.Abs(got-19065.41/60) > 1e-12*got {
		t.Errorf("%g kWh, want %g", got, 19065.41/60)
	}
}

// 1533 kWh at the mean of the US grid of 2022, 823.149 lb/MWh (EPA, eGRID2022, as
// quoted by an open carbon calculator), is 1262 lb or 572 kg. The totals that the
// EIA publishes for the same year, 1,650 million t over 4,230,672 million kWh, are
// rounded and of other plants; they lie within 5 %.
func TestCarbon_AgreesWithTheGridOf2022(t *testing.T) {
	t.Parallel()
	g := power.Grid{Version: 1, KgPerKWh: 823.149 * 0.45359237 / 1000, Year: 2022, Source: "x"}
	if totals := 1650e9 / 4230672e6; math.Abs(g.KgPerKWh/totals-1) > 0.05 {
		t.Errorf("%.4f kg/kWh, and by the year's totals %.4f", g.KgPerKWh, totals)
	}
	if got := g.CarbonKg(1533); math.Abs(got-572) > 0.5 {
		t.Errorf("%.1f kg, want 572", got)
	}
	if math.Abs(g.KgPerKWh-0.3734) > 0.00005 {
		t.Errorf("%.5f kg/kWh, want 0.3734", g.KgPerKWh)
	}
	if f := g.Faults(); len(f) != 0 {
		t.Errorf("faults %v", f)
	}
	if f := (power.Grid{KgPerKWh: 400}).Faults(); len(f) != 4 {
		t.Errorf("a grid of nothing has %v", f)
	}
}
