// Package takeoff works out quantities from plain measures of a pond: water
// after stone and gravel, liner and underlay, digging, gravel, boulders, the
// pad, and the fill. It knows no outlines and no prices.
package takeoff

import "strconv"

// Rates are the builder's own figures for taking off: overlaps, swell,
// densities, loads. Every length is in metres, every ratio a plain number.
type Rates struct {
	Version int `json:"rates_version"`
	// Invented says that the figures belong to a made-up builder.
	Invented bool       `json:"invented"`
	Liner    LinerRates `json:"liner"`
	Dig      DigRates   `json:"dig"`
	// Gravel is laid on the horizontal parts, in this order from the liner up.
	Gravel []Layer    `json:"gravel"`
	Stone  StoneRates `json:"stone"`
	Pad    PadRates   `json:"pad"`
	Fill   FillRates  `json:"fill"`
	// ZoneBulkKgPerM3 is the loose bulk density of the zone's gravel.
	ZoneBulkKgPerM3 float64 `json:"zone_bulk_kg_per_m3"`
}

// LinerRates say how the liner is ordered and laid.
type LinerRates struct {
	// OverlapM is what lies beyond the water's edge on each side: bench, down
	// the anchor trench and across its floor.
	OverlapM           float64 `json:"overlap_m"`
	RollStepM          float64 `json:"roll_step_m"`
	UnderlayCount      int     `json:"underlay_count"`
	UnderlayWasteRatio float64 `json:"underlay_waste_ratio"`
	AnchorTrenchWidthM float64 `json:"anchor_trench_width_m"`
	AnchorTrenchDepthM float64 `json:"anchor_trench_depth_m"`
}

// DigRates say how the ground is dug and hauled.
type DigRates struct {
	// BuildUpM is the thickness of bedding and underlay beneath the liner.
	BuildUpM         float64 `json:"build_up_m"`
	PipeTrenchWidthM float64 `json:"pipe_trench_width_m"`
	PipeTrenchDepthM float64 `json:"pipe_trench_depth_m"`
	// UsedOnSiteRatio of what is dug stays for berms and levels.
	UsedOnSiteRatio float64 `json:"used_on_site_ratio"`
	LorryM3         float64 `json:"lorry_m3"`
	Soils           []Soil  `json:"soils"`
}

// Soil is a swell class: how much the ground grows when it is dug.
type Soil struct {
	ID         string  `json:"id"`
	SwellRatio float64 `json:"swell_ratio"`
}

// Layer is one layer of gravel.
type Layer struct {
	ID          string  `json:"id"`
	ThicknessM  float64 `json:"thickness_m"`
	BulkKgPerM3 float64 `json:"bulk_kg_per_m3"`
	PoreRatio   float64 `json:"pore_ratio"`
}

// StoneRates describe the band of boulders round the rim.
type StoneRates struct {
	// GradeM is the usual size of one boulder, and the width of the band.
	GradeM float64 `json:"grade_m"`
	// CourseCount is how many boulders stand on each other.
	CourseCount int `json:"course_count"`
	// VoidRatio is the share of the band that is gaps, from the packing.
	VoidRatio    float64 `json:"void_ratio"`
	SolidKgPerM3 float64 `json:"solid_kg_per_m3"`
	// InWaterRatio is the share of the stone that stands below the water line.
	InWaterRatio float64 `json:"in_water_ratio"`
}

// PadRates size the pumps' pad.
type PadRates struct {
	PumpLengthM float64 `json:"pump_length_m"`
	PumpWidthM  float64 `json:"pump_width_m"`
	ClearanceM  float64 `json:"clearance_m"`
	ThicknessM  float64 `json:"thickness_m"`
}

// FillRates say how the water comes.
type FillRates struct {
	TankerM3   float64 `json:"tanker_m3"`
	HoseM3PerH float64 `json:"hose_m3_per_h"`
	// CushionM is the depth that goes in gently before a fast fill.
	CushionM float64 `json:"cushion_m"`
}

// Soil returns the swell class of an id, and whether the builder has it.
func (r Rates) Soil(id string) (Soil, bool) {
	for _, s := range r.Dig.Soils {
		if s.ID == id {
			return s, true
		}
	}
	return Soil{}, false
}

// Fault is one figure of the rates that cannot be right: outside its span, or
// an id given twice.
type Fault struct {
	Path                string
	LeastCoef, MostCoef float64
	Twice               bool
}

// bound is one allowed span, ends included.
type bound struct {
	path          string
	given, lo, hi float64
}

// Faults returns every figure that is outside what can be, in file order. The
// spans are this check's own, wide enough for any garden.
func (r Rates) Faults() []Fault {
	bounds := []bound{
		{"rates_version", float64(r.Version), 1, 1},
		{"liner.overlap_m", r.Liner.OverlapM, 0, 5},
		{"liner.roll_step_m", r.Liner.RollStepM, 0.01, 20},
		{"liner.underlay_count", float64(r.Liner.UnderlayCount), 0, 5},
		{"liner.underlay_waste_ratio", r.Liner.UnderlayWasteRatio, 0, 1},
		{"liner.anchor_trench_width_m", r.Liner.AnchorTrenchWidthM, 0, 2},
		{"liner.anchor_trench_depth_m", r.Liner.AnchorTrenchDepthM, 0, 2},
		{"dig.build_up_m", r.Dig.BuildUpM, 0, 1},
		{"dig.pipe_trench_width_m", r.Dig.PipeTrenchWidthM, 0, 2},
		{"dig.pipe_trench_depth_m", r.Dig.PipeTrenchDepthM, 0, 3},
		{"dig.used_on_site_ratio", r.Dig.UsedOnSiteRatio, 0, 1},
		{"dig.lorry_m3", r.Dig.LorryM3, 0.5, 60},
	}
	for i, s := range r.Dig.Soils {
		bounds = append(bounds, bound{"dig.soils[" + strconv.Itoa(i) + "].swell_ratio", s.SwellRatio, 0, 1})
	}
	for i, g := range r.Gravel {
		at := "gravel[" + strconv.Itoa(i) + "]."
		bounds = append(bounds, bound{at + "thickness_m", g.ThicknessM, 0, 2},
			bound{at + "bulk_kg_per_m3", g.BulkKgPerM3, 500, 3000}, bound{at + "pore_ratio", g.PoreRatio, 0, 0.7})
	}
	bounds = append(bounds,
		bound{"stone.grade_m", r.Stone.GradeM, 0, 3},
		bound{"stone.course_count", float64(r.Stone.CourseCount), 0, 10},
		bound{"stone.void_ratio", r.Stone.VoidRatio, 0, 0.8},
		bound{"stone.solid_kg_per_m3", r.Stone.SolidKgPerM3, 1000, 4000},
		bound{"stone.in_water_ratio", r.Stone.InWaterRatio, 0, 1},
		bound{"pad.pump_length_m", r.Pad.PumpLengthM, 0, 5},
		bound{"pad.pump_width_m", r.Pad.PumpWidthM, 0, 5},
		bound{"pad.clearance_m", r.Pad.ClearanceM, 0, 3},
		bound{"pad.thickness_m", r.Pad.ThicknessM, 0, 1},
		bound{"fill.tanker_m3", r.Fill.TankerM3, 0.1, 60},
		bound{"fill.hose_m3_per_h", r.Fill.HoseM3PerH, 0.05, 200},
		bound{"fill.cushion_m", r.Fill.CushionM, 0, 3},
		bound{"zone_bulk_kg_per_m3", r.ZoneBulkKgPerM3, 500, 3000},
	)
	return append(outside(bounds), r.twice()...)
}

func outside(bounds []bound) []Fault {
	var faults []Fault
	for _, b := range bounds {
		if !(b.given >= b.lo && b.given <= b.hi) {
			faults = append(faults, Fault{Path: b.path, LeastCoef: b.lo, MostCoef: b.hi})
		}
	}
	return faults
}

// twice finds soils with one id and a list without any.
func (r Rates) twice() []Fault {
	var faults []Fault
	for i, s := range r.Dig.Soils {
		for _, t := range r.Dig.Soils[:i] {
			if s.ID == t.ID {
				faults = append(faults, Fault{Path: "dig.soils[" + strconv.Itoa(i) + "].id", Twice: true})
				break
			}
		}
	}
	return faults
}
