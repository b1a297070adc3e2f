package geom

import (
	"math"
	"slices"

	"tarnwright/internal/core/design"
)

// Measures is a pond in figures.
type Measures struct {
	// LengthM and WidthM are the outline's box before it is turned.
	LengthM, WidthM float64
	// RectangleLengthM and RectangleWidthM are the smallest rectangle round
	// the water, however it lies.
	RectangleLengthM, RectangleWidthM float64
	AreaM2, PerimeterM                float64
	GrossVolumeM3                     float64
	MeanDepthM, MaxDepthM             float64
	// DevelopedAreaM2 is the true surface of the bottom with its vertical
	// faces, which alone are FaceAreaM2.
	DevelopedAreaM2, FaceAreaM2 float64
	// FlatAreaM2 is the plan area of all bottom no steeper than 1 in 3: floor,
	// shelves and beach. FloorAreaM2 is the floor alone.
	FlatAreaM2, FloorAreaM2 float64
	BeachWidthM             float64
	// TreadAreaM2 is the plan area of the steps that stand clear of the bowl.
	TreadAreaM2 float64
	// Deepest is the deepest place, the middle of it where it is wide.
	Deepest design.Point
	// LongestSectionM is the longest straight line over the water through the
	// deepest place, between the Section ends.
	LongestSectionM float64
	Section         [2]design.Point
	// Shares of the surface at least as deep as a level.
	Deeper06Share, Deeper12Share, Deeper15Share, Deeper18Share float64
	// Stages run from the surface to the deepest place.
	Stages []Stage
	// VolumeErrorRatio estimates how far the method may be off, over the volume.
	VolumeErrorRatio float64
}

// Stage is the water left when the pond is drawn down to a depth.
type Stage struct{ DepthM, AreaM2, VolumeM3 float64 }

// stageStepM is the step of the depth table: half a foot, so that every
// contour of a plan in feet is in it.
const stageStepM = 0.1524

// rimSteps is how many rays the rim sends out at least; see the benchmark for
// error and time at other numbers.
const rimSteps = 160

// Measure works out every figure of a pond.
//
// The water is cut into strips, each the water nearest to one short stretch
// of rim, bounded by rays into the pond and by where the rays are cut (the
// inner parallel set). Along a strip the depth is a chain of straight lines,
// and area, volume and surface are summed exactly; across strips the rule is
// of second order. A flight of steps is summed by columns of its own, with its
// treads and without, and the difference put to the sums.
//
// Source: steiner1840.
// Checked: reference/geometry.json; prismoid, cone and pyramid frustum of the
// handbook; quadrature of the depth field; scaling and turning.
func Measure(f *Field) Measures { return f.measure(rimSteps, nil).Measures }

// StagesAt returns what is left of the pond at each of the levels.
func (f *Field) StagesAt(levelsM []float64) []Stage {
	m := f.measure(rimSteps, levelsM)
	out := make([]Stage, len(levelsM))
	for i, l := range levelsM {
		out[i] = m.sums.stage(l)
	}
	return out
}

type measured struct {
	Measures
	sums *sums
}

func (f *Field) measure(steps float64, levels []float64) measured {
	r := f.rim
	nodes := f.rays(steps)
	f.all.cutAll(nodes, r.size)
	nodes = f.slice(f.refine(nodes, steps))
	strips := f.strips(nodes)
	s := f.sum(strips, f.ladder(levels))
	s.face = f.faces(nodes, strips)
	treads, stepsOff := f.steps(s)
	smallest := r.Smallest()
	m := Measures{
		LengthM: r.LengthM(), WidthM: r.WidthM(),
		RectangleLengthM: smallest.LengthM, RectangleWidthM: smallest.WidthM,
		AreaM2: r.areaM2, PerimeterM: r.edgeM,
		GrossVolumeM3: s.volume, MeanDepthM: s.volume / r.areaM2,
		DevelopedAreaM2: s.surface + s.face, FaceAreaM2: s.face,
		FlatAreaM2: most(s.flat, 0), FloorAreaM2: most(s.floor, 0), BeachWidthM: f.beachM, TreadAreaM2: treads,
	}
	deepest, depth := f.deepestPlace(nodes, strips, s.deepest)
	m.MaxDepthM = depth
	m.Deepest = r.frame.out(deepest)
	from, to := r.longestThrough(deepest)
	m.Section = [2]design.Point{r.frame.out(from), r.frame.out(to)}
	m.LongestSectionM = to.minus(from).len()
	m.Deeper06Share = s.stage(0.6).AreaM2 / r.areaM2
	m.Deeper12Share = s.stage(1.2).AreaM2 / r.areaM2
	m.Deeper15Share = s.stage(1.5).AreaM2 / r.areaM2
	m.Deeper18Share = s.stage(1.8).AreaM2 / r.areaM2
	for k := 0.0; k*stageStepM < m.MaxDepthM; k++ {
		m.Stages = append(m.Stages, s.stage(k*stageStepM))
	}
	m.Stages = append(m.Stages, s.stage(m.MaxDepthM))
	m.VolumeErrorRatio = f.errorRatio(s)
	if stepsOff > 0 && s.volume > 0 { // a bowl may hold nothing
		m.VolumeErrorRatio += stepsOff / s.volume
	}
	return measured{m, s}
}

// ladder returns the levels at which the sums are split: those of the table,
// of the shares, and any asked for.
func (f *Field) ladder(levels []float64) []float64 {
	all := append([]float64{0, 0.6, 1.2, 1.5, 1.8}, levels...)
	for k := 1.0; k*stageStepM < f.deepM; k++ {
		all = append(all, k*stageStepM)
	}
	slices.Sort(all)
	out := all[:0]
	for i, l := range all {
		if l >= 0 && (i == 0 || l > out[len(out)-1]) {
			out = append(out, l)
		}
	}
	return out
}

// stage returns the water left at a level of the ladder, or between two by
// the layer's own share.
func (s *sums) stage(level float64) Stage {
	st := Stage{DepthM: level}
	for k := len(s.levels) - 1; k >= 0 && s.levels[k] >= level-levelSlack(level); k-- {
		st.AreaM2 += s.layerArea[k]
		st.VolumeM3 += s.layerVolume[k] - float64(level*s.layerArea[k])
	}
	// Over a flight two sums are taken from each other: next to nothing may come
	// out below it.
	st.AreaM2, st.VolumeM3 = most(st.AreaM2, 0), most(st.VolumeM3, 0)
	return st
}

// errorRatio estimates the volume's error: twice the share of water that the
// strips miss or count twice, what swelling leaves of the chords' own error,
// and a floor for the rule across strips.
func (f *Field) errorRatio(s *sums) float64 {
	missed := math.Abs(s.area/f.rim.areaM2 - 1)
	size := f.rim.size
	chords := chordShare * size * f.rim.perimeterM / f.rim.areaM2
	const acrossStrips = 6e-5
	return 2*missed + chords/8 + acrossStrips
}
