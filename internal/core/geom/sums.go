package geom

import "math"

// sums gathers what the strips hold, by layers between levels.
type sums struct {
	levels        []float64 // rising, the first 0
	last          int       // the layer looked up last
	layerArea     []float64 // plan area of the bottom between level k and k+1
	layerVolume   []float64 // volume above that bottom
	area, volume  float64
	surface, face float64
	flat, floor   float64
	treads        float64
	deepest       float64
}

// flatSlope is the steepest bottom on which gravel lies: 1 in 3, common
// practice, no source.
const flatSlope = 1.0/3 + 1e-9

func newSums(levels []float64) *sums {
	n := len(levels)
	return &sums{levels: levels, layerArea: make([]float64, n), layerVolume: make([]float64, n), deepest: -1}
}

// runLooks is how many looks a summed stretch counts for.
const runLooks = 10

// add sums a stretch on which the bottom is straight.
func (w *walker) add(a, b float64, l line) {
	s := w.s
	w.f.all.looked(runLooks)
	s.deepest = most(s.deepest, most(l.a, l.b))
	area := w.layers(run{a, b, l.a, l.b})
	s.area += area
	s.surface += float64(area * math.Sqrt(1+float64(l.slope*l.slope)))
	switch {
	case l.what == onTread:
		s.treads += area
	case math.Abs(l.slope) <= flatSlope:
		s.flat += area
	}
	if l.what == onFloor {
		s.floor += area
	}
}

// run is a straight bottom from t to u, with the depth at either.
type run struct{ t, u, depthT, depthU float64 }

// layers splits a straight stretch at the levels, from its shallow end down,
// and returns its area.
func (w *walker) layers(r run) (area float64) {
	s := w.s
	k := s.layer(least(r.depthT, r.depthU))
	for ; k+1 < len(s.levels) && s.levels[k+1] < most(r.depthT, r.depthU); k++ {
		level := s.levels[k+1]
		m := r.t + float64((r.u-r.t)*(level-r.depthT)/(r.depthU-r.depthT))
		if r.depthU < r.depthT {
			area += s.put(w.st, k, run{m, r.u, level, r.depthU})
			r.u, r.depthU = m, level
		} else {
			area += s.put(w.st, k, run{r.t, m, r.depthT, level})
			r.t, r.depthT = m, level
		}
	}
	return area + s.put(w.st, k, r)
}

// layer returns the layer a depth lies in: the last level not below it. The
// search starts where the last one ended.
func (s *sums) layer(depth float64) int {
	k := s.last
	for k > 0 && s.levels[k]-levelSlack(s.levels[k]) > depth {
		k--
	}
	for k+1 < len(s.levels) && s.levels[k+1]-levelSlack(s.levels[k+1]) <= depth {
		k++
	}
	s.last = k
	return k
}

// put adds a run to a layer and returns its area. Width is at most of second
// degree in t and depth of first, so three points are exact.
func (s *sums) put(st *strip, k int, r run) (area float64) {
	if r.u <= r.t {
		return 0
	}
	wt, wm, wu := st.width(r.t), st.width((r.t+r.u)/2), st.width(r.u)
	sixth := (r.u - r.t) / 6
	area = sixth * (wt + float64(4*wm) + wu)
	v := sixth * (float64(wt*r.depthT) + float64(2*wm*(r.depthT+r.depthU)) + float64(wu*r.depthU))
	s.layerArea[k] += area
	s.layerVolume[k] += v
	s.volume += v
	return area
}
