package drawing

import "math"

// busyCellPx is the grain at which the picture's free room is known.
const busyCellPx = 6.0

// busy is how full the picture is, cell by cell, so that words can stand where
// nothing else does.
type busy struct {
	wide, high int
	load       []uint8
}

func newBusy(widthPx, heightPx float64) busy {
	w, h := int(widthPx/busyCellPx)+1, int(heightPx/busyCellPx)+1
	return busy{w, h, make([]uint8, w*h)}
}

func (b *busy) add(i, j int, n uint8) {
	if i >= 0 && j >= 0 && i < b.wide && j < b.high {
		b.load[j*b.wide+i] = max(b.load[j*b.wide+i], n)
	}
}

// area fills a closed line; its edge counts too.
func (b *busy) area(ring []pt, n uint8) {
	if len(ring) < 3 {
		return
	}
	span := noBox().all(ring, 0)
	for j := int(span.lo.y / busyCellPx); float64(j)*busyCellPx <= span.hi.y; j++ {
		for i := int(span.lo.x / busyCellPx); float64(i)*busyCellPx <= span.hi.x; i++ {
			if (pt{(float64(i) + 0.5) * busyCellPx, (float64(j) + 0.5) * busyCellPx}).within(ring) {
				b.add(i, j, n)
			}
		}
	}
	b.line(append(append([]pt(nil), ring...), ring[0]), n)
}

func (b *busy) line(chain []pt, n uint8) {
	for i := 1; i < len(chain); i++ {
		steps := math.Ceil(chain[i-1].to(chain[i])/3) + 1
		for k := 0.0; k <= steps; k++ {
			q := chain[i-1].mix(chain[i], k/steps)
			b.add(int(math.Floor(q.x/busyCellPx)), int(math.Floor(q.y/busyCellPx)), n)
		}
	}
}

func (b *busy) disc(c pt, r float64) {
	ring := make([]pt, 16)
	for i := range ring {
		ring[i] = c.polar(r, float64(i)/16*2*math.Pi)
	}
	b.area(ring, 3)
}

// under is how much stands in a rectangle; outside the picture counts most.
func (b *busy) under(r box) float64 {
	sum := 0.0
	for y := r.lo.y; y < r.hi.y+busyCellPx; y += busyCellPx {
		for x := r.lo.x; x < r.hi.x+busyCellPx; x += busyCellPx {
			i, j := int(math.Floor(math.Min(x, r.hi.x)/busyCellPx)), int(math.Floor(math.Min(y, r.hi.y)/busyCellPx))
			if i < 0 || j < 0 || i >= b.wide || j >= b.high {
				sum += 50
				continue
			}
			sum += float64(b.load[j*b.wide+i])
		}
	}
	return sum
}

// survey marks everything that words should keep off.
func (d *drawer) survey() {
	d.busy = newBusy(d.view.WidthPx, d.view.PlanHeightPx)
	b := &d.busy
	b.area(d.all(d.rimM), 6)
	for _, s := range d.walk {
		b.line([]pt{d.at(s.at), d.at(s.at.plus(s.out.times(1.1 * d.unit)))}, 4)
		b.line([]pt{d.at(s.at.plus(s.out.times(1.3 * d.unit))), d.at(s.at.plus(s.out.times(2.4 * d.unit)))}, 1)
	}
	if len(d.beachM) > 1 {
		fan := d.all(d.beachM)
		for i := len(d.beachM) - 1; i >= 0; i-- {
			_, share := d.onBeach(d.beachM[i])
			reach := beachReachM * math.Sqrt(math.Max(0, 1-share*share))
			fan = append(fan, d.at(d.beachM[i].plus(d.beachM[i].minus(d.centre).unit().times(reach))))
		}
		b.area(fan, 3)
	}
	b.area(d.all(d.zoneM), 6)
	b.area(d.all(d.deckM), 6)
	if len(d.cascadeM) == 4 {
		q, wide, long := newQuad(d.cascadeM)
		e := d.unit
		b.area(d.all([]pt{q.at(-e, 0), q.at(wide+e, 0), q.at(wide+e, long), q.at(-e, long)}), 6)
	}
	b.line(d.all(d.suctionM), 5)
	b.line(d.all(d.dischargeM), 5)
	b.line([]pt{d.across.from, d.across.to}, 6)
	b.line([]pt{d.down.from, d.down.to}, 6)
	c := d.at(pt{d.p.Pump.X, d.p.Pump.Y})
	b.disc(c, 13)
	for _, t := range d.grove {
		b.disc(t.at, t.r*0.9)
	}
}

func (d *drawer) take(r box) { d.taken = append(d.taken, r) }

func (d *drawer) clear(r box) bool {
	for _, t := range d.taken {
		if t.meets(r) {
			return false
		}
	}
	return true
}
