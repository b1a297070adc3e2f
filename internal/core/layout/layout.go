// Package layout puts everything on the plan: the water with its contours,
// the section, and the zone, cascade, deck, pump, intake and pipes around it.
// Places follow from bearings and sizes of the design; nothing is drawn here.
package layout

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/sheet"
)

// Plan lays out a design with contours at the given levels. An outline that
// encloses no water gives an empty plan.
func Plan(d design.Design, levelsM []float64) sheet.Plan {
	rim, err := geom.NewRim(d.Outline)
	if err != nil && len(rim.Points()) < 3 {
		return sheet.Plan{}
	}
	f := geom.NewField(rim, d.Bowl)
	return Of(d, f, geom.Measure(f), Sight{LevelsM: levelsM})
}

// Sight is what a plan is to show beside the water: the depths of its
// contours, and the bearings of the section's two ends; without those it runs
// through the deepest place. Quick draws the contours coarser, for a drawing
// that follows a finger.
type Sight struct {
	LevelsM, CutDeg []float64
	Quick           bool
}

// Trial lays out nothing but an outline and its handles, whether it can be a
// pond or not.
func Trial(o design.Outline) sheet.Plan {
	rim, _ := geom.NewRim(o) // where it crosses itself is for the caller to say
	return sheet.Plan{Rim: xys(rim.Points()), Handles: xys(rim.Handles())}
}

// Of lays out a design whose field and measures are at hand already.
func Of(d design.Design, f *geom.Field, m geom.Measures, see Sight) sheet.Plan {
	s := newSite(d, f)
	p := sheet.Plan{Rim: xys(s.rimPoints), Handles: xys(f.Rim().Handles()), Deep: xy(m.Deepest), DeepM: m.MaxDepthM}
	p.BeachFrom, p.BeachTo = f.BeachEnds()
	contours := f.Contours
	if see.Quick {
		contours = f.QuickContours
	}
	for _, c := range contours(see.LevelsM) {
		b := sheet.Band{LevelM: c.LevelM}
		for _, ring := range c.Rings {
			b.Rings = append(b.Rings, xys(ring))
		}
		p.Bands = append(p.Bands, b)
	}
	from, to := s.cut(m, see.CutDeg)
	p.CutFrom, p.CutTo = xy(from), xy(to)
	for _, b := range f.Bottom(from, to) {
		p.Section = append(p.Section, sheet.SectionPoint{AlongM: b.AlongM, DepthM: b.DepthM})
	}
	for _, t := range f.Treads() {
		tread := sheet.Tread{DepthM: t.DepthM}
		for i, c := range t.Corners {
			tread.Corners[i] = xy(c)
		}
		p.Treads = append(p.Treads, tread)
	}
	s.place()
	p.Zone, p.Cascade, p.Deck = xyOf(s.zone), xyOf(s.cascade), xyOf(s.deck)
	p.Pump, p.Intake = sheet.XY{X: s.pump.x, Y: s.pump.y}, sheet.XY{X: s.intake.x, Y: s.intake.y}
	p.Suction, p.Discharge = xyOf(s.suction), xyOf(s.discharge)
	p.Jets, p.JetPipe = s.jets()
	c := f.Rim().Corners()
	p.Lengthwise = [2]sheet.XY{xy(c[0]), xy(c[1])}
	p.Widthwise = [2]sheet.XY{xy(c[0]), xy(c[3])}
	return p
}

// DeckWaterM returns the depth of the water a step (0.6 m) out from the
// middle of the deck's edge, or 0 without a deck.
//
// Source: definition.
// Checked: a deck over a bowl with a level floor.
func DeckWaterM(d design.Design, f *geom.Field) (depthM float64) {
	if d.Deck == nil {
		return 0
	}
	s := newSite(d, f)
	q := s.deckQuad()
	mid := q[0].to(q[1], 0.5)
	const stepM = 0.6
	in := q[0].minus(q[3]).unit()
	out := mid.plus(in.times(stepM))
	return f.Depth(design.Point{XM: out.x, YM: out.y})
}

// site is what the placing works with.
type site struct {
	d         design.Design
	f         *geom.Field
	rim       geom.Rim
	rimPoints []design.Point
	rimVecs   []vec
	centre    vec
	size      float64 // diagonal of the water's box
	near      int     // the edge of the rim that was nearest to the place asked for last

	zone, cascade, deck []vec
	pump, intake        vec
	suction, discharge  []vec
}

func newSite(d design.Design, f *geom.Field) *site {
	s := &site{d: d, f: f, rim: f.Rim(), rimPoints: f.Rim().Points(), centre: of(f.Rim().Centroid())}
	s.rimVecs = vecs(s.rimPoints)
	s.size = math.Sqrt(float64(s.rim.LengthM()*s.rim.LengthM()) + float64(s.rim.WidthM()*s.rim.WidthM()))
	return s
}

func vecs(ps []design.Point) []vec {
	out := make([]vec, len(ps))
	for i, p := range ps {
		out[i] = of(p)
	}
	return out
}

// cut returns the section line, from west to east: between the bearings asked
// for, or else through the deepest place from the middle of the beach, or else
// the longest.
func (s *site) cut(m geom.Measures, endsDeg []float64) (from, to design.Point) {
	from, to = m.Section[0], m.Section[1]
	asked := false
	if len(endsDeg) == 2 {
		a, b := s.rim.At(endsDeg[0]).At, s.rim.At(endsDeg[1]).At
		if asked = of(b).minus(of(a)).len() > 1e-3*s.size; asked {
			from, to = a, b
		}
	}
	if b := s.d.Bowl.Beach; b != nil && !asked {
		mid := s.rim.At(b.BearingDeg).At
		if of(mid).minus(of(m.Deepest)).len() > 1e-6*s.size {
			from, to = s.rim.Chord(m.Deepest, mid)
		}
	}
	if from.XM > to.XM {
		from, to = to, from
	}
	return from, to
}

// place sets every feature of the design.
func (s *site) place() {
	if s.d.Zone != nil {
		s.zone = s.zoneRing()
	}
	if s.d.Cascade != nil {
		s.cascade = s.cascadeQuad()
	}
	if s.d.Deck != nil {
		s.deck = s.deckQuad()
	}
	c := s.d.Circulation
	s.intake = of(s.rim.At(c.IntakeBearingDeg).At)
	s.pump = s.outFrom(c.PumpBearingDeg, c.PumpFromWaterM)
	s.suction = s.suctionRoute()
	s.discharge = s.dischargeRoute()
}

// stretch is a part of the rim as the features see it: its middle, and the
// direction away from the water square to its chord.
type stretch struct{ mid, out, along vec }

// facing returns the stretch of rim in a compass direction, as wide as the
// feature that stands there, so that one bend of the rim does not turn it.
func (s *site) facing(bearingDeg, widthM float64) stretch {
	spot := s.rim.At(bearingDeg)
	half := math.Min(widthM/2, s.rim.PerimeterM()/8)
	a, b := of(s.rim.Along(spot.AlongM-half).At), of(s.rim.Along(spot.AlongM+half).At)
	along := b.minus(a).unit()
	if along == (vec{}) {
		along = of(spot.Out).left()
	}
	return stretch{mid: of(spot.At), out: along.left().times(-1), along: along}
}

// outFrom returns the place in a compass direction that lies the given
// distance from the water.
func (s *site) outFrom(bearingDeg, farM float64) vec {
	st := s.facing(bearingDeg, math.Max(farM, s.size/12))
	p := st.mid.plus(st.out.times(farM))
	for range 40 { // a bend of the rim may come nearer than where we set out
		short := farM - s.fromWater(p)
		if short < 1e-3 {
			break
		}
		p = p.plus(st.out.times(short))
	}
	return p
}

// fromWater returns how far a place is from the rim, negative in the water. It
// is asked of neighbours mostly, so each search starts where the last ended.
func (s *site) fromWater(p vec) float64 {
	far, near := s.f.FromEdge(design.Point{XM: p.x, YM: p.y}, s.near)
	s.near = near
	return far
}
