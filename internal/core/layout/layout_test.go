package layout_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
)

// designs is the demo pond in every outline, at several sizes and turns.
func designs() []design.Design {
	var out []design.Design
	for _, shape := range []design.Shape{design.Bean, design.Ellipse, design.RoundedRectangle, design.LShape, design.Rectangle} {
		for _, k := range []float64{0.4, 1, 3} {
			for _, turn := range []float64{0, 70} {
				d := demoDesign()
				d.Outline.Shape, d.Outline.RotationDeg = shape, turn
				d.Outline.LengthM, d.Outline.WidthM = d.Outline.LengthM*k, d.Outline.WidthM*k
				d.Outline.CornerRadiusM, d.Outline.NotchLengthM, d.Outline.NotchWidthM = 0.8*k, 4*k, 2.5*k
				d.Outline.CentreXM = 7
				d.Zone.AreaM2 *= k * k
				out = append(out, d)
			}
		}
	}
	return out
}

func area(ring []sheet.XY) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += (p.X*q.Y - q.X*p.Y) / 2
	}
	return sum
}

// fromRim is the distance of a place from the water's edge, negative inside.
func fromRim(p sheet.XY, rim []sheet.XY) float64 {
	best, in := math.Inf(1), false
	for i, a := range rim {
		b := rim[(i+1)%len(rim)]
		dx, dy := b.X-a.X, b.Y-a.Y
		k := math.Min(math.Max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0), 1)
		best = math.Min(best, math.Hypot(p.X-a.X-k*dx, p.Y-a.Y-k*dy))
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+dx*(p.Y-a.Y)/dy {
			in = !in
		}
	}
	if in {
		return -best
	}
	return best
}

func TestPlan_ZoneHasItsAreaAndIsClearOfTheWater(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		p := layout.Plan(d, nil)
		if got, want := area(p.Zone), d.Zone.AreaM2; math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s %.1f m: zone of %.6f m2, want %.6f m2", d.Outline.Shape, d.Outline.LengthM, got, want)
		}
		for _, q := range p.Zone {
			if far := fromRim(q, p.Rim); far < 0.8 {
				t.Errorf("%s %.1f m: zone %.3f m from the water", d.Outline.Shape, d.Outline.LengthM, far)
				break
			}
		}
	}
}

func TestPlan_PumpStandsWhereAskedAndPipesStayDry(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		for _, far := range []float64{1.2, 4} {
			d.Circulation.PumpFromWaterM = far
			p := layout.Plan(d, nil)
			if got := fromRim(p.Pump, p.Rim); math.Abs(got-far) > 0.05*far {
				t.Errorf("%s %.1f m turned %.0f: pump %.3f m from the water, want %.3f m", d.Outline.Shape, d.Outline.LengthM, d.Outline.RotationDeg, got, far)
			}
			if got := fromRim(p.Intake, p.Rim); math.Abs(got) > 1e-6 {
				t.Errorf("%s: intake %.4f m off the edge", d.Outline.Shape, got)
			}
			for _, pipe := range [][]sheet.XY{p.Suction, p.Discharge} {
				for _, q := range pipe {
					if fromRim(q, p.Rim) < -0.02 {
						t.Errorf("%s %.1f m turned %.0f: pipe %.3f m under water at %v", d.Outline.Shape, d.Outline.LengthM, d.Outline.RotationDeg, -fromRim(q, p.Rim), q)
						break
					}
				}
			}
			if p.Suction[0] != p.Intake || p.Suction[len(p.Suction)-1] != p.Pump || p.Discharge[0] != p.Pump {
				t.Errorf("%s: pipes do not join intake, pump and outlet", d.Outline.Shape)
			}
		}
	}
}

func TestPlan_CascadeAndDeckReachTheWater(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		p := layout.Plan(d, nil)
		foot := sheet.XY{X: (p.Cascade[2].X + p.Cascade[3].X) / 2, Y: (p.Cascade[2].Y + p.Cascade[3].Y) / 2}
		lip := sheet.XY{X: (p.Cascade[0].X + p.Cascade[1].X) / 2, Y: (p.Cascade[0].Y + p.Cascade[1].Y) / 2}
		if fromRim(foot, p.Rim) >= 0 || fromRim(lip, p.Rim) <= 0 {
			t.Errorf("%s %.1f m: cascade from %.2f m to %.2f m off the water", d.Outline.Shape, d.Outline.LengthM, fromRim(lip, p.Rim), fromRim(foot, p.Rim))
		}
		if got := math.Hypot(p.Cascade[0].X-p.Cascade[1].X, p.Cascade[0].Y-p.Cascade[1].Y); math.Abs(got-d.Cascade.LipM) > 1e-9 {
			t.Errorf("%s: lip of %.4f m, want %.4f m", d.Outline.Shape, got, d.Cascade.LipM)
		}
		edge := sheet.XY{X: (p.Deck[0].X + p.Deck[1].X) / 2, Y: (p.Deck[0].Y + p.Deck[1].Y) / 2}
		if fromRim(edge, p.Rim) >= 0 {
			t.Errorf("%s %.1f m: deck's edge %.2f m off the water", d.Outline.Shape, d.Outline.LengthM, fromRim(edge, p.Rim))
		}
		if got, want := math.Abs(area(p.Deck)), d.Deck.LengthM*d.Deck.WidthM; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: deck of %.4f m2, want %.4f m2", d.Outline.Shape, got, want)
		}
	}
}

func TestPlan_SectionRunsFromRimToRimThroughTheDeepestPlace(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		p := layout.Plan(d, []float64{0.3048, 0.6096})
		for _, end := range []sheet.XY{p.CutFrom, p.CutTo} {
			if far := math.Abs(fromRim(end, p.Rim)); far > 1e-6 {
				t.Errorf("%s: cut ends %.6f m off the edge", d.Outline.Shape, far)
			}
		}
		deepest := 0.0
		for i, s := range p.Section {
			deepest = math.Max(deepest, s.DepthM)
			if i > 0 && s.AlongM <= p.Section[i-1].AlongM {
				t.Errorf("%s: section runs back at %.4f m", d.Outline.Shape, s.AlongM)
			}
		}
		if deepest < 0.985*p.DeepM || deepest > p.DeepM*1.001 {
			t.Errorf("%s %.1f m: section is %.4f m deep, pond %.4f m", d.Outline.Shape, d.Outline.LengthM, deepest, p.DeepM)
		}
		if d.Outline.RotationDeg == 0 && p.BeachFrom == p.BeachTo {
			t.Errorf("%s: no beach on the plan", d.Outline.Shape)
		}
	}
}

// A box 1.2 m deep with walls straight down: the deck stands over 1.2 m.
func TestDeckWaterM_IsTheDepthOffTheDeck(t *testing.T) {
	t.Parallel()
	d := demoDesign()
	d.Outline = design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 5}
	d.Bowl = design.Bowl{DeepM: 1.2, Wall: []design.Knot{{}, {DepthM: 1.2}}}
	rim, err := geom.NewRim(d.Outline)
	if err != nil {
		t.Fatal(err)
	}
	if got := layout.DeckWaterM(d, geom.NewField(rim, d.Bowl)); math.Abs(got-1.2) > 1e-12 {
		t.Errorf("got %.6f m, want 1.2 m", got)
	}
	d.Deck = nil
	if got := layout.DeckWaterM(d, geom.NewField(rim, d.Bowl)); got != 0 {
		t.Errorf("without a deck: got %.6f m, want 0 m", got)
	}
}

func TestPlan_IsTheSameEveryTime(t *testing.T) {
	t.Parallel()
	a, b := layout.Plan(demoDesign(), []float64{0.3, 0.9}), layout.Plan(demoDesign(), []float64{0.3, 0.9})
	if len(a.Bands) != 2 || len(a.Rim) != len(b.Rim) || len(a.Discharge) != len(b.Discharge) {
		t.Fatal("plans differ in length")
	}
	for i := range a.Bands {
		for j, ring := range a.Bands[i].Rings {
			for k, p := range ring {
				if b.Bands[i].Rings[j][k] != p {
					t.Fatalf("band %d differs", i)
				}
			}
		}
	}
}
