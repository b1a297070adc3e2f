package geom_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

// How much work one pond may be. A test asserts no time, so it counts looks: an
// edge, or a circle of them, held against a place; a summed stretch is ten. By
// the benchmark of the shape (make bench) the demo's figures are 248,000 looks
// in 0.92 ms, and 2.40 ms as WASM, which is 9.7 ns a look; its contours are
// 746,000 in 4.81 ms as WASM, 6.4 ns a look.
//
// Figures and the contours that follow a finger: 50 ms / 9.7 ns = 5.1 million.
// The contours drawn at rest take up to twice as long for the largest ponds of
// nine hundred corners: 16 million looks of 6.4 ns are 102 ms.
const (
	figureLooks = 5_000_000
	quickLooks  = 5_000_000
	restLooks   = 16_000_000
)

// Any outline is either refused or measured: no panic, nothing that is not a
// number, nothing below nought, and no more water than area times depth.
func FuzzMeasure(f *testing.F) {
	for seed := range uint64(24) {
		f.Add(seed, uint8(seed*11), uint8(seed%6))
	}
	// The most work that a search found: a small round pond of thirty treads, and
	// a large free one.
	f.Add(uint64(4397), uint8(129), uint8(5))
	f.Add(uint64(2183), uint8(131), uint8(5))
	f.Add(uint64(13), uint8(143), uint8(0))   // a bowl that holds nothing
	f.Add(uint64(5), uint8('T'), uint8(0xC3)) // flights that leave next to no floor
	f.Add(uint64(4263), uint8(35), uint8(3))
	f.Fuzz(func(t *testing.T, seed uint64, count, kind uint8) {
		r := rand.New(rand.NewPCG(seed, uint64(kind)))
		o, b := anyOutline(r, int(count)%48, kind), anyBowl(r)
		rim, err := geom.NewRim(o)
		if err != nil {
			var crossing *geom.CrossingError
			if errors.As(err, &crossing) && (math.IsNaN(crossing.At.XM) || math.IsNaN(crossing.At.YM)) {
				t.Errorf("crossing at %v", crossing.At)
			}
			if errors.As(err, &crossing) && len(rim.Points()) >= 3 {
				// A page may draw it all the same, and must get an end.
				crossed := geom.NewField(rim, b)
				geom.Measure(crossed)
				crossed.Contours([]float64{0.3, 0.9})
			}
			return
		}
		fl := geom.NewField(rim, b)
		looks := fl.CountLooks()
		m := geom.Measure(fl)
		atMost(t, "figures", looks, figureLooks)
		fl.QuickContours([]float64{0.3, 0.6, 0.9, 1.2, 1.5, 1.8})
		atMost(t, "contours in hand", looks, quickLooks)
		fl.Contours([]float64{0.3, 0.6, 0.9, 1.2, 1.5, 1.8})
		atMost(t, "contours at rest", looks, restLooks)
		for _, x := range []float64{m.AreaM2, m.PerimeterM, m.GrossVolumeM3, m.MeanDepthM, m.MaxDepthM, m.DevelopedAreaM2, m.FlatAreaM2, m.LongestSectionM, m.Deeper06Share, m.VolumeErrorRatio} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < -1e-12 {
				t.Fatalf("figure %v in %+v of %+v %+v", x, m, o, b)
			}
		}
		if m.GrossVolumeM3 > m.AreaM2*b.DeepM*1.02 || m.MaxDepthM > b.DeepM*(1+1e-9) || m.DevelopedAreaM2 < 0.97*m.AreaM2 {
			t.Errorf("out of bounds: %+v of %+v %+v", m, o, b)
		}
		if m.VolumeErrorRatio < 0.02 {
			q := quadrature(fl, 60)
			if off := math.Abs(m.GrossVolumeM3 - q.volume); off > 0.05*q.volume+0.02*m.AreaM2*m.MaxDepthM {
				t.Errorf("volume %.4f m3, quadrature %.4f m3, seed %d count %d kind %d", m.GrossVolumeM3, q.volume, seed, count, kind)
			}
		}
		for _, c := range fl.Contours([]float64{0.3, 0.9}) {
			for _, ring := range c.Rings {
				for _, p := range ring {
					if math.IsNaN(p.XM) || math.IsNaN(p.YM) {
						t.Fatal("contour is not a number")
					}
				}
			}
		}
	})
}

// atMost holds the looks counted since the last call against the most.
func atMost(t *testing.T, what string, looks *int, most int) {
	t.Helper()
	if *looks > most {
		t.Errorf("%s took %d looks, want at most %d", what, *looks, most)
	}
	*looks = 0
}

func anyOutline(r *rand.Rand, n int, kind uint8) design.Outline {
	size := math.Exp(r.Float64()*3.4 + 0.6)
	o := design.Outline{LengthM: size, WidthM: size * (0.2 + r.Float64()), RotationDeg: 720 * (r.Float64() - 0.5)}
	switch kind % 6 {
	case 0: // a star-shaped polygon, sometimes wild
		o.Shape = design.Polygon
		for i := range n + 3 {
			a, k := 2*math.Pi*float64(i)/float64(n+3), size*(0.3+0.7*r.Float64())
			o.Vertices = append(o.Vertices, design.Point{XM: k * math.Cos(a), YM: k * math.Sin(a)})
		}
	case 1: // handles anywhere, on a coarse grid so that they meet
		o.Shape = design.Freehand
		for range n%12 + 3 {
			o.Handles = append(o.Handles, design.Point{XM: float64(r.IntN(6)), YM: float64(r.IntN(6))})
		}
	case 2: // corners on a grid: collinear, doubled and folded ones
		o.Shape = design.Polygon
		for range n%9 + 3 {
			o.Vertices = append(o.Vertices, design.Point{XM: float64(r.IntN(4)), YM: float64(r.IntN(4))})
		}
	case 3:
		o.Shape = design.Freehand
		for i := range n%38 + 3 {
			a, k := 2*math.Pi*float64(i)/float64(n%38+3), size*(0.6+0.4*r.Float64())
			o.Handles = append(o.Handles, design.Point{XM: k * math.Cos(a), YM: -k * math.Sin(a)})
		}
	case 4:
		o.Shape = design.LShape
		o.NotchLengthM, o.NotchWidthM = o.LengthM*r.Float64()*0.9, o.WidthM*r.Float64()*0.9
	default:
		o.Shape = design.Shapes()[r.IntN(6)]
		o.CornerRadiusM = r.Float64() * min(o.LengthM, o.WidthM) / 2
		if o.Shape == design.Freehand {
			o.Shape = design.Bean
		}
	}
	return o
}

func anyBowl(r *rand.Rand) design.Bowl {
	b := design.Bowl{DeepM: 0.3 + 5*r.Float64(), Wall: []design.Knot{{}}}
	for range r.IntN(6) + 1 {
		last := b.Wall[len(b.Wall)-1]
		if r.IntN(3) > 0 {
			last.InsetM += r.Float64()
		}
		if r.IntN(3) > 0 {
			last.DepthM += r.Float64()
		}
		b.Wall = append(b.Wall, last)
	}
	if r.IntN(2) == 0 {
		b.Beach = &design.Beach{BearingDeg: 360 * r.Float64(), WidthM: 0.3 + 20*r.Float64()*r.Float64(), RunPerRiseRatio: 0.5 + 12*r.Float64()}
		if r.IntN(2) == 0 {
			b.Beach.ToeDepthM, b.Beach.DescentRunPerRiseRatio = r.Float64(), 4*r.Float64()*float64(r.IntN(2))
		}
	}
	if r.IntN(3) == 0 {
		b.Steps = &design.Steps{BearingDeg: 360 * r.Float64(), WidthM: 0.45 + 5*r.Float64(), TreadM: 0.2 + 1.3*r.Float64(), RiserM: 0.05 + 0.35*r.Float64(), Count: 1 + r.IntN(30)}
	}
	if r.IntN(3) == 0 {
		b.Floor = &design.Floor{AxisDeg: 360 * r.Float64(), Knots: []design.FloorKnot{
			{AlongM: -4 * r.Float64(), DepthM: 2 * r.Float64()}, {AlongM: 4 * r.Float64(), DepthM: 4 * r.Float64()}, {AlongM: 5, DepthM: r.Float64()},
		}}
	}
	return b
}

func TestNewRim_SaysWhereItCrosses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why           string
		o             design.Outline
		at            design.Point
		first, second int
	}{
		{
			why: "a bow tie crosses in the middle", at: design.Point{XM: 1, YM: 1}, first: 0, second: 2,
			o: design.Outline{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 2, YM: 2}, {XM: 2}, {YM: 2}}},
		},
		{
			why: "and where it has been moved to", at: design.Point{XM: 11, YM: 21}, first: 0, second: 2,
			o: design.Outline{Shape: design.Polygon, CentreXM: 10, CentreYM: 20, Vertices: []design.Point{{}, {XM: 2, YM: 2}, {XM: 2}, {YM: 2}}},
		},
		{
			why: "a corner that touches an edge", at: design.Point{XM: 2}, first: 0, second: 3,
			o: design.Outline{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 4}, {XM: 4, YM: 3}, {XM: 2}, {YM: 3}}},
		},
		{
			why: "an edge folded back on the one before meets it again where it ends", at: design.Point{XM: 1}, first: 0, second: 2,
			o: design.Outline{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 4}, {XM: 1}, {YM: 3}}},
		},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			_, err := geom.NewRim(c.o)
			var got *geom.CrossingError
			if !errors.As(err, &got) {
				t.Fatalf("got %v, want a crossing", err)
			}
			if math.Hypot(got.At.XM-c.at.XM, got.At.YM-c.at.YM) > 1e-9 || got.First != c.first || got.Second != c.second {
				t.Errorf("got %+v, want %+v after %d and %d", got, c.at, c.first, c.second)
			}
		})
	}
	for _, o := range []design.Outline{
		{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 1}, {XM: 2}}},
		{Shape: design.Freehand, Handles: []design.Point{{XM: 1, YM: 1}, {XM: 1, YM: 1}, {XM: 1, YM: 1}}},
		{Shape: design.Polygon},
	} {
		if _, err := geom.NewRim(o); err == nil {
			t.Errorf("%+v encloses no water but was taken", o)
		}
	}
}
