package geom

import (
	"math"

	"tarnwright/internal/core/design"
)

// chordShare is the greatest distance of a curve from its chords over the
// diagonal of its bounding box, before the chords are moved out: 8e-5. What is
// left after that is at most two thirds of it, so 0.7 mm on a pond of 12 m and
// 4.6 mm on the largest. It follows the size, so that volume scales as k³
// exactly.
const chordShare = 8e-5

// drawn is an outline as vertices in its own frame. Of says which handle or
// vertex of the design an edge belongs to.
type drawn struct {
	pts     []vec
	of      []int
	handles []vec
	curved  bool
}

// draw turns an outline into vertices, in the order of the design.
func draw(o design.Outline) drawn {
	a, b := o.LengthM/2, o.WidthM/2
	switch o.Shape {
	case design.Rectangle:
		return corners([]vec{{-a, -b}, {a, -b}, {a, b}, {-a, b}})
	case design.LShape:
		x, y := a-o.NotchLengthM, b-o.NotchWidthM
		return corners([]vec{{-a, -b}, {a, -b}, {a, y}, {x, y}, {x, b}, {-a, b}})
	case design.Polygon:
		return corners(vecs(o.Vertices))
	case design.Freehand:
		return smooth(vecs(o.Handles))
	case design.Bean:
		return smooth(beanHandles(a, b))
	case design.RoundedRectangle:
		return rounded(a, b, min(o.CornerRadiusM, min(a, b)))
	}
	return oval(a, b)
}

func vecs(ps []design.Point) []vec {
	vs := make([]vec, len(ps))
	for i, p := range ps {
		vs[i] = vec{p.XM, p.YM}
	}
	return vs
}

func corners(vs []vec) drawn {
	of := make([]int, len(vs))
	for i := range of {
		of[i] = i
	}
	return drawn{pts: vs, of: of, handles: vs}
}

// oval is an ellipse by equal steps of its parameter: no chord is further
// from the curve than a(1−cos(π/n)) with a the greater half axis.
func oval(a, b float64) drawn {
	n := around(max(a, b), chordShare*2*math.Sqrt(float64(a*a)+float64(b*b)))
	d := drawn{curved: true, handles: make([]vec, 0, ovalRings)}
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d.pts = append(d.pts, vec{a * c, b * s})
		d.of = append(d.of, i*ovalRings/n)
	}
	for i := range ovalRings {
		s, c := math.Sincos(2 * math.Pi * float64(i) / ovalRings)
		d.handles = append(d.handles, vec{a * c, b * s})
	}
	return d
}

// ovalRings is how many handles an ellipse offers; a smooth curve through
// twelve of its points stays within 0.1 % of it.
const ovalRings = 12

// around returns how many steps, a multiple of four, keep the chords of a
// circle within tol.
func around(r, tol float64) int {
	n := 64.0
	if r > 0 && tol > 0 && tol < r {
		n = math.Pi / math.Acos(1-tol/r)
	}
	return 4 * int(math.Ceil(min(max(n, 32), 1024)/4))
}

func rounded(a, b, r float64) drawn {
	if r <= 0 {
		return corners([]vec{{-a, -b}, {a, -b}, {a, b}, {-a, b}})
	}
	n := max(4, around(r, chordShare*2*math.Sqrt(float64(a*a)+float64(b*b)))/4)
	centres := [4]vec{{a - r, b - r}, {r - a, b - r}, {r - a, r - b}, {a - r, r - b}}
	d := drawn{curved: true}
	for q, c := range centres {
		for i := 0; i <= n; i++ {
			sin, cos := quarterTurn(q, float64(i)/float64(n))
			p := vec{c.x + float64(r*cos), c.y + float64(r*sin)}
			if k := len(d.pts); k > 0 && p.minus(d.pts[k-1]).len() < 1e-9*a {
				continue // no straight side between two corners
			}
			d.pts = append(d.pts, p)
			d.of = append(d.of, 2*q+(i+n-1)/n)
			if i == 0 || i == n {
				d.handles = append(d.handles, p)
			}
		}
	}
	if last := len(d.pts) - 1; d.pts[last].minus(d.pts[0]).len() < 1e-9*a {
		d.pts, d.of = d.pts[:last], d.of[:last]
	}
	return d
}

// quarterTurn gives the sine and cosine of q quarter turns and a part of one,
// with exact zeros and ones at its ends.
func quarterTurn(q int, part float64) (sin, cos float64) {
	sin, cos = math.Sincos(part * math.Pi / 2)
	if part == 0 {
		sin, cos = 0, 1
	} else if part == 1 {
		sin, cos = 1, 0
	}
	for range q {
		sin, cos = cos, -sin
	}
	return sin, cos
}

// beanHandles returns the twelve handles of the bean: soft, a little fuller
// in the east, with its waist in the south. Its curve fills the box exactly.
func beanHandles(a, b float64) []vec {
	hs := []vec{
		{-1.00, 0.03}, {-0.87, -0.60}, {-0.47, -0.95}, {0.03, -0.56}, {0.50, -0.98}, {0.88, -0.61},
		{1.00, 0.05}, {0.85, 0.64}, {0.45, 0.97}, {-0.02, 0.90}, {-0.45, 0.94}, {-0.85, 0.60},
	}
	lo, hi := box(smooth(hs).pts)
	for i, h := range hs {
		hs[i] = vec{
			(2*(h.x-lo.x)/(hi.x-lo.x) - 1) * a,
			(2*(h.y-lo.y)/(hi.y-lo.y) - 1) * b,
		}
	}
	return hs
}

func box(pts []vec) (lo, hi vec) {
	lo, hi = vec{math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1)}
	for _, p := range pts {
		lo = vec{least(lo.x, p.x), least(lo.y, p.y)}
		hi = vec{most(hi.x, p.x), most(hi.y, p.y)}
	}
	return lo, hi
}

// smooth draws the closed uniform Catmull–Rom curve through the handles. From
// handle i to i+1 it is the cubic Bézier curve with inner points
// P_i + (P_{i+1} − P_{i−1})/6 and P_{i+1} − (P_{i+2} − P_i)/6.
//
// A cubic's second derivative is greatest at an end, so n equal steps keep
// within max|B″|/(8 n²) of it; n is chosen for that.
//
// Source: catmull1974.
// Checked: handles lie on the curve; the areas of the Catmull–Rom cases of
// reference/geometry.json.
func smooth(hs []vec) drawn {
	tol := chordShare * across(hs)
	n := len(hs)
	const usual = 40 // steps from one handle to the next
	d := drawn{handles: hs, curved: true, pts: make([]vec, 0, usual*n), of: make([]int, 0, usual*n)}
	for i := range n {
		p0, p1, p2, p3 := hs[(i+n-1)%n], hs[i], hs[(i+1)%n], hs[(i+2)%n]
		b1 := p1.plus(p2.minus(p0).times(1.0 / 6))
		b2 := p2.minus(p3.minus(p1).times(1.0 / 6))
		bend := most(p1.plus(b2).minus(b1.times(2)).len(), b1.plus(p2).minus(b2.times(2)).len()) * 6
		steps := 2
		if tol > 0 {
			steps = int(min(max(math.Ceil(math.Sqrt(bend/(8*tol))), 2), 96))
		}
		for k := range steps {
			d.pts = append(d.pts, bezier([4]vec{p1, b1, b2, p2}, float64(k)/float64(steps)))
			d.of = append(d.of, i)
		}
	}
	return d
}

// across is the greatest distance between two of the points, which is the
// same however they are turned.
func across(pts []vec) float64 {
	far2 := 0.0
	for i, p := range pts {
		for _, q := range pts[:i] {
			far2 = most(far2, p.minus(q).len2())
		}
	}
	return math.Sqrt(far2)
}

func bezier(b [4]vec, t float64) vec {
	u := 1 - t
	return b[0].times(u * u * u).plus(b[1].times(3 * u * u * t)).plus(b[2].times(3 * u * t * t)).plus(b[3].times(t * t * t))
}

// swell moves the vertices of a curve outward by two thirds of the height of
// its chords, so that the chords cut off as much as they add and the area is
// that of the curve.
//
// A chord of length h under a curve that turns by θ between chords is hθ/8
// high, the mean distance of its arc two thirds of that.
//
// Source: definition.
// Checked: areas of circle, ellipse and Catmull–Rom cases of
// reference/geometry.json.
func swell(pts []vec) []vec {
	n := len(pts)
	out := make([]vec, n)
	for i, p := range pts {
		before, after := p.minus(pts[(i+n-1)%n]), pts[(i+1)%n].minus(p)
		turn := math.Atan2(before.cross(after), before.dot(after))
		h := least(before.len(), after.len())
		if most(before.len(), after.len()) > 2*h {
			h = 0 // where a straight side begins, it would widen the side
		}
		outward := before.unit().plus(after.unit()).left().times(-1).unit()
		out[i] = p.plus(outward.times(turn * h / 12))
	}
	return out
}
