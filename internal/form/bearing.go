package form

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/measure"
)

// readBearings reads one bearing, or the two ends of a section. Nothing at all
// is no bearing, and the design's own stands.
func (q question) readBearings(text string) (value, measure.Fault) {
	text = strings.TrimSpace(text)
	if text == "" {
		return value{}, measure.OK
	}
	parts := strings.Split(text, ",")
	if want := map[kind]int{bearing: 1, cut: 2}[q.kind]; len(parts) != want {
		return value{}, measure.NotANumber
	}
	for i, p := range parts {
		deg, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(p), "°")), 64)
		if err != nil || !(math.Abs(deg) <= 3600) {
			return value{}, measure.NotANumber
		}
		parts[i] = strconv.Itoa(round(deg))
	}
	if q.kind == cut && parts[0] == parts[1] {
		return value{}, measure.NotANumber
	}
	return value{word: strings.Join(parts, ",")}, measure.OK
}

// round is a bearing in whole degrees from 0 to 359.
func round(deg float64) int { return (int(math.Round(deg))%360 + 360) % 360 }

// deg is the bearing a person gave, or else the design's own.
func (s State) deg(f Field, ownDeg float64) float64 {
	if n, err := strconv.Atoi(s.Word(f)); err == nil {
		return float64(n)
	}
	return ownDeg
}

// sides are the compass words of the beach.
func sides() []string { return []string{"n", "e", "s", "w"} }

// side is the compass word nearest to a bearing.
func side(deg float64) string { return sides()[round(deg+45)%360/90] }

// beachDeg is where the beach's middle lies: its side, unless it was moved to
// a bearing nearer to that side than to any other.
func (s State) beachDeg() float64 {
	own := bearingDeg(s.Word(Beach))
	if deg := s.deg(BeachAt, own); side(deg) == s.Word(Beach) {
		return deg
	}
	return own
}

// Bearing is where the thing of a field stands, in degrees from north, and
// whether the design has it.
func (s State) Bearing(f Field) (bearingDeg float64, ok bool) {
	d := &s.base.Base
	switch f {
	case BeachAt:
		return s.beachDeg(), s.On(Beach) && d.Bowl.Beach != nil
	case ZoneAt:
		if ok = s.On(Zone) && d.Zone != nil; ok {
			bearingDeg = s.deg(f, d.Zone.BearingDeg)
		}
	case CascadeAt:
		if ok = s.On(Cascade) && d.Cascade != nil; ok {
			bearingDeg = s.deg(f, d.Cascade.BearingDeg)
		}
	case StepsAt:
		if ok = s.On(Steps) && d.Bowl.Steps != nil; ok {
			bearingDeg = s.deg(f, d.Bowl.Steps.BearingDeg)
		}
	case DeckAt:
		if ok = s.On(Deck) && d.Deck != nil; ok {
			bearingDeg = s.deg(f, d.Deck.BearingDeg)
		}
	case PumpAt:
		return s.deg(f, d.Circulation.PumpBearingDeg), true
	case IntakeAt:
		return s.deg(f, d.Circulation.IntakeBearingDeg), true
	}
	return bearingDeg, ok
}

// Turned is the form with the thing of a field at a bearing.
func (s State) Turned(f Field, bearingDeg float64) State {
	if _, ok := s.Bearing(f); !ok {
		return s
	}
	next := s
	if f == BeachAt {
		next = next.put(Beach, value{word: side(bearingDeg)})
	}
	next = next.put(f, value{word: strconv.Itoa(round(bearingDeg))})
	if len(s.base.faults(build(next))) > 0 {
		return s
	}
	return next
}

// CutDeg are the bearings of the section's ends, or nothing where it runs
// through the deepest place.
func (s State) CutDeg() []float64 {
	from, to, ok := strings.Cut(s.Word(Cut), ",")
	a, err1 := strconv.Atoi(from)
	b, err2 := strconv.Atoi(to)
	if !ok || err1 != nil || err2 != nil {
		return nil
	}
	return []float64{float64(a), float64(b)}
}

// WithCut is the form with the section between two bearings.
func (s State) WithCut(fromDeg, toDeg float64) State {
	a, b := round(fromDeg), round(toDeg)
	if a == b {
		return s
	}
	return s.put(Cut, value{word: strconv.Itoa(a) + "," + strconv.Itoa(b)})
}

// standing puts everything at its bearing.
func standing(s State, d *design.Design) {
	c := &d.Circulation
	c.PumpBearingDeg, c.IntakeBearingDeg = s.deg(PumpAt, c.PumpBearingDeg), s.deg(IntakeAt, c.IntakeBearingDeg)
	if d.Zone != nil {
		d.Zone.BearingDeg = s.deg(ZoneAt, d.Zone.BearingDeg)
	}
	if d.Cascade != nil {
		d.Cascade.BearingDeg = s.deg(CascadeAt, d.Cascade.BearingDeg)
	}
	if d.Deck != nil {
		d.Deck.BearingDeg = s.deg(DeckAt, d.Deck.BearingDeg)
	}
}
