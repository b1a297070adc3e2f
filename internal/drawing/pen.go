package drawing

import (
	"math"
	"strconv"

	"tarnwright/internal/markup"
)

// pen writes path data with one decimal, in steps from point to point, so that
// thousands of marks fit in one short path. It counts in tenths of a pixel, so
// that rounding does not add up along the way.
type pen struct {
	data   []byte
	x, y   int // where the pen is
	sx, sy int // where the subpath began
}

func tenths(v float64) int { return int(math.Round(v * 10)) }

func (p *pen) empty() bool { return len(p.data) == 0 }

func (p *pen) num(n int) {
	last := byte(0)
	if len(p.data) > 0 {
		last = p.data[len(p.data)-1]
	}
	if n >= 0 && last >= '0' && last <= '9' {
		p.data = append(p.data, ' ')
	}
	p.data = appendTenths(p.data, n)
}

func appendTenths(b []byte, n int) []byte {
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	if n >= 10 || n == 0 {
		b = strconv.AppendInt(b, int64(n/10), 10)
	}
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

// px writes a length of the picture.
func px(v float64) string {
	var b [24]byte
	return string(appendTenths(b[:0], tenths(v)))
}

func (p *pen) step(q pt) {
	x, y := tenths(q.x), tenths(q.y)
	p.num(x - p.x)
	p.num(y - p.y)
}

func (p *pen) to(q pt) { p.x, p.y = tenths(q.x), tenths(q.y) }

func (p *pen) move(q pt) *pen {
	if p.data == nil {
		p.data = make([]byte, 0, 160) // most paths need no more
	}
	p.data = append(p.data, 'm')
	if len(p.data) == 1 {
		p.data[0] = 'M'
	}
	p.step(q)
	p.to(q)
	p.sx, p.sy = p.x, p.y
	return p
}

func (p *pen) line(q pt) *pen {
	x, y := tenths(q.x), tenths(q.y)
	switch {
	case y == p.y:
		p.data = append(p.data, 'h')
		p.num(x - p.x)
	case x == p.x:
		p.data = append(p.data, 'v')
		p.num(y - p.y)
	default:
		p.data = append(p.data, 'l')
		p.step(q)
	}
	p.to(q)
	return p
}

func (p *pen) quad(c, q pt) *pen {
	p.data = append(p.data, 'q')
	p.step(c)
	p.step(q)
	p.to(q)
	return p
}

func (p *pen) cubic(c, e, q pt) *pen {
	p.data = append(p.data, 'c')
	p.step(c)
	p.step(e)
	p.step(q)
	p.to(q)
	return p
}

// arc goes clockwise on the picture to q on a circle of radius r.
func (p *pen) arc(r float64, q pt) *pen {
	p.data = append(p.data, 'a')
	p.num(tenths(r))
	p.num(tenths(r))
	p.data = append(p.data, " 0 0 1"...)
	p.step(q)
	p.to(q)
	return p
}

func (p *pen) close() *pen {
	p.data = append(p.data, 'z')
	p.x, p.y = p.sx, p.sy
	return p
}

// dot is a mark as wide as the stroke; the stroke's round ends make it.
func (p *pen) dot(q pt) *pen {
	p.move(q)
	p.data = append(p.data, "h0"...)
	return p
}

// disc is a whole circle: one arc nearly all the way round, since a bed of
// gravel has hundreds of them.
func (p *pen) disc(c pt, r float64) *pen {
	p.move(pt{c.x - r, c.y})
	p.data = append(p.data, 'a')
	p.num(tenths(r))
	p.num(tenths(r))
	p.data = append(p.data, " 0 1 1 0 .1z"...)
	return p
}

func (p *pen) open(pts []pt) *pen {
	for i, q := range pts {
		if i == 0 {
			p.move(q)
		} else {
			p.line(q)
		}
	}
	return p
}

func (p *pen) ring(pts []pt) *pen {
	if len(pts) == 0 {
		return p
	}
	return p.open(pts).close()
}

// soft is a closed outline whose corners are rounded off; k is the part of
// each side that the rounding takes, at most a half.
func (p *pen) soft(pts []pt, k float64) *pen {
	n := len(pts)
	for i, b := range pts {
		a, c := pts[(i+n-1)%n], pts[(i+1)%n]
		if i == 0 {
			p.move(b.mix(a, k))
		} else {
			p.line(b.mix(a, k))
		}
		p.quad(b, b.mix(c, k))
	}
	return p.close()
}

// flow is an open smooth line through points.
func (p *pen) flow(pts []pt) *pen {
	n := len(pts)
	for i, b := range pts {
		if i == 0 {
			p.move(b)
			continue
		}
		a := pts[i-1]
		before, after := pts[max(i-2, 0)], pts[min(i+1, n-1)]
		p.cubic(a.plus(b.minus(before).times(1.0/6)), b.minus(after.minus(a).times(1.0/6)), b)
	}
	return p
}

// node is the path with its class, or nothing when nothing was drawn.
func (p *pen) node(class string, more ...markup.Attr) markup.Node {
	if p.empty() {
		return markup.None()
	}
	return markup.E("path", markup.Class(class), markup.A("d", string(p.data)), more)
}
