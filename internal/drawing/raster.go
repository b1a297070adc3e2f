package drawing

import (
	"math"
	"sort"
)

// raster is a coarse picture of what stands where, for questions that would
// take too long against the outlines themselves.
type raster struct {
	cell       float64 // px
	wide, high int
	load       []uint8
}

func newRaster(widthPx, heightPx, cellPx float64) raster {
	w, h := int(widthPx/cellPx)+1, int(math.Max(heightPx, 0)/cellPx)+1
	return raster{cellPx, w, h, make([]uint8, w*h)}
}

func (r *raster) add(i, j int, n uint8) {
	if i >= 0 && j >= 0 && i < r.wide && j < r.high {
		k := j*r.wide + i
		r.load[k] = max(r.load[k], n)
	}
}

// at is what stands at a place; outside the picture nothing does.
func (r *raster) at(q pt) uint8 {
	i, j := int(math.Floor(q.x/r.cell)), int(math.Floor(q.y/r.cell))
	if i < 0 || j < 0 || i >= r.wide || j >= r.high {
		return 0
	}
	return r.load[j*r.wide+i]
}

// area fills a closed line, row by row between its crossings.
func (r *raster) area(ring []pt, n uint8) {
	if len(ring) < 3 {
		return
	}
	span := noBox().all(ring, 0)
	var cross []float64
	for j := max(int(span.lo.y/r.cell), 0); j < r.high && float64(j)*r.cell <= span.hi.y; j++ {
		y := (float64(j) + 0.5) * r.cell
		cross = cross[:0]
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.y > y) != (b.y > y) {
				cross = append(cross, a.x+(b.x-a.x)*(y-a.y)/(b.y-a.y))
			}
		}
		sort.Float64s(cross)
		for k := 0; k+1 < len(cross); k += 2 {
			for i := int(math.Round(cross[k] / r.cell)); float64(i)*r.cell < cross[k+1]; i++ {
				r.add(i, j, n)
			}
		}
	}
}

// line marks all within a reach of an open line.
func (r *raster) line(chain []pt, reach float64, n uint8) {
	for i := 1; i < len(chain); i++ {
		steps := math.Ceil(chain[i-1].to(chain[i])/(r.cell+0.5*reach)) + 1
		for k := 0.0; k <= steps; k++ {
			r.disc(chain[i-1].mix(chain[i], k/steps), reach, n)
		}
	}
}

// disc marks a round; its centre's cell always counts.
func (r *raster) disc(c pt, radius float64, n uint8) {
	i0, j0 := int(math.Floor(c.x/r.cell)), int(math.Floor(c.y/r.cell))
	k := int(radius / r.cell)
	for j := j0 - k; j <= j0+k; j++ {
		for i := i0 - k; i <= i0+k; i++ {
			if d := (pt{float64(i - i0), float64(j - j0)}).times(r.cell); d.dot(d) <= radius*radius {
				r.add(i, j, n)
			}
		}
	}
}

// shape fills a closed line and all within a reach of it.
func (r *raster) shape(ring []pt, reach float64, n uint8) {
	if len(ring) < 3 {
		return
	}
	r.area(ring, n)
	r.line(append(append([]pt(nil), ring...), ring[0]), reach, n)
}

// under is how much stands in a rectangle; outside the picture counts most. It
// is counted no further than to enough.
func (r *raster) under(b box, enough float64) float64 {
	sum := 0
	for y := b.lo.y; y < b.hi.y+r.cell && float64(sum) < enough; y += r.cell {
		row, inside := -1, min(y, b.hi.y)
		if inside >= 0 {
			row = int(inside / r.cell)
		}
		for x := b.lo.x; x < b.hi.x+r.cell; x += r.cell {
			q := x
			if q > b.hi.x {
				q = b.hi.x
			}
			i := int(q / r.cell)
			if q < 0 || row < 0 || i >= r.wide || row >= r.high {
				sum += 50
				continue
			}
			sum += int(r.load[row*r.wide+i])
		}
	}
	return float64(sum)
}
