package waterbill

import "math"

// LatentMJPerKg is the latent heat of vaporisation at about 20 °C. Source: fao56.
const LatentMJPerKg = 2.45

// PressureKPa returns the air pressure at an altitude.
//
//	P = 101.3 ((293 − 0.0065 z) / 293)^5.26
//
// Holds from −500 m to 9000 m; outside it returns NaN.
//
// Source: fao56, eq. 7.
// Checked: handbook/evaporation.csv, examples 2 and 4.
func PressureKPa(altitudeM float64) float64 {
	if !(altitudeM >= -500 && altitudeM <= 9000) {
		return math.NaN()
	}
	return 101.3 * math.Pow((293-float64(0.0065*altitudeM))/293, 5.26)
}

// PsychrometricKPaPerDegC returns the psychrometric constant γ.
//
//	γ = 0.665e-3 P
//
// Source: fao56, eq. 8.
// Checked: handbook/evaporation.csv, example 2.
func PsychrometricKPaPerDegC(pressureKPa float64) float64 { return 0.665e-3 * pressureKPa }

// SaturationKPa returns the vapour pressure of saturated air over water.
//
//	e°(T) = 0.6108 exp(17.27 T / (T + 237.3))
//
// Holds from −40 °C to 60 °C; outside it returns NaN.
//
// Source: fao56, eq. 11.
// Checked: handbook/evaporation.csv, example 3.
func SaturationKPa(airDegC float64) float64 {
	if !(airDegC >= -40 && airDegC <= 60) {
		return math.NaN()
	}
	return 0.6108 * math.Exp(17.27*airDegC/(airDegC+237.3))
}

// SlopeKPaPerDegC returns Δ, the slope of the saturation curve.
//
//	Δ = 4098 e°(T) / (T + 237.3)²
//
// Range as [SaturationKPa].
//
// Source: fao56, eq. 13.
// Checked: handbook/evaporation.csv, example 17; a difference of [SaturationKPa].
func SlopeKPaPerDegC(airDegC float64) float64 {
	return 4098 * SaturationKPa(airDegC) / ((airDegC + 237.3) * (airDegC + 237.3))
}

// MeanSaturationKPa returns the mean saturation pressure of a day, which lies
// above that of the mean temperature.
//
//	es = (e°(Tmax) + e°(Tmin)) / 2
//
// Source: fao56, eq. 12.
// Checked: handbook/evaporation.csv, example 3.
func MeanSaturationKPa(tMaxDegC, tMinDegC float64) float64 {
	return (SaturationKPa(tMaxDegC) + SaturationKPa(tMinDegC)) / 2
}

// Damp is a day's temperature and relative humidity at its ends.
type Damp struct {
	TMaxDegC, TMinDegC     float64
	RHMaxRatio, RHMinRatio float64
}

// VapourKPa returns the actual vapour pressure of the air.
//
//	ea = (e°(Tmin) RHmax + e°(Tmax) RHmin) / 2
//
// Source: fao56, eq. 17.
// Checked: handbook/evaporation.csv, example 5.
func (d Damp) VapourKPa() float64 {
	return (float64(SaturationKPa(d.TMinDegC)*d.RHMaxRatio) + float64(SaturationKPa(d.TMaxDegC)*d.RHMinRatio)) / 2
}

// MeanVapourKPa returns the vapour pressure where only the mean humidity is
// known.
//
//	ea = RHmean es
//
// Source: fao56, eq. 19.
// Checked: handbook/evaporation.csv, example 5.
func (d Damp) MeanVapourKPa() float64 {
	return (d.RHMaxRatio + d.RHMinRatio) / 2 * MeanSaturationKPa(d.TMaxDegC, d.TMinDegC)
}

// Bulbs is what a ventilated wet and dry thermometer read.
type Bulbs struct{ DryDegC, WetDegC, PressureKPa float64 }

// VapourKPa returns the vapour pressure by wet and dry bulb.
//
//	ea = e°(Twet) − 0.000662 P (Tdry − Twet)
//
// Source: fao56, eq. 15 and 16.
// Checked: handbook/evaporation.csv, example 4.
func (b Bulbs) VapourKPa() float64 {
	return SaturationKPa(b.WetDegC) - float64(0.000662*b.PressureKPa*(b.DryDegC-b.WetDegC))
}

// WindAtTwoMPerS returns the wind at two metres from the wind at another
// height over short grass.
//
//	u₂ = u_z 4.87 / ln(67.8 z − 5.42)
//
// Holds for z from 0.5 m; below it returns NaN.
//
// Source: fao56, eq. 47.
// Checked: handbook/evaporation.csv, examples 14 and 18.
func WindAtTwoMPerS(windMPerS, heightM float64) float64 {
	if !(heightM >= 0.5) {
		return math.NaN()
	}
	return windMPerS * 4.87 / math.Log(float64(67.8*heightM)-5.42)
}
