package geom

import (
	"fmt"
	"math"

	"tarnwright/internal/core/design"
)

// CrossingError says where an outline meets itself.
type CrossingError struct {
	At design.Point // on the plan
	// First and Second are the handles (or vertices), counted from 0, whose
	// stretches to the next one meet.
	First, Second int
}

// Error names the place in metres.
func (e *CrossingError) Error() string {
	return fmt.Sprintf("the outline crosses itself at %.3f m east, %.3f m north, after handles %d and %d",
		e.At.XM, e.At.YM, e.First+1, e.Second+1)
}

// crossing finds the first place where two edges that are not neighbours
// meet, or where an edge folds back on its neighbour. Edges are swept from
// west to east so that only those side by side are compared.
func (r Rim) crossing() error {
	n := len(r.pts)
	west, east := make([]vec, n), make([]float64, n)
	for i := range n {
		a, b := r.pts[i], r.pts[(i+1)%n]
		west[i], east[i] = vec{x: least(a.x, b.x)}, most(a.x, b.x)
	}
	order := inOrder(west)
	for k, i := range order {
		for _, j := range order[k+1:] {
			if west[j].x > east[i] {
				break
			}
			if at, meet := r.meet(min(i, j), max(i, j)); meet {
				return &CrossingError{At: r.frame.out(at), First: r.of[min(i, j)], Second: r.of[max(i, j)]}
			}
		}
	}
	return nil
}

// meet returns where edges i < j meet, other than at the vertex they share.
func (r Rim) meet(i, j int) (vec, bool) {
	n := len(r.pts)
	a, b := r.pts[i], r.pts[(i+1)%n]
	c, d := r.pts[j], r.pts[(j+1)%n]
	if j == i+1 || (i == 0 && j == n-1) {
		u, v := b.minus(a), d.minus(c)
		folds := u.dot(v) < 0 && math.Abs(u.cross(v)) <= 1e-9*u.len()*v.len()
		if j == i+1 {
			return b, folds
		}
		return a, folds
	}
	if most(a.y, b.y) < least(c.y, d.y) || most(c.y, d.y) < least(a.y, b.y) {
		return vec{}, false
	}
	u, v := b.minus(a), d.minus(c)
	c0, c1 := u.cross(c.minus(a)), u.cross(d.minus(a))
	a0, a1 := v.cross(a.minus(c)), v.cross(b.minus(c))
	if (c0 > 0 && c1 > 0) || (c0 < 0 && c1 < 0) || (a0 > 0 && a1 > 0) || (a0 < 0 && a1 < 0) {
		return vec{}, false
	}
	if c0 == c1 { // both on one line: they meet where they overlap
		lo, hi := 0.0, u.len2()
		s, t := u.dot(c.minus(a)), u.dot(d.minus(a))
		lo, hi = most(lo, least(s, t)), least(hi, most(s, t))
		return a.plus(u.times(lo / u.len2())), lo <= hi && c0 == 0
	}
	return c.to(d, c0/(c0-c1)), true
}
