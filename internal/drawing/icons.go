package drawing

import "tarnwright/internal/markup"

// ShapeIcon is the small picture of an outline, by the name that a design
// gives it.
func ShapeIcon(shape string) markup.Node {
	var d string
	switch shape {
	case "bean":
		d = "M2.5 12C2.5 6 6.5 2.2 11.5 3.2c3.300.7 6.700.8 10 0C27 1.900 33.5 5.5 33.5 12.2c0 6.300-5.5 9.800-10.700 7.600-3.2-1.400-5.300-1.5-8.5 0C8.5 22.5 2.5 18.300 2.5 12z"
	case "ellipse":
		d = "M2.5 12c0-5.2 6.900-9.400 15.5-9.400s15.5 4.2 15.5 9.400-6.900 9.400-15.5 9.400S2.5 17.2 2.5 12z"
	case "circle":
		d = "M8 12a10 10 0 1 0 20 0a10 10 0 1 0-20 0z"
	case "rounded_rectangle":
		d = "M8.5 6h19a6 6 0 0 1 0 12h-19a6 6 0 0 1 0-12z"
	case "rectangle":
		d = "M3 5h30v14H3z"
	case "l_shape":
		d = "M4 3h13v8h15v10H4z"
	case "freehand", "polygon":
		d = "M4 15c-2.5-4 .5-8 5-7.5C12.5 8 13 3.5 17.5 2.800c4-.6 5.5 2.700 9 3.2 5 .7 8 4.5 5.5 8.5-1.700 2.700-4.5 2-6 4.5-2 3.2-7 3.5-10 1.2C12.5 17.700 6.5 19 4 15z"
	default:
		return markup.None()
	}
	return markup.E("svg", markup.Class("ch-shape"), markup.A("viewBox", "0 0 36 24"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"),
		markup.E("path", markup.A("d", d)))
}

// Unbegun is the dotted outline of a pond that nobody has drawn yet.
func Unbegun() markup.Node {
	const d = "M3 68C3 33 30 12 65 13c14 .4 26 6 44 6s31-6 47-6c35 0 54 25 54 58 0 36-15 58-46 65-21 4.500-30-29-57-29s-30 33-54 30C22 133 3 103 3 68z"
	return markup.E("svg", markup.Class("dr-unbegun"), markup.A("viewBox", "0 0 213 141"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"),
		markup.E("path", markup.A("d", d)))
}

// DepthTrack is the track of a depth slider: each stretch has the tone of its
// depth, so that the handle stands on the colour it gives.
type DepthTrack struct{ LeastM, MostM, StepM float64 }

// Node draws the track, stretched to the room it gets.
func (t DepthTrack) Node() markup.Node {
	const wide, high = 228.0, 10.0
	var kids []markup.Node
	for k := 0; k <= deepestTone && t.StepM > 0 && t.MostM > t.LeastM; k++ {
		from, to := float64(k)*t.StepM, float64(k+1)*t.StepM
		if k == deepestTone {
			to = t.MostM
		}
		from, to = max(from, t.LeastM), min(to, t.MostM)
		if to <= from {
			continue
		}
		x := span{t.LeastM, t.MostM, 0, wide}
		kids = append(kids, rect(toneClass(k), pt{x.at(from), 0}, pt{x.at(to), high}))
	}
	return markup.E("svg", markup.Class("dr dr-track"), markup.A("viewBox", "0 0 228 10"), markup.A("preserveAspectRatio", "none"),
		markup.A("aria-hidden", "true"), markup.A("focusable", "false"), kids)
}
