package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
)

// pinPlace returns what a note speaks of and where its number stands.
func (d *drawer) pinPlace(p Pin, edge box) (anchor, spot pt) {
	deep := d.at(pt{d.p.Deep.X, d.p.Deep.Y})
	switch p.Place {
	case sheet.AtDeepEnd:
		anchor = deep
	case sheet.AtDeck:
		if len(d.deckM) == 4 {
			anchor = d.at(d.deckM[0].mix(d.deckM[1], 0.2))
		}
	case sheet.AtPump:
		anchor = d.at(pt{d.p.Pump.X, d.p.Pump.Y})
	case sheet.AtIntake:
		anchor = d.at(pt{d.p.Intake.X, d.p.Intake.Y})
	case sheet.AtBeach:
		if n := len(d.beachM); n > 1 {
			anchor = d.at(d.beachM[n/2])
		}
	case sheet.AtCascade:
		if len(d.cascadeM) == 4 {
			anchor = d.at(middle(d.cascadeM))
		}
	case sheet.AtZone:
		if len(d.zoneM) > 2 {
			anchor = d.at(middle(d.zoneM))
		}
	case sheet.AtRim:
		anchor = d.at(d.rimM[len(d.rimM)*5/8])
	}
	if anchor == (pt{}) {
		spot = d.freeOnEdge(edge)
		return spot, spot
	}
	if p.Place == sheet.AtDeepEnd {
		return anchor, anchor
	}
	return anchor, d.freeRound(anchor)
}

// freeRound finds room for a number round an anchor.
func (d *drawer) freeRound(anchor pt) pt {
	best, cost := anchor, math.Inf(1)
	for _, r := range []float64{34, 48, 64, 84} {
		for k := range 16 {
			q := anchor.polar(r, float64(k)/16*2*math.Pi)
			b := box{q.minus(pt{15, 15}), q.plus(pt{15, 15})}
			c := r * 0.25
			if !d.clear(b) {
				c += 400
			}
			if c += d.busy.under(b, cost-c+1); c < cost {
				best, cost = q, c
			}
		}
	}
	return best
}

// freeOnEdge finds room for a number on the line round the ground.
func (d *drawer) freeOnEdge(edge box) pt {
	for _, k := range []float64{0.85, 0.7, 0.55, 0.4, 0.25} {
		q := pt{edge.hi.x, edge.lo.y + k*edge.high()}
		if d.clear(box{q.minus(pt{16, 16}), q.plus(pt{16, 16})}) {
			return q
		}
	}
	return pt{edge.hi.x, edge.hi.y}
}
