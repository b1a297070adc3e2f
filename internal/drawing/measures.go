package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// furnitureHighPx is the row below the plan with north, scale and depth key.
const furnitureHighPx = 62.0

// measures draws the dimensions, north, the scale bar and the depth key.
func (d *drawer) measures() markup.Node {
	w := d.o.Words
	kids := []markup.Node{d.dimensionLine(d.across, w.LengthText), d.dimensionLine(d.down, w.WidthText)}
	if d.furnished() {
		y := d.view.PlanHeightPx - furnitureHighPx + 26
		kids = append(kids, d.northArrow(pt{40, y + 6}), d.scaleBar(pt{76, y}), d.depthKey(y-2))
	} else if d.o.Look == Phone {
		kids = append(kids, d.northArrow(pt{26, 40}))
	}
	return layer("dr-measures", kids...)
}

func (d *drawer) dimensionLine(m dimension, words string) markup.Node {
	if words == "" || m.from.to(m.to) < 1 {
		return markup.None()
	}
	var line, ext, tick pen
	dir := m.to.minus(m.from).unit()
	out := m.from.minus(m.fromEdge).unit()
	line.move(m.from.minus(dir.times(5))).line(m.to.plus(dir.times(5)))
	for _, e := range [][2]pt{{m.fromEdge, m.from}, {m.toEdge, m.to}} {
		if d.full() && e[0].to(e[1]) > 12 {
			ext.move(e[0].plus(out.times(6))).line(e[1].plus(out.times(4)))
		}
		slant := pt{3.2, -3.2}
		tick.move(e[1].minus(slant)).line(e[1].plus(slant))
		tick.move(e[1].minus(out.times(5))).line(e[1].plus(out.times(5)))
	}
	mid := m.from.mix(m.to, 0.5)
	turn := math.Atan2(dir.y, dir.x) * 180 / math.Pi
	if turn > 90 {
		turn -= 180
	} else if turn <= -89.9 {
		turn += 180
	}
	if turn > 89.9 {
		turn = -90
	}
	at := []markup.Attr{markup.A("text-anchor", "middle")}
	if math.Abs(turn) > 0.1 {
		at = append(at, markup.A("transform", "rotate("+px(turn)+" "+px(mid.x)+" "+px(mid.y)+")"))
	}
	half := wordsWide(words, sansPx) / 2
	d.take(box{mid.minus(pt{half, half}), mid.plus(pt{half, half})})
	return markup.E("g", ext.node("dr-extend"), line.node("dr-dim"), tick.node("dr-dim"),
		text("dr-fig dr-dimtext", words, pt{mid.x, mid.y + 4.5}, at...))
}

func (d *drawer) northArrow(c pt) markup.Node {
	if d.o.Words.North == "" {
		return markup.None()
	}
	var ring, needle, thin pen
	ring.disc(c, 12.5)
	needle.ring([]pt{{c.x, c.y - 18}, {c.x + 4.4, c.y + 5}, {c.x, c.y + 1.6}, {c.x - 4.4, c.y + 5}})
	thin.move(pt{c.x, c.y + 1.6}).line(pt{c.x, c.y + 12.5})
	return markup.E("g", ring.node("dr-thin"), needle.node("dr-head"), thin.node("dr-thin"),
		text("dr-north", d.o.Words.North, pt{c.x, c.y - 22}, markup.A("text-anchor", "middle")))
}

// scaleBar is the length in whole units that is nearest to 120 px, halved.
func (d *drawer) scaleBar(at pt) markup.Node {
	best := d.o.ScaleStepM
	for _, n := range []float64{1, 2, 4, 10, 20, 40, 100, 200, 400} {
		if l := n * d.o.ScaleStepM; math.Abs(l*d.view.ScalePxPerM-120) < math.Abs(best*d.view.ScalePxPerM-120) {
			best = l
		}
	}
	if d.o.Words.Length(best) == "" {
		return markup.None()
	}
	long := best * d.view.ScalePxPerM
	var frame, fill pen
	frame.ring([]pt{at, {at.x + long, at.y}, {at.x + long, at.y + 5}, {at.x, at.y + 5}})
	for _, k := range []float64{0, 0.5} {
		a, b := at.x+k*long, at.x+k*long+long*(0.25+0.5*k)
		if k > 0 {
			b = at.x + long
		}
		fill.ring([]pt{{a, at.y}, {b, at.y}, {b, at.y + 5}, {a, at.y + 5}})
	}
	mid := markup.A("text-anchor", "middle")
	y := at.y + 20
	return markup.E("g", frame.node("dr-scale"), fill.node("dr-head"),
		text("dr-fig", "0", pt{at.x, y}, mid),
		text("dr-fig", d.o.Words.Number(best/2), pt{at.x + long/2, y}, mid),
		text("dr-fig", d.o.Words.Length(best), pt{at.x + long, y}, mid))
}

// depthKey shows each tone with the depths between which it lies.
func (d *drawer) depthKey(y float64) markup.Node {
	if d.o.Words.Depth == "" {
		return markup.None()
	}
	n := min(int(math.Ceil(d.p.DeepM/d.o.DepthStepM-1e-6)), deepestTone+1)
	const wide, high = 32.0, 12.0
	x := d.view.WidthPx - 28 - float64(n)*wide
	kids := []markup.Node{text("dr-note", d.o.Words.Depth, pt{x - 10, y + 10}, markup.A("text-anchor", "end"))}
	var frame pen
	for i := range n {
		var w pen
		a := x + float64(i)*wide
		w.ring([]pt{{a, y}, {a + wide, y}, {a + wide, y + high}, {a, y + high}})
		kids = append(kids, w.node(toneClass(i)))
		words := d.o.Words.Number(float64(i) * d.o.DepthStepM)
		if zero := d.o.Words.Length(0); i == 0 && wordsWide(zero, sansPx) < wide+2 {
			words = zero
		}
		kids = append(kids, text("dr-fig", words, pt{a, y + 27}, markup.A("text-anchor", "middle")))
	}
	end := x + float64(n)*wide
	frame.ring([]pt{{x, y}, {end, y}, {end, y + high}, {x, y + high}})
	kids = append(kids, frame.node("dr-thin"))
	// A coarse number may repeat the last level's; said twice it would mislead.
	if words := d.o.Words.Number(d.p.DeepM); words != d.o.Words.Number(float64(n-1)*d.o.DepthStepM) {
		kids = append(kids, text("dr-fig", words, pt{end, y + 27}, markup.A("text-anchor", "middle")))
	}
	return markup.E("g", kids)
}
