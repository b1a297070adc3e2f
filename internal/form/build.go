package form

import (
	"math"

	"tarnwright/internal/core/design"
)

// build makes the design out of the last good answers.
func build(s State) design.Design {
	d := s.base.Base
	d.Outline = outline(s)
	d.Bowl = bowl(s, d.Bowl)
	features(s, &d)
	circulation(s, &d.Circulation)
	standing(s, &d)
	running(s, &d)
	priced(s, &d.Site)
	d.Site.WaterPerM3 = s.Word(Water)
	d.Site.Fence = s.On(Fence)
	d.Site.Patio, d.Site.FirePit = s.On(Patio), s.On(FirePit)
	return d
}

func outline(s State) design.Outline {
	o := design.Outline{LengthM: s.Value(Length), WidthM: s.Value(Width)}
	switch s.Word(Shape) {
	case "oval":
		o.Shape = design.Ellipse
	case "long":
		o.Shape = design.RoundedRectangle
		o.CornerRadiusM = math.Min(o.LengthM, o.WidthM) / 2
	case "rect":
		o.Shape = design.Rectangle
	case "round":
		o.Shape = design.Circle
		o.WidthM = o.LengthM
	case "ell":
		// The notch takes a little less than half of each side, so both arms
		// stay wide enough to swim in.
		o.Shape = design.LShape
		o.NotchLengthM, o.NotchWidthM = tidy(0.45*o.LengthM), tidy(0.45*o.WidthM)
	case "free":
		o.Shape = design.Freehand
		o.Handles = fitted(handles(s), o.LengthM, o.WidthM)
		o.LengthM, o.WidthM = 0, 0
	default:
		o.Shape = design.Bean
	}
	return o
}

// The usual bowl of this check: a rock face to the shelf, the shelf, and a
// steep wall below it. Common practice, no source.
const (
	faceInsetM   = 0.10
	shelfDepthM  = 0.30
	shelfWidthM  = 0.35
	wallRunRatio = 0.35
)

func bowl(s State, base design.Bowl) design.Bowl {
	b := design.Bowl{DeepM: s.Value(Deep), Floor: base.Floor}
	inset := faceInsetM
	b.Wall = []design.Knot{{}, {InsetM: inset, DepthM: shelfDepthM}}
	if s.On(Shelf) {
		inset += shelfWidthM
		b.Wall = append(b.Wall, design.Knot{InsetM: tidy(inset), DepthM: shelfDepthM})
	}
	if b.DeepM > shelfDepthM {
		inset += wallRunRatio * (b.DeepM - shelfDepthM)
		b.Wall = append(b.Wall, design.Knot{InsetM: tidy(inset), DepthM: b.DeepM})
	}
	if s.On(Beach) && base.Beach != nil {
		beach := *base.Beach
		beach.BearingDeg = s.beachDeg()
		beach.RunPerRiseRatio = s.Value(BeachSlope)
		b.Beach = &beach
	}
	if s.On(Steps) && base.Steps != nil {
		b.Steps = stepsDown(*base.Steps, b.DeepM)
		b.Steps.BearingDeg = s.deg(StepsAt, base.Steps.BearingDeg)
	}
	return b
}

// stepsDown is a flight with as many steps as there is depth for.
func stepsDown(flight design.Steps, deepM float64) *design.Steps {
	const hair = 1e-9
	flight.Count = max(1, min(flight.Count, int(deepM/flight.RiserM+hair)))
	return &flight
}

func bearingDeg(side string) float64 {
	switch side {
	case "e":
		return 90
	case "s":
		return 180
	case "w":
		return 270
	}
	return 0
}

func features(s State, d *design.Design) {
	if d.Zone != nil {
		z := *d.Zone
		z.AreaM2 = s.Value(ZoneArea)
		d.Zone = kept(s, Zone, &z)
	}
	if d.Cascade != nil {
		c := *d.Cascade
		c.LipM, c.RiseM, c.SheetM = s.Value(Lip), s.Value(Rise), s.Value(Sheet)
		d.Cascade = kept(s, Cascade, &c)
	}
	if d.Deck != nil {
		k := *d.Deck
		d.Deck = kept(s, Deck, &k)
	}
}

// kept is the feature when its switch is on, and nothing otherwise.
func kept[T any](s State, f Field, feature *T) *T {
	if s.On(f) {
		return feature
	}
	return nil
}
