package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// Heights of people in the section.
const (
	adultM = 1.75
	childM = 1.2
)

func (d *drawer) aboveWaterPx() float64 {
	s := d.view.ScalePxPerM
	above := 1.0 * s
	if len(d.zoneM) > 0 || len(d.cascadeM) > 0 {
		above = math.Max(above, (d.o.RiseM+0.85)*s)
	}
	if d.small() {
		return above + 4
	}
	if _, wades := d.standAt(0.95, 1.3); !wades {
		above = math.Max(above, (adultM+0.35)*s)
	}
	return math.Max(above, 30) + 16
}

func (d *drawer) belowSectionPx() float64 {
	switch d.o.Look {
	case Phone:
		return 26
	case Thumbnail:
		return 2
	}
	return 40
}

// sectionClips are the outlines that the section's parts are cut to.
func (d *drawer) sectionClips() []markup.Node {
	if len(d.p.Section) < 2 {
		return nil
	}
	f := d.profile()
	var earth, water, air, wet pen
	earth.ring(d.earth(f))
	water.ring(f.bottom)
	w, h, wl := d.view.WidthPx, d.view.HeightPx, d.view.WaterLinePx
	air.ring([]pt{{0, 0}, {w, 0}, {w, wl}, {0, wl}})
	wet.ring([]pt{{0, wl}, {w, wl}, {w, h}, {0, h}})
	return []markup.Node{
		clip(d.id("earth"), earth.node("")), clip(d.id("sea"), water.node("")), clip(d.id("air"), air.node("")), clip(d.id("wet"), wet.node("")),
	}
}

// section draws the pond cut open along the plan's section line.
func (d *drawer) section(beyond markup.Node) markup.Node {
	if len(d.p.Section) < 2 {
		return markup.None()
	}
	f := d.profile()
	kids := []markup.Node{beyond, d.bed(f), d.levels(f), d.people(f), d.ground(f), d.lining(f)}
	if !d.small() {
		kids = append(kids, d.depthRow(f), d.leaders(f))
		if d.which&partPlan != 0 {
			kids = append(kids, d.projectors(f))
		}
		if d.full() {
			kids = append(kids, text("dr-note", d.o.Words.Section, pt{24, d.view.WaterLinePx - d.aboveWaterPx() + 14}))
		}
	}
	return layer("dr-section", kids...)
}

// levels is the water: level bands of the ramp by the depth below the water
// line, with a line between each two.
func (d *drawer) levels(f profile) markup.Node {
	s := d.view.ScalePxPerM
	var bands []markup.Node
	var lines, deepLines, surface pen
	for k := 0; k <= deepestTone; k++ {
		top := float64(k) * d.o.DepthStepM
		if top >= d.p.DeepM {
			break
		}
		foot := top + d.o.DepthStepM
		if k == deepestTone {
			foot = d.p.DeepM + 0.1
		}
		var w pen
		y0, y1 := d.view.WaterLinePx+top*s, d.view.WaterLinePx+foot*s+0.6
		w.ring([]pt{{f.left - 2, y0}, {f.right + 2, y0}, {f.right + 2, y1}, {f.left - 2, y1}})
		bands = append(bands, w.node(toneClass(k)))
	}
	for k := 1; float64(k)*d.o.DepthStepM < d.p.DeepM-1e-6; k++ {
		y := d.view.WaterLinePx + float64(k)*d.o.DepthStepM*s
		line := &lines
		if k >= standTone {
			line = &deepLines
		}
		line.move(pt{f.left, y}).line(pt{f.right, y})
	}
	surface.move(pt{f.left, d.view.WaterLinePx}).line(pt{f.right, d.view.WaterLinePx})
	water := markup.E("g", markup.A("clip-path", d.url("sea")), bands, lines.node("dr-line"), deepLines.node("dr-line dr-line-deep"))
	return markup.E("g", water, surface.node("dr-surface"))
}

// bed is what lies between water and earth, painted as lines widened to both
// sides of the bottom and cut to the earth: geotextile outermost, then the
// liner, then stone and gravel.
func (d *drawer) bed(f profile) markup.Node {
	const linerPx, gapPx, clothPx = 2.3, 2.2, 0.9
	lines := make([]string, len(f.skins))
	for i, s := range f.skins {
		var w pen
		lines[i] = string(w.open(thin(s.line, 0.2)).data)
	}
	coat := func(class string, more float64) []markup.Node {
		var out []markup.Node
		for i, s := range f.skins {
			out = append(out, markup.E("path", markup.Class(class), markup.A("d", lines[i]), markup.A("stroke-width", px(2*(s.thick+more)))))
		}
		return out
	}
	return markup.E("g", markup.A("clip-path", d.url("earth")),
		coat("dr-coat dr-cloth", linerPx+gapPx+clothPx), coat("dr-coat dr-gap", linerPx+gapPx),
		coat("dr-coat dr-liner", linerPx), coat("dr-coat dr-fill", 0))
}

// lining is the gravel and the boulders themselves, and the floor's line.
func (d *drawer) lining(f profile) markup.Node {
	var floor pen
	floor.open(thin(f.bottom[f.from:f.to+1], 0.15))
	if d.small() {
		var all pen
		all.open(thin(f.bottom, 0.15))
		return markup.E("g", all.node("dr-floor"))
	}
	var gravel pen
	s := d.view.ScalePxPerM
	thick := math.Max(gravelThickM*s, 3)
	for _, skin := range f.skins {
		if skin.thick <= thick {
			d.gravel(&gravel, skin)
		}
	}
	n := len(f.bottom)
	kids := []markup.Node{gravel.node("dr-gravel"), floor.node("dr-floor"), d.slabs(f)}
	if f.west == wallEnd {
		kids = append(kids, d.stack(f.bottom[:f.from+1], -1))
	}
	if f.east == wallEnd {
		wall := make([]pt, 0, n-f.to)
		for i := n - 1; i >= f.to; i-- {
			wall = append(wall, f.bottom[i])
		}
		kids = append(kids, d.stack(wall, 1))
	}
	return markup.E("g", kids)
}

// gravel sets pebbles between the floor and the liner.
func (d *drawer) gravel(w *pen, s skin) {
	pitch := math.Max(3.1, 0.085*d.view.ScalePxPerM)
	ahead := newRuler(s.line)
	for i := 0; ; i++ {
		at, dir, on := ahead.to(float64(i) * pitch)
		if !on {
			break
		}
		if d.onFlight(at) { // bare stone
			continue
		}
		down := dir.left()
		if down.y < 0 {
			down = down.times(-1)
		}
		for k := 0; float64(k)*0.84*pitch < s.thick-1; k++ {
			luck := sow(saltSection, i, k)
			r := luck.span(0.24, 0.46) * pitch
			c := at.plus(down.times(math.Max(r, math.Min((0.46+0.84*float64(k)+luck.span(-0.16, 0.16))*pitch, s.thick-r)))).plus(dir.times(luck.span(-0.3, 0.3) * pitch))
			w.disc(c, r)
		}
	}
}

// stack sets boulders from a wall's top down to its foot, each a little into
// the water, with a coping stone on top.
func (d *drawer) stack(wall []pt, dir float64) markup.Node {
	s := d.view.ScalePxPerM
	thick := math.Max(stoneThickM*s, 5)
	var shapes [stoneTones]pen
	set := func(c pt, rx, ry float64, luck *chance) {
		n := 7 + luck.pick(2)
		first := luck.span(0, 6)
		ps := make([]pt, n)
		for i := range ps {
			a := first + (float64(i)+luck.span(-0.2, 0.2))/float64(n)*2*math.Pi
			k := luck.span(0.94, 1.1)
			ps[i] = pt{c.x + rx*k*math.Cos(a), c.y + ry*k*math.Sin(a)}
		}
		shapes[luck.pick(stoneTones)].soft(ps, 0.28)
	}
	total := chainLong(wall)
	pitch := math.Max(0.27*s, 5)
	count := max(int(total/pitch), 1)
	for i := count; i >= 0; i-- {
		luck := sow(saltSection+2, i, int(dir))
		at, _ := alongChain(wall, math.Min((float64(i)+0.35)/(float64(count)+0.5), 1))
		rx := thick * luck.span(0.58, 0.78)
		set(at.plus(pt{dir * thick * luck.span(0.3, 0.46), 0}), rx, math.Min(pitch*luck.span(0.5, 0.62), rx), &luck)
	}
	luck := sow(saltSection+4, 0, int(dir))
	top := wall[0]
	set(top.plus(pt{dir * thick * 0.35, -0.05 * s}), thick*0.85, thick*0.42, &luck)
	set(top.plus(pt{dir * thick * 1.55, -0.18 * s}), thick*0.5, thick*0.3, &luck)
	var kids []markup.Node
	for i := range shapes {
		kids = append(kids, shapes[i].node("dr-stone dr-s"+string(rune('0'+i))))
	}
	return markup.E("g", kids)
}

// ground is the land's line on both sides, with grass and signs of earth.
func (d *drawer) ground(f profile) markup.Node {
	var line, grass, earth pen
	s := d.view.ScalePxPerM
	for side, land := range f.lands {
		line.flow(land)
		dir := float64(2*side - 1)
		if d.small() {
			continue
		}
		far := math.Abs(land[len(land)-1].x - land[0].x)
		clear := 1.9 * s
		if side == 0 && f.west == wallEnd || side == 1 && f.east == wallEnd {
			clear = 1.1 * s
		}
		for i := 0; clear+float64(i)*4.2 < far; i++ {
			luck := sow(saltSection+6, i, side)
			x := land[0].x + dir*(clear+float64(i)*4.2+luck.span(-1.5, 1.5))
			y := heightAt(land, x)
			if drift(saltSection+8, pt{float64(i) + 60*float64(side), 0}, 5) > 0.42 {
				h := luck.span(3, 8)
				grass.move(pt{x, y}).quad(pt{x + luck.span(-1.5, 1.5), y - 0.6*h}, pt{x + luck.span(-2.5, 2.5), y - h})
			}
			if i%17 == 8 {
				hatch(&earth, pt{x, y + 3}, s)
			}
		}
	}
	if !d.small() {
		d.earthMarks(&earth, f)
	}
	return markup.E("g", line.node("dr-ground"), grass.node("dr-blade"), earth.node("dr-earth"))
}

// earthMarks hatch the earth below the liner here and there.
func (d *drawer) earthMarks(w *pen, f profile) {
	s := d.view.ScalePxPerM
	for x := f.left + 1.1*s; x < f.right-1.0*s; x += math.Max(0.95*s, 40) {
		along := (x - f.left) / s
		hatch(w, pt{x, d.cutAt(along, d.depthAlong(along)+gravelThickM).y + 10}, s)
	}
}

func hatch(w *pen, at pt, s float64) {
	step := math.Min(math.Max(0.085*s, 3), 6)
	for k := range 3 {
		q := at.plus(pt{float64(k) * step, 0})
		w.move(q).line(q.plus(pt{-1.25 * step, 1.55 * step}))
	}
}

func heightAt(line []pt, x float64) float64 {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (x-a.x)*(x-b.x) <= 0 && a.x != b.x {
			return a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)
		}
	}
	return line[len(line)-1].y
}
