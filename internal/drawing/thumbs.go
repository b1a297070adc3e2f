package drawing

import (
	"math"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// Alike is the one scale at which several ponds fill pictures of the same
// size, so that a larger pond looks larger.
type Alike struct{ ScalePxPerM, WidthPx, HeightPx float64 }

// thumbMarginPx is the blank edge of a small picture.
const thumbMarginPx = 8.0

// AlikeOf finds the scale for plans in pictures of a width, no higher than a
// bound. Plans without water are passed over.
func AlikeOf(plans []sheet.Plan, widthPx, mostHighPx float64) Alike {
	a := Alike{ScalePxPerM: math.Inf(1), WidthPx: widthPx, HeightPx: mostHighPx}
	high := 0.0
	for _, p := range plans {
		if len(p.Rim) < 3 {
			continue
		}
		b := footprint(p)
		a.ScalePxPerM = math.Min(a.ScalePxPerM, (widthPx-2*thumbMarginPx)/b.wide())
		a.ScalePxPerM = math.Min(a.ScalePxPerM, (mostHighPx-2*thumbMarginPx)/b.high())
		high = math.Max(high, b.high())
	}
	if math.IsInf(a.ScalePxPerM, 1) {
		a.ScalePxPerM = 1
		return a
	}
	a.HeightPx = math.Ceil(high*a.ScalePxPerM + 2*thumbMarginPx)
	return a
}

// Thumb draws one of them, in the middle of its picture.
func (a Alike) Thumb(p sheet.Plan, o Options) Picture {
	if len(p.Rim) < 3 {
		return Picture{Node: blank(o)}
	}
	b := footprint(p)
	o.Look, o.WidthPx = Thumbnail, a.WidthPx
	o.View = &View{
		ScalePxPerM: a.ScalePxPerM,
		EastPx:      a.WidthPx/2 - a.ScalePxPerM*(b.lo.x+b.hi.x)/2,
		NorthPx:     a.HeightPx/2 + a.ScalePxPerM*(b.lo.y+b.hi.y)/2,
		WidthPx:     a.WidthPx, HeightPx: a.HeightPx, PlanHeightPx: a.HeightPx,
	}
	return Plan(p, o)
}

// footprint is what of a plan has to fit into a small picture, in metres.
func footprint(p sheet.Plan) box {
	d := &drawer{p: p, o: Options{Look: Thumbnail}}
	d.rimM = pts(p.Rim)
	d.wallM, d.beachM = splitRim(d.rimM, p.BeachFrom, p.BeachTo)
	d.zoneM, d.cascadeM, d.deckM = pts(p.Zone), pts(p.Cascade), pts(p.Deck)
	d.centre = middle(d.rimM)
	return d.bodyM()
}

// Key is the scale bar and the depth key of such pictures; the depth key
// reaches to the deepest of them.
func (a Alike) Key(deepM float64, o Options) (scale, depths markup.Node) {
	o = o.filled()
	d := &drawer{o: o}
	d.view.ScalePxPerM = a.ScalePxPerM
	box := func(wide float64, n ...markup.Node) markup.Node {
		return markup.E("svg", markup.Class("dr"), markup.A("viewBox", "0 0 "+px(wide)+" 36"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"), n)
	}
	return box(a.WidthPx, d.scaleBar(pt{8, 4})), box(keyCellPx*(deepestTone+1)+16, keyCells(deepM, o)...)
}

// keyCellPx is the width of a tone in the key beside small pictures.
const keyCellPx = 24.0

// keyCells are the tones down to a depth, each with the depth it begins at.
func keyCells(deepM float64, o Options) []markup.Node {
	const top, high, left = 2.0, 12.0, 8.0
	n := min(int(math.Ceil(deepM/o.DepthStepM-1e-6)), deepestTone+1)
	var kids []markup.Node
	for i := range n {
		var w pen
		a := left + float64(i)*keyCellPx
		w.ring([]pt{{a, top}, {a + keyCellPx, top}, {a + keyCellPx, top + high}, {a, top + high}})
		kids = append(kids, w.node(toneClass(i)), text("dr-fig", o.Words.Number(float64(i)*o.DepthStepM), pt{a, top + 28}, anchored("middle")))
	}
	var frame pen
	end := left + float64(n)*keyCellPx
	frame.ring([]pt{{left, top}, {end, top}, {end, top + high}, {left, top + high}})
	return append(kids, frame.node("dr-thin"))
}
