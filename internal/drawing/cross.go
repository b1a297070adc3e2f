package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
)

// firstInside returns how far along a line one first comes into any of the
// rings and stays there for a while.
func firstInside(from, dir pt, rings [][]sheet.XY) (atM float64, ok bool) {
	best := math.Inf(1)
	for _, r := range rings {
		ring := pts(r)
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			sa, sb := dir.cross(a.minus(from)), dir.cross(b.minus(from))
			if (sa <= 0) == (sb <= 0) {
				continue
			}
			if t := a.mix(b, sa/(sa-sb)).minus(from).dot(dir); t > 0 {
				best = math.Min(best, t)
			}
		}
	}
	return best, !math.IsInf(best, 1)
}
