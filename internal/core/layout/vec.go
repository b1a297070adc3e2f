package layout

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
)

// vec is a place or a direction on the plan, in metres.
type vec struct{ x, y float64 }

func (a vec) plus(b vec) vec      { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec     { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(k float64) vec { return vec{a.x * k, a.y * k} }
func (a vec) dot(b vec) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) cross(b vec) float64 { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a vec) len() float64        { return math.Sqrt(a.dot(a)) }
func (a vec) left() vec           { return vec{-a.y, a.x} }
func (a vec) to(b vec, k float64) vec {
	return vec{a.x + float64((b.x-a.x)*k), a.y + float64((b.y-a.y)*k)}
}

func (a vec) unit() vec {
	l := a.len()
	if l == 0 {
		return vec{}
	}
	return vec{a.x / l, a.y / l}
}

// from returns how far p is from the straight stretch a to b.
func (p vec) from(a, b vec) float64 {
	d := b.minus(a)
	k := 0.0
	if l := d.dot(d); l > 0 {
		k = math.Min(math.Max(p.minus(a).dot(d)/l, 0), 1)
	}
	return p.minus(a.plus(d.times(k))).len()
}

func of(p design.Point) vec      { return vec{p.XM, p.YM} }
func xy(p design.Point) sheet.XY { return sheet.XY{X: p.XM, Y: p.YM} }
func compass(bearing float64) vec {
	return vec{math.Sin(bearing * math.Pi / 180), math.Cos(bearing * math.Pi / 180)}
}

func xys(ps []design.Point) []sheet.XY {
	out := make([]sheet.XY, len(ps))
	for i, p := range ps {
		out[i] = xy(p)
	}
	return out
}

func xyOf(vs []vec) []sheet.XY {
	if len(vs) == 0 {
		return nil
	}
	out := make([]sheet.XY, len(vs))
	for i, v := range vs {
		out[i] = sheet.XY{X: v.x, Y: v.y}
	}
	return out
}
