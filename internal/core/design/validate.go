package design

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// Validate returns every fault of a design at once, in file order. A design
// without faults is what the calculations may rely on; whether an outline
// crosses itself is found when its rim is drawn, see package geom.
func Validate(d Design) []Fault {
	v := &checker{}
	if d.Version != Version {
		v.fault("design_version", "other_version", Arg{Name: "want", Value: Version})
	}
	if utf8.RuneCountInString(d.Name) > maxNameRunes {
		v.fault("name", "too_long", Arg{Name: "max", Value: maxNameRunes})
	}
	v.outline(d.Outline)
	v.bowl(d.Bowl)
	v.features(d)
	v.circulation(d.Circulation)
	v.running(d.Running)
	v.slower(d)
	v.site(d.Site)
	v.network(d.Network)
	return v.faults
}

type checker struct{ faults []Fault }

func (v *checker) fault(path, code string, args ...Arg) {
	v.faults = append(v.faults, Fault{Path: path, Code: code, Args: args})
}

type limits struct {
	lo, hi float64
	unit   string
}

// within reports a value that is not a number, or outside its limits.
func (v *checker) within(path string, x float64, l limits) bool {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		v.fault(path, "not_a_number")
		return false
	}
	if x < l.lo || x > l.hi {
		v.fault(path, "out_of_range",
			Arg{Name: "value", Value: x, Unit: l.unit},
			Arg{Name: "low", Value: l.lo, Unit: l.unit},
			Arg{Name: "high", Value: l.hi, Unit: l.unit})
		return false
	}
	return true
}

func (v *checker) choice(path, got string, allowed ...string) {
	for _, a := range allowed {
		if got == a {
			return
		}
	}
	args := make([]Arg, 0, len(allowed)+1)
	args = append(args, Arg{Name: "value", Text: got})
	for _, a := range allowed {
		args = append(args, Arg{Name: "choice", Text: a})
	}
	v.fault(path, "unknown_choice", args...)
}

func (v *checker) count(path string, n, lo, hi int) bool {
	if n < lo || n > hi {
		v.fault(path, "wrong_count",
			Arg{Name: "value", Value: float64(n)},
			Arg{Name: "low", Value: float64(lo)}, Arg{Name: "high", Value: float64(hi)})
		return false
	}
	return true
}

func (v *checker) outline(o Outline) {
	size := limits{minSizeM, maxSizeM, "m"}
	switch o.Shape {
	case Freehand:
		v.points("outline.handles", o.Handles, minHandles, maxHandles)
	case Polygon:
		v.points("outline.vertices", o.Vertices, minVertices, maxVertices)
	case Rectangle, RoundedRectangle, Circle, Ellipse, Bean, LShape:
		v.within("outline.length_m", o.LengthM, size)
		v.within("outline.width_m", o.WidthM, size)
		v.corners(o)
	default:
		names := make([]string, 0, len(Shapes()))
		for _, s := range Shapes() {
			names = append(names, string(s))
		}
		v.choice("outline.shape", string(o.Shape), names...)
	}
	far := limits{-maxAreaCoordM, maxAreaCoordM, "m"}
	v.within("outline.centre_x_m", o.CentreXM, far)
	v.within("outline.centre_y_m", o.CentreYM, far)
	v.within("outline.rotation_deg", o.RotationDeg, limits{-360, 360, "deg"})
}

// corners checks what only some outlines have.
func (v *checker) corners(o Outline) {
	half := math.Min(o.LengthM, o.WidthM) / 2
	if o.Shape == RoundedRectangle {
		v.within("outline.corner_radius_m", o.CornerRadiusM, limits{0, half, "m"})
	}
	if o.Shape == Circle && o.LengthM != o.WidthM {
		v.fault("outline.width_m", "circle_not_round", Arg{Name: "length", Value: o.LengthM, Unit: "m"})
	}
	if o.Shape == LShape {
		const leave = 0.6 // the narrowest arm that is still a pond
		v.within("outline.notch_length_m", o.NotchLengthM, limits{0.1, o.LengthM - leave, "m"})
		v.within("outline.notch_width_m", o.NotchWidthM, limits{0.1, o.WidthM - leave, "m"})
	}
}

func (v *checker) points(path string, pts []Point, lo, hi int) {
	if !v.count(path, len(pts), lo, hi) {
		return
	}
	far := limits{-maxAreaCoordM, maxAreaCoordM, "m"}
	for i, p := range pts {
		at := path + "[" + strconv.Itoa(i) + "]"
		v.within(at+".x_m", p.XM, far)
		v.within(at+".y_m", p.YM, far)
	}
}

func (v *checker) bowl(b Bowl) {
	v.within("bowl.deep_m", b.DeepM, limits{minDeepM, maxDeepM, "m"})
	if v.count("bowl.wall", len(b.Wall), 2, maxKnots) {
		v.wall(b.Wall)
	}
	if b.Floor != nil {
		v.within("bowl.floor.axis_deg", b.Floor.AxisDeg, limits{-360, 360, "deg"})
		if v.count("bowl.floor.knots", len(b.Floor.Knots), 2, maxKnots) {
			v.floor(b.Floor.Knots)
		}
	}
	if b.Beach != nil {
		slope := limits{minSlopeRatio, maxSlopeRatio, ""}
		v.within("bowl.beach.bearing_deg", b.Beach.BearingDeg, bearing())
		v.within("bowl.beach.width_m", b.Beach.WidthM, limits{0.3, maxSizeM * 2, "m"})
		v.within("bowl.beach.run_per_rise_ratio", b.Beach.RunPerRiseRatio, slope)
		v.within("bowl.beach.toe_depth_m", b.Beach.ToeDepthM, limits{0, maxDeepM, "m"})
		if b.Beach.ToeDepthM > 0 {
			v.within("bowl.beach.descent_run_per_rise_ratio", b.Beach.DescentRunPerRiseRatio, limits{0, maxSlopeRatio, ""})
		}
	}
	if b.Steps != nil {
		v.steps(*b.Steps, b.DeepM)
	}
}

// steps checks a flight; its last tread may not lie below the bowl.
func (v *checker) steps(s Steps, deepM float64) {
	v.within("bowl.steps.bearing_deg", s.BearingDeg, bearing())
	v.within("bowl.steps.width_m", s.WidthM, limits{minStepsM, maxStepsM, "m"})
	v.within("bowl.steps.tread_m", s.TreadM, limits{minTreadM, maxTreadM, "m"})
	most := maxTreads
	if v.within("bowl.steps.riser_m", s.RiserM, limits{minRiserM, maxRiserM, "m"}) && deepM >= minDeepM && deepM <= maxDeepM {
		const hair = 1e-9 // the last tread may lie as deep as the bowl
		most = min(most, int(math.Floor(deepM/s.RiserM+hair)))
	}
	if most < 1 {
		v.fault("bowl.steps.riser_m", "out_of_range",
			Arg{Name: "value", Value: s.RiserM, Unit: "m"}, Arg{Name: "low", Value: minRiserM, Unit: "m"}, Arg{Name: "high", Value: deepM, Unit: "m"})
		return
	}
	v.count("bowl.steps.count", s.Count, 1, most)
}

func bearing() limits { return limits{0, 360, "deg"} }

func (v *checker) wall(knots []Knot) {
	for i, k := range knots {
		at := "bowl.wall[" + strconv.Itoa(i) + "]"
		ok := v.within(at+".inset_m", k.InsetM, limits{0, maxSizeM, "m"}) &&
			v.within(at+".depth_m", k.DepthM, limits{0, 10, "m"})
		if !ok || i == 0 {
			continue
		}
		if k.InsetM < knots[i-1].InsetM {
			v.fault(at+".inset_m", "falls", Arg{Name: "before", Value: knots[i-1].InsetM, Unit: "m"})
		}
		if k.DepthM < knots[i-1].DepthM {
			v.fault(at+".depth_m", "falls", Arg{Name: "before", Value: knots[i-1].DepthM, Unit: "m"})
		}
	}
	if knots[0].InsetM != 0 || knots[0].DepthM != 0 {
		v.fault("bowl.wall[0]", "starts_at_edge")
	}
}

func (v *checker) floor(knots []FloorKnot) {
	far := limits{-maxAreaCoordM, maxAreaCoordM, "m"}
	for i, k := range knots {
		at := "bowl.floor.knots[" + strconv.Itoa(i) + "]"
		v.within(at+".along_m", k.AlongM, far)
		v.within(at+".depth_m", k.DepthM, limits{0, 10, "m"})
		if i > 0 && k.AlongM <= knots[i-1].AlongM {
			v.fault(at+".along_m", "falls", Arg{Name: "before", Value: knots[i-1].AlongM, Unit: "m"})
		}
	}
}

func (v *checker) features(d Design) {
	if z := d.Zone; z != nil {
		v.within("regeneration_zone.area_m2", z.AreaM2, limits{minZoneM2, maxZoneM2, "m2"})
		v.within("regeneration_zone.depth_m", z.DepthM, limits{minZoneDepthM, maxZoneDepthM, "m"})
		v.within("regeneration_zone.pore_ratio", z.PoreRatio, limits{minPoreRatio, maxPoreRatio, ""})
		v.within("regeneration_zone.bearing_deg", z.BearingDeg, bearing())
		v.within("regeneration_zone.loading_m_per_h", z.LoadingMPerH, limits{minLoading, maxLoading, "m/h"})
	}
	if c := d.Cascade; c != nil {
		v.within("cascade.lip_m", c.LipM, limits{minLipM, maxLipM, "m"})
		v.within("cascade.rise_m", c.RiseM, limits{0, maxRiseM, "m"})
		v.within("cascade.sheet_m", c.SheetM, limits{minSheetM, maxSheetM, "m"})
		v.choice("cascade.lip", string(c.Lip), string(BroadLip), string(SharpLip))
		v.within("cascade.bearing_deg", c.BearingDeg, bearing())
	}
	if k := d.Deck; k != nil {
		v.within("deck.length_m", k.LengthM, limits{minDeckM, maxDeckM, "m"})
		v.within("deck.width_m", k.WidthM, limits{minDeckM, maxDeckM, "m"})
		v.within("deck.bearing_deg", k.BearingDeg, bearing())
	}
}
