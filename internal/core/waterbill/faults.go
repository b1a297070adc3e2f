package waterbill

import (
	"strconv"

	"tarnwright/internal/core/money"
)

// Fault is what a builder's file has wrong, by path and code: version, missing,
// order, not_negative, span, twice.
type Fault struct{ Path, Code string }

type faultList []Fault

func (f *faultList) when(wrong bool, path, code string) {
	if wrong {
		*f = append(*f, Fault{path, code})
	}
}

// Faults returns everything wrong with a water tariff.
func (t Tariff) Faults() []Fault {
	var faults faultList
	faults.when(t.Version != 1, "water_tariff_version", "version")
	faults.when(t.Name == "", "name", "missing")
	faults.when(len(t.Tiers) == 0, "tiers", "missing")
	faults.when(t.HomeM3PerMonth.Sign() < 0, "home_m3_per_month", "not_negative")
	var below money.Quantity
	for i, tier := range t.Tiers {
		at, last := "tiers["+strconv.Itoa(i)+"].", i == len(t.Tiers)-1
		faults.when(tier.PerM3.Sign() < 0, at+"per_m3", "not_negative")
		faults.when(last && tier.UpToM3 != nil, at+"up_to_m3", "span")
		faults.when(!last && tier.UpToM3 == nil, at+"up_to_m3", "missing")
		if tier.UpToM3 != nil {
			faults.when(!last && tier.UpToM3.Cmp(below) <= 0, at+"up_to_m3", "order")
			below = *tier.UpToM3
		}
	}
	return faults
}

// Faults returns everything wrong with a climate file. The spans are those in
// which the formulas hold and no place on earth is beyond.
func (f File) Faults() []Fault {
	var faults faultList
	faults.when(f.Version != 1, "climate_version", "version")
	faults.when(len(f.Climates) == 0, "climates", "missing")
	seen := map[string]bool{}
	for i, c := range f.Climates {
		at := "climates[" + strconv.Itoa(i) + "]."
		faults.when(c.ID == "", at+"id", "missing")
		faults.when(seen[c.ID], at+"id", "twice")
		seen[c.ID] = true
		faults.when(c.Name == "", at+"name", "missing")
		faults.when(c.Source == "", at+"source", "missing")
		faults.when(!(c.LatitudeDeg >= -66 && c.LatitudeDeg <= 66), at+"latitude_deg", "span")
		faults.when(!(c.AltitudeM >= -450 && c.AltitudeM <= 5000), at+"altitude_m", "span")
		for j, m := range c.Months {
			m.faults(&faults, at+"months["+strconv.Itoa(j)+"].")
		}
	}
	return faults
}

func (m Month) faults(faults *faultList, at string) {
	faults.when(!(m.TMinDegC >= -40 && m.TMinDegC <= 45), at+"t_min_deg_c", "span")
	faults.when(!(m.TMaxDegC >= m.TMinDegC && m.TMaxDegC <= 55), at+"t_max_deg_c", "span")
	faults.when(!(m.RHMinRatio > 0 && m.RHMinRatio <= 1), at+"rh_min_ratio", "span")
	faults.when(!(m.RHMaxRatio >= m.RHMinRatio && m.RHMaxRatio <= 1), at+"rh_max_ratio", "span")
	faults.when(!(m.WindMPerS >= 0 && m.WindMPerS <= 20), at+"wind_m_per_s", "span")
	faults.when(!(m.SunHPerDay >= 0 && m.SunHPerDay <= 20), at+"sun_h_per_day", "span")
	faults.when(!(m.RainMm >= 0 && m.RainMm <= 3000), at+"rain_mm", "span")
}
