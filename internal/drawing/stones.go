package drawing

import (
	"cmp"
	"math"
	"slices"

	"tarnwright/internal/markup"
)

// stone is a boulder: where it lies, how large, and which way it lies. All in
// metres; the chances shape it.
type stone struct {
	at    pt
	r     float64
	turn  float64 // rad
	luck  chance
	order float64 // the least first
}

// stoneTones is how many tones the boulders have.
const stoneTones = 4

// shadowShare is how far a shadow falls, as a share of the unit stones are
// sized by; shadowMostPx is how far at most.
const (
	shadowShare  = 0.08
	shadowMostPx = 1.6
)

// layStones sets boulders along the wall. Every square of the plan that the
// wall passes offers one of a size of its own; in order of rank a stone takes its
// place if it has room, large ones first. So a stone depends
// on its neighbours alone, and pulling one ring moves no stone elsewhere.
func (d *drawer) layStones() []stone {
	var laid []stone
	passes := []struct{ square, least, most, room float64 }{
		{0.5, 0.62, 1.15, 0.80}, {0.4, 0.40, 0.62, 0.80}, {0.3, 0.24, 0.40, 0.80}, {0.2, 0.15, 0.24, 0.86},
	}
	if d.small() {
		passes = passes[:2]
	}
	for k, pass := range passes {
		var offer []stone
		for _, s := range squares(saltStone+uint64(2*k), d.walk(), pass.square*d.unit) {
			r := (pass.least + math.Pow(s.luck.part(), 1.6)*(pass.most-pass.least)) * d.unit
			lean := s.luck.span(0.1, 0.42)
			offer = append(offer, stone{
				at: s.at.plus(s.out.times(r * lean)), r: r, turn: math.Atan2(s.along.y, s.along.x) + s.luck.span(-0.2, 0.2),
				order: s.off, luck: s.luck,
			})
		}
		laid = d.settle(laid, offer, pass.room)
	}
	if !d.small() {
		laid = append(d.strays(laid), laid...)
	}
	return laid
}

func (d *drawer) settle(laid, offer []stone, room float64) []stone {
	slices.SortStableFunc(offer, func(a, b stone) int { return cmp.Compare(a.order, b.order) })
	for _, s := range offer {
		if !d.freeForStone(s) {
			continue
		}
		fits := true
		for _, t := range laid {
			if s.at.to(t.at) < room*(s.r+t.r) {
				fits = false
				break
			}
		}
		if fits {
			laid = append(laid, s)
		}
	}
	return laid
}

// strays are smaller stones that lie a little behind the row.
func (d *drawer) strays(row []stone) []stone {
	var out []stone
	for _, s := range squares(saltStone+8, d.walk(), 0.8*d.unit) {
		if s.luck.part() > 0.62 {
			continue
		}
		r := s.luck.span(0.2, 0.5) * d.unit
		t := stone{at: s.at.plus(s.out.times(s.luck.span(0.9, 1.9) * d.unit)), r: r, turn: s.luck.span(0, 3), luck: s.luck}
		if !d.freeForStone(t) || d.covered.at(d.at(t.at)) > 1 || t.at.fromChain(d.shoreM) < 0.8*d.unit {
			continue
		}
		free := true
		for _, u := range append(out, row...) {
			if t.at.to(u.at) < 0.9*(t.r+u.r) {
				free = false
				break
			}
		}
		if free {
			out = append(out, t)
		}
	}
	return out
}

func (d *drawer) freeForStone(s stone) bool {
	return !s.at.near(d.deckM, s.r*0.7) && !s.at.near(d.flightM, s.r*0.5) && !s.at.near(d.cascadeM, s.r+0.1*d.unit) && !s.at.near(d.bedM, s.r*0.8) &&
		!s.at.near(d.intakePad(), s.r*0.3) && !d.atJet(s)
}

// atJet says whether a stone would hide a jet.
func (d *drawer) atJet(s stone) bool {
	for _, j := range d.jetsM {
		if !d.small() && s.at.to(j) < s.r+d.m(jetPx) {
			return true
		}
	}
	return false
}

// intakePad keeps stones off the intake, so that it can be seen.
func (d *drawer) intakePad() []pt {
	c, h := pt{d.p.Intake.X, d.p.Intake.Y}, d.m(5)
	if d.small() || d.o.Words.Intake == "" && d.o.Look == Full {
		return nil
	}
	return []pt{{c.x - h, c.y - h}, {c.x + h, c.y - h}, {c.x + h, c.y + h}, {c.x - h, c.y + h}}
}

func (d *drawer) boulders() markup.Node { return d.pile("dr-stones", d.stones) }

// pile draws stones: by tone, each tone in one path, and the facets of the
// larger. Their shadow is the same stones used once more, dark and aside, so
// that it costs no outlines of its own.
func (d *drawer) pile(class string, stones []stone) markup.Node {
	var facet pen
	var tones [stoneTones]pen
	for _, s := range stones {
		luck := s.luck
		shape := s.shape(&luck)
		at := d.all(shape)
		tone := luck.pick(stoneTones)
		tones[tone].soft(at, 0.32)
		if s.r*d.view.ScalePxPerM > 5.6 && !d.small() {
			d.facet(&facet, s, at, &luck)
		}
	}
	kids := make([]markup.Node, stoneTones)
	for i := range tones {
		kids[i] = tones[i].node("dr-stone dr-s" + string(rune('0'+i)))
	}
	if len(stones) == 0 || d.quiet() || d.o.Colour == Ink { // ink has no shadow
		return layer(class, append(kids, facet.node("dr-facet"))...)
	}
	drop := math.Min(shadowMostPx, shadowShare*d.unit*d.view.ScalePxPerM)
	heap := markup.E("g", markup.A("id", d.id(class)), kids)
	cast := markup.E("use", markup.Class("dr-cast"), markup.A("href", "#"+d.id(class)), markup.A("x", px(0.8*drop)), markup.A("y", px(drop)))
	return layer(class, cast, heap, facet.node("dr-facet"))
}

// shape is the stone's outline: six to eight corners on a flattened round.
func (s stone) shape(luck *chance) []pt {
	n := 6 + luck.pick(3)
	first := luck.span(0, 2*math.Pi)
	flat := luck.span(0.7, 0.86)
	out := make([]pt, n)
	for i := range out {
		a := first + (float64(i)+luck.span(-0.28, 0.28))/float64(n)*2*math.Pi
		q := s.r * luck.span(0.88, 1.08)
		u, v := q*math.Cos(a), q*flat*math.Sin(a)
		out[i] = pt{s.at.x + u*math.Cos(s.turn) - v*math.Sin(s.turn), s.at.y + u*math.Sin(s.turn) + v*math.Cos(s.turn)}
	}
	return out
}

// facet is one broken line across a stone.
func (d *drawer) facet(w *pen, s stone, at []pt, luck *chance) {
	c := d.at(s.at).plus(pt{-1, -1}.times(0.1 * s.r * d.view.ScalePxPerM))
	i := luck.pick(len(at))
	j := (i + 2 + luck.pick(2)) % len(at)
	w.move(at[i].mix(c, 0.14)).line(at[i].mix(c, 0.66)).line(at[j].mix(c, 0.2))
}
