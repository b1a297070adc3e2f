package waterbill

import "math"

// Albedo is the share of the sun's radiation thrown back.
const (
	GrassAlbedoShare = 0.23 // the reference crop. Source: fao56.
	WaterAlbedoShare = 0.08 // open water. Source: mcmahon2013.
)

// Exchange is what drives evaporation over a day.
type Exchange struct {
	NetMJPerM2Day  float64 // net radiation Rn
	HeatMJPerM2Day float64 // heat taken up below, G
	MeanDegC       float64
	WindMPerS      float64 // at two metres, u₂
	DeficitKPa     float64 // es − ea
	// Slope and psychrometric constant.
	SlopeKPaPerDegC         float64
	PsychrometricKPaPerDegC float64
}

// ReferenceMmPerDay returns ET₀, what short watered grass gives off.
//
//	ET₀ = (0.408 Δ (Rn − G) + γ 900/(T + 273) u₂ (es − ea)) / (Δ + γ (1 + 0.34 u₂))
//
// It is a comparison; figures of a pond use [Exchange.OpenWaterMmPerDay].
//
// Source: fao56, eq. 6.
// Checked: handbook/evaporation.csv, examples 17 and 18.
func (x Exchange) ReferenceMmPerDay() float64 {
	d, g, u := x.SlopeKPaPerDegC, x.PsychrometricKPaPerDegC, x.WindMPerS
	sun := 0.408 * d * (x.NetMJPerM2Day - x.HeatMJPerM2Day)
	wind := g * 900 / (x.MeanDegC + 273) * u * x.DeficitKPa
	return (sun + wind) / (d + float64(g*(1+float64(0.34*u))))
}

// OpenWaterMmPerDay returns Penman's evaporation from shallow open water.
//
//	E = Δ/(Δ+γ) Rn/λ + γ/(Δ+γ) (1.313 + 1.381 u₂)(es − ea)
//
// λ is 2.45 MJ/kg and the wind function is Penman's of 1956. Heat kept in the
// water from one month to the next is left out, which moves some of autumn's
// evaporation into spring.
//
// Source: penman1956, mcmahon2013.
// Checked: handbook/evaporation.csv, Alice Springs.
func (x Exchange) OpenWaterMmPerDay() float64 {
	d, g := x.SlopeKPaPerDegC, x.PsychrometricKPaPerDegC
	sun := d / (d + g) * (x.NetMJPerM2Day - x.HeatMJPerM2Day) / LatentMJPerKg
	wind := g / (d + g) * (1.313 + float64(1.381*x.WindMPerS)) * x.DeficitKPa
	return sun + wind
}

// Weather is one day's, or one month's mean day, at a place.
type Weather struct {
	Sky
	Damp
	Haze
	AltitudeM  float64
	WindMPerS  float64 // at two metres
	SunHPerDay float64
}

// Exchange works out what drives evaporation from a surface that throws back
// a share of the sun.
//
//	Rn = (1 − α) Rs − Rnl
//
// Source: fao56, eq. 38 and 40.
// Checked: handbook/evaporation.csv, example 18 and Alice Springs, every step.
func (w Weather) Exchange(albedoShare float64) Exchange {
	solar, clear := w.SolarMJPerM2Day(w.Haze, w.SunHPerDay), w.ClearMJPerM2Day(w.AltitudeM)
	clearness := 1.0
	if clear > 0 {
		clearness = solar / clear
	}
	vapour, mean := w.VapourKPa(), (w.TMaxDegC+w.TMinDegC)/2
	long := Glow{w.TMaxDegC, w.TMinDegC, vapour, clearness}.NetLongMJPerM2Day()
	return Exchange{
		NetMJPerM2Day: float64((1-albedoShare)*solar) - long, MeanDegC: mean, WindMPerS: w.WindMPerS,
		DeficitKPa:              MeanSaturationKPa(w.TMaxDegC, w.TMinDegC) - vapour,
		SlopeKPaPerDegC:         SlopeKPaPerDegC(mean),
		PsychrometricKPaPerDegC: PsychrometricKPaPerDegC(PressureKPa(w.AltitudeM)),
	}
}

// Weather returns the mean day of a month, 1 for January.
func (c Climate) Weather(month int) Weather {
	m := c.Months[month-1]
	return Weather{
		Sky: Sky{c.LatitudeDeg, MidMonth(month)}, Damp: Damp{m.TMaxDegC, m.TMinDegC, m.RHMaxRatio, m.RHMinRatio},
		Haze: UsualHaze(), AltitudeM: c.AltitudeM, WindMPerS: m.WindMPerS, SunHPerDay: m.SunHPerDay,
	}
}

// EvaporationMmPerDay returns the evaporation of a month's mean day from open
// water, never below nothing.
//
// Source: penman1956.
// Checked: as [Exchange.OpenWaterMmPerDay], and by its own steps in the tests.
func (c Climate) EvaporationMmPerDay(month int) float64 {
	return max(0, c.Weather(month).Exchange(WaterAlbedoShare).OpenWaterMmPerDay())
}

// Surface is still water and the air above it.
type Surface struct {
	AreaM2           float64
	WaterKPa, AirKPa float64 // vapour pressure at the surface and in the air
	WindMPerS        float64 // along the surface
	LatentMJPerKg    float64
	ActivityCoef     float64 // 0.5 for water nobody is in
}

// PoolKgPerS returns what a pool gives off indoors or in still air.
//
//	w = 4.0e-5 A Fa (pw − pa)
//
// Pressures in kPa. A warmer, wetter air gives nothing back: never below zero.
// It is a comparison and in no figure.
//
// Source: ashraepool.
// Checked: handbook/evaporation.csv, 1000 ft² at 82 °F.
func (s Surface) PoolKgPerS() float64 {
	return 4.0e-5 * s.AreaM2 * s.ActivityCoef * max(0, s.WaterKPa-s.AirKPa)
}

// SmithLofJonesKgPerS returns what an open pool gives off in wind.
//
//	w = A (0.0885 + 0.0779 v)(pw − pa)/Y
//
// Pressures in Pa, v in m/s, Y the latent heat in J/kg. Undisturbed pools were
// measured at 74 % of it. It is a comparison and in no figure.
//
// Source: smithlofjones1998.
// Checked: handbook/evaporation.csv, 1000 ft² at 82 °F in three winds.
func (s Surface) SmithLofJonesKgPerS() float64 {
	if !(s.LatentMJPerKg > 0) {
		return math.NaN()
	}
	return s.AreaM2 * (0.0885 + float64(0.0779*s.WindMPerS)) * max(0, s.WaterKPa-s.AirKPa) * 1000 / (s.LatentMJPerKg * 1e6)
}
