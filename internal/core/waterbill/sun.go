package waterbill

import "math"

// Sky is a place on a day of the year.
type Sky struct {
	LatitudeDeg float64
	YearDay     int // 1 on 1 January
}

// MidMonth is the day in the middle of a month, 1 for January.
//
//	J = ⌊30.4 M − 15⌋
//
// Source: fao56, eq. in annex 2, for monthly calculations.
func MidMonth(month int) (yearDay int) { return int(30.4*float64(month) - 15) }

func (s Sky) turn() float64 { return 2 * math.Pi / 365 * float64(s.YearDay) }

// DistanceRatio returns dr, the inverse square of the relative distance to the
// sun.
//
//	dr = 1 + 0.033 cos(2π J / 365)
//
// Source: fao56, eq. 23.
// Checked: handbook/evaporation.csv, example 8.
func (s Sky) DistanceRatio() float64 { return 1 + float64(0.033*math.Cos(s.turn())) }

// DeclinationRad returns the declination of the sun.
//
//	δ = 0.409 sin(2π J / 365 − 1.39)
//
// Source: fao56, eq. 24.
// Checked: handbook/evaporation.csv, example 8.
func (s Sky) DeclinationRad() float64 { return 0.409 * math.Sin(s.turn()-1.39) }

// SunsetRad returns the hour angle of sunset: 0 in a polar night, π under a
// midnight sun.
//
//	ωs = arccos(−tan φ tan δ)
//
// Source: fao56, eq. 25.
// Checked: handbook/evaporation.csv, example 8.
func (s Sky) SunsetRad() float64 {
	x := -math.Tan(s.LatitudeDeg*math.Pi/180) * math.Tan(s.DeclinationRad())
	return math.Acos(max(-1, min(1, x)))
}

// DaylightHPerDay returns the hours from sunrise to sunset.
//
//	N = 24 ωs / π
//
// Source: fao56, eq. 34.
// Checked: handbook/evaporation.csv, examples 9 and 18.
func (s Sky) DaylightHPerDay() float64 { return 24 / math.Pi * s.SunsetRad() }

// SolarConstantMJPerM2 is the sun's power outside the air, per minute. Source:
// fao56, eq. 21.
const SolarConstantMJPerM2 = 0.0820

// OutsideMJPerM2Day returns Ra, the sun's radiation above the air.
//
//	Ra = (24·60/π) Gsc dr (ωs sin φ sin δ + cos φ cos δ sin ωs)
//
// Source: fao56, eq. 21.
// Checked: handbook/evaporation.csv, example 8, 18 and Alice Springs.
func (s Sky) OutsideMJPerM2Day() float64 {
	phi, delta, ws := s.LatitudeDeg*math.Pi/180, s.DeclinationRad(), s.SunsetRad()
	height := float64(ws*math.Sin(phi)*math.Sin(delta)) + float64(math.Cos(phi)*math.Cos(delta)*math.Sin(ws))
	return 24 * 60 / math.Pi * SolarConstantMJPerM2 * s.DistanceRatio() * max(0, height)
}

// Haze holds the two shares of the radiation that reach the ground: overcast,
// and added under a clear sky. FAO-56 gives 0.25 and 0.50 where a site has none.
type Haze struct{ OvercastShare, ClearShare float64 }

// UsualHaze is what FAO-56 recommends without local values. Source: fao56.
func UsualHaze() Haze { return Haze{0.25, 0.50} }

// SolarMJPerM2Day returns Rs, the sun's radiation on the ground, from the bright
// hours a day.
//
//	Rs = (as + bs n/N) Ra
//
// n is held at N. A day without daylight has none.
//
// Source: fao56, eq. 35.
// Checked: handbook/evaporation.csv, examples 10, 18 and Alice Springs.
func (s Sky) SolarMJPerM2Day(h Haze, sunHPerDay float64) float64 {
	daylight := s.DaylightHPerDay()
	if daylight == 0 {
		return 0
	}
	return (h.OvercastShare + float64(h.ClearShare*min(1, sunHPerDay/daylight))) * s.OutsideMJPerM2Day()
}

// ClearMJPerM2Day returns Rso, the radiation under a cloudless sky.
//
//	Rso = (0.75 + 2e-5 z) Ra
//
// Source: fao56, eq. 37.
// Checked: handbook/evaporation.csv, examples 18 and Alice Springs.
func (s Sky) ClearMJPerM2Day(altitudeM float64) float64 {
	return (0.75 + float64(2e-5*altitudeM)) * s.OutsideMJPerM2Day()
}

// SolarByWarmthMJPerM2Day returns Rs from the day's span of temperature, where
// no sunshine is known.
//
//	Rs = k √(Tmax − Tmin) Ra, k = 0.16 inland, 0.19 at the coast
//
// It serves as a check of a climate file and in no figure.
//
// Source: fao56, eq. 50.
// Checked: handbook/evaporation.csv, example 15.
func SolarByWarmthMJPerM2Day(coastCoef, spanDegC, outsideMJPerM2Day float64) float64 {
	return coastCoef * math.Sqrt(spanDegC) * outsideMJPerM2Day
}

// Glow is what the ground's own radiation depends on.
type Glow struct {
	TMaxDegC, TMinDegC float64
	VapourKPa          float64
	// ClearnessRatio is Rs / Rso, at most 1.
	ClearnessRatio float64
}

// NetLongMJPerM2Day returns Rnl, the net radiation that goes out at night and
// day.
//
//	Rnl = σ (Tmax,K⁴ + Tmin,K⁴)/2 (0.34 − 0.14 √ea) (1.35 Rs/Rso − 0.35)
//
// σ = 4.903e-9 MJ/(m² K⁴ d).
//
// Source: fao56, eq. 39.
// Checked: handbook/evaporation.csv, examples 11, 18 and Alice Springs.
func (g Glow) NetLongMJPerM2Day() float64 {
	const sigma, zeroK = 4.903e-9, 273.16
	hot, cold := g.TMaxDegC+zeroK, g.TMinDegC+zeroK
	body := sigma * (math.Pow(hot, 4) + math.Pow(cold, 4)) / 2
	air := 0.34 - float64(0.14*math.Sqrt(g.VapourKPa))
	return body * air * (float64(1.35*min(1, g.ClearnessRatio)) - 0.35)
}
