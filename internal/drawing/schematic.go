package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// Schematic is the pipework in order of flow: out of the pond, through the
// pumps, and back. It keeps no scale; the words give the sizes.
type Schematic struct {
	Caption
	WidthPx float64 // 0 takes 800; below 560 it runs down the page
	Parts   []SchematicPart
	Lines   int // suction lines side by side, one to a pump
	Pumps   PumpPlace
	// WaterLine stands at the pond's level, Lift at the height to the lip.
	WaterLine, Lift string
}

// SchematicPart is one thing that the water passes, with its words.
type SchematicPart struct {
	Kind  PartKind
	Name  string
	Notes []string
}

// PartKind is how a part is drawn.
type PartKind string

// The kinds. A part with a kind of its own stands for itself; fittings without
// a symbol are told in the words of their pipe.
const (
	IntakePart    PartKind = "intake"
	SuctionPart   PartKind = "suction"
	ValvePart     PartKind = "valve"
	CheckPart     PartKind = "check"
	FootPart      PartKind = "foot"
	TeePart       PartKind = "tee"
	UnionPart     PartKind = "union"
	PumpPart      PartKind = "pump"
	DischargePart PartKind = "discharge"
	GravelPart    PartKind = "gravel"
	LipPart       PartKind = "lip"
	JetPart       PartKind = "jet"
	ReturnPart    PartKind = "return"
)

// PumpPlace is where the pumps are.
type PumpPlace string

// The places.
const (
	OnPad   PumpPlace = "pad"
	InPit   PumpPlace = "pit"
	InWater PumpPlace = "water"
)

// narrowSchematicPx is the width below which a loop has no room for its words.
const narrowSchematicPx = 560.0

// Node draws the pipework.
func (c Schematic) Node() markup.Node {
	if c.WidthPx == 0 {
		c.WidthPx = 800
	}
	c.Lines = min(max(c.Lines, 1), 3)
	if c.WidthPx < narrowSchematicPx {
		return c.down()
	}
	return c.loop()
}

// part finds the first part of a kind.
func (c Schematic) part(k PartKind) (SchematicPart, bool) {
	for _, p := range c.Parts {
		if p.Kind == k {
			return p, true
		}
	}
	return SchematicPart{}, false
}

// sides splits the parts that stand in the suction lines from those of the
// discharge line.
func (c Schematic) sides() (in, out []SchematicPart) {
	after := false
	for _, p := range c.Parts {
		switch p.Kind {
		case PumpPart:
			after = true
		case SuctionPart, DischargePart, ValvePart, CheckPart, FootPart, TeePart, UnionPart:
			if after {
				out = append(out, p)
			} else {
				in = append(in, p)
			}
		}
	}
	return in, out
}

func (p SchematicPart) wide() float64 {
	wide := wordsWide(p.Name, partPx)
	for _, n := range p.Notes {
		wide = math.Max(wide, wordsWide(n, partPx))
	}
	return wide
}

// Places of the loop, in px.
const (
	loopWater   = 208.0 // the water line
	loopLip     = 142.0 // the lip's level
	loopTop     = 102.0 // the discharge line
	loopRow     = 276.0 // the first suction line
	loopApart   = 18.0  // between suction lines
	loopBank    = 170.0 // the pond's bank
	loopZone    = 238.0 // where the gravel bed begins
	loopZoneEnd = 372.0
	loopGround  = loopWater - 8
	lineHigh    = 16.0
	partPx      = 6.4
)

// loop is the schematic as a picture: the pond on the left, the pumps on the
// right, suction below and discharge above.
type loop struct {
	c     Schematic
	wide  float64
	pumps []pt
	pipe  pen // the middle of every pipe
	heads pen
	marks []markup.Node
	words []markup.Node
	foot  float64 // the lowest words
	over  float64 // what the picture is moved down, for words above it
}

func (c Schematic) loop() markup.Node {
	d := &loop{c: c, wide: c.WidthPx}
	in, out := c.sides()
	d.stand()
	d.suction(in)
	d.discharge(out)
	d.pond()
	kids := []markup.Node{d.ground()}
	kids = append(kids, d.pipe.node("ch-pipe"), d.pipe.node("ch-bore"), d.heads.node("ch-solid"))
	kids = append(kids, d.marks...)
	kids = append(kids, d.words...)
	if d.over > 0 {
		kids = []markup.Node{markup.E("g", markup.A("transform", "translate(0,"+px(d.over)+")"), kids)}
	}
	return c.frame(d.wide, d.over+d.foot+8, kids...)
}

// stand places the pumps side by side.
func (d *loop) stand() {
	y := loopGround - 22.0
	if d.c.Pumps != OnPad {
		y = loopWater + 28
	}
	for i := range d.c.Lines {
		d.pumps = append(d.pumps, pt{d.wide - 52 - 54*float64(d.c.Lines-1-i), y})
	}
	p, _ := d.c.part(PumpPart)
	if d.c.Pumps == OnPad {
		var pad pen
		for _, q := range d.pumps {
			pad.ring([]pt{{q.x - 23, loopGround}, {q.x + 23, loopGround}, {q.x + 23, loopGround + 7}, {q.x - 23, loopGround + 7}})
		}
		d.marks = append(d.marks, pad.node("ch-part"))
	}
	for _, q := range d.pumps {
		d.marks = append(d.marks, pumpMark(q, pt{0, -1}))
	}
	below := lineHigh * float64(len(p.Notes))
	d.say(p, pt{d.pumps[0].x - 32, math.Min(y+4-below/2, loopGround-10-below)}, "end")
}

// say writes a part's words, the name at a place and the notes below it.
func (d *loop) say(p SchematicPart, at pt, anchor string) {
	d.words = append(d.words, text("ch-label", p.Name, at, anchored(anchor)))
	for _, n := range p.Notes {
		at.y += lineHigh
		d.words = append(d.words, text("ch-note", n, at, anchored(anchor)))
	}
	d.foot = math.Max(d.foot, at.y)
}

// suction draws the lines from the intake to each pump. The nearest pump has
// the upper line, so that none cross.
func (d *loop) suction(parts []SchematicPart) {
	from := pt{loopBank - 14, loopRow}
	to := d.pumps[0].x - 14
	spots := spread(parts, from.x+22, to)
	for j, q := range d.pumps {
		y := loopRow + loopApart*float64(j)
		line := []pt{{from.x, y}, {q.x, y}, {q.x, q.y + 17}}
		d.pipe.open(line)
		d.arrow(line[1], line[2])
		for i, p := range parts {
			d.marks = append(d.marks, partMark(p.Kind, pt{spots[i], y}, pt{1, 0}))
			if p.Kind == SuctionPart {
				arrowhead(&d.heads, []pt{{spots[i] - 10, y}, {spots[i] + 10, y}}, 0.5)
			}
		}
		d.marks = append(d.marks, grate(pt{from.x, y}))
	}
	d.rows(parts, spots, loopRow+loopApart*float64(len(d.pumps)-1)+26, 1)
}

// arrow is an arrowhead halfway along a stretch.
func (d *loop) arrow(a, b pt) { arrowhead(&d.heads, []pt{a, b}, 0.5) }

// rows writes the words along a line, every other one further off where they
// would not fit side by side.
func (d *loop) rows(parts []SchematicPart, spots []float64, y, way float64) {
	total, most := 0.0, 0
	for _, p := range parts {
		total += p.wide() + 14
		most = max(most, len(p.Notes))
	}
	span := 1e9
	if len(spots) > 1 {
		span = math.Abs(spots[len(spots)-1]-spots[0]) + (parts[0].wide()+parts[len(parts)-1].wide())/2 + 14
	}
	tight := total > span+1
	var leads pen
	for i, p := range parts {
		at := pt{spots[i], y}
		if tight && i%2 == 1 {
			off := lineHigh*float64(most) + 20
			leads.move(pt{spots[i], y - way*14}).line(pt{spots[i], y + way*(off-13)})
			at.y += way * off
		}
		if way < 0 {
			at.y -= lineHigh * float64(len(p.Notes))
		}
		d.say(p, at, "middle")
	}
	d.marks = append(d.marks, leads.node("ch-lead"))
}

// spread places parts along a stretch, each with room for its words; from may
// lie to the right of to.
func spread(parts []SchematicPart, from, to float64) []float64 {
	total := 0.0
	for _, p := range parts {
		total += p.wide() + 14
	}
	span := math.Abs(to - from)
	k := math.Min(1, span/math.Max(total, 1))
	spare := math.Max(0, span-total) / float64(max(len(parts), 1))
	way := 1.0
	if to < from {
		way = -1
	}
	var out []float64
	at := 0.0
	for _, p := range parts {
		slot := (p.wide()+14)*k + spare
		out = append(out, from+way*(at+slot/2))
		at += slot
	}
	return out
}

// discharge draws the line from the pumps to where the water comes back.
func (d *loop) discharge(parts []SchematicPart) {
	last := d.pumps[len(d.pumps)-1]
	end := d.outlet()
	for _, q := range d.pumps {
		d.pipe.open([]pt{{q.x, q.y - 17}, {q.x, loopTop}})
		d.arrow(pt{q.x, q.y - 17}, pt{q.x, loopTop})
	}
	d.pipe.open(append([]pt{{last.x, loopTop}}, end...))
	spots := spread(parts, d.pumps[0].x-12, math.Max(end[0].x+8, loopZone+40))
	for i, p := range parts {
		d.marks = append(d.marks, partMark(p.Kind, pt{spots[i], loopTop}, pt{-1, 0}))
		if p.Kind == DischargePart {
			arrowhead(&d.heads, []pt{{spots[i] + 10, loopTop}, {spots[i] - 10, loopTop}}, 0.5)
		}
	}
	d.rows(parts, spots, loopTop-20, -1)
	d.jets(end[0])
}
