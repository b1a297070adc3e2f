package power_test

import (
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/waterbill"
)

// Daylight by FAO-56: example 9 prints 11.7 h for 3 September at 20° south; the
// night is what is left of 24 h.
func TestLit_TheNightIsWhatTheDayLeaves(t *testing.T) {
	t.Parallel()
	sky := waterbill.Sky{LatitudeDeg: -20, YearDay: 246}
	if got := sky.DaylightHPerDay(); got < 11.65 || got > 11.75 {
		t.Fatalf("daylight = %.3f h, printed 11.7", got)
	}
	var daylightH [12]float64
	for m := range daylightH {
		daylightH[m] = sky.DaylightHPerDay()
	}
	l := design.Load{Name: "lights", PowerKW: 0.1, Spans: []design.LoadWindow{{From: "01-01", To: "12-31", Start: design.Dusk, End: design.Dawn}}}
	times := power.LoadTimes(2025, power.Lit(l, power.SunFrom(daylightH)))
	want := 365 * (24 - 11.7)
	if got := float64(times.YearMin()) / 60; got < want-365*0.06 || got > want+365*0.06 {
		t.Errorf("dark hours = %.1f, want %.1f within half a printed digit a day", got, want)
	}
}

func TestLit_ByHand(t *testing.T) {
	t.Parallel()
	var even [12]float64
	for m := range even {
		even[m] = 12
	}
	even[5] = 16 // June: up at 04:00, down at 20:00
	for _, c := range []struct {
		why  string
		w    design.LoadWindow
		year int
		want int64 // minutes
	}{
		{"June, dusk to eleven: 3 h × 30", design.LoadWindow{From: "06-01", To: "06-30", Start: design.Dusk, End: "23:00"}, 2025, 30 * 180},
		{"round the year's end, dusk to midnight: 6 h × (31 + 31)", design.LoadWindow{From: "12-01", To: "01-31", Start: design.Dusk, End: "24:00"}, 2025, 62 * 360},
		{"four in the morning to dawn, March: 2 h × 31", design.LoadWindow{From: "03-01", To: "03-31", Start: "04:00", End: design.Dawn}, 2025, 31 * 120},
		{"dusk to dawn in February of a leap year: 12 h × 29", design.LoadWindow{From: "02-01", To: "02-29", Start: design.Dusk, End: design.Dawn}, 2024, 29 * 720},
		{"and of a common one: 12 h × 28", design.LoadWindow{From: "02-01", To: "02-29", Start: design.Dusk, End: design.Dawn}, 2025, 28 * 720},
		{"clock times stay as they are", design.LoadWindow{From: "06-01", To: "06-02", Start: "10:00", End: "11:00"}, 2025, 120},
	} {
		l := power.Lit(design.Load{Spans: []design.LoadWindow{c.w}}, power.SunFrom(even))
		if got := power.LoadTimes(c.year, l).YearMin(); got != c.want {
			t.Errorf("%s: %d min, want %d", c.why, got, c.want)
		}
	}
}

func TestLit_AMidnightSunNeedsNoLights(t *testing.T) {
	t.Parallel()
	var always [12]float64
	for m := range always {
		always[m] = 24
	}
	l := power.Lit(design.Load{Spans: []design.LoadWindow{{From: "01-01", To: "12-31", Start: design.Dusk, End: design.Dawn}}}, power.SunFrom(always))
	if got := power.LoadTimes(2025, l).YearMin(); got != 0 {
		t.Errorf("%d min of dark", got)
	}
}
