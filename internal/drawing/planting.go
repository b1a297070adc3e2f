package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// Kinds of plant, each in drifts of its own.
const (
	tuftPlant = iota
	lobedPlant
	sprigPlant
)

// planting fills the zone: dots of gravel, and plants in drifts. Places count
// from the zone's own middle, so that the planting moves with it.
func (d *drawer) planting() markup.Node {
	if len(d.zoneM) < 3 {
		return markup.None()
	}
	var ground, grit, tufts, leaves, hearts, sprigs pen
	d.closed(&ground, d.zonePx)
	mid := middle(d.zoneM)
	area := noBox().all(d.zoneM, 0)
	if !d.quiet() && d.o.Colour != Ink { // on paper the plants are enough
		d.zoneGrit(&grit, mid, area)
	}
	size := 0.5 * d.unit
	i0, j0 := cellOf(area.lo.minus(mid), size)
	i1, j1 := cellOf(area.hi.minus(mid), size)
	var grown []pt
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			luck := sow(saltPlant, i, j)
			q := mid.plus(pt{(float64(i) + luck.part()) * size, (float64(j) + luck.part()) * size})
			if !q.within(d.bedM) || q.fromRing(d.bedM) < 0.46*d.unit {
				continue
			}
			kind := d.plantAt(q.minus(mid))
			apart := []float64{0.88, 1.02, 0.54}[kind] * d.unit
			if crowded(q, grown, apart) {
				continue
			}
			grown = append(grown, q)
			c, s := d.at(q), d.unit*d.view.ScalePxPerM*luck.span(0.46, 0.76)
			switch kind {
			case tuftPlant:
				tuft(&tufts, c, s, &luck)
			case lobedPlant:
				lobes(&leaves, c, s*0.68, &luck)
				hearts.disc(c, math.Max(0.7, s*0.1))
			default:
				sprig(&sprigs, c, s*0.34)
			}
		}
	}
	return layer("dr-plants", ground.node("dr-zone"), grit.node("dr-zonegrit"), sprigs.node("dr-blade"), leaves.node("dr-leaf"), hearts.node("dr-heart"), tufts.node("dr-blade"))
}

func (d *drawer) zoneGrit(w *pen, mid pt, area box) {
	size := 0.44 * d.unit
	if d.small() {
		size = 0.7 * d.unit
	}
	i0, j0 := cellOf(area.lo.minus(mid), size)
	i1, j1 := cellOf(area.hi.minus(mid), size)
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			luck := sow(saltPlant+2, i, j)
			q := mid.plus(pt{(float64(i) + luck.part()) * size, (float64(j) + luck.part()) * size})
			if q.within(d.bedM) && q.fromRing(d.bedM) > 0.16*d.unit {
				w.dot(d.at(q))
			}
		}
	}
}

func crowded(q pt, others []pt, apart float64) bool {
	for i := len(others) - 1; i >= 0; i-- {
		if q.to(others[i]) < apart {
			return true
		}
	}
	return false
}

// plantAt is the kind of the drift that a place belongs to: that of the
// nearest of seeds strewn one to a square.
func (d *drawer) plantAt(q pt) int {
	size := 2.7 * d.unit
	i, j := cellOf(q, size)
	best, kind := math.Inf(1), tuftPlant
	for a := i - 1; a <= i+1; a++ {
		for b := j - 1; b <= j+1; b++ {
			luck := sow(saltPlant+4, a, b)
			seed := pt{(float64(a) + luck.part()) * size, (float64(b) + luck.part()) * size}
			if far := q.to(seed); far < best {
				best, kind = far, []int{tuftPlant, lobedPlant, sprigPlant, tuftPlant, lobedPlant}[luck.pick(5)]
			}
		}
	}
	return kind
}

// tuft is a plant of bent blades from one place.
func tuft(w *pen, c pt, size float64, luck *chance) {
	n := 7 + luck.pick(4)
	first := luck.span(0, 2*math.Pi)
	for i := range n {
		a := first + (float64(i)+luck.span(-0.35, 0.35))/float64(n)*2*math.Pi
		long, bend := size*luck.span(0.65, 1.15), a+luck.span(-0.4, 0.4)
		w.move(c.polar(size*0.12, a)).quad(c.polar(long*0.55, a), c.polar(long, bend))
	}
}

// lobes is a round plant seen from above.
func lobes(w *pen, c pt, size float64, luck *chance) {
	const n = 6
	first := luck.span(0, 2*math.Pi)
	side := 2 * size * math.Sin(math.Pi/n)
	for i := range n + 1 {
		q := c.polar(size, first+float64(i)/n*2*math.Pi)
		if i == 0 {
			w.move(q)
		} else {
			w.arc(side*0.56, q)
		}
	}
	w.close()
}

// sprig is a shoot with two leaves.
func sprig(w *pen, c pt, s float64) {
	w.move(pt{c.x - s, c.y + 0.3*s}).line(pt{c.x, c.y - s}).line(pt{c.x + s, c.y + 0.3*s})
	w.move(pt{c.x, c.y + 0.8*s}).line(pt{c.x, c.y - 0.6*s})
}

// tufts stand between and behind the stones, in drifts along the wall.
func (d *drawer) tufts() markup.Node {
	if d.quiet() {
		return markup.None()
	}
	var w pen
	var grown []pt
	for _, s := range squares(saltTuft, d.walk(), 0.7*d.unit) {
		g := drift(saltTuft+2, s.at, 6*d.unit)
		if s.luck.part() > 1.5*(g-0.32) {
			continue
		}
		q := s.at.plus(s.out.times(s.luck.span(1.3, 2.5) * d.unit))
		if d.covered.at(d.at(q)) > 0 || crowded(q, grown, 0.8*d.unit) || d.onStone(q) {
			continue
		}
		grown = append(grown, q)
		tuft(&w, d.at(q), d.unit*d.view.ScalePxPerM*s.luck.span(0.45, 0.78), &s.luck)
	}
	return w.node("dr-blade")
}

func (d *drawer) onStone(q pt) bool {
	for _, s := range d.stones {
		if q.to(s.at) < s.r+0.3*d.unit {
			return true
		}
	}
	return false
}
