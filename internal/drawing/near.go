package drawing

import "math"

// Near is the part of a picture that is seen: so many times as large, about a
// place given as shares of its width and height. The zero value is all of it.
type Near struct{ Times, XShare, YShare float64 }

// window is the part in px, kept within the picture.
func (n Near) window(v View) [4]float64 {
	if n.Times <= 1 {
		return [4]float64{}
	}
	w, h := v.WidthPx/n.Times, v.HeightPx/n.Times
	hold := func(middle, long, all float64) float64 { return math.Min(math.Max(middle-long/2, 0), all-long) }
	return [4]float64{hold(n.XShare*v.WidthPx, w, v.WidthPx), hold(n.YShare*v.HeightPx, h, v.HeightPx), w, h}
}
