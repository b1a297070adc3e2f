package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// PumpChart is head over flow: what the pump gives, what the pond asks for,
// and where the two meet.
type PumpChart struct {
	Caption
	WidthPx, HeightPx   float64 // 0 takes 800 by 540
	Full, Quiet, System []sheet.XY
	// Duty and QuietDuty are where the curves cross; nil where they do not.
	Duty, QuietDuty *sheet.XY
	// EasyFromX and EasyToX bound the flow at which the pump runs easily.
	EasyFromX, EasyToX float64
	XTicks, YTicks     []Tick // the first of each is zero
	// MostX and MostY are where the axes end; 0 takes the last tick.
	MostX, MostY float64
	LiftY        float64
	Words        PumpWords
}

// PumpWords are the texts in the chart.
type PumpWords struct {
	XAxis, YAxis                         string
	Full, Quiet, System, Easy, Lift      string
	Duty, DutyNote, QuietDuty, QuietNote string
	DutyX, DutyY                         string // on the tags at the axes
}

type pumpDrawer struct {
	c          PumpChart
	x, y       span
	wide, high float64
	kids       []markup.Node
	taken      []box // by words and rings
	lines      []pt  // along every curve, close together
	drops      []pt  // along the dotted lines
	inner      box   // what words may stand in
}

// Node draws the chart.
func (c PumpChart) Node() markup.Node {
	d := pumpDrawer{c: c, wide: c.WidthPx, high: c.HeightPx}
	if d.wide == 0 {
		d.wide = 800
	}
	if d.high == 0 {
		d.high = d.wide * 0.68
	}
	left, right, top, foot := 52.0, d.wide-14, 30.0, d.high-44
	_, mostX := ends(c.XTicks)
	_, mostY := ends(c.YTicks)
	if c.MostX > 0 {
		mostX = c.MostX
	}
	if c.MostY > 0 {
		mostY = c.MostY
	}
	d.inner = box{pt{left + 3, top - 14}, pt{d.wide, foot - 4}}
	d.x, d.y = span{0, mostX, left, right - 10}, span{0, mostY, foot, top}
	d.axes(left, right, top, foot)
	d.curves(left, foot)
	d.crossing(c.QuietDuty, "ch-small", left, foot)
	d.crossing(c.Duty, "ch-duty", left, foot)
	d.words()
	return c.frame(d.wide, d.high, d.kids...)
}

func (d *pumpDrawer) at(p sheet.XY) pt { return pt{d.x.at(p.X), d.y.at(p.Y)} }

func (d *pumpDrawer) add(n markup.Node) { d.kids = append(d.kids, n) }

func (d *pumpDrawer) axes(left, right, top, foot float64) {
	var grid, axis, ticks pen
	for i, t := range d.c.YTicks {
		if i > 0 {
			grid.move(pt{left, d.y.at(t.At)}).line(pt{right, d.y.at(t.At)})
		}
		if d.c.Duty == nil || math.Abs(d.y.at(t.At)-d.y.at(d.c.Duty.Y)) > 17 {
			d.add(text("ch-axis", t.Text, pt{left - 10, d.y.at(t.At) + 4}, anchored("end")))
		}
	}
	for i, t := range d.c.XTicks {
		if i == 0 {
			continue
		}
		ticks.move(pt{d.x.at(t.At), foot}).line(pt{d.x.at(t.At), foot + 5})
		if d.c.Duty == nil || math.Abs(d.x.at(t.At)-d.x.at(d.c.Duty.X)) > 46 {
			d.add(text("ch-axis", t.Text, pt{d.x.at(t.At), foot + 20}, anchored("middle")))
		}
	}
	axis.move(pt{left, top - 16}).line(pt{left, foot}).line(pt{right, foot})
	d.add(grid.node("ch-grid"))
	d.add(axis.node("ch-base"))
	d.add(ticks.node("ch-tick"))
	d.add(text("ch-axis", d.c.Words.YAxis, pt{left - 10, 10}))
	d.add(text("ch-axis", d.c.Words.XAxis, pt{right, foot + 39}, anchored("end")))
}

// cut keeps the part of a curve that lies on the chart.
func (d *pumpDrawer) cut(curve []sheet.XY) []pt {
	var out []pt
	for i, p := range curve {
		inside := p.X <= d.x.hi*1.001 && p.Y <= d.y.hi*1.02 && p.Y >= -1e-9
		if inside {
			out = append(out, d.at(p))
			continue
		}
		if i > 0 && len(out) > 0 {
			if last := curve[i-1]; p.Y < 0 && last.Y > p.Y {
				k := last.Y / (last.Y - p.Y)
				out = append(out, d.at(sheet.XY{X: last.X + k*(p.X-last.X), Y: 0}))
			}
			break
		}
	}
	return out
}

func (d *pumpDrawer) curves(left, foot float64) {
	c := d.c
	var easy, full, quiet, system, lift pen
	if part := d.easyPart(); len(part) > 1 {
		easy.open(thin(part, 0.2))
	}
	for _, curve := range [][]sheet.XY{c.Full, c.Quiet, c.System} {
		d.lines = append(d.lines, dense(d.cut(curve), 3)...)
	}
	full.open(thin(d.cut(c.Full), 0.15))
	quiet.open(thin(d.cut(c.Quiet), 0.15))
	system.open(thin(d.cut(c.System), 0.15))
	if c.LiftY > 0 && c.Words.Lift != "" {
		y := d.y.at(c.LiftY)
		start := left
		for _, p := range c.System { // water that need not be lifted comes first
			if p.Y >= c.LiftY*0.999 {
				break
			}
			start = d.x.at(p.X) + 8
		}
		lift.move(pt{start, y}).line(pt{start + 0.18*(d.wide-left), y})
		d.add(lift.node("ch-drop"))
		at := pt{start + 16, math.Min(y+17, foot-5)}
		d.add(text("ch-note", c.Words.Lift, at))
		d.taken = append(d.taken, box{at.plus(pt{-3, -13}), at.plus(pt{wordsWide(c.Words.Lift, 6.6), 4})})
	}
	d.add(easy.node("ch-easy"))
	d.add(quiet.node("ch-quiet"))
	d.add(system.node("ch-system"))
	d.add(full.node("ch-full"))
}

// crossing is a ring where two curves meet, with drop lines to the axes.
func (d *pumpDrawer) crossing(p *sheet.XY, class string, left, foot float64) {
	if p == nil {
		return
	}
	q := d.at(*p)
	var drop, ring, dot pen
	drop.move(pt{left, q.y}).line(q).line(pt{q.x, foot})
	r, in := 11.0, 4.0
	if class == "ch-small" {
		r, in = 7.5, 2.6
	}
	ring.disc(q, r)
	dot.disc(q, in)
	d.drops = append(d.drops, dense([]pt{{left, q.y}, q, {q.x, foot}}, 3)...)
	d.taken = append(d.taken, box{pt{q.x - r, q.y - r}, pt{q.x + r, q.y + r}})
	d.add(drop.node("ch-drop " + class))
	d.add(ring.node("ch-ring " + class))
	d.add(dot.node("ch-solid"))
	if class == "ch-duty" {
		d.tag(d.c.Words.DutyY, pt{left - 4, q.y}, "end")
		d.tag(d.c.Words.DutyX, pt{q.x, foot + 16}, "middle")
	}
}

// tag is ink on an axis with a value in it.
func (d *pumpDrawer) tag(words string, at pt, where string) {
	if words == "" {
		return
	}
	wide := wordsWide(words, 7.3) + 12
	lo := pt{at.x - wide/2, at.y - 11}
	if where == "end" {
		lo.x = at.x - wide
	}
	d.add(rect("ch-tag", lo, lo.plus(pt{wide, 22}), markup.A("rx", "2.5")))
	d.add(text("ch-tagtext", words, pt{lo.x + wide/2, at.y + 4.6}, anchored("middle")))
}
