package form

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/design"
)

// readPoints reads "x,y;x,y" in whole or decimal centimetres. Nothing at all
// is no points, and that is fine: a shape to start from stands in.
func readPoints(text string) ([]design.Point, bool) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, true
	}
	if len(text) > 2000 {
		return nil, false
	}
	var pts []design.Point
	for _, pair := range strings.Split(text, ";") {
		xs, ys, ok := strings.Cut(pair, ",")
		x, err1 := strconv.ParseFloat(strings.TrimSpace(xs), 64)
		y, err2 := strconv.ParseFloat(strings.TrimSpace(ys), 64)
		if !ok || err1 != nil || err2 != nil || !(math.Abs(x) <= 1e6 && math.Abs(y) <= 1e6) {
			return nil, false
		}
		pts = append(pts, design.Point{XM: tidy(x / 100), YM: tidy(y / 100)})
	}
	const fewest, most = 3, 40
	return pts, len(pts) >= fewest && len(pts) <= most
}

// writePoints writes points to the centimetre.
func writePoints(pts []design.Point) string {
	var b strings.Builder
	for i, p := range pts {
		if i > 0 {
			b.WriteByte(';')
		}
		b.WriteString(strconv.FormatFloat(math.Round(p.XM*100)+0, 'f', 0, 64))
		b.WriteByte(',')
		b.WriteString(strconv.FormatFloat(math.Round(p.YM*100)+0, 'f', 0, 64))
	}
	return b.String()
}

// handles are the points of a free shape, or a pebble to start from.
func handles(s State) []design.Point {
	pts, ok := readPoints(s.Word(Handles))
	if ok && len(pts) > 0 {
		return pts
	}
	// A pebble with one hollow side; only its proportions matter here.
	return []design.Point{
		{XM: 5.0, YM: 0.6}, {XM: 3.6, YM: 2.9}, {XM: 0.4, YM: 3.3}, {XM: -2.6, YM: 2.5},
		{XM: -4.9, YM: -0.2}, {XM: -3.3, YM: -2.9}, {XM: 0.3, YM: -1.9}, {XM: 3.4, YM: -2.8},
	}
}

// fitted scales points about the middle of their curve so that the curve is
// as long and as wide as asked. A size within a thousandth is left alone, so
// that nothing creeps while a ring is dragged.
func fitted(pts []design.Point, lengthM, widthM float64) []design.Point {
	lo, hi := bounds(pts)
	kx, ky := ratio(lengthM, hi.XM-lo.XM), ratio(widthM, hi.YM-lo.YM)
	cx, cy := (lo.XM+hi.XM)/2, (lo.YM+hi.YM)/2
	out := make([]design.Point, len(pts))
	for i, p := range pts {
		out[i] = design.Point{XM: scaled(p.XM, cx, kx), YM: scaled(p.YM, cy, ky)}
	}
	return out
}

func scaled(x, centre, k float64) float64 {
	if k == 1 {
		return x
	}
	return tidy(centre + float64(k*(x-centre)))
}

func ratio(want, is float64) float64 {
	k := want / is
	if !(is > 0) || math.Abs(k-1) < 1e-3 {
		return 1
	}
	return k
}

// bounds is the bounding box of the closed uniform Catmull–Rom curve through
// the points: each span is a cubic, so its ends and the zeros of its slope
// are enough.
func bounds(pts []design.Point) (lo, hi design.Point) {
	xs, ys := make([]float64, len(pts)), make([]float64, len(pts))
	for i, p := range pts {
		xs[i], ys[i] = p.XM, p.YM
	}
	lo.XM, hi.XM = reach(xs)
	lo.YM, hi.YM = reach(ys)
	return lo, hi
}

// reach is the least and the greatest of one coordinate along the curve.
func reach(p []float64) (lo, hi float64) {
	n := len(p)
	if n == 0 {
		return 0, 0
	}
	lo, hi = p[0], p[0]
	for i := range p {
		p0, p1, p2, p3 := p[(i+n-1)%n], p[i], p[(i+1)%n], p[(i+2)%n]
		// The span is p1 + b t + c t² + a t³.
		b := (p2 - p0) / 2
		c := p0 - 2.5*p1 + 2*p2 - p3/2
		a := (p3-p0)/2 + 1.5*(p1-p2)
		lo, hi = math.Min(lo, p1), math.Max(hi, p1)
		for _, t := range turns(a, b, c) {
			x := p1 + t*(b+t*(c+t*a))
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	return lo, hi
}

// turns are the places in 0…1 where b + 2 c t + 3 a t² is nought.
func turns(a, b, c float64) []float64 {
	var found []float64
	keep := func(t float64) {
		if t > 0 && t < 1 {
			found = append(found, t)
		}
	}
	if math.Abs(a) < 1e-12 {
		if c != 0 {
			keep(-b / (2 * c))
		}
		return found
	}
	disc := c*c - 3*a*b
	if disc < 0 {
		return nil
	}
	root := math.Sqrt(disc)
	keep((-c + root) / (3 * a))
	keep((-c - root) / (3 * a))
	return found
}
