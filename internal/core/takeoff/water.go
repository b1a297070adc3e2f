package takeoff

import "math"

// Bed is a body of gravel or stone.
type Bed struct {
	AreaM2    float64
	DepthM    float64
	PoreRatio float64
}

// VolumeM3 returns the space the bed takes up, A d.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (b Bed) VolumeM3() float64 { return b.AreaM2 * b.DepthM }

// WaterM3 returns the water that the bed holds when it is full to the top:
//
//	W = n A d
//
// n is the pore share of the bed. Holds for 0 ≤ n ≤ 1.
//
// Source: groundwaterproject.
// Checked: with the solids it fills the bed, and n from bulk and grain density.
func (b Bed) WaterM3() float64 { return b.PoreRatio * b.AreaM2 * b.DepthM }

// SolidM3 returns the space that the grains themselves take up, so the water
// that they displace:
//
//	V_s = (1 − n) A d
//
// n is the pore share of the bed. Holds for 0 ≤ n ≤ 1.
//
// Source: groundwaterproject.
// Checked: mass over grain density gives the same for gravel of 100 lb/ft³.
func (b Bed) SolidM3() float64 { return (1 - b.PoreRatio) * b.AreaM2 * b.DepthM }

// PoreRatio returns the pore share of dry gravel from its bulk density and the
// density of its grains:
//
//	n = 1 − ρ_b / ρ_p
//
// Both densities in kg/m³. Outside 0 < ρ_b ≤ ρ_p it returns NaN.
//
// Source: groundwaterproject.
// Checked: 100 lb/ft³ on grains of 2650 kg/m³ gives 0.395.
func PoreRatio(bulkKgPerM3, grainKgPerM3 float64) float64 {
	if !(bulkKgPerM3 > 0 && bulkKgPerM3 <= grainKgPerM3) {
		return math.NaN()
	}
	return 1 - bulkKgPerM3/grainKgPerM3
}

// PipeM3 returns the water inside a pipe, π d² L / 4, from its inside diameter
// and its length in metres.
//
// Source: definition.
// Checked: against the gallons a foot of pipe holds, 3 in Schedule 40.
func PipeM3(insideDiameterM, lengthM float64) float64 {
	return math.Pi / 4 * insideDiameterM * insideDiameterM * lengthM
}

// Contents is what makes up the water.
type Contents struct {
	GrossM3     float64 // the bowl to the liner, to the brim
	StoneM3     float64 // stone below the water line, without its gaps
	GravelM3    float64 // grains of the gravel in the bowl, without its pores
	ZoneWaterM3 float64 // water in the pores of the regeneration zone
	PipeM3      float64 // water in the pipework
}

// PondM3 returns the water in the bowl itself, gross less stone and grains. It
// is never below zero.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (c Contents) PondM3() float64 { return max(0, c.GrossM3-c.StoneM3-c.GravelM3) }

// NetM3 returns all the water that moves round: bowl, zone and pipes.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (c Contents) NetM3() float64 { return c.PondM3() + c.ZoneWaterM3 + c.PipeM3 }

// FillHours returns how long a hose runs, from the water in m³ and the hose's
// rate in m³/h. A rate of nothing fills nothing and gives 0.
//
// Source: definition.
// Checked: 20 000 gal at 12 gal/min, by hand.
func FillHours(waterM3, hoseM3PerH float64) (fillH float64) {
	if !(hoseM3PerH > 0) {
		return 0
	}
	return waterM3 / hoseM3PerH
}

// Loads returns how many loads carry a volume, the last one part full. A hair
// over a whole number of loads, less than a billionth, is still that number.
// Loads that hold nothing carry nothing.
//
// Source: definition.
// Checked: 125 yd³ in lorries of 12 yd³ is 11 trips.
func Loads(volumeM3, eachM3 float64) (loadCount float64) {
	if !(volumeM3 > 0 && eachM3 > 0) {
		return 0
	}
	return math.Ceil(volumeM3/eachM3 - 1e-9)
}

// Stage is the water's area at a depth below the brim, and the water beneath.
type Stage struct {
	DepthM   float64
	AreaM2   float64
	VolumeM3 float64
}

// StandingM3 returns the water that stands up to heightM above the deepest
// point, from stages in order of depth, the last one the deepest. Between two
// stages it is the cubic through their volumes whose slopes are their areas,
// as the area is how fast the volume grows; in the lowest step, where the area
// falls to nothing at a level floor, it is the parabola without the lower
// slope. Above the first stage it is all the water.
//
// Source: hermite.
// Checked: exactly for a cylinder, a wedge and a cone, level inside a step and
// on a stage.
func StandingM3(stages []Stage, heightM float64) (waterM3 float64) {
	if len(stages) == 0 || !(heightM > 0) {
		return 0
	}
	last := len(stages) - 1
	level := stages[last].DepthM - heightM
	if level <= stages[0].DepthM {
		return stages[0].VolumeM3
	}
	i := 1
	for i < last && stages[i].DepthM < level {
		i++
	}
	up, down := stages[i-1], stages[i]
	step := down.DepthM - up.DepthM
	t := (level - up.DepthM) / step
	if i == last {
		fall := up.AreaM2 * step
		return up.VolumeM3 - float64(fall*t) - float64((up.VolumeM3-down.VolumeM3-fall)*t*t)
	}
	u := 1 - t
	return float64(u*u*(1+2*t)*up.VolumeM3) - float64(t*u*u*step*up.AreaM2) +
		float64(t*t*(3-2*t)*down.VolumeM3) + float64(t*t*u*step*down.AreaM2)
}
