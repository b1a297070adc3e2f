package waterbill_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/source"
	"tarnwright/internal/core/waterbill"
)

// inputs are the named numbers of one row.
type inputs map[string]float64

func (in inputs) sky() waterbill.Sky {
	return waterbill.Sky{LatitudeDeg: in["lat"], YearDay: int(in["j"])}
}

func (in inputs) damp() waterbill.Damp {
	return waterbill.Damp{TMaxDegC: in["tmax"], TMinDegC: in["tmin"], RHMaxRatio: in["rhmax"], RHMinRatio: in["rhmin"]}
}

func (in inputs) haze() waterbill.Haze {
	return waterbill.Haze{OvercastShare: in["as"], ClearShare: 0.5}
}

func (in inputs) weather() waterbill.Weather {
	return waterbill.Weather{Sky: in.sky(), Damp: in.damp(), Haze: in.haze(), AltitudeM: in["z"], WindMPerS: in["u"], SunHPerDay: in["n"]}
}

// exchange is for rows that give each step's result instead of the weather.
func (in inputs) exchange() waterbill.Exchange {
	return waterbill.Exchange{NetMJPerM2Day: in["rn"], HeatMJPerM2Day: in["g"], MeanDegC: in["t"], WindMPerS: in["u"], DeficitKPa: in["deficit"],
		SlopeKPaPerDegC: in["slope"], PsychrometricKPaPerDegC: in["gamma"]}
}

func (in inputs) surface() waterbill.Surface {
	const ft2, mph, btuPerLb = 0.09290304, 0.44704, 2.326e-3
	return waterbill.Surface{AreaM2: in["area_ft2"] * ft2, WaterKPa: in["pw"], AirKPa: in["pa"], WindMPerS: in["mph"] * mph,
		LatentMJPerKg: in["btu"] * btuPerLb, ActivityCoef: in["activity"]}
}

// poundsPerHour is kg/s in lb/h.
const poundsPerHour = 3600 / 0.45359237

func value(t *testing.T, quantity string, in inputs) float64 {
	t.Helper()
	switch strings.TrimPrefix(quantity, "chain_") {
	case "pressure":
		return waterbill.PressureKPa(in["z"])
	case "psychrometric":
		return waterbill.PsychrometricKPaPerDegC(waterbill.PressureKPa(in["z"]))
	case "saturation":
		return waterbill.SaturationKPa(in["t"])
	case "mean_saturation":
		return waterbill.MeanSaturationKPa(in["tmax"], in["tmin"])
	case "bulbs":
		return waterbill.Bulbs{DryDegC: in["dry"], WetDegC: in["wet"], PressureKPa: in["p"]}.VapourKPa()
	case "vapour":
		return in.damp().VapourKPa()
	case "mean_vapour":
		return in.damp().MeanVapourKPa()
	case "deficit":
		return waterbill.MeanSaturationKPa(in["tmax"], in["tmin"]) - in.damp().VapourKPa()
	case "distance":
		return in.sky().DistanceRatio()
	case "declination":
		return in.sky().DeclinationRad()
	case "sunset":
		return in.sky().SunsetRad()
	case "outside":
		return in.sky().OutsideMJPerM2Day()
	case "daylight":
		return in.sky().DaylightHPerDay()
	case "solar":
		return in.sky().SolarMJPerM2Day(in.haze(), in["n"])
	case "solar_by_warmth":
		return waterbill.SolarByWarmthMJPerM2Day(in["k"], in["span"], in["ra"])
	case "clear":
		return in.sky().ClearMJPerM2Day(in["z"])
	case "net_long":
		return waterbill.Glow{TMaxDegC: in["tmax"], TMinDegC: in["tmin"], VapourKPa: in["ea"], ClearnessRatio: in["clearness"]}.NetLongMJPerM2Day()
	case "wind":
		return waterbill.WindAtTwoMPerS(in["u"], in["h"])
	case "net":
		return in.weather().Exchange(waterbill.GrassAlbedoShare).NetMJPerM2Day
	case "reference":
		if in["t"] != 0 {
			return in.exchange().ReferenceMmPerDay()
		}
		return in.weather().Exchange(waterbill.GrassAlbedoShare).ReferenceMmPerDay()
	case "open_water":
		if in["t"] != 0 {
			return in.exchange().OpenWaterMmPerDay()
		}
		return in.weather().Exchange(waterbill.WaterAlbedoShare).OpenWaterMmPerDay()
	case "pool":
		return in.surface().PoolKgPerS() * poundsPerHour
	case "windy_pool":
		s := in.surface()
		s.AreaM2 = 0.09290304
		return s.SmithLofJonesKgPerS() * poundsPerHour
	}
	t.Fatalf("no formula for %q", quantity)
	return math.NaN()
}

func TestHandbook_PrintedValuesWithinTheirLastDigit(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../../testdata/handbook/evaporation.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 42 {
		t.Fatalf("%d rows were read, want 42 with the head", len(rows))
	}
	for _, row := range rows[1:] {
		in := inputs{}
		for _, pair := range strings.Fields(row[1]) {
			name, text, _ := strings.Cut(pair, "=")
			in[name] = number(t, text)
		}
		want, within := number(t, row[2]), number(t, row[3])
		if got := value(t, row[0], in); !(math.Abs(got-want) <= within) {
			t.Errorf("%s (%s, %s): %.6g, want %.6g ± %g", row[0], row[4], row[5], got, want, within)
		}
		if _, ok := source.Find(source.Key(row[4])); !ok {
			t.Errorf("%s: no source %q", row[0], row[4])
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
