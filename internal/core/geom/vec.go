package geom

import (
	"math"

	"tarnwright/internal/core/design"
)

// vec is a place or a direction in the outline's own frame, in metres.
type vec struct{ x, y float64 }

func (a vec) plus(b vec) vec      { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec     { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(k float64) vec { return vec{a.x * k, a.y * k} }
func (a vec) dot(b vec) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) cross(b vec) float64 { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a vec) len2() float64       { return a.dot(a) }
func (a vec) len() float64        { return math.Sqrt(a.dot(a)) }
func (a vec) left() vec           { return vec{-a.y, a.x} }
func (a vec) to(b vec, k float64) vec {
	return vec{a.x + float64((b.x-a.x)*k), a.y + float64((b.y-a.y)*k)}
}

// unit returns a in length one, or zero for zero.
func (a vec) unit() vec {
	l := a.len()
	if l == 0 {
		return vec{}
	}
	return vec{a.x / l, a.y / l}
}

// frame takes the outline's own frame to the plan: turned, then moved.
type frame struct {
	cos, sin float64
	at       vec
}

func newFrame(o design.Outline) frame {
	// A right angle is turned without the rounding of sine and cosine.
	cos, sin := math.Cos(o.RotationDeg*math.Pi/180), math.Sin(o.RotationDeg*math.Pi/180)
	switch math.Mod(math.Mod(o.RotationDeg, 360)+360, 360) {
	case 0:
		cos, sin = 1, 0
	case 90:
		cos, sin = 0, 1
	case 180:
		cos, sin = -1, 0
	case 270:
		cos, sin = 0, -1
	}
	return frame{cos, sin, vec{o.CentreXM, o.CentreYM}}
}

func (f frame) turn(v vec) vec {
	return vec{float64(v.x*f.cos) - float64(v.y*f.sin), float64(v.x*f.sin) + float64(v.y*f.cos)}
}

func (f frame) turnBack(v vec) vec {
	return vec{float64(v.x*f.cos) + float64(v.y*f.sin), float64(v.y*f.cos) - float64(v.x*f.sin)}
}

func (f frame) out(v vec) design.Point {
	p := f.turn(v).plus(f.at)
	return design.Point{XM: p.x, YM: p.y}
}

func (f frame) in(p design.Point) vec {
	return f.turnBack(vec{p.XM, p.YM}.minus(f.at))
}

func (f frame) outAll(vs []vec) []design.Point {
	ps := make([]design.Point, len(vs))
	for i, v := range vs {
		ps[i] = f.out(v)
	}
	return ps
}

// compass is the direction of a compass bearing on the plan.
func compass(bearingDeg float64) vec {
	a := bearingDeg * math.Pi / 180
	return vec{math.Sin(a), math.Cos(a)}
}

// least and most are min and max of two numbers as a comparison, which is
// several times faster than the built-in ones where those are calls.
func least(a, b float64) float64 {
	if b < a {
		return b
	}
	return a
}

func most(a, b float64) float64 {
	if b > a {
		return b
	}
	return a
}
