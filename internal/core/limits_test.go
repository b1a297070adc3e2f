package core_test

import (
	"math"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/sheet"
)

// mouthed is the demo with its suction mouth so deep under the water.
func mouthed(depthM float64) func(*design.Design) {
	return func(d *design.Design) { d.Circulation.IntakeDepthM = depthM }
}

// starved is a pump high over warm water on a mountain.
func starved(d *design.Design) {
	d.Circulation.PumpAboveWaterM, d.Site.AltitudeM, d.Site.WaterTempDegC = 3.5, 4000, 34
}

// Each limit of the circulation is a finding with its figure, its limit and its
// source, and each offers a change: after it the finding is gone.
func TestLimits_EachOffersWhatMendsIt(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, code string
		raise     func(*design.Design)
		book      func(*core.Book)
	}{
		{why: "suction", code: "suction_fast"},
		{why: "suction, no wider pipe", code: "suction_fast_no_wider", raise: func(d *design.Design) { d.Cascade.LipM = 1.8 }, book: narrow},
		{why: "suction, no wider pipe and no more pumps", code: "suction_fast_no_wider", book: narrowest, raise: func(d *design.Design) {
			d.Circulation.PumpCount, d.Cascade.LipM, d.Circulation.Drive = 3, 1.8, design.VariableSpeed
			d.Circulation.Suction.InsideDiameterM, d.Circulation.Discharge.InsideDiameterM = 0.04089, 0.10226
		}},
		{why: "discharge", code: "discharge_fast", raise: func(d *design.Design) { d.Circulation.Discharge.InsideDiameterM = 0.0627 }},
		{why: "discharge, no wider pipe", code: "discharge_fast_no_wider", raise: func(d *design.Design) {
			wide(d)
			d.Cascade.LipM, d.Cascade.RiseM, d.Circulation.PumpCount = 7, 0.2, 3
		}},
		{why: "discharge, no wider pipe, the zone asks for the most", code: "discharge_fast_no_wider", book: narrow, raise: func(d *design.Design) {
			d.Cascade, d.Zone.AreaM2, d.Circulation.Drive, d.Circulation.PumpCount = nil, 34, design.VariableSpeed, 2
		}},
		{why: "suction head", code: "npsh_short", raise: starved},
		{why: "suction head, no wider pipe", code: "npsh_short", book: narrow, raise: starved},
		{why: "prime, too high", code: "prime_needed", raise: func(d *design.Design) { d.Circulation.PumpAboveWaterM = 3 }},
		{why: "prime, not that pump", code: "prime_needed", raise: func(d *design.Design) { d.Circulation.Pump = "P-25" }},
		{why: "prime, no check valve", code: "prime_needed", raise: func(d *design.Design) { d.Circulation.Suction.Fittings = nil }},
		{why: "air", code: "air_drawn", raise: mouthed(0.45)},
		{why: "air, no wider pipe", code: "air_drawn_no_wider", raise: mouthed(0.3), book: narrow},
		{why: "air, in a pond too shallow", code: "air_drawn", raise: func(d *design.Design) {
			mouthed(0.4)(d)
			d.Bowl.DeepM, d.Bowl.Wall[3].DepthM = 0.45, 0.45
		}},
		{why: "grate", code: "intake_fast", raise: func(d *design.Design) { d.Circulation.IntakeOpenAreaM2 = 0.05 }},
	} {
		var b core.Book
		demoPumps(t, &b)
		if c.book != nil {
			c.book(&b)
		}
		raised := circulationDemo()
		if c.raise != nil {
			c.raise(&raised)
		}
		before := core.Compute(raised, b)
		f := find(before, c.code)
		if f == nil {
			t.Errorf("%s: no %s in %+v", c.why, c.code, codes(before))
			continue
		}
		if f.Severity != sheet.Care || f.Source == "" || len(f.Figures) < 2 {
			t.Errorf("%s: %+v has no figure, limit or source", c.why, *f)
		}
		for _, id := range f.Figures {
			if _, ok := before.Find(id); !ok {
				t.Errorf("%s: the sheet has no %s", c.why, id)
			}
		}
		if len(f.Mend) == 0 {
			t.Errorf("%s: %s offers nothing", c.why, c.code)
		}
		for _, offered := range [][]sheet.Change{f.Mend, f.Else} {
			if len(offered) == 0 {
				continue
			}
			d := circulationDemo()
			if c.raise != nil {
				c.raise(&d)
			}
			mended(t, &d, offered)
			if faults := core.Check(d); len(faults) > 0 {
				t.Errorf("%s: %v gives a design with faults %v", c.why, offered, faults)
			}
			after := core.Compute(d, b)
			left := find(after, c.code)
			if left != nil {
				t.Errorf("%s: %s is still there after %v: %v of %v", c.why, c.code, offered, after.Value(left.Figures[0]), after.Value(left.Figures[1]))
			}
		}
	}
}

func codes(s *sheet.Sheet) (out []string) {
	for _, f := range s.Findings {
		out = append(out, f.Code)
	}
	return out
}

// narrow is a builder who stocks no pipe over three inches.
func narrow(b *core.Book) { stocked(b, 0.08) }

// narrowest stocks the narrowest pipe alone.
func narrowest(b *core.Book) { stocked(b, 0.05) }

func stocked(b *core.Book, mostM float64) {
	own := b.Pipes[:0:0]
	for _, p := range b.Pipes {
		if p.InsideDiameterM < mostM {
			own = append(own, p)
		}
	}
	b.Pipes = own
}

// A mouth deep enough is said to be so, and one whose depth nobody stated is
// left alone.
func TestLimits_TheMouthIsDeepEnoughOrNot(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		depthM      float64
		drawn, kept bool
	}{{0, false, false}, {0.45, true, false}, {0.6, false, true}} {
		s := computeCirculation(t, mouthed(c.depthM))
		if drawn, kept := find(s, "air_drawn") != nil, find(s, "air_kept") != nil; drawn != c.drawn || kept != c.kept {
			t.Errorf("%v m under: drawn %v, kept %v", c.depthM, drawn, kept)
		}
	}
	s := computeCirculation(t, mouthed(0.3))
	want := hydraulics.Mouth{DiameterM: 0.07793}.LeastDepthM(s.Value("flow.duty"))
	if got := s.Value("suction.mouth_least"); math.Abs(got-want) > 1e-6 {
		t.Errorf("the mouth must lie %v m under, want %v", got, want)
	}
	// Two pumps have a mouth each, and half the water.
	two := computeCirculation(t, func(d *design.Design) { mouthed(0.3)(d); d.Circulation.PumpCount = 2 })
	if want := (hydraulics.Mouth{DiameterM: 0.07793}).LeastDepthM(two.Value("flow.duty") / 2); math.Abs(two.Value("suction.mouth_least")-want) > 1e-6 {
		t.Errorf("each of two mouths must lie %v m under, want %v", two.Value("suction.mouth_least"), want)
	}
	// It cannot lie deeper than the pond.
	deep := computeCirculation(t, mouthed(5))
	if got, most := deep.Value("suction.mouth_depth"), deep.Value("pond.max_depth"); got > most {
		t.Errorf("the mouth lies %v m under in a pond of %v m", got, most)
	}
}

// A change is offered once: what speaks against a pump of one speed has one
// button between them.
func TestLimits_OneButtonForTheRulesOnMotors(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, nil)
	n := 0
	for _, f := range s.Findings {
		for _, m := range f.Mend {
			if m == (sheet.Change{Field: "pump", Value: "variable"}) {
				n++
			}
		}
	}
	if find(s, "speed_rule") == nil || find(s, "speed_rule_states") == nil || n != 1 {
		t.Errorf("%d findings offer a pump of variable speed, want one", n)
	}
}
