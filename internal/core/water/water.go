// Package water holds the properties of liquid water at one atmosphere and of
// the air above it: density, viscosity, vapour pressure, air pressure by
// altitude. The range is that of a pond, 0 to 35 °C.
package water

import "math"

// The range in which the property formulas are held against reference values.
const (
	leastDegC = 0.0
	mostDegC  = 40.0
)

// GravityMPerS2 is standard gravity, exact by definition. Source: cgpm1901.
const GravityMPerS2 = 9.80665

const zeroCelsiusK = 273.15 // exact by definition of the degree Celsius

func liquid(tempDegC float64) bool { return tempDegC >= leastDegC && tempDegC <= mostDegC }

// DensityKgPerM3 returns the density of air-free water at one atmosphere.
//
//	ρ = (999.83952 + 16.945176 t − 7.9870401e-3 t² − 46.170461e-6 t³
//	     + 105.56302e-9 t⁴ − 280.54253e-12 t⁵) / (1 + 16.879850e-3 t)
//
// t is in °C. Holds for 0 to 40 °C here; outside it returns NaN.
//
// Source: kell1975.
// Checked: reference/thermo.json (IAPWS-95) to 1e-5.
func DensityKgPerM3(tempDegC float64) float64 {
	if !liquid(tempDegC) {
		return math.NaN()
	}
	t := tempDegC
	top := 999.83952 + t*(16.945176+t*(-7.9870401e-3+t*(-46.170461e-6+t*(105.56302e-9-t*280.54253e-12))))
	return top / (1 + 16.879850e-3*t)
}

// DynamicViscosityPaS returns the dynamic viscosity of water at 0.1 MPa.
//
//	μ = 1e-6 Σ aᵢ (T/300 K)^bᵢ
//
// a = 280.68, 511.45, 61.131, 0.45903; b = −1.9, −7.7, −19.6, −40. Holds for 0
// to 40 °C here; outside it returns NaN.
//
// Source: iapwssr6.
// Checked: reference/thermo.json (IAPWS 2008 release) to 5e-5.
func DynamicViscosityPaS(tempDegC float64) float64 {
	if !liquid(tempDegC) {
		return math.NaN()
	}
	r := (tempDegC + zeroCelsiusK) / 300
	return 1e-6 * (280.68*math.Pow(r, -1.9) + 511.45*math.Pow(r, -7.7) + 61.131*math.Pow(r, -19.6) + 0.45903*math.Pow(r, -40))
}

// ViscosityM2PerS returns the kinematic viscosity of water, ν = μ/ρ. Outside 0
// to 40 °C it returns NaN.
//
// Source: definition.
// Checked: reference/thermo.json to 6e-5.
func ViscosityM2PerS(tempDegC float64) float64 {
	return DynamicViscosityPaS(tempDegC) / DensityKgPerM3(tempDegC)
}

// VapourPressurePa returns the saturation pressure of water.
//
//	ln(p/p_c) = (T_c/T) (a₁θ + a₂θ^1.5 + a₃θ³ + a₄θ^3.5 + a₅θ⁴ + a₆θ^7.5), θ = 1 − T/T_c
//
// T_c = 647.096 K, p_c = 22.064 MPa. Holds for 0 to 40 °C here; outside it
// returns NaN.
//
// Source: wagnerpruss1993.
// Checked: reference/thermo.json (IAPWS-IF97) to 1e-4.
func VapourPressurePa(tempDegC float64) float64 {
	if !liquid(tempDegC) {
		return math.NaN()
	}
	const tc, pc = 647.096, 22.064e6
	t := tempDegC + zeroCelsiusK
	th := 1 - t/tc
	s := -7.85951783*th + 1.84408259*math.Pow(th, 1.5) - 11.7866497*th*th*th +
		22.6807411*math.Pow(th, 3.5) - 15.9618719*math.Pow(th, 4) + 1.80122502*math.Pow(th, 7.5)
	return pc * math.Exp(tc/t*s)
}

// AirPressurePa returns the pressure of the standard atmosphere.
//
//	p = 101325 (1 − 0.0065 z / 288.15)^(g M / (R 0.0065)), exponent 5.255880
//
// z is the altitude in metres, treated as geopotential. Holds from −500 m to
// 11 000 m; outside it returns NaN.
//
// Source: iso2533.
// Checked: reference/thermo.json to 1e-6; FAO-56 example 2 through its own form.
func AirPressurePa(altitudeM float64) float64 {
	if !(altitudeM >= -500 && altitudeM <= 11000) {
		return math.NaN()
	}
	const lapse, t0, p0 = 0.0065, 288.15, 101325.0
	const gasR, molarKg = 8.31432, 0.0289644
	return p0 * math.Pow(1-lapse*altitudeM/t0, GravityMPerS2*molarKg/(gasR*lapse))
}
