package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// turned brings places along and across a line onto the picture.
type turned struct{ at, dir pt }

func (t turned) pt(along, across float64) pt {
	return t.at.plus(t.dir.times(along)).plus(t.dir.left().times(across))
}

func (t turned) ring(w *pen, places ...[2]float64) {
	var out []pt
	for _, p := range places {
		out = append(out, t.pt(p[0], p[1]))
	}
	w.ring(out)
}

// partMark is the symbol of a part in a line that runs in a direction; a plain
// pipe has none.
func partMark(k PartKind, at, dir pt) markup.Node {
	t := turned{at, dir}
	var body, solid, bars pen
	switch k {
	case ValvePart:
		t.ring(&body, [2]float64{-12, -8}, [2]float64{12, 8}, [2]float64{12, -8}, [2]float64{-12, 8})
		solid.disc(at, 3)
	case CheckPart, FootPart:
		t.ring(&body, [2]float64{-9, -9}, [2]float64{8, 0}, [2]float64{-9, 9})
		bars.move(t.pt(9, -9)).line(t.pt(9, 9))
		if k == FootPart {
			for _, u := range []float64{-13, -16} {
				bars.move(t.pt(u, -8)).line(t.pt(u, 8))
			}
		}
	case TeePart:
		up := pt{0, -1}
		if math.Abs(dir.x) < 0.5 {
			up = pt{-1, 0}
		}
		a, b := at.plus(up.times(3)), at.plus(up.times(17))
		side := up.left()
		bars.move(a).line(b).move(b.plus(side.times(6))).line(b.minus(side.times(6)))
		body.disc(at, 4)
	case UnionPart:
		for _, u := range []float64{-3, 3} {
			bars.move(t.pt(u, -8)).line(t.pt(u, 8))
		}
	}
	return markup.E("g", body.node("ch-part"), solid.node("ch-solid"), bars.node("ch-stop"))
}

// pumpMark is a circle with a triangle the way the water leaves.
func pumpMark(at, dir pt) markup.Node {
	var body, mark pen
	body.disc(at, 17)
	t := turned{at, dir}
	t.ring(&mark, [2]float64{16, 0}, [2]float64{-8, -14}, [2]float64{-8, 14})
	return markup.E("g", body.node("ch-part"), mark.node("ch-solid"))
}

// grate is the intake's mouth.
func grate(at pt) markup.Node {
	var body, bars pen
	body.ring([]pt{{at.x - 6, at.y - 8}, {at.x + 6, at.y - 8}, {at.x + 6, at.y + 8}, {at.x - 6, at.y + 8}})
	for _, x := range []float64{-2, 2} {
		bars.move(pt{at.x + x, at.y - 8}).line(pt{at.x + x, at.y + 8})
	}
	return markup.E("g", body.node("ch-part"), bars.node("ch-tick"))
}

// Places of the list, in px.
const (
	listPipe  = 34.0
	listWords = 82.0
	listApart = 12.0
	listPond  = 30.0
)

// down is the schematic as a list that the water runs down, for a phone.
func (c Schematic) down() markup.Node {
	var pipe, heads pen
	var marks, words []markup.Node
	y := listPond + 14
	lines := c.Lines
	last := make([]float64, 0, len(c.Parts))
	for _, p := range c.Parts {
		high := math.Max(40, lineHigh*float64(1+len(p.Notes))+18)
		mid := y + high/2
		words = append(words, c.listed(p, mid)...)
		switch p.Kind {
		case PumpPart:
			lines = 1
			for i := range c.Lines {
				marks = append(marks, pumpMark(pt{listPipe + (2*float64(i)-float64(c.Lines-1))*13, mid}, pt{0, 1}))
			}
		case GravelPart, LipPart, JetPart, ReturnPart:
			marks = append(marks, endMark(p.Kind, pt{listPipe, mid}))
		case IntakePart:
			marks = append(marks, grate(pt{listPipe, mid}))
		default:
			for i := range lines {
				x := c.listLine(lines, i)
				marks = append(marks, partMark(p.Kind, pt{x, mid}, pt{0, 1}))
				if p.Kind == SuctionPart || p.Kind == DischargePart {
					arrowhead(&heads, []pt{{x, mid - 10}, {x, mid + 10}}, 0.5)
				}
			}
		}
		last = append(last, mid)
		y += high
	}
	c.listPipes(&pipe, last)
	surface := []markup.Node{
		rect("ch-pond", pt{0, 0}, pt{c.WidthPx, listPond}), rect("ch-pond", pt{0, y + 14}, pt{c.WidthPx, y + 14 + listPond}),
		text("ch-quietly", c.WaterLine, pt{listWords, listPond - 10}), text("ch-quietly", c.WaterLine, pt{listWords, y + 14 + listPond - 10})}
	kids := append(surface, pipe.node("ch-pipe"), pipe.node("ch-bore"), heads.node("ch-solid"))
	kids = append(append(kids, marks...), words...)
	return c.frame(c.WidthPx, y+14+listPond, kids...)
}

// listLine is where one of a few lines side by side runs.
func (c Schematic) listLine(lines, i int) float64 {
	return listPipe + listApart*(2*float64(i)-float64(lines-1))
}

// listPipes draws the pipe from the pond above to the pond below; mids are the
// middles of the parts.
func (c Schematic) listPipes(w *pen, mids []float64) {
	pump, last := 0, len(mids)-1
	for i, p := range c.Parts {
		if p.Kind == PumpPart {
			pump = i
		}
	}
	if last < 0 {
		return
	}
	w.open([]pt{{listPipe, listPond / 2}, {listPipe, mids[0]}})
	for i := range c.Lines {
		x := c.listLine(c.Lines, i)
		w.open([]pt{{listPipe, mids[0]}, {x, mids[0] + 14}, {x, mids[pump] - 20}, {listPipe + (x-listPipe)*13/listApart, mids[pump]}})
		if c.Lines > 1 {
			w.open([]pt{{listPipe + (x-listPipe)*13/listApart, mids[pump]}, {listPipe, mids[pump] + 28}})
		}
	}
	w.open([]pt{{listPipe, mids[pump] + 26*float64(min(c.Lines-1, 1))}, {listPipe, mids[last] + 30}})
}

func (c Schematic) listed(p SchematicPart, mid float64) []markup.Node {
	at := pt{listWords, mid - lineHigh*float64(len(p.Notes))/2 + 4.5}
	out := []markup.Node{text("ch-label", p.Name, at)}
	for _, n := range p.Notes {
		at.y += lineHigh
		out = append(out, text("ch-note", n, at))
	}
	return out
}

// endMark is what the water comes back through, beside the list.
func endMark(k PartKind, at pt) markup.Node {
	var body, dots, water pen
	switch k {
	case GravelPart:
		body.ring([]pt{{at.x - 22, at.y - 13}, {at.x + 22, at.y - 13}, {at.x + 22, at.y + 13}, {at.x - 22, at.y + 13}})
		for i := range 14 {
			dots.disc(pt{at.x - 18 + float64(i*17%37), at.y - 9 + float64(i*11%19)}, 1.4)
		}
		return markup.E("g", body.node("ch-gravel"), dots.node("ch-grain"))
	case LipPart:
		body.ring([]pt{{at.x - 22, at.y - 6}, {at.x + 6, at.y - 6}, {at.x + 6, at.y + 10}, {at.x - 22, at.y + 10}})
		water.move(pt{at.x - 22, at.y - 12}).line(pt{at.x + 8, at.y - 12}).quad(pt{at.x + 20, at.y - 8}, pt{at.x + 22, at.y + 16}).
			line(pt{at.x + 12, at.y + 16}).quad(pt{at.x + 11, at.y - 4}, pt{at.x + 6, at.y - 6}).line(pt{at.x - 22, at.y - 6}).close()
		return markup.E("g", body.node("ch-part"), water.node("ch-sheet"))
	case JetPart:
		for _, dx := range []float64{-12, 0, 12} {
			water.move(pt{at.x, at.y}).line(pt{at.x + dx, at.y + 14})
		}
		body.disc(at, 5)
		return markup.E("g", water.node("ch-tick"), body.node("ch-part"))
	}
	return markup.None()
}
