package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// outlet draws what the water comes back through, and returns the way of the
// pipe there from the discharge line.
func (d *loop) outlet() []pt {
	gravel, hasGravel := d.c.part(GravelPart)
	lip, hasLip := d.c.part(LipPart)
	level := loopWater
	if hasLip {
		level = loopLip
		d.fall(lip)
	}
	switch {
	case hasGravel:
		d.bed(gravel, level)
		return []pt{{loopZoneEnd + 14, loopTop}, {loopZoneEnd + 14, level + 42}, {loopZone + 22, level + 42}}
	case hasLip:
		var stone pen
		stone.ring([]pt{{loopZone, level + 4}, {loopZone + 54, level + 4}, {loopZone + 54, level + 40}, {loopZone, level + 40}})
		d.marks = append(d.marks, stone.node("ch-part"))
		return []pt{{loopZone + 30, loopTop}, {loopZone + 30, level + 2}}
	}
	back, _ := d.c.part(ReturnPart)
	d.say(back, pt{24, loopWater - 46}, "start")
	return []pt{{loopBank + 34, loopTop}, {loopBank + 34, loopWater + 22}, {loopBank - 24, loopWater + 22}}
}

// bed is the gravel with its plants, and the manifold under it.
func (d *loop) bed(p SchematicPart, level float64) {
	lo, hi := pt{loopZone, level}, pt{loopZoneEnd, level + 54}
	var grains, stems, rise pen
	for i := range 36 {
		x := lo.x + 8 + float64(i*37%118)
		y := level + 9 + float64(i*23%40)
		grains.disc(pt{x, y}, 1.3+0.5*float64(i%3))
	}
	for i := range 7 {
		x := lo.x + 18 + 17*float64(i)
		stems.move(pt{x, level + 3}).line(pt{x - 4, level - 15}).move(pt{x, level + 3}).line(pt{x + 3, level - 19})
	}
	for i := range 5 {
		x := lo.x + 30 + 22*float64(i)
		rise.ring([]pt{{x, level + 26}, {x - 3.5, level + 32}, {x + 3.5, level + 32}})
	}
	d.marks = append(d.marks, rect("ch-gravel", lo, hi), grains.node("ch-grain"), stems.node("ch-stem"), rise.node("ch-solid"))
	if level < loopWater {
		d.say(p, pt{(lo.x + hi.x) / 2, hi.y + 20}, "middle")
		return
	}
	d.marks = append(d.marks, rect("ch-sheet", pt{loopBank + 1, level}, pt{loopZone, level + 7}))
	d.say(p, pt{hi.x + 4, level - 26 - lineHigh*float64(len(p.Notes))}, "end")
}

// fall is the lip with the water over it, and the height it is lifted to.
func (d *loop) fall(p SchematicPart) {
	var sheet, stone, dim, extend pen
	sheet.move(pt{loopZone, loopLip}).line(pt{loopZone - 16, loopLip}).quad(pt{loopBank + 14, loopLip + 4}, pt{loopBank + 6, loopWater}).
		line(pt{loopBank - 16, loopWater}).quad(pt{loopBank - 8, loopLip - 6}, pt{loopZone - 16, loopLip - 7}).line(pt{loopZone, loopLip - 7}).close()
	stone.ring([]pt{{loopZone - 18, loopLip + 2}, {loopZone + 2, loopLip + 2}, {loopZone + 2, loopLip + 18}, {loopZone - 12, loopLip + 18}})
	x := 128.0
	extend.move(pt{x - 8, loopLip - 7}).line(pt{loopZone - 24, loopLip - 7})
	dim.move(pt{x, loopLip - 7}).line(pt{x, loopWater}).move(pt{x - 4, loopLip - 3}).line(pt{x + 4, loopLip - 11}).move(pt{x - 4, loopWater + 4}).line(pt{x + 4, loopWater - 4})
	d.marks = append(d.marks, sheet.node("ch-sheet"), stone.node("ch-part"), extend.node("ch-lead"), dim.node("ch-tick"),
		text("ch-note", d.c.Lift, pt{x - 8, (loopLip+loopWater)/2 + 2}, anchored("end")))
	at := pt{24, loopLip - 26 - lineHigh*float64(len(p.Notes))}
	if _, jets := d.c.part(JetPart); jets {
		at = pt{110, loopTop - 18 - lineHigh*float64(len(p.Notes))} // over the branch
	}
	d.say(p, at, "start")
}

// jets are fed by a branch of the discharge line that goes on to the pond.
func (d *loop) jets(from pt) {
	p, ok := d.c.part(JetPart)
	if !ok {
		return
	}
	const x = 40.0
	d.pipe.open([]pt{from, {x, loopTop}, {x, loopWater + 16}})
	d.arrow(pt{x, loopTop + 60}, pt{x, loopWater})
	var spray pen
	for _, dx := range []float64{-14, 0, 14} {
		spray.move(pt{x, loopWater + 20}).line(pt{x + dx, loopWater + 34})
	}
	d.marks = append(d.marks, spray.node("ch-tick"))
	y := loopTop - 18 - lineHigh*float64(len(p.Notes))
	if lip, falls := d.c.part(LipPart); falls { // above the words of the lip
		y -= lineHigh*float64(1+len(lip.Notes)) + 8
	}
	d.over = math.Max(0, 16-y)
	d.say(p, pt{14, y}, "start")
}

// pond draws the water with the intake's words in it.
func (d *loop) pond() {
	floor := loopRow + loopApart*float64(len(d.pumps)-1) + 24
	var water, line pen
	water.ring([]pt{{12, loopWater}, {loopBank, loopWater}, {loopBank - 12, floor}, {12, floor}})
	line.move(pt{12, loopWater}).line(pt{loopBank + 4, loopWater})
	d.marks = append([]markup.Node{water.node("ch-pond"), line.node("ch-base")}, d.marks...)
	d.words = append(d.words, text("ch-quietly", d.c.WaterLine, pt{20, loopWater + 17}))
	if p, ok := d.c.part(IntakePart); ok {
		d.say(p, pt{20, floor + 18}, "start")
	}
}

// ground is the level of the land, broken by the gravel bed.
func (d *loop) ground() markup.Node {
	var line, bank pen
	floor := loopRow + loopApart*float64(len(d.pumps)-1) + 24
	line.move(pt{loopBank + 4, loopGround}).line(pt{d.wide - 8, loopGround})
	bank.move(pt{loopBank + 4, loopGround}).line(pt{loopBank - 12, floor}).line(pt{12, floor})
	return markup.E("g", line.node("ch-lead"), bank.node("ch-base"))
}
