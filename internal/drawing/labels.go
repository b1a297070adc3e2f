package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// Widths of a letter of the drawing's two faces at their usual size, in px: a
// little generous, for the widest fallback fonts.
const (
	serifPx = 7.0
	sansPx  = 6.8
	linePx  = 16.0
)

func wordsWide(text string, letterPx float64) float64 {
	n := 0
	for range text {
		n++
	}
	return float64(n) * letterPx
}

// text is a line of words at a place.
func text(class, words string, at pt, more ...markup.Attr) markup.Node {
	if words == "" {
		return markup.None()
	}
	return markup.E("text", markup.Class(class), markup.A("x", px(at.x)), markup.A("y", px(at.y)), more, words)
}

// label is a name with an optional smaller line, and what it names.
type label struct {
	name, note string
	around     []pt // px
	first      int  // preferred side: 0 right, 1 left, 2 above, 3 below
}

// labels writes the names of the features where there is room, the depths on
// the bands and the deep place.
func (d *drawer) labels() markup.Node {
	for _, i := range d.shownRings() {
		c := d.at(pt{d.p.Handles[i].X, d.p.Handles[i].Y})
		d.take(box{pt{c.x - 9, c.y - 9}, pt{c.x + 9, c.y + 9}})
	}
	for _, g := range d.heldGrips() {
		d.take(box{g.at.minus(pt{10, 10}), g.at.plus(pt{10, 10})})
	}
	if d.full() && d.inHand() { // the page says there how to move it
		d.take(box{pt{0, 0}, pt{226, 96}})
	}
	if d.full() && d.o.Rings == Drag { // and what brings it nearer
		d.take(box{pt{d.view.WidthPx - 148, 0}, pt{d.view.WidthPx, 52}})
	}
	kids := []markup.Node{d.deepWords()}
	kids = append(kids, d.treadWords()...)
	kids = append(kids, d.depths()...)
	if d.full() && d.o.State == Sound {
		w := d.o.Words
		pump, intake := d.at(pt{d.p.Pump.X, d.p.Pump.Y}), d.at(pt{d.p.Intake.X, d.p.Intake.Y})
		around := func(c pt, r float64) []pt { return []pt{{c.x - r, c.y - r}, {c.x + r, c.y + r}} }
		for _, l := range []label{
			{w.Zone, w.ZoneNote, d.zonePx, 1},
			{w.Deck, w.DeckNote, d.deckPx, 0},
			{w.Steps, "", d.all(d.flightM), 0},
			{w.Pump, "", around(pump, 12), 0},
			{w.Cascade, w.CascadeNote, d.all(d.cascadeM), 0},
			{w.Beach, "", d.fanBox(), 3},
			{w.Intake, "", around(intake, 6), 0},
			{w.Jets, w.JetsNote, d.all(d.jetsM), 0},
		} {
			if len(l.around) > 0 && l.name != "" {
				kids = append(kids, d.place(l))
			}
		}
	}
	return layer("dr-labels", kids...)
}

// inHand says whether a ring or a grip is chosen.
func (d *drawer) inHand() bool {
	if d.o.Chosen > 0 {
		return true
	}
	for _, g := range d.o.Grips {
		if g.Chosen {
			return true
		}
	}
	return false
}

// fanBox is where the beach lies on the land.
func (d *drawer) fanBox() []pt {
	var out []pt
	for _, q := range d.beachM {
		out = append(out, d.at(q), d.at(q.plus(q.minus(d.centre).unit().times(beachReachM*0.9))))
	}
	return out
}

// place sets a label beside what it names, where it covers least.
func (d *drawer) place(l label) markup.Node {
	wide := math.Max(wordsWide(l.name, serifPx), wordsWide(l.note, sansPx))
	high := linePx
	if l.note != "" {
		high = 2*linePx - 2
	}
	b := noBox().all(l.around, 0)
	type spot struct {
		at     pt // top left
		anchor string
	}
	shares := [...]float64{0.5, 0.3, 0.7, 0.1, 0.9, -0.15, 1.15, 0.5, 0.1, 0.9, 0.5, -0.2, 1.2}
	spots := make([]spot, 0, 6*len(shares))
	for n, k := range shares {
		gap := 9.0
		switch {
		case n > 9:
			gap = 44
		case n > 6:
			gap = 24
		}
		y := b.lo.y + k*b.high() - high/2
		x := b.lo.x + k*b.wide() - wide/2
		side := [...]spot{
			{pt{b.hi.x + gap, y}, "start"}, {pt{b.lo.x - gap - wide, y}, "end"},
			{pt{x, b.lo.y - gap - high}, "middle"}, {pt{x, b.hi.y + gap}, "middle"},
		}
		spots = append(spots, side[l.first])
		for i, s := range side {
			if i != l.first {
				spots = append(spots, s)
			}
		}
		spots = append(spots, spot{pt{b.hi.x + gap + 16, y + 12}, "start"}, spot{pt{b.lo.x - gap - 16 - wide, y + 12}, "end"})
	}
	best, cost := spots[0], math.Inf(1)
	for i, s := range spots {
		c := 0.35 * float64(i)
		if c >= cost { // nor would any after it be better
			break
		}
		r := box{s.at, s.at.plus(pt{wide, high})}
		if !d.clear(r) {
			c += 4000 // words on water can be read, words on words cannot
		}
		if c += d.busy.under(r, cost-c+1); c < cost {
			best, cost = s, c
		}
	}
	d.take(box{best.at.minus(pt{4, 2}), best.at.plus(pt{wide + 4, high + 2})})
	at := pt{best.at.x, best.at.y + 12.5}
	switch best.anchor {
	case "end":
		at.x += wide
	case "middle":
		at.x += wide / 2
	}
	anchor := markup.A("text-anchor", best.anchor)
	return markup.E("g", text("dr-name", l.name, at, anchor), text("dr-note", l.note, at.plus(pt{0, linePx - 1}), anchor))
}

// onTone is the class of words on water of a tone: ink or paper, each with a
// halo of that tone, so that they can be read beyond the band's edge.
func onTone(n int) string { return "dr-on" + toneClass(n)[4:] }

func (d *drawer) depths() []markup.Node {
	var kids []markup.Node
	firstDone := false
	for _, m := range d.bandMarks() {
		words := d.o.Words.Number(m.levelM)
		if !firstDone {
			words, firstDone = d.o.Words.Length(m.levelM), true
		}
		wide := wordsWide(words, sansPx) + 2
		at := m.at
		r := box{pt{at.x - wide/2, at.y - 10}, pt{at.x + wide/2, at.y + 6}}
		if !d.clear(r) || words == "" {
			continue
		}
		d.take(r)
		kids = append(kids, text("dr-depth "+onTone(m.tone), words, pt{at.x, at.y + 4.5}, markup.A("text-anchor", "middle")))
	}
	return kids
}

// deepWords name the deep place below its mark, or above where there is no
// room below.
func (d *drawer) deepWords() markup.Node {
	if d.o.State == Wrong {
		return markup.None()
	}
	w := d.o.Words
	name := w.DeepEnd
	if d.o.Look == Phone {
		name = ""
	}
	c := d.at(pt{d.p.Deep.X, d.p.Deep.Y})
	wide := math.Max(wordsWide(name, serifPx), wordsWide(w.DeepAt, sansPx+0.4))
	high := 34.0
	if name == "" {
		high = 18
	}
	below := box{pt{c.x - wide/2, c.y + 14}, pt{c.x + wide/2, c.y + 14 + high}}
	above := box{pt{c.x - wide/2, c.y - 14 - high}, pt{c.x + wide/2, c.y - 14}}
	at := below
	if d.dry(below) > d.dry(above) {
		at = above
	}
	d.take(at)
	class := onTone(d.tone(d.p.DeepM))
	mid := markup.A("text-anchor", "middle")
	y := at.lo.y + 14
	var kids []markup.Node
	if name != "" {
		kids = append(kids, text("dr-name "+class, name, pt{c.x, y}, mid))
		y += 16
	}
	return markup.E("g", kids, text("dr-fig "+class, w.DeepAt, pt{c.x, y}, mid))
}

// dry is how much of a rectangle is not free water.
func (d *drawer) dry(r box) int {
	n := 0
	for k := range 12 {
		q := pt{r.lo.x + float64(k%4)/3*r.wide(), r.lo.y + float64(k/4)/2*r.high()}
		p := d.view.PlanPoint(q.x, q.y)
		if at := (pt{p.X, p.Y}); !at.within(d.rimM) || at.near(d.deckM, 0) || at.near(d.cascadeM, 0) {
			n++
		}
	}
	if !d.clear(r) {
		n += 6
	}
	return n
}
