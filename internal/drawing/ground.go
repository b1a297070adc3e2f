package drawing

import (
	"math"
	"slices"
	"strconv"

	"tarnwright/internal/markup"
)

// Salts keep the chances of different marks apart.
const (
	saltStone uint64 = 1 + iota*16
	saltPebble
	saltStipple
	saltPlant
	saltTuft
	saltCascade
	saltTree
	saltDeck
	saltSection
)

// kept draws what stays while a ring moves: what lies behind the water, on its
// bottom, and the stones and plants before it; and for what it was drawn.
func (d *drawer) kept() (back, shore, dress markup.Node, sown sowing) {
	if d.moving() || d.o.State == Wrong { // which keeps it for the next that is a pond
		if last := d.o.Last; last != nil {
			return last.back, last.shore, last.dress, last.sown
		}
		return layer("dr-back"), layer("dr-shore"), layer("dr-dress"), d.sowing()
	}
	if g := d.o.Ground; g != nil {
		return g.back, g.shore, g.dress, g.sown
	}
	d.covered = d.blocked()
	d.stones = d.layStones()
	back = layer("dr-back", d.trees(), d.stipple())
	shore = layer("dr-shore", d.pebbles())
	dress = layer("dr-dress", d.planting(), d.boulders(), d.fall(), d.tufts())
	return back, shore, dress, d.sowing()
}

// sowing is the view that stones and plants were drawn in, and the reach of the
// rim that they were drawn along, in metres.
type sowing struct {
	view View
	rim  box
}

func (d *drawer) sowing() sowing { return sowing{d.view, noBox().all(d.rimM, 0)} }

// aloofM is how far the rim may have gone from its stones: further, and they
// would lie in the water or far from it. Chosen by eye, no source.
const aloofM = 0.75

// carried is a layer that was drawn in another view, over the same ground in
// this one. What belongs along a rim that has gone elsewhere is not shown until
// it is drawn anew.
func (d *drawer) carried(kept markup.Node, sown sowing) markup.Node {
	if sown.view.ScalePxPerM == 0 { // nothing was drawn
		return kept
	}
	here := d.sowing()
	more := kept.Attrs[:len(kept.Attrs):len(kept.Attrs)]
	if d.o.Detail == Following && here.rim.apart(sown.rim) > aloofM {
		more = slices.Clone(more)
		more[0].Value += " dr-aloof" // its class
	}
	k := d.view.ScalePxPerM / sown.view.ScalePxPerM
	east, north := d.view.EastPx-k*sown.view.EastPx, d.view.NorthPx-k*sown.view.NorthPx
	if k != 1 || east != 0 || north != 0 {
		more = append(more, markup.A("transform", "translate("+px(east)+" "+px(north)+") scale("+strconv.FormatFloat(k, 'f', 4, 64)+")"))
	}
	kept.Attrs = more
	return kept
}

// stipple is the only tone on the ground: dots that thin out with the distance
// from the water and the planted zone.
func (d *drawer) stipple() markup.Node {
	if d.quiet() || d.small() && d.o.Colour == Ink {
		return markup.None()
	}
	var w pen
	d.stippleAlong(&w, d.walk(), 0.9)
	if len(d.zoneM) > 0 {
		d.stippleAlong(&w, newTrail(reversed(d.zoneM), d.unit*0.3, d.unit*0.7), 0.25)
	}
	return w.node("dr-stipple")
}

// reversed closes a ring and turns it so that outward is to the right.
func reversed(ring []pt) []pt {
	out := append(append([]pt(nil), ring...), ring[0])
	area := 0.0
	for i, p := range ring {
		area += p.cross(ring[(i+1)%len(ring)])
	}
	if area > 0 {
		return out
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

func (d *drawer) stippleAlong(w *pen, walk trail, startUnits float64) {
	size := d.unit * 0.4
	each := 6
	if d.small() {
		size, each = d.unit*0.8, 4
	}
	for _, s := range squares(saltStipple, walk, size) {
		for range each {
			far := startUnits - 1.55*math.Log(1-s.luck.part())
			slide := s.luck.span(-0.5, 0.5) * size * 2
			q := s.at.plus(s.out.times(far * d.unit)).plus(s.along.times(slide))
			if far > 7.5 || d.covered.at(d.at(q)) > 1 {
				continue
			}
			w.dot(d.at(q))
		}
	}
}
