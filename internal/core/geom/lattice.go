package geom

import (
	"math"
	"slices"
)

// lattice holds the distances to both parts of the rim at the crossings of a
// square grid in the outline's own frame; every contour is drawn from it.
type lattice struct {
	nx, ny int
	step   float64
	at     vec // of node 0, 0
	water  []bool
	far    [3][]float64 // by law; nil for a law that is not there
}

// latticeSteps is how many squares the longer side of the pond is cut into, and
// quickSteps where a finger waits for it.
const (
	latticeSteps = 96
	quickSteps   = 48
)

func (f *Field) lattice(steps float64) *lattice {
	r := f.rim
	l := &lattice{step: most(r.hi.x-r.lo.x, r.hi.y-r.lo.y) / steps}
	l.at = r.lo.minus(vec{1.5 * l.step, 1.5 * l.step})
	l.nx = int(math.Ceil((r.hi.x-r.lo.x)/l.step)) + 4
	l.ny = int(math.Ceil((r.hi.y-r.lo.y)/l.step)) + 4
	l.water = make([]bool, l.nx*l.ny)
	for j := range l.ny {
		l.flood(r.pts, j)
	}
	for s := range l.far {
		if !f.laws[s].there() {
			continue
		}
		l.far[s] = make([]float64, l.nx*l.ny)
		hint := 0
		// No contour lies further than where the law ends.
		reach := f.laws[s].bowl.at[len(f.laws[s].bowl.at)-1] + 3*l.step
		for j := range l.ny {
			for i := range l.nx {
				k := j*l.nx + i
				l.far[s][k] = l.step // land out of reach of any contour
				if l.near(i, j) {
					l.far[s][k], hint = f.laws[s].within(l.node(i, j), hint, reach)
				}
			}
		}
	}
	return l
}

func (l *lattice) node(i, j int) vec {
	return vec{l.at.x + float64(float64(i)*l.step), l.at.y + float64(float64(j)*l.step)}
}

// flood marks the nodes of one row that lie in the water.
func (l *lattice) flood(pts []vec, j int) {
	y := l.node(0, j).y
	var xs []float64
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.y > y) != (b.y > y) {
			xs = append(xs, a.x+float64((b.x-a.x)*(y-a.y)/(b.y-a.y)))
		}
	}
	slices.Sort(xs)
	for k := 0; k+1 < len(xs); k += 2 {
		for i := max(0, int(math.Floor((xs[k]-l.at.x)/l.step))); i < l.nx; i++ {
			x := l.node(i, j).x
			if x >= xs[k+1] {
				break
			}
			if x > xs[k] {
				l.water[j*l.nx+i] = true
			}
		}
	}
}

// near says whether a node is in the water or next to some.
func (l *lattice) near(i, j int) bool {
	for b := max(0, j-1); b <= min(l.ny-1, j+1); b++ {
		for a := max(0, i-1); a <= min(l.nx-1, i+1); a++ {
			if l.water[b*l.nx+a] {
				return true
			}
		}
	}
	return false
}

// roomOn fills phi with how far each node lies inside what is at least as deep
// as level; where that is zero runs the contour, and there it is straight
// enough to be drawn between nodes, however steep the bottom.
func (f *Field) roomOn(l *lattice, level float64, phi []float64) {
	var reach [3]float64
	for s := range reach {
		if f.laws[s].there() {
			reach[s] = most(f.laws[s].bowl.reach(level), 0)
		}
	}
	for j := range l.ny {
		for i := range l.nx {
			k := j*l.nx + i
			if !l.water[k] {
				phi[k] = l.onLand(k, reach)
				if f.flight != nil {
					phi[k] = least(phi[k], f.flight.room(level, l.node(i, j)))
				}
				continue
			}
			room := math.Inf(1)
			for s := range l.far {
				if l.far[s] != nil {
					room = least(room, l.far[s][k]-reach[s])
				}
			}
			if len(f.floor.at) > 0 {
				room = least(room, f.floor.above(level, l.node(i, j).dot(f.axis)))
			}
			if f.flight != nil {
				room = least(room, f.flight.room(level, l.node(i, j)))
			}
			phi[k] = room
		}
	}
}

// onLand carries the nearer part's law on across the rim, so that a contour
// close to it is placed as well as any other.
func (l *lattice) onLand(k int, reach [3]float64) float64 {
	land, room := math.Inf(1), 0.0
	for s := walled; s <= beach; s++ {
		if l.far[s] != nil && l.far[s][k] < land {
			land = l.far[s][k]
			room = -land - reach[s]
		}
	}
	return room
}
