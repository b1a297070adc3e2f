package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// figurePath is a standing person seen from the front, 100 units tall from
// the soles at 0 up.
const figurePath = "M0-100c3.600 0 6.200 2.900 6.200 6.800 0 3-1.300 5.400-3.200 6.700v2.700c3.400 1.300 7.300 1.900 9.100 4.300 2.300 3.200 2.900 12 4.100 19.500.8 5 .4 10.500-.3 15.300-.4 2.400-3.400 2.300-3.600-.2-.3-4.600-.9-9.300-2.100-13.400-.8-2.800-1.400-5.300-1.900-8-.3 4.600-.2 7.600.4 11.300 1 5.900 1.300 10.700.9 17.300-.4 6.500-1.300 12-1.500 18-.2 5.200.2 10.600-.3 16.200 1.800 1.200 3.300 1.900 3.300 3.500H4.200c-.9-.9-.7-2.600-.5-4.300C2.900-11.300 2.700-18 2.200-24.300 1.800-30 .9-36.500 0-42c-.9 5.500-1.800 12-2.200 17.700-.5 6.300-.7 13-1.500 20 .2 1.700.4 3.400-.5 4.300h-6.900c0-1.600 1.500-2.300 3.300-3.500-.5-5.600-.1-11-.3-16.200-.2-6-1.100-11.500-1.500-18-.4-6.600-.1-11.400.9-17.300.6-3.700.7-6.700.4-11.300-.5 2.700-1.100 5.200-1.900 8-1.200 4.100-1.800 8.800-2.100 13.400-.2 2.500-3.200 2.600-3.600.2-.7-4.800-1.100-10.300-.3-15.300 1.200-7.500 1.800-16.300 4.100-19.500 1.800-2.400 5.700-3 9.100-4.300v-2.700c-1.900-1.300-3.200-3.700-3.200-6.700 0-3.900 2.600-6.800 6.200-6.800z"

// people stand on the bottom where an adult's chest and a child's stay dry; an
// adult who finds no such place stands on the land.
func (d *drawer) people(f profile) markup.Node {
	if d.small() {
		return markup.None()
	}
	s := d.view.ScalePxPerM
	var kids []markup.Node
	crowd := d.crowd(f)
	foot, ok := d.standAt(0.95, 1.3)
	if !ok {
		x := math.Max(f.left-1.3*s, 0.5*f.left)
		foot = pt{x, heightAt(f.lands[0], x)}
	}
	c, two := d.standAt(0.38, 0.62)
	two = two && math.Abs(c.x-foot.x) > 0.55*s
	if !two {
		kids = append(kids, d.person(foot, adultM), crowd.beside(d.head(foot, adultM), -1, d.o.Words.Adult))
		return layer("dr-people", kids...)
	}
	// The child is nearer the edge, where there is nothing behind the names: the
	// adult's stands over the child's.
	out := math.Copysign(1, c.x-foot.x)
	child, adult := d.head(c, childM), d.head(foot, adultM)
	var younger, older markup.Node
	if !ok { // on the land there is nothing behind a name
		older = crowd.beside(adult, -out, d.o.Words.Adult)
		if younger = crowd.beside(child, out, d.o.Words.Child); younger.IsNone() {
			younger = crowd.beside(child, -out, d.o.Words.Child)
		}
	} else {
		y := child.y
		if younger = crowd.beside(child, out, d.o.Words.Child); younger.IsNone() {
			y = crowd.overWaterPx()
			younger = crowd.over(y, child, child, out, d.o.Words.Child)
		}
		if older = crowd.over(math.Min(y-namePx, adult.y-11), child, adult, out, d.o.Words.Adult); older.IsNone() {
			older = crowd.beside(adult, -out, d.o.Words.Adult)
		}
	}
	kids = append(kids, d.person(c, childM), d.person(foot, adultM), younger, older)
	return layer("dr-people", kids...)
}

// head is the middle of the head of someone who stands on a foot.
func (d *drawer) head(foot pt, highM float64) pt {
	return foot.minus(pt{0, 0.93 * highM * d.view.ScalePxPerM})
}

// paceM is how close the bottom is sounded for a place to stand, and lookM how
// far to both sides its slope is taken.
const (
	paceM  = 0.05
	lookM  = 0.15
	aheadN = 3 // lookM in paces
)

// sound is the depth along the cut, a pace at a time from lookM on.
func (d *drawer) sound() []float64 {
	long := d.cutLongM()
	if d.which&partSection == 0 || long <= 4*lookM {
		return nil
	}
	out := make([]float64, 0, int(long/paceM))
	for at := lookM; at < long-lookM; at += paceM {
		out = append(out, d.depthAlong(at))
	}
	return out
}

// standAt finds footing in water of about a depth: the gentlest place whose
// bottom is not steeper than one in two.
func (d *drawer) standAt(leastM, mostM float64) (pt, bool) {
	want := leastM + 0.3*(mostM-leastM)
	best, found := math.Inf(1), -1
	for i := aheadN; i+aheadN < len(d.soundingsM); i++ {
		z := d.soundingsM[i]
		if z < leastM || z > mostM || math.Abs(d.soundingsM[i+aheadN]-d.soundingsM[i-aheadN]) > 0.55*2*lookM {
			continue
		}
		if far := math.Abs(z - want); far < best-1e-9 {
			best, found = far, i
		}
	}
	if found < 0 {
		return pt{}, false
	}
	return d.cutAt(lookM+paceM*float64(found), d.soundingsM[found]), true
}

// person draws someone, fainter below the water line.
func (d *drawer) person(foot pt, highM float64) markup.Node {
	place := markup.A("transform", "translate("+px(foot.x)+" "+px(foot.y)+") scale("+thousandths(highM*d.view.ScalePxPerM/100)+")")
	body := func(class string) markup.Node {
		return markup.E("path", markup.Class(class), markup.A("d", figurePath), place)
	}
	return markup.E("g", markup.E("g", markup.A("clip-path", d.url("air")), body("dr-person")),
		markup.E("g", markup.A("clip-path", d.url("wet")), body("dr-person dr-wet")))
}

// crowd is the people of a section with their names, which keep off the name
// of the water line.
type crowd struct {
	d           *drawer
	name, level pt // the ends of the water line's leader
}

func (d *drawer) crowd(f profile) crowd {
	name, level := d.waterLeader(f)
	return crowd{d, name, level}
}

// namePx is the height of a line of names.
const namePx = 16

// overWaterPx is the height of a name over that of the water line.
func (c crowd) overWaterPx() float64 { return c.name.y - namePx }

// beside writes a name at someone's head, to one side.
func (c crowd) beside(head pt, dir float64, words string) markup.Node {
	for _, long := range longPx() {
		if name := c.along([]pt{head.plus(pt{dir * 9, 0}), head.plus(pt{dir * long, 0})}, dir, words); !name.IsNone() {
			return name
		}
	}
	return markup.None()
}

// over writes the name of someone at a height over their head, beyond another
// who stands between them and the name.
func (c crowd) over(y float64, other, head pt, dir float64, words string) markup.Node {
	for _, long := range longPx() {
		if name := c.along([]pt{head.plus(pt{dir * 5, -5}), {head.x + dir*9, y}, {other.x + dir*long, y}}, dir, words); !name.IsNone() {
			return name
		}
	}
	return markup.None()
}

// along writes a name at the end of a leader, where there is room.
func (c crowd) along(leader []pt, dir float64, words string) markup.Node {
	end := leader[len(leader)-1].plus(pt{dir * 4, 4})
	far := end.x + dir*wordsWide(words, sansPx)
	if words == "" || !c.d.full() || far < 0 || far > c.d.view.WidthPx || far > c.mostPx(end.y) {
		return markup.None()
	}
	anchor := "start"
	if dir < 0 {
		anchor = "end"
	}
	var lead pen
	lead.move(leader[0])
	for _, q := range leader[1:] {
		lead.line(q)
	}
	return markup.E("g", lead.node("dr-leader"), text("dr-note", words, end, markup.A("text-anchor", anchor)))
}

// longPx is how long a leader is: long where there is room and short where
// there is not.
func longPx() [3]float64 { return [...]float64{30, 20, 13} }

// mostPx is how far right a line of words may go at a height.
func (c crowd) mostPx(y float64) float64 {
	if c.d.o.Words.WaterLine == "" || y <= c.overWaterPx()+4 { // words stand 4 px under their leader
		return c.d.view.WidthPx
	}
	up := math.Min(1, math.Max(0, (c.level.y-y)/(c.level.y-c.name.y)))
	return c.level.mix(c.name, up).x
}

// thousandths writes a scale with three decimals.
func thousandths(v float64) string {
	n := int(math.Round(v * 1000))
	return string([]byte{byte('0' + n/1000%10), '.', byte('0' + n/100%10), byte('0' + n/10%10), byte('0' + n%10)})
}
