package drawing

import "math"

// mostDense bounds the points between two of a chain, however far apart.
const mostDense = 500

// dense is a chain with a point at least every so many px.
func dense(line []pt, every float64) []pt {
	var out []pt
	for i, q := range line {
		if i > 0 {
			p := line[i-1]
			n := min(int(p.to(q)/every), mostDense)
			for k := 1; k <= n; k++ {
				out = append(out, p.mix(q, float64(k)/float64(n+1)))
			}
		}
		out = append(out, q)
	}
	return out
}

// wording is a name with an optional smaller line below it.
type wording struct{ class, name, note string }

// spot is where words may stand: the baseline's beginning, or its end.
type spot struct {
	at  pt
	end bool
}

const titlePx = 8.3

// covered is the price of words on words, which nobody can read.
const covered = 120.0

func (w wording) size() (wide, up, down float64) {
	letter, up := 6.7, 12.0
	if len(w.class) >= 8 && w.class[:8] == "ch-title" {
		letter, up = titlePx, 15
	}
	wide, down = wordsWide(w.name, letter), 4
	if w.note != "" {
		wide, down = math.Max(wide, wordsWide(w.note, 6.6)), 24
	}
	return wide, up, down
}

// put writes words at the spot where they cross the least; earlier spots win
// where two are as good. A curve's name that would lie on other words is left
// out.
func (d *pumpDrawer) put(w wording, spots []spot) {
	if w.name == "" || len(spots) == 0 {
		return
	}
	wide, up, down := w.size()
	best, cost := box{}, math.Inf(1)
	var at pt
	for i, s := range spots {
		lo := s.at
		if s.end {
			lo.x -= wide
		}
		lo.x = math.Max(math.Min(lo.x, d.wide-2-wide), d.inner.lo.x)
		b := box{lo.plus(pt{-2, -up}), lo.plus(pt{wide + 2, down})}
		if c := d.crossed(b) + 0.4*float64(i); c < cost {
			best, cost, at = b, c, lo
		}
	}
	if cost >= covered && w.class != "ch-title" {
		return // the words beside the chart say it too
	}
	d.taken = append(d.taken, best)
	d.add(text(w.class, w.name, at))
	d.add(text("ch-note", w.note, at.plus(pt{0, 19})))
}

// crossed is how much words in a box would cover.
func (d *pumpDrawer) crossed(b box) float64 {
	c := 0.0
	if b.lo.y < d.inner.lo.y || b.hi.y > d.inner.hi.y || b.hi.x > d.wide {
		c += 300
	}
	in := func(q pt) bool { return q.x > b.lo.x && q.x < b.hi.x && q.y > b.lo.y && q.y < b.hi.y }
	for _, q := range d.lines {
		if in(q) {
			c += 4
		}
	}
	for _, q := range d.drops {
		if in(q) {
			c += 0.25
		}
	}
	for _, o := range d.taken {
		if o.lo.x < b.hi.x && b.lo.x < o.hi.x && o.lo.y < b.hi.y && b.lo.y < o.hi.y {
			c += covered
		}
	}
	return c
}

// along are spots beside a curve, from one share of its length to another.
func along(line []pt, shares []float64, by ...spot) []spot {
	if len(line) < 2 {
		return nil
	}
	var out []spot
	for _, share := range shares {
		at, _ := alongChain(line, share)
		for _, o := range by {
			out = append(out, spot{at.plus(o.at), o.end})
		}
	}
	return out
}

// around are spots beside a crossing.
func around(q pt) []spot {
	return []spot{
		{pt{q.x + 46, q.y - 1}, false}, {pt{q.x + 20, q.y - 12}, false}, {pt{q.x + 22, q.y + 22}, false}, {pt{q.x + 16, q.y - 34}, false}, {pt{q.x + 14, q.y + 40}, false},
		{pt{q.x + 30, q.y - 60}, false}, {pt{q.x - 16, q.y - 34}, true}, {pt{q.x - 18, q.y + 26}, true}, {pt{q.x + 11, q.y + 66}, false}, {pt{q.x - 12, q.y + 52}, true},
	}
}

// words label the crossings, and the curves where they run.
func (d *pumpDrawer) words() {
	w := d.c.Words
	full, quiet, system := d.cut(d.c.Full), d.cut(d.c.Quiet), d.cut(d.c.System)
	if p := d.c.Duty; p != nil {
		d.put(wording{"ch-title", w.Duty, w.DutyNote}, around(d.at(*p)))
	}
	if p := d.c.QuietDuty; p != nil && (d.c.Duty == nil || d.at(*p).to(d.at(*d.c.Duty)) > 40) {
		q, floor := d.at(*p), d.inner.hi.y-5
		if w.QuietNote != "" {
			floor -= 20
		}
		d.put(wording{"ch-title ch-lesser", w.QuietDuty, w.QuietNote}, append([]spot{{pt{q.x + 11, math.Min(q.y+66, floor)}, false}, {pt{q.x - 8, floor}, true}}, around(q)...))
	}
	over, under := spot{pt{6, -10}, false}, spot{pt{-4, 20}, true}
	d.put(wording{"ch-label", w.Full, ""}, along(full, []float64{0.1, 0.05, 0.15, 0.2, 0.02, 0.3}, over, under))
	d.put(wording{"ch-label", w.System, ""}, along(system, []float64{0.95, 0.9, 0.85, 0.8, 0.98, 0.7, 0.6, 0.5}, spot{pt{-14, -2}, true}, spot{pt{12, 12}, false}))
	d.put(wording{"ch-label", w.Quiet, ""}, along(quiet, []float64{0.15, 0.05, 0.01, 0.25, 0.8}, over, spot{pt{2, -20}, false}, spot{pt{2, 19}, false}))
	if d.c.EasyToX > d.c.EasyFromX {
		d.put(wording{"ch-easytext", w.Easy, ""}, along(d.easyPart(), []float64{0.15, 0.05, 0.3, 0.5, 0.7, 0.9}, spot{pt{16, -12}, false}, spot{pt{-16, 16}, true}))
	}
}

// easyPart is the stretch of the pump's curve along which it runs easily.
func (d *pumpDrawer) easyPart() []pt {
	var out []pt
	for _, p := range d.c.Full {
		if p.X >= d.c.EasyFromX && p.X <= d.c.EasyToX {
			out = append(out, d.at(p))
		}
	}
	return out
}
