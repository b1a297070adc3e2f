package waterbill_test

import (
	"encoding/json"
	"os"
	"testing"

	"tarnwright/internal/core/waterbill"
)

// demo reads the demo's invented climate.
func demo(t *testing.T) waterbill.Climate {
	t.Helper()
	data, err := os.ReadFile("../../book/demo/climate.json")
	if err != nil {
		t.Fatal(err)
	}
	var f waterbill.File
	if err := json.Unmarshal(data, &f); err != nil {
		t.Fatal(err)
	}
	if faults := f.Faults(); len(faults) > 0 || len(f.Climates) != 1 {
		t.Fatalf("the demo's climate is refused: %v", faults)
	}
	return f.Climates[0]
}

// Common practice, no source: an inland temperate site loses 1 to 1.5 m from
// open water in a year, most of it in July, hardly any in January; shallow
// water gives off 1.05 to 1.35 times what watered grass does (FAO-56 has 1.05
// in table 12, from memory).
func TestClimate_TheDemoIsAPlausibleYear(t *testing.T) {
	t.Parallel()
	c := demo(t)
	days := [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	var evaporation, rain, net float64
	most := 1
	for m := 1; m <= 12; m++ {
		e, n := c.EvaporationMmPerDay(m), c.Months[m-1]
		evaporation += e * days[m-1]
		rain += n.RainMm
		net += max(0, e*days[m-1]-n.RainMm)
		if e > c.EvaporationMmPerDay(most) {
			most = m
		}
		if ratio := e / c.Weather(m).Exchange(waterbill.GrassAlbedoShare).ReferenceMmPerDay(); ratio < 1.05 || ratio > 1.35 {
			t.Errorf("month %d: open water gives off %.2f of grass", m, ratio)
		}
		if n.SunHPerDay > c.Weather(m).DaylightHPerDay() {
			t.Errorf("month %d has %.1f h of sun in %.1f h of day", m, n.SunHPerDay, c.Weather(m).DaylightHPerDay())
		}
		solar := c.Weather(m).SolarMJPerM2Day(waterbill.UsualHaze(), n.SunHPerDay)
		byWarmth := waterbill.SolarByWarmthMJPerM2Day(0.16, n.TMaxDegC-n.TMinDegC, c.Weather(m).OutsideMJPerM2Day())
		if solar < byWarmth*0.8 || solar > byWarmth*1.25 {
			t.Errorf("month %d: %.1f MJ/(m2 d) by sunshine, %.1f by the span of temperature", m, solar, byWarmth)
		}
	}
	t.Logf("evaporation %.0f mm, rain %.0f mm, net %.0f mm", evaporation, rain, net)
	if evaporation < 1000 || evaporation > 1500 || net < 700 || net > 1100 || most != 7 {
		t.Errorf("evaporation %.0f mm a year, %.0f mm after rain, most in month %d", evaporation, net, most)
	}
}
