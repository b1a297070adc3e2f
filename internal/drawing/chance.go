package drawing

import "math"

// chance is a row of numbers that looks random and depends only on where it
// was sown, so that what stands at a place looks the same in every picture.
type chance struct{ state uint64 }

// sow starts a row for a square of the plan; salt keeps stones and leaves of
// one square apart.
func sow(salt uint64, i, j int) chance {
	c := chance{salt*0x9e3779b97f4a7c15 ^ uint64(int64(i))*0xbf58476d1ce4e5b9 ^ uint64(int64(j))*0x94d049bb133111eb}
	c.next()
	return c
}

// next is the splitmix64 step, from memory.
func (c *chance) next() uint64 {
	c.state += 0x9e3779b97f4a7c15
	z := c.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// part is a number from 0 up to 1.
func (c *chance) part() float64 { return float64(c.next()>>11) / (1 << 53) }

// span is a number from a up to b.
func (c *chance) span(a, b float64) float64 { return a + (b-a)*c.part() }

// pick is a whole number from 0 up to n.
func (c *chance) pick(n int) int { return int(c.next() % uint64(n)) }

func cellOf(p pt, size float64) (i, j int) {
	return int(math.Floor(p.x / size)), int(math.Floor(p.y / size))
}

// drift is a soft number from 0 to 1 that changes over the plan with the given
// grain: it gathers plants in groups.
func drift(salt uint64, p pt, grain float64) float64 {
	i, j := cellOf(p, grain)
	u, v := p.x/grain-float64(i), p.y/grain-float64(j)
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	at := func(a, b int) float64 { c := sow(salt, i+a, j+b); return c.part() }
	lo := at(0, 0)*(1-u) + at(1, 0)*u
	hi := at(0, 1)*(1-u) + at(1, 1)*u
	return lo*(1-v) + hi*v
}
