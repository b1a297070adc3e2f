package drawing

import (
	"math"

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
	suctionM, dischargeM   []pt
	centre                 pt
	unit                   float64 // size that stones and plants are drawn to, in metres
	taken                  []box   // where words stand already, px
	busy                   busy
	across, down           dimension
	stones                 []stone
	walk                   []step  // of the wall, for what stands along it
	grove                  []stone // trees, px
}

func newDrawer(p sheet.Plan, o Options, which parts) *drawer {
	d := &drawer{p: p, o: o, which: which}
	d.rimM = pts(p.Rim)
	d.wallM, d.beachM = splitRim(d.rimM, p.BeachFrom, p.BeachTo)
	d.zoneM, d.cascadeM, d.deckM = pts(p.Zone), pts(p.Cascade), pts(p.Deck)
	d.suctionM, d.dischargeM = pts(p.Suction), pts(p.Discharge)
	d.centre = middle(d.rimM)
	d.fit()
	d.unit = d.grain()
	d.walk = d.wallWalk()
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
func (d *drawer) moving() bool { return d.o.Detail == Moving }

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

// closed is a closed outline of the plan, thinned to what can be seen.
func (d *drawer) closed(w *pen, ringM []pt) {
	ring := d.all(ringM)
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

// step is a place along the wall: where, which way the wall runs, and outward.
type step struct{ at, along, out pt }

// wallWalk goes along the wall in short steps. Each stretch of the rim is
// walked by itself, so that a change elsewhere moves no step here.
func (d *drawer) wallWalk() []step { return walkAlong(d.wallM, d.unit*0.12) }

func walkAlong(chain []pt, stepM float64) []step {
	var out []step
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		along := b.minus(a).unit()
		n := int(math.Ceil(a.to(b) / stepM))
		for k := range n {
			out = append(out, step{a.mix(b, (float64(k)+0.5)/float64(n)), along, along.left().times(-1)})
		}
	}
	return out
}

// sown is one step for each square of the plan that the walk crosses, with the
// chances of that square.
type sown struct {
	step
	luck chance
}

// squares picks a step in each square that the walk crosses: the one nearest
// to a place that the square itself gives.
func squares(salt uint64, walk []step, size float64) []sown {
	type best struct {
		i    int
		dist float64
	}
	seen := map[[2]int]int{} // looked up only; the order is the walk's
	var picks []best
	var cells [][2]int
	for i, s := range walk {
		a, b := cellOf(s.at, size)
		key := [2]int{a, b}
		luck := sow(salt, a, b)
		aim := pt{(float64(a) + luck.part()) * size, (float64(b) + luck.part()) * size}
		dist := s.at.to(aim)
		at, ok := seen[key]
		if !ok {
			seen[key] = len(picks)
			picks, cells = append(picks, best{i, dist}), append(cells, key)
		} else if dist < picks[at].dist {
			picks[at] = best{i, dist}
		}
	}
	out := make([]sown, len(picks))
	for i, p := range picks {
		out[i] = sown{walk[p.i], sow(salt+1, cells[i][0], cells[i][1])}
	}
	return out
}

// defs are the shapes and patterns that others refer to.
func (d *drawer) defs() markup.Node {
	var kids []markup.Node
	if d.which&partPlan != 0 {
		var w pen
		d.closed(&w, d.rimM)
		kids = append(kids, clip(d.id("water"), w.node("")))
	}
	if d.which&partSection != 0 {
		kids = append(kids, d.sectionClips()...)
	}
	return markup.E("defs", kids)
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
