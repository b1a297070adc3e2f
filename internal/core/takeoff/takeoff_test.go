package takeoff_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/takeoff"
)

// Units of the handbooks, from their definitions.
const (
	ft       = 0.3048
	ft3      = ft * ft * ft
	yd3      = 27 * ft3
	gal      = 231 * 0.0254 * 0.0254 * 0.0254
	lb       = 0.45359237
	lbPerFt3 = lb / ft3
)

func near(t *testing.T, why string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", why, got, want, tol)
	}
}

// Printed values of handbooks and worked examples; the tolerance is half a unit
// of the last printed digit.
func TestTakeoff_AgreesWithHandbooks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why            string // what, and where it is from
		got, want, tol float64
	}{
		{"pore share of gravel at 100 lb/ft³, grains 2.65 × 62.4 lb/ft³: 0.3953; The Groundwater Project, eq. 3",
			takeoff.PoreRatio(100*lbPerFt3, 2.65*62.4*lbPerFt3), 0.3953, 0.00005},
		{"100 bank yd³ of common earth at 25 %; Peurifoy table 4-1 gives 20 to 45 %",
			takeoff.LooseM3(100*yd3, 0.25) / yd3, 125, 0.5},
		{"load factor of common earth at 25 %; handbook 0.80", 1 / takeoff.LooseM3(1, 0.25), 0.80, 0.005},
		{"load factor of damp clay at 40 %; handbook 0.714", 1 / takeoff.LooseM3(1, 0.40), 0.714, 0.0005},
		{"125 loose yd³ in lorries of 12", takeoff.Loads(125*yd3, 12*yd3), 11, 0},
		{"rock in place: 165 lb/ft³ solid with 40 % of gaps, about 100 lb/ft³; HEC-23, from memory",
			takeoff.Boulders{RimM: ft, GradeM: ft, CourseCount: 1, VoidRatio: 0.40, SolidKgPerM3: 165 * lbPerFt3}.MassT() * 1000 / lb, 100, 1.5},
		{"a cubic yard of pea gravel at 100 lb/ft³ in short tons; supplier tables 1.28 to 1.42, from memory",
			takeoff.MassT(yd3, 100*lbPerFt3) * 1000 / lb / 2000, 1.35, 0.005},
		{"gallons in a foot of 3 in Schedule 40 pipe; ASTM D1785 inside diameter", takeoff.PipeM3(3.068*0.0254, ft) / gal, 0.3840, 0.00005},
		{"side of a liner 40 ft long, 8 ft deep, 2 ft over; folk rule L + 2D + 2o",
			takeoff.Side{AcrossM: 40 * ft, DepthM: 8 * ft, OverlapM: 2 * ft}.OrderM() / ft, 60, 1e-9},
		{"the same across 20 ft", takeoff.Side{AcrossM: 20 * ft, DepthM: 8 * ft, OverlapM: 2 * ft}.OrderM() / ft, 40, 1e-9},
		{"20 000 gal at 12 gal/min is 27.8 h, by hand", takeoff.FillHours(20000*gal, 12*60*gal), 27.8, 0.05},
	} {
		near(t, c.why, c.got, c.want, c.tol)
	}
}

// Grains and water fill the bed, and the grains' own volume is the bed's mass
// over their density: another way to the same figure.
func TestBed_GrainsAndWaterFillIt(t *testing.T) {
	t.Parallel()
	n := takeoff.PoreRatio(1600, 2650)
	b := takeoff.Bed{AreaM2: 14.68, DepthM: 0.9144, PoreRatio: n}
	near(t, "together, m3", b.WaterM3()+b.SolidM3(), b.VolumeM3(), 1e-12)
	near(t, "grains by mass, m3", b.SolidM3(), takeoff.MassT(b.VolumeM3(), 1600)*1000/2650, 1e-12)
	near(t, "volume, m3", b.VolumeM3(), 13.423392, 1e-9)
}

func TestPoreRatio_OutsideIsNotANumber(t *testing.T) {
	t.Parallel()
	for _, c := range [][2]float64{{0, 2650}, {-1, 2650}, {2700, 2650}, {math.NaN(), 2650}} {
		if got := takeoff.PoreRatio(c[0], c[1]); !math.IsNaN(got) {
			t.Errorf("PoreRatio(%v, %v) = %v, want NaN", c[0], c[1], got)
		}
	}
}

func TestContents_NeverBelowNothing(t *testing.T) {
	t.Parallel()
	c := takeoff.Contents{GrossM3: 60, StoneM3: 1.5, GravelM3: 2.25, ZoneWaterM3: 5, PipeM3: 0.125}
	near(t, "pond, m3", c.PondM3(), 56.25, 0)
	near(t, "net, m3", c.NetM3(), 61.375, 0)
	c.StoneM3 = 90
	near(t, "a bowl full of stone, m3", c.PondM3(), 0, 0)
}

func TestLoads_TheLastOnePartFull(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ v, each, want float64 }{
		{0, 9, 0}, {-3, 9, 0}, {math.NaN(), 9, 0}, {9, 9, 1}, {9.0000000001, 9, 1}, {9.01, 9, 2}, {0.1 * 3, 0.1, 3},
	} {
		near(t, "loads", takeoff.Loads(c.v, c.each), c.want, 0)
	}
}

// Closed forms: a cylinder, a wedge, a cone, and a level inside a step. A level
// floor has no area below it, as a depth table says it.
func TestStandingM3_AgreesWithClosedForms(t *testing.T) {
	t.Parallel()
	var cylinder, wedge, cone []takeoff.Stage
	for _, d := range []float64{0, 0.3, 0.61, 1.2, 1.9, 2} {
		h := 2 - d
		area := 50.0
		if h == 0 {
			area = 0
		}
		cylinder = append(cylinder, takeoff.Stage{DepthM: d, AreaM2: area, VolumeM3: 50 * h})
		wedge = append(wedge, takeoff.Stage{DepthM: d, AreaM2: 10 * h, VolumeM3: 5 * h * h})
		cone = append(cone, takeoff.Stage{DepthM: d, AreaM2: math.Pi * h * h, VolumeM3: math.Pi * h * h * h / 3})
	}
	for _, h := range []float64{0, 0.03, 0.1, 0.5, 0.8, 1.777, 2, 5} {
		full := min(h, 2)
		near(t, "cylinder, m3", takeoff.StandingM3(cylinder, h), 50*full, 1e-9)
		near(t, "wedge, m3", takeoff.StandingM3(wedge, h), 5*full*full, 1e-9)
		tol := 1e-9
		if h < 0.1 {
			tol = 2e-4 // the lowest step has no slope below
		}
		near(t, "cone, m3", takeoff.StandingM3(cone, h), math.Pi*full*full*full/3, tol)
	}
	near(t, "no stages, m3", takeoff.StandingM3(nil, 1), 0, 0)
}

// A bowl made at random, cut straight across: its liner's way over every
// shelf, slope and step is never longer than the side ordered for it.
func TestOrderM_IsNeverShort(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		across, depth := 2+20*r.Float64(), 0.3+3*r.Float64()
		way := 0.0
		for _, half := range [2]float64{0, across / 2} {
			at, down, n := half, 0.0, 1+r.IntN(6)
			for i := range n {
				run, rise := 0.0, 0.0
				if i == n-1 {
					run, rise = half+across/2-at, depth-down
				} else {
					run, rise = (half+across/2-at)*r.Float64(), (depth-down)*r.Float64()
				}
				way += math.Hypot(run, rise)
				at, down = at+run, down+rise
			}
		}
		s := takeoff.Side{AcrossM: across, DepthM: depth, OverlapM: 1.2, RollStepM: 0.5}
		if got := s.OrderM(); got < way+2.4 || math.Abs(math.Round(got/0.5)*0.5-got) > 1e-9 || got > across+2*depth+2.4+0.5 {
			t.Fatalf("across %.3f m, deep %.3f m: ordered %.3f m for a way of %.3f m", across, depth, got, way+2.4)
		}
	}
}

// Against the plane closed forms of a ring and of a square with its corners
// swept round.
func TestCoverM2_AgreesWithClosedForms(t *testing.T) {
	t.Parallel()
	r, o := 4.0, 1.2
	near(t, "circle, m2", takeoff.Apron{DevelopedM2: math.Pi * r * r, PerimeterM: 2 * math.Pi * r, OverlapM: o}.CoverM2(), math.Pi*(r+o)*(r+o), 1e-12)
	near(t, "square, m2", takeoff.Apron{DevelopedM2: 36, PerimeterM: 24, OverlapM: 1}.CoverM2(), 8*8-(4-math.Pi), 1e-12)
	near(t, "two layers with a tenth lost, m2", takeoff.UnderlayM2(100, 2, 0.1), 220, 1e-9)
}

func TestExcavation_PartsAddUp(t *testing.T) {
	t.Parallel()
	zone := takeoff.Bed{AreaM2: 16, DepthM: 1, PoreRatio: 0.4}
	e := takeoff.Excavation{BowlM3: 60, BuildUpM3: 4, ZoneM3: takeoff.ZoneDigM3(zone, 0.05), PadM3: 0.5,
		TrenchM3: takeoff.Trench{LengthM: 10, WidthM: 0.5, DepthM: 0.4}.VolumeM3()}
	near(t, "zone: 16 + 0.05 × (16 + 4 × 4 × 1), m3", e.ZoneM3, 17.6, 1e-12)
	near(t, "bank, m3", e.BankM3(), 60+4+17.6+0.5+2, 1e-12)
	near(t, "pond, m3", e.PondM3(), 66.5, 1e-12)
}

// A band of 10 × 0.5 × 1 m with 40 % of gaps is 3 m³ of stone; half of its
// height is under water, or 0.3 m of it where the pond is no deeper.
func TestDrownedM3_NoHigherThanTheWater(t *testing.T) {
	t.Parallel()
	b := takeoff.Boulders{RimM: 10, GradeM: 0.5, CourseCount: 2, VoidRatio: 0.4, SolidKgPerM3: 2600}
	near(t, "deep, m3", b.DrownedM3(0.5, 2), 1.5, 1e-12)
	near(t, "shallow, m3", b.DrownedM3(0.5, 0.3), 0.9, 1e-12)
	near(t, "no stone, m3", takeoff.Boulders{}.DrownedM3(0.5, 2), 0, 0)
}

func TestPad_LeavesClearanceAllRound(t *testing.T) {
	t.Parallel()
	p := takeoff.Pad{PumpCount: 2, PumpLengthM: 0.7, PumpWidthM: 0.3, ClearanceM: 0.5}
	near(t, "2 × (0.3 + 0.5) + 0.5 by 0.7 + 2 × 0.5, m2", p.AreaM2(), 2.1*1.7, 1e-12)
	p.PumpCount = 0
	near(t, "no pump, m2", p.AreaM2(), 0, 0)
}

// Every length k times as long: areas grow with k², volumes and masses with k³.
func TestTakeoff_Scales(t *testing.T) {
	t.Parallel()
	const k = 1.7
	area := func(k float64) float64 {
		return takeoff.Apron{DevelopedM2: 70 * k * k, PerimeterM: 28 * k, OverlapM: 1.2 * k}.CoverM2()
	}
	rock := func(k float64) float64 {
		return takeoff.Boulders{RimM: 25 * k, GradeM: 0.5 * k, CourseCount: 2, VoidRatio: 0.4, SolidKgPerM3: 2650}.MassT()
	}
	dig := func(k float64) float64 {
		return takeoff.ZoneDigM3(takeoff.Bed{AreaM2: 15 * k * k, DepthM: k, PoreRatio: 0.4}, 0.05*k)
	}
	near(t, "liner", area(k)/area(1), k*k, 1e-12)
	near(t, "boulders", rock(k)/rock(1), k*k*k, 1e-12)
	near(t, "zone dug", dig(k)/dig(1), k*k*k, 1e-12)
}
