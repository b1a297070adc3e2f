package drawing

import (
	"math"
	"sort"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// drawer holds a plan made ready for drawing.
type drawer struct {
	p     sheet.Plan
	o     Options
	which parts
	view  View

	rimM, wallM, beachM    []pt // the water's edge and its two parts, in metres
	zoneM, cascadeM, deckM []pt
	flightM                []pt // the steps into the water
	suctionM, dischargeM   []pt
	jetsM, jetPipeM        []pt
	centre                 pt
	unit                   float64 // size that stones and plants are drawn to, in metres
	taken                  []box   // where words stand already, px
	rimPx, zonePx, deckPx  []pt    // where they lie in the picture, px
	rimPath                string  // the water's edge, thinned
	soundingsM             []float64
	side                   *profile // the section, once asked for
	busy                   raster
	covered                raster // what stands on the ground, see blocked
	shoreM, bedM           []pt   // the beach and the zone with fewer points, for distances
	across, down           dimension
	stones                 []stone
	wall                   *trail  // once asked for
	grove                  []stone // trees, px
}

func newDrawer(p sheet.Plan, o Options, which parts) *drawer {
	d := &drawer{p: p, o: o, which: which}
	d.rimM = pts(p.Rim)
	d.wallM, d.beachM = splitRim(d.rimM, p.BeachFrom, p.BeachTo)
	d.zoneM, d.cascadeM, d.deckM = pts(p.Zone), pts(p.Cascade), pts(p.Deck)
	d.flightM = flight(p)
	d.suctionM, d.dischargeM = pts(p.Suction), pts(p.Discharge)
	d.jetPipeM = pts(p.JetPipe)
	for _, j := range p.Jets {
		d.jetsM = append(d.jetsM, pt{j.At.X, j.At.Y})
	}
	d.centre = middle(d.rimM)
	d.shoreM = thin(d.beachM, 0.01)
	if len(d.zoneM) > 2 {
		d.bedM = thin(append(append([]pt(nil), d.zoneM...), d.zoneM[0]), 0.01)
		d.bedM = d.bedM[:len(d.bedM)-1]
	}
	d.soundingsM = d.sound()
	d.fit()
	d.rimPx, d.zonePx, d.deckPx = d.all(d.rimM), d.all(d.zoneM), d.all(d.deckM)
	var edge pen
	d.closed(&edge, d.rimPx)
	d.rimPath = string(edge.data)
	if o.Near.Times > 1 {
		d.o.Window = o.Near.window(d.view)
	}
	d.unit = d.grain()
	d.grove = d.plantTrees()
	if !d.small() {
		d.survey()
	}
	return d
}

func (d *drawer) id(name string) string { return d.o.ID + "-" + name }

func (d *drawer) url(name string) string { return "url(#" + d.id(name) + ")" }

func (d *drawer) full() bool   { return d.o.Look == Full }
func (d *drawer) small() bool  { return d.o.Look == Thumbnail }
func (d *drawer) moving() bool { return d.o.Detail == Moving || d.o.Detail == Following }
func (d *drawer) quiet() bool  { return d.o.Detail == Quiet }

// at is where a place of the plan lies in the picture.
func (d *drawer) at(p pt) pt {
	x, y := d.view.At(sheet.XY{X: p.x, Y: p.y})
	return pt{x, y}
}

func (d *drawer) all(ps []pt) []pt {
	out := make([]pt, len(ps))
	for i, p := range ps {
		out[i] = d.at(p)
	}
	return out
}

// m turns px into metres at this scale.
func (d *drawer) m(pixels float64) float64 { return pixels / d.view.ScalePxPerM }

// placed is where an outline lies in the picture.
func (d *drawer) placed(ring []sheet.XY) []pt {
	out := make([]pt, len(ring), len(ring)+1)
	for i, q := range ring {
		x, y := d.view.At(q)
		out[i] = pt{x, y}
	}
	return out
}

// closed is a closed outline of the picture, thinned to what can be seen.
func (d *drawer) closed(w *pen, ring []pt) {
	if len(ring) < 3 {
		return
	}
	ring = thin(append(ring, ring[0]), 0.12)
	w.ring(ring[:len(ring)-1])
}

func (d *drawer) open(w *pen, chainM []pt) { w.open(thin(d.all(chainM), 0.12)) }

// grain is the size in metres that a stone's unit has: a foot at ordinary
// scales, more or less where that could not be seen or would fill the picture.
// It moves in steps, so that stones stay while the scale changes a little.
func (d *drawer) grain() float64 {
	const footM = 0.3048
	least, most := 7.5, 15.0
	switch d.o.Look {
	case Phone:
		least = 6
	case Thumbnail:
		least, most = 4.2, 8
	}
	seen := d.view.ScalePxPerM * footM
	want := math.Min(math.Max(seen, least), most) / seen
	return footM * math.Pow(2, math.Round(2*math.Log2(want))/2)
}

// splitRim cuts the water's edge into wall and beach, both anticlockwise.
func splitRim(rim []pt, from, to int) (wall, beach []pt) {
	n := len(rim)
	if from == to || from < 0 || to < 0 || from >= n || to >= n {
		return append(append([]pt(nil), rim...), rim[0]), nil
	}
	for i := from; ; i = (i + 1) % n {
		beach = append(beach, rim[i])
		if i == to {
			break
		}
	}
	for i := to; ; i = (i + 1) % n {
		wall = append(wall, rim[i])
		if i == from {
			break
		}
	}
	return wall, beach
}

// step is a place along a trail: where, which way it runs, and outward.
type step struct {
	at, along, out pt
	i              int // of the stretch it lies on
}

// trail is a line of the plan to set things along, walked in short steps.
type trail struct {
	chain []pt
	past  []float64 // how long the chain is up to each point
	steps []step
	stepM float64 // at most from one to the next
	reach float64 // over which its direction is taken
}

func newTrail(chain []pt, stepM, reachM float64) trail {
	t := trail{chain: chain, past: make([]float64, len(chain)), stepM: stepM, reach: reachM}
	room := 0
	for i := 1; i < len(chain); i++ {
		room += int(math.Ceil(chain[i-1].to(chain[i]) / stepM))
	}
	t.steps = make([]step, 0, room)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		t.past[i] = t.past[i-1] + a.to(b)
		along := b.minus(a).unit()
		n := int(math.Ceil(a.to(b) / stepM))
		for k := range n {
			t.steps = append(t.steps, step{a.mix(b, (float64(k)+0.5)/float64(n)), along, along.left().times(-1), i})
		}
	}
	return t
}

// walk is the trail of the wall, for what stands along it.
func (d *drawer) walk() trail {
	if d.wall == nil {
		t := newTrail(d.wallM, d.unit*0.12, d.unit*0.7)
		d.wall = &t
	}
	return *d.wall
}

// closest returns the place on a step's stretch that is nearest to p.
func (t trail) closest(s step, p pt) pt {
	a, b := t.chain[s.i-1], t.chain[s.i]
	return a.plus(s.along.times(math.Min(math.Max(p.minus(a).dot(s.along), 0), a.to(b))))
}

// nearest goes from stretch to stretch while that comes nearer to p.
func (t trail) nearest(s step, p pt) step {
	for _, dir := range []int{-1, 1} {
		for i := s.i + dir; i > 0 && i < len(t.chain); i += dir {
			next := s
			next.i, next.along = i, t.chain[i].minus(t.chain[i-1]).unit()
			if next.at = t.closest(next, p); next.at.to(p) > s.at.to(p) {
				break
			}
			s = next
		}
	}
	return s
}

// at is the place at a length along the trail, held at its ends.
func (t trail) at(far float64) pt {
	n := len(t.chain)
	i := sort.SearchFloat64s(t.past, far)
	switch {
	case i <= 0:
		return t.chain[0]
	case i >= n:
		return t.chain[n-1]
	}
	return t.chain[i-1].mix(t.chain[i], (far-t.past[i-1])/(t.past[i]-t.past[i-1]))
}

// eased gives a step the direction of the trail some way before and after, so
// that it does not jump from stretch to stretch.
func (t trail) eased(s step) step {
	far := t.past[s.i-1] + t.chain[s.i-1].to(s.at)
	if along := t.at(far + t.reach).minus(t.at(far - t.reach)).unit(); along != (pt{}) {
		s.along, s.out = along, along.left().times(-1)
	}
	return s
}

// sown is a place along a trail, with the chances of the square of the plan
// that it belongs to and how far it is from the square's own spot.
type sown struct {
	step
	luck chance
	off  float64
}

// squares sets places along a trail. Every square of the plan has a spot of its
// own; each spot within half a square of the trail gives the place nearest to
// it. So a place depends on the trail near it and not on how the trail is cut
// into stretches; and the further off its spot, the more easily a place comes
// and goes.
func squares(salt uint64, t trail, size float64) []sown {
	seen := make(map[[2]int]int, len(t.steps)) // looked up only; the order is the trail's
	all := make([]sown, 0, len(t.steps))
	spots := make([]pt, 0, len(t.steps))
	var here [2]int
	var around [9]int // what is seen around here; most steps stay in one square
	for first, s := range t.steps {
		i, j := cellOf(s.at, size)
		if at := [2]int{i, j}; first == 0 || at != here {
			was, di, dj := around, i-here[0], j-here[1]
			here = at
			for k := range around {
				// Most of them were around the square before as well.
				if u, v := k%3+di, k/3+dj; first > 0 && u >= 0 && u < 3 && v >= 0 && v < 3 {
					around[k] = was[3*v+u]
					continue
				}
				key := [2]int{i + k%3 - 1, j + k/3 - 1}
				n, ok := seen[key]
				if !ok {
					luck := sow(salt, key[0], key[1])
					n = len(all)
					seen[key] = n
					spots = append(spots, pt{(float64(key[0]) + luck.part()) * size, (float64(key[1]) + luck.part()) * size})
					all = append(all, sown{s, luck, math.Inf(1)})
				}
				around[k] = n
			}
		}
		for _, n := range around {
			if off := s.at.to(spots[n]); off < all[n].off {
				all[n].step, all[n].off = s, off
			}
		}
	}
	out := all[:0]
	for i, s := range all {
		if s.off > (size+t.stepM)/2 {
			continue // the trail comes half a step nearer at most
		}
		s.at = t.closest(s.step, spots[i])
		s.step = t.nearest(s.step, spots[i])
		if s.off = s.at.to(spots[i]); s.off <= size/2 {
			s.step = t.eased(s.step)
			out = append(out, s)
		}
	}
	return out
}

// defs are the shapes and patterns that others refer to.
func (d *drawer) defs() markup.Node {
	var kids []markup.Node
	if d.which&partPlan != 0 {
		kids = append(kids, clip(d.id("water"), d.edge("")))
	}
	if d.which&partSection != 0 {
		kids = append(kids, d.sectionClips()...)
	}
	return markup.E("defs", kids)
}

// edge is the water's edge as one path.
func (d *drawer) edge(class string) markup.Node {
	if d.rimPath == "" {
		return markup.None()
	}
	return markup.E("path", markup.Class(class), markup.A("d", d.rimPath))
}

func clip(id string, shape markup.Node) markup.Node {
	return markup.E("clipPath", markup.A("id", id), shape)
}

// layer is a group of marks.
func layer(class string, kids ...markup.Node) markup.Node {
	return markup.Node{Tag: "g", Attrs: []markup.Attr{markup.Class(class)}, Kids: some(kids), Key: class}
}

func some(kids []markup.Node) []markup.Node {
	out := kids[:0:0]
	for _, k := range kids {
		if !k.IsNone() {
			out = append(out, k)
		}
	}
	return out
}
