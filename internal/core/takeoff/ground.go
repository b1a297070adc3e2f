package takeoff

import "math"

// Side is one side of a liner to order.
type Side struct {
	AcrossM   float64 // longest length, or longest width, of the water
	DepthM    float64
	OverlapM  float64
	RollStepM float64
}

// OrderM returns the length to order for one side of the liner:
//
//	L = across + 2 depth + 2 overlap, rounded up to the roll step
//
// A straight line down both walls is never shorter than the liner's own way
// over shelves and slopes, so the sheet cannot come out short; for gentle
// slopes it is generous.
//
// Source: practice.
// Checked: 40 × 20 × 8 ft with 2 ft of overlap is 60 × 40 ft; never shorter
// than the path over a bowl made at random.
func (s Side) OrderM() float64 {
	raw := s.AcrossM + float64(2*s.DepthM) + float64(2*s.OverlapM)
	if s.RollStepM <= 0 {
		return raw
	}
	return math.Ceil(raw/s.RollStepM-1e-9) * s.RollStepM
}

// Apron is a wetted surface and the strip of liner beyond its edge.
type Apron struct {
	DevelopedM2 float64
	PerimeterM  float64
	OverlapM    float64
}

// CoverM2 returns the liner's own area, wetted surface and strip together:
//
//	A = A_d + P o + π o²
//
// P is the edge's length and o the strip's width. The strip is exact for a
// smooth or convex edge; where the edge bends inwards tighter than o it counts
// some ground twice.
//
// Source: steiner1840.
// Checked: rings round a circle, a square with rounded corners.
func (a Apron) CoverM2() float64 {
	return a.DevelopedM2 + float64(a.PerimeterM*a.OverlapM) + float64(math.Pi*a.OverlapM*a.OverlapM)
}

// UnderlayM2 returns the underlay to buy, from the liner's area, the number of
// layers and the share lost to laps and cuts.
//
// Source: builder.
// Checked: by hand in the package's tests.
func UnderlayM2(coverM2 float64, layers int, wasteRatio float64) float64 {
	return coverM2 * float64(layers) * (1 + wasteRatio)
}

// Trench is a straight dig.
type Trench struct {
	LengthM, WidthM, DepthM float64
}

// VolumeM3 returns the trench's volume, L w d.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (t Trench) VolumeM3() float64 { return t.LengthM * t.WidthM * t.DepthM }

// Excavation is what is dug, each part as it lies in the ground.
type Excavation struct {
	BowlM3    float64 // to the liner
	BuildUpM3 float64 // bedding and underlay beneath it
	ZoneM3    float64 // the regeneration zone with its own build-up
	PadM3     float64
	TrenchM3  float64 // pipes and the liner's anchor
}

// PondM3 returns the bank volume without the zone's.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (e Excavation) PondM3() float64 { return e.BowlM3 + e.BuildUpM3 + e.PadM3 + e.TrenchM3 }

// BankM3 returns the whole bank volume: as it lies, before it is dug.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (e Excavation) BankM3() float64 { return e.PondM3() + e.ZoneM3 }

// LooseM3 returns the heap that a bank volume becomes:
//
//	V_l = V_b (1 + s)
//
// s is the swell of the soil class.
//
// Source: peurifoy.
// Checked: 100 yd³ of common earth at 25 % is 125 yd³.
func LooseM3(bankM3, swellRatio float64) float64 { return bankM3 * (1 + swellRatio) }

// MassT returns the mass in tonnes of a volume at a bulk density in kg/m³.
//
// Source: definition.
// Checked: a cubic yard of pea gravel at 100 lb/ft³ is 1.35 short tons.
func MassT(volumeM3, bulkKgPerM3 float64) float64 { return volumeM3 * bulkKgPerM3 / 1000 }

// Boulders is the band of stone along the rim.
type Boulders struct {
	RimM         float64
	GradeM       float64 // size of one stone, width of the band
	CourseCount  int
	VoidRatio    float64
	SolidKgPerM3 float64
}

// BandM3 returns the space the band takes up, gaps and all: rim × grade ×
// courses × grade.
//
// Source: practice.
// Checked: by hand in the package's tests.
func (b Boulders) BandM3() float64 {
	return b.RimM * b.GradeM * b.GradeM * float64(b.CourseCount)
}

// SolidM3 returns the stone in the band without its gaps, (1 − n) of it.
//
// Source: hec23.
// Checked: through the mass.
func (b Boulders) SolidM3() float64 { return b.BandM3() * (1 - b.VoidRatio) }

// DrownedM3 returns the stone that stands below the water line and so takes the
// place of water: a share of the band's height, but never more of it than the
// pond is deep.
//
// Source: practice.
// Checked: by hand in the package's tests.
func (b Boulders) DrownedM3(inWaterRatio, deepestM float64) (stoneM3 float64) {
	height := float64(b.CourseCount) * b.GradeM
	if height <= 0 {
		return 0
	}
	return b.SolidM3() * min(inWaterRatio, deepestM/height)
}

// MassT returns the stone to order in tonnes:
//
//	M = ρ_s (1 − n) V / 1000
//
// ρ_s is the density of solid rock in kg/m³, n the share of gaps and V the
// band.
//
// Source: hec23.
// Checked: rock of 165 lb/ft³ with 40 % of gaps weighs about 100 lb/ft³ in
// place.
func (b Boulders) MassT() float64 { return b.SolidM3() * b.SolidKgPerM3 / 1000 }

// Pad is a pump pad: pumps in a row with the same clearance all round.
type Pad struct {
	PumpCount                           int
	PumpLengthM, PumpWidthM, ClearanceM float64
}

// SidesM returns the pad's length and width: n (w + c) + c along the row, and
// l + 2 c across it. No pump, no pad.
//
// Source: practice.
// Checked: by hand in the package's tests.
func (p Pad) SidesM() (lengthM, widthM float64) {
	if p.PumpCount <= 0 {
		return 0, 0
	}
	n := float64(p.PumpCount)
	return float64(n*(p.PumpWidthM+p.ClearanceM)) + p.ClearanceM, p.PumpLengthM + float64(2*p.ClearanceM)
}

// AreaM2 returns the pad's area.
//
// Source: definition.
// Checked: by hand in the package's tests.
func (p Pad) AreaM2() float64 { l, w := p.SidesM(); return l * w }

// ZoneDigM3 returns what is dug for a zone: its gravel, and the build-up under
// its floor and its walls, taken as a square of the same area:
//
//	V = A d + t (A + 4 √A d)
//
// A square has the least edge of any rectangle of that area, so a long narrow
// zone needs a little more.
//
// Source: definition.
// Checked: by hand in the package's tests.
func ZoneDigM3(zone Bed, buildUpM float64) float64 {
	return zone.VolumeM3() + float64(buildUpM*ZoneSurfaceM2(zone))
}

// ZoneSurfaceM2 returns the floor and walls of a zone taken as a square,
// A + 4 √A d.
//
// Source: definition.
// Checked: by hand in the package's tests.
func ZoneSurfaceM2(zone Bed) float64 {
	return zone.AreaM2 + float64(4*math.Sqrt(zone.AreaM2)*zone.DepthM)
}
