package page

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
)

// Acts of the hand on the drawing.
const (
	ActAdd    = "add"     // a ring after the one with this index
	ActRemove = "remove"  // the ring with this index
	ActPlace  = "place"   // what is chosen goes to "x,y" in metres
	ActSplit  = "split"   // a new ring in the edge near "x,y" in metres
	ActRingAt = "ring_at" // the chosen ring's "x" or "y" was typed
	ActGrip   = "grip"    // the thing of a grip was turned to a bearing
	ActTurn   = "turn"    // the thing of a grip was turned by so many degrees: "deck_at=-5"
	ActHold   = "hold"    // a grip was taken in hand, or "" for none
	ActUncut  = "uncut"   // the section runs through the deepest place again
	ActMend   = "mend"    // the outline that was last a pond
	ActZoom   = "zoom"    // in, out, fit; or by "times,x,y", shares of the picture
	ActPan    = "pan"     // "x,y", shares of the picture
)

// The two ends of the section; the other grips have the names of their fields.
const (
	CutFrom = "cut_from"
	CutTo   = "cut_to"
)

// Fewest and most rings of an outline.
const (
	fewestRings = 3
	mostRings   = 40
)

// Near is how far the drawing is zoomed in, and on what, as shares of it.
type Near struct{ Times, XShare, YShare float64 }

// Seeing is the state with what the hand needs of the pond shown.
func (s State) Seeing(a Answered) State {
	s.Rings = append([]sheet.XY(nil), a.Plan.Handles...)
	if len(a.Trial.Handles) > 0 {
		s.Rings = append([]sheet.XY(nil), a.Trial.Handles...)
	}
	s.Centre, s.Ends = centre(a.Plan.Rim), [2]sheet.XY{a.Plan.CutFrom, a.Plan.CutTo}
	return s
}

// centre is the middle of the water, which bearings are seen from.
func centre(rim []sheet.XY) sheet.XY {
	var twice, x, y float64
	for i, p := range rim {
		q := rim[(i+1)%len(rim)]
		k := p.X*q.Y - q.X*p.Y
		twice, x, y = twice+k, x+(p.X+q.X)*k, y+(p.Y+q.Y)*k
	}
	if twice == 0 {
		return sheet.XY{}
	}
	return sheet.XY{X: x / (3 * twice), Y: y / (3 * twice)}
}

// BearingOf is the direction from the middle of the water to a place, in
// degrees from north.
func (s State) BearingOf(p sheet.XY) (bearingDeg float64) {
	deg := math.Atan2(p.X-s.Centre.X, p.Y-s.Centre.Y) * 180 / math.Pi
	return math.Mod(deg+360, 360)
}

// GripDeg is where the thing of a grip stands.
func (s State) GripDeg(name string) (bearingDeg float64, ok bool) {
	switch name {
	case CutFrom, CutTo:
		if ends := s.Form.CutDeg(); len(ends) == 2 {
			return ends[endOf(name)], true
		}
		return s.BearingOf(s.Ends[endOf(name)]), true
	}
	return s.Form.Bearing(form.Field(name))
}

func endOf(name string) int {
	if name == CutTo {
		return 1
	}
	return 0
}

// handled does the acts of the hand that change the pond; ok is false for any
// other.
func (s State) handled(a Action) (State, bool) {
	i, isRing := index(a.Arg, len(s.Rings))
	switch a.Name {
	case ActRing, ActNudge:
		return s.pulled(a), true
	case ActAdd:
		if isRing {
			return s.added(i, midway(s.Rings, i, 0.5), a), true
		}
	case ActSplit:
		if at, ok := point(a.Value); ok {
			if k, t, near := s.nearest(at); near {
				return s.added(k, midway(s.Rings, k, t), a), true
			}
		}
	case ActRemove:
		if isRing && len(s.Rings) > fewestRings {
			return s.removed(i, a), true
		}
	case ActPlace:
		return s.placed(a), true
	case ActRingAt:
		return s.typed(a), true
	case ActGrip:
		if deg, err := strconv.ParseFloat(a.Value, 64); err == nil {
			return s.turned(a.Arg, deg, a.Name+" "+a.Arg), true
		}
	case ActTurn:
		name, byText, _ := strings.Cut(a.Arg, "=")
		by, err := strconv.ParseFloat(byText, 64)
		if at, ok := s.GripDeg(name); ok && err == nil {
			return s.turned(name, at+by, a.Name+" "+a.Arg), true
		}
	case ActUncut:
		return s.changed(s.Form.With(form.Cut, ""), a.Name), true
	case ActMend:
		next := s.changed(s.Form.Mended(), a.Name)
		next.Fix = "f-length"
		if next.Chosen > 0 {
			next.Fix = "ring-" + strconv.Itoa(next.Chosen-1)
		}
		return next, true
	default:
		return s, false
	}
	return s, true
}

func index(text string, n int) (int, bool) {
	i, err := strconv.Atoi(text)
	return i, err == nil && i >= 0 && i < n
}

func point(text string) (sheet.XY, bool) {
	xText, yText, _ := strings.Cut(text, ",")
	x, err1 := strconv.ParseFloat(xText, 64)
	y, err2 := strconv.ParseFloat(yText, 64)
	return sheet.XY{X: x, Y: y}, err1 == nil && err2 == nil
}

// held handles the acts that change only what is seen or chosen.
func (s State) held(a Action) State {
	switch a.Name {
	case ActChoose:
		s.Chosen, s.Held, s.last, s.RingText = 0, "", "", [2]string{}
		if i, ok := index(a.Arg, len(s.Rings)); ok {
			s.Chosen = i + 1
		}
	case ActHold:
		s.Chosen, s.Held, s.last = 0, "", ""
		if _, ok := s.GripDeg(a.Arg); ok {
			s.Held = a.Arg
		}
	case ActZoom:
		s.Zoom = s.zoomed(a)
	case ActPan:
		if by, ok := point(a.Value); ok && s.Zoom.Times > 1 {
			s.Zoom = s.Zoom.about(s.Zoom.XShare+by.X, s.Zoom.YShare+by.Y)
		}
	}
	return s
}

// zoomed is how near the drawing is after an act: a step of the buttons, or by
// a factor about a place that stays where it is.
func (s State) zoomed(a Action) Near {
	const stepTimes, mostTimes = 1.5, 6.0
	was := s.Zoom
	if was.Times < 1 {
		was = Near{1, 0.5, 0.4}
	}
	next, x, y := was, was.XShare, was.YShare
	switch a.Arg {
	case "in":
		next.Times = was.Times * stepTimes
	case "out":
		next.Times = was.Times / stepTimes
	case "fit":
		return Near{}
	default:
		parts := strings.Split(a.Value, ",")
		if len(parts) != 3 {
			return s.Zoom
		}
		times, err := strconv.ParseFloat(parts[0], 64)
		at, ok := point(parts[1] + "," + parts[2])
		if err != nil || !ok {
			return s.Zoom
		}
		next.Times = was.Times * times
		k := math.Min(math.Max(next.Times, 1), mostTimes) / was.Times
		x, y = at.X+(was.XShare-at.X)/k, at.Y+(was.YShare-at.Y)/k
	}
	next.Times = math.Min(next.Times, mostTimes)
	if next.Times < 1.05 {
		return Near{}
	}
	return next.about(x, y)
}

// about is the same nearness with another middle, held within the picture.
func (n Near) about(xShare, yShare float64) Near {
	half := 0.5 / n.Times
	hold := func(v float64) float64 { return math.Min(math.Max(v, half), 1-half) }
	return Near{n.Times, hold(xShare), hold(yShare)}
}

// midway is a place on the curve from ring i to the next: the Catmull–Rom
// curve at t, so that a ring added there changes little.
func midway(rings []sheet.XY, i int, t float64) sheet.XY {
	n := len(rings)
	p0, p1, p2, p3 := rings[(i+n-1)%n], rings[i], rings[(i+1)%n], rings[(i+2)%n]
	on := func(a, b, c, d float64) float64 {
		return (2*b + t*((c-a)+t*((2*a-5*b+4*c-d)+t*(3*b-a-3*c+d)))) / 2
	}
	return sheet.XY{X: on(p0.X, p1.X, p2.X, p3.X), Y: on(p0.Y, p1.Y, p2.Y, p3.Y)}
}

// nearest is the place on the curve nearest to p: after ring i, at t. near is
// false when it is further than a step of the contours.
func (s State) nearest(p sheet.XY) (i int, t float64, near bool) {
	best := 2 * StepM(s.Form.System)
	for k := range s.Rings {
		for step := 1; step < 10; step++ {
			q := midway(s.Rings, k, float64(step)/10)
			if far := math.Hypot(q.X-p.X, q.Y-p.Y); far < best {
				best, i, t, near = far, k, float64(step)/10, true
			}
		}
	}
	return i, t, near
}

// reshapedTo is the state with these rings, one of them chosen.
func (s State) reshapedTo(rings []sheet.XY, chosen int, touched string) State {
	pts := make([]design.Point, len(rings))
	for k, r := range rings {
		pts[k] = design.Point{XM: r.X, YM: r.Y}
	}
	next := s.changed(s.Form.WithHandles(pts), touched)
	next.Rings, next.Chosen, next.Held, next.RingText = rings, chosen+1, "", [2]string{}
	return next
}

func (s State) added(after int, at sheet.XY, a Action) State {
	if len(s.Rings) >= mostRings {
		return s
	}
	rings := append(append(append([]sheet.XY(nil), s.Rings[:after+1]...), at), s.Rings[after+1:]...)
	next := s.reshapedTo(rings, after+1, ActStep+" "+a.Name)
	if a.Value != "" {
		next.Fix = "ring-" + strconv.Itoa(after+1)
	}
	return next
}

func (s State) removed(i int, a Action) State {
	rings := append(append([]sheet.XY(nil), s.Rings[:i]...), s.Rings[i+1:]...)
	chosen := i % len(rings)
	next := s.reshapedTo(rings, chosen, ActStep+" "+a.Name)
	if a.Value != "" {
		next.Fix = "ring-" + strconv.Itoa(chosen)
	}
	return next
}

// placed puts what is chosen where a person tapped.
func (s State) placed(a Action) State {
	at, ok := point(a.Value)
	switch {
	case !ok:
		return s
	case s.Held != "":
		return s.turned(s.Held, s.BearingOf(at), ActStep+" "+a.Name)
	case s.Chosen > 0 && s.Chosen <= len(s.Rings):
		return s.moved(s.Chosen-1, at, ActStep+" "+a.Name)
	}
	return s
}

// moved puts one ring somewhere and makes the outline a free shape through all
// of them.
func (s State) moved(i int, to sheet.XY, touched string) State {
	rings := append([]sheet.XY(nil), s.Rings...)
	rings[i] = to
	return s.reshapedTo(rings, i, touched)
}

// pulled moves one ring to a place, or by so much.
func (s State) pulled(a Action) State {
	i, ok := index(a.Arg, len(s.Rings))
	to, readable := point(a.Value)
	if !ok || !readable {
		return s
	}
	if a.Name == ActNudge {
		to.X, to.Y = s.Rings[i].X+to.X, s.Rings[i].Y+to.Y
	}
	return s.moved(i, to, a.Name+" "+a.Arg)
}

// typed reads a length typed for the chosen ring; what cannot be read stays in
// its field.
func (s State) typed(a Action) State {
	axis := 0
	if a.Arg == "y" {
		axis = 1
	}
	s.RingText[axis] = a.Value
	lengthM, ok := signedLength(a.Value, s.Form.System)
	if !ok || s.Chosen < 1 || s.Chosen > len(s.Rings) {
		return s
	}
	to := s.Rings[s.Chosen-1]
	if axis == 0 {
		to.X = lengthM
	} else {
		to.Y = lengthM
	}
	text := s.RingText
	next := s.moved(s.Chosen-1, to, a.Name+" "+a.Arg)
	next.RingText = text
	return next
}

// signedLength reads a length that may lie to the west or the south.
func signedLength(text string, in measure.System) (lengthM float64, ok bool) {
	text = strings.TrimSpace(text)
	bare := strings.TrimLeft(text, "-−–+")
	if strings.Trim(bare, " 0.") == "" && strings.Contains(bare, "0") {
		return 0, true
	}
	lengthM, fault := measure.ParseLength(bare, in)
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−") || strings.HasPrefix(text, "–") {
		lengthM = -lengthM
	}
	return lengthM, fault == measure.OK
}

// turned puts the thing of a grip at a bearing.
func (s State) turned(name string, deg float64, touched string) State {
	next := s.Form
	switch name {
	case CutFrom, CutTo:
		var ends [2]float64
		ends[0], _ = s.GripDeg(CutFrom)
		ends[1], _ = s.GripDeg(CutTo)
		ends[endOf(name)] = deg
		next = next.WithCut(ends[0], ends[1])
	default:
		next = next.Turned(form.Field(name), deg)
	}
	out := s.changed(next, touched)
	out.Held, out.Chosen = name, 0
	return out
}
