package layout

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/sheet"
)

// Where jets sit has no place in the design; common practice, no source.
const (
	jetsApartM     = 0.9  // from jet to jet along the wall
	jetClearM      = 0.4  // from beach, deck, cascade and steps
	jetIntakeM     = 1.5  // from the intake, so that it does not draw them in
	jetBehindM     = 0.35 // of their pipe behind the wall
	mostJetsShare  = 0.25 // of the edge that a row of jets takes
	jetPlacesTried = 48
)

// jets returns the mouths in the wall and the pipe from the pump to them. They
// stand in one row, at the place nearest to the pump that is clear of all else;
// where none is, at the one that is clear of the most.
func (s *site) jets() ([]sheet.Jet, []sheet.XY) {
	j := s.d.Circulation.Jets
	if j == nil || j.Count < 1 {
		return nil, nil
	}
	long := s.rim.PerimeterM()
	apart := math.Min(jetsApartM, mostJetsShare*long/float64(j.Count))
	blocked := s.blocksJets()
	var row []geom.Spot
	best := math.Inf(1)
	for k := range jetPlacesTried {
		tried := s.row(long*float64(k)/jetPlacesTried, apart, j.Count)
		cost := of(tried[j.Count/2].At).minus(s.pump).len()
		for _, spot := range tried {
			if blocked(of(spot.At)) {
				cost += 10 * s.size
			}
		}
		if cost < best {
			best, row = cost, tried
		}
	}
	behind := make([]vec, len(row))
	out := make([]sheet.Jet, len(row))
	for i, spot := range row {
		behind[i] = of(spot.At).plus(of(spot.Out).times(jetBehindM))
		out[i] = sheet.Jet{At: xy(spot.At), In: sheet.XY{X: -spot.Out.XM, Y: -spot.Out.YM}}
	}
	if n := len(behind); behind[n-1].minus(s.pump).len() < behind[0].minus(s.pump).len() {
		for a, b := 0, n-1; a < b; a, b = a+1, b-1 {
			behind[a], behind[b] = behind[b], behind[a]
		}
	}
	return out, xyOf(s.dry(append(s.route(s.pump, behind[0]), behind[1:]...)))
}

// row is so many places along the edge, about a middle.
func (s *site) row(middleM, apartM float64, count int) []geom.Spot {
	out := make([]geom.Spot, count)
	for i := range out {
		out[i] = s.rim.Along(middleM + apartM*(float64(i)-float64(count-1)/2))
	}
	return out
}

// blocksJets says of a place on the edge whether something else is there.
func (s *site) blocksJets() func(vec) bool {
	var beach, flight []vec
	if from, to := s.f.BeachEnds(); from != to {
		n := len(s.rimVecs)
		for i := from; i != to; i = (i + 1) % n {
			beach = append(beach, s.rimVecs[i])
		}
		beach = append(beach, s.rimVecs[to])
	}
	for _, t := range s.f.Treads() {
		for _, c := range t.Corners {
			flight = append(flight, of(c))
		}
	}
	return func(p vec) bool {
		if p.minus(s.intake).len() < jetIntakeM {
			return true
		}
		for i := 1; i < len(beach); i++ {
			if p.from(beach[i-1], beach[i]) < jetClearM {
				return true
			}
		}
		for i := range flight {
			if p.from(flight[i], flight[(i+1)%len(flight)]) < jetClearM {
				return true
			}
		}
		return nearQuad(s.deck, p) || nearQuad(s.cascade, p)
	}
}

// nearQuad says whether a place is in a quad or hardly outside it.
func nearQuad(quad []vec, p vec) bool {
	for i, a := range quad {
		if p.from(a, quad[(i+1)%len(quad)]) < jetClearM {
			return true
		}
	}
	return holds(quad, p)
}

// dry puts what a bend of the edge has left in the water back on the land.
func (s *site) dry(path []vec) []vec {
	for i, p := range path {
		for range 8 {
			far := s.fromWater(p)
			if far >= 0 {
				break
			}
			p = p.plus(of(s.rim.Along(s.rim.AlongOf(design.Point{XM: p.x, YM: p.y})).Out).times(0.02 - far))
		}
		path[i] = p
	}
	return path
}
