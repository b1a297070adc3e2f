package water_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"tarnwright/internal/core/water"
)

func near(t *testing.T, why string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s = %.9g, want %.9g within %.0e", why, got, want, relative)
	}
}

// testdata/reference/thermo.json: IAPWS-95 and IAPWS-IF97 from a reference
// library, and the same closed forms worked out apart.
func TestProperties_AgreeWithTheReferenceLibrary(t *testing.T) {
	t.Parallel()
	var file struct {
		Water []struct {
			DegC float64 `json:"t_C"`
			A    struct {
				Rho float64 `json:"rho_kg_m3"`
				Mu  float64 `json:"mu_Pa_s"`
				Nu  float64 `json:"nu_m2_s"`
			} `json:"iapws95"`
			B struct {
				Psat float64 `json:"psat_Pa"`
			} `json:"iapws97"`
			Own struct {
				Mu   float64 `json:"mu_Pa_s_IAPWS_SR6_08"`
				Rho  float64 `json:"rho_kg_m3_Kell1975"`
				Psat float64 `json:"psat_Pa_Wagner_Pruss_1993"`
			} `json:"own"`
		}
		Atmosphere []struct {
			AltitudeM float64 `json:"altitude_m"`
			Pa        float64 `json:"p_Pa"`
		}
	}
	data, err := os.ReadFile("../../../testdata/reference/thermo.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Water) < 9 || len(file.Atmosphere) < 8 {
		t.Fatal("the file has too few rows")
	}
	for _, r := range file.Water {
		near(t, "density, kg/m³, IAPWS-95", water.DensityKgPerM3(r.DegC), r.A.Rho, 1e-5)
		near(t, "viscosity, Pa s, IAPWS 2008", water.DynamicViscosityPaS(r.DegC), r.A.Mu, 5e-5)
		near(t, "kinematic viscosity, m²/s", water.ViscosityM2PerS(r.DegC), r.A.Nu, 6e-5)
		near(t, "vapour pressure, Pa, IF97", water.VapourPressurePa(r.DegC), r.B.Psat, 1e-4)
		near(t, "density by Kell", water.DensityKgPerM3(r.DegC), r.Own.Rho, 1e-12)
		near(t, "viscosity by SR6-08", water.DynamicViscosityPaS(r.DegC), r.Own.Mu, 1e-12)
		near(t, "vapour pressure by Wagner and Pruss", water.VapourPressurePa(r.DegC), r.Own.Psat, 1e-12)
	}
	for _, r := range file.Atmosphere {
		near(t, "air pressure, Pa", water.AirPressurePa(r.AltitudeM), r.Pa, 1e-6)
	}
}

// FAO-56 example 2: 81.8 kPa at 1800 m, by its own rounded form of the same
// atmosphere.
func TestAirPressure_AgreesWithAPrintedExample(t *testing.T) {
	t.Parallel()
	near(t, "air pressure at 1800 m, Pa", water.AirPressurePa(1800), 81800, 0.005)
}

func TestProperties_AreNothingOutsideTheirRange(t *testing.T) {
	t.Parallel()
	for why, got := range map[string]float64{
		"density of ice":            water.DensityKgPerM3(-1),
		"viscosity of hot water":    water.ViscosityM2PerS(41),
		"vapour pressure of no one": water.VapourPressurePa(math.NaN()),
		"air above the troposphere": water.AirPressurePa(12000),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s = %v, want nothing", why, got)
		}
	}
}
