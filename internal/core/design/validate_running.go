package design

import (
	"strconv"

	"tarnwright/internal/core/money"
)

func (v *checker) circulation(c Circulation) {
	v.within("circulation.turnover_h", c.TurnoverH, limits{minTurnoverH, maxTurnoverH, "h"})
	v.choice("circulation.drive", string(c.Drive), string(SingleSpeed), string(VariableSpeed))
	v.count("circulation.pump_count", c.PumpCount, 1, maxPumps)
	v.line("circulation.suction", c.Suction)
	v.line("circulation.discharge", c.Discharge)
	v.within("circulation.pump_above_water_m", c.PumpAboveWaterM, limits{-5, 7, "m"})
	v.within("circulation.pump_from_water_m", c.PumpFromWaterM, limits{0, maxLineM, "m"})
	v.within("circulation.pump_bearing_deg", c.PumpBearingDeg, bearing())
	v.within("circulation.intake_bearing_deg", c.IntakeBearingDeg, bearing())
	v.within("circulation.intake_open_area_m2", c.IntakeOpenAreaM2, limits{0.001, 10, "m2"})
	v.within("circulation.intake_depth_m", c.IntakeDepthM, limits{0, maxDeepM, "m"})
	v.within("circulation.jets_flow_m3_per_s", c.JetsFlowM3PerS, limits{0, 0.2, "m3/s"})
	v.jets(c)
	v.within("circulation.quiet_flow_ratio", c.QuietFlowRatio, limits{0.1, 1, ""})
}

func (v *checker) line(path string, l Line) {
	v.within(path+".length_m", l.LengthM, limits{0.1, maxLineM, "m"})
	v.within(path+".inside_diameter_m", l.InsideDiameterM, limits{minDiameterM, maxDiameterM, "m"})
	v.within(path+".roughness_m", l.RoughnessM, limits{0, maxRoughnessM, "m"})
	v.within(path+".other_loss_coef", l.OtherLossCoef, limits{0, maxLossCoef, ""})
	v.count(path+".fittings", len(l.Fittings), 0, 40)
	for i, f := range l.Fittings {
		v.count(path+".fittings["+strconv.Itoa(i)+"].count", f.Count, 0, 100)
	}
}

func (v *checker) running(r Running) {
	v.count("running.year", r.Year, minYear, maxYear)
	v.within("running.price_rise_ratio", r.PriceRiseRatio, limits{-0.2, 0.5, ""})
	v.within("running.discount_ratio", r.DiscountRatio, limits{0, 0.5, ""})
	v.count("running.spans", len(r.Spans), 0, maxSpans)
	modes := modeNames()
	for i, s := range r.Spans {
		at := "running.spans[" + strconv.Itoa(i) + "]"
		v.day(at+".from", s.From)
		v.day(at+".to", s.To)
		v.count(at+".runs", len(s.Runs), 0, maxRuns)
		for j, run := range s.Runs {
			in := runPath(at, j)
			v.choice(in+".mode", string(run.Mode), modes...)
			v.clock(in+".start", run.Start)
			v.clock(in+".end", run.End)
		}
	}
	v.count("running.loads", len(r.Loads), 0, maxLoads)
	for i, l := range r.Loads {
		at := "running.loads[" + strconv.Itoa(i) + "]"
		v.within(at+".power_kw", l.PowerKW, limits{0, 100, "kW"})
		for j, s := range l.Spans {
			in := at + ".spans[" + strconv.Itoa(j) + "]"
			v.day(in+".from", s.From)
			v.day(in+".to", s.To)
			v.clockOrSun(in+".start", s.Start)
			v.clockOrSun(in+".end", s.End)
		}
	}
}

// clockOrSun checks "HH:MM", "dusk" or "dawn".
func (v *checker) clockOrSun(path, text string) {
	if text != Dusk && text != Dawn {
		v.clock(path, text)
	}
}

// day checks "MM-DD"; 29 February is a day.
func (v *checker) day(path, text string) {
	if _, _, ok := MonthDay(text); !ok {
		v.fault(path, "not_a_day", Arg{Name: "value", Text: text})
	}
}

// clock checks "HH:MM" from 00:00 to 24:00.
func (v *checker) clock(path, text string) {
	if _, ok := Minute(text); !ok {
		v.fault(path, "not_a_time", Arg{Name: "value", Text: text})
	}
}

// MonthDay reads "MM-DD".
func MonthDay(text string) (month, day int, ok bool) {
	if len(text) != 5 || text[2] != '-' {
		return 0, 0, false
	}
	month, ok1 := twoDigits(text[:2])
	day, ok2 := twoDigits(text[3:])
	if !ok1 || !ok2 || month < 1 || month > 12 || day < 1 || day > longest(month) {
		return 0, 0, false
	}
	return month, day, true
}

func longest(month int) int {
	switch month {
	case 2:
		return 29
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// Minute reads "HH:MM" as minutes after midnight; "24:00" is 1440.
func Minute(text string) (minute int, ok bool) {
	if len(text) != 5 || text[2] != ':' {
		return 0, false
	}
	h, ok1 := twoDigits(text[:2])
	m, ok2 := twoDigits(text[3:])
	if !ok1 || !ok2 || m > 59 || h > 24 || (h == 24 && m > 0) {
		return 0, false
	}
	return h*60 + m, true
}

func twoDigits(s string) (int, bool) {
	if s[0] < '0' || s[0] > '9' || s[1] < '0' || s[1] > '9' {
		return 0, false
	}
	return int(s[0]-'0')*10 + int(s[1]-'0'), true
}

func (v *checker) site(s Site) {
	v.within("site.altitude_m", s.AltitudeM, limits{minAltitudeM, maxAltitudeM, "m"})
	v.within("site.water_temp_deg_c", s.WaterTempDegC, limits{minTempDegC, maxTempDegC, "degC"})
	v.price("site.electricity_per_kwh", s.ElectricityPerKWh)
	v.price("site.water_per_m3", s.WaterPerM3)
	v.within("site.household_kwh_per_month", s.HouseholdKWhPerMonth, limits{0, 100000, "kWh"})
	v.within("site.size_tolerance_ratio", s.SizeToleranceRatio, limits{0, 0.3, ""})
	v.within("site.splash_ratio", s.SplashRatio, limits{0, 1, ""})
	v.within("site.clean_out_ratio", s.CleanOutRatio, limits{0, 5, ""})
}

func (v *checker) price(path, text string) {
	if text == "" {
		return
	}
	if p, err := money.ParsePrice(text); err != nil || p.Sign() < 0 {
		v.fault(path, "not_a_price", Arg{Name: "value", Text: text})
	}
}
