package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// WorksBars is the order of the works on a line of working days: one row for
// each phase, its work solid, the allowance for weather ruled, the wait for
// inspections in outline.
type WorksBars struct {
	Caption
	WidthPx float64 // 0 takes 560; below 420 the names stand over their bars
	Rows    []WorksRow
	Ticks   []Tick // at working days; the first is the start
	// Work, Weather and Inspection name the three textures.
	Work, Weather, Inspection string
}

// WorksRow is one phase, in working days.
type WorksRow struct {
	Name                                             string
	StartDays, WorkDays, WeatherDays, InspectionDays float64
}

// narrowWorksPx is the width below which a name has no room beside its bar.
const narrowWorksPx = 420.0

// worksFrame is where the rows of a chart stand.
type worksFrame struct {
	left, top, row, bar float64
	x                   span
}

// Node draws the chart.
func (c WorksBars) Node() markup.Node {
	if c.WidthPx == 0 {
		c.WidthPx = 560
	}
	f := c.place()
	foot := f.top + f.row*float64(len(c.Rows))
	kids := []markup.Node{c.hatchDefs(), c.key()}
	var grid pen
	for _, t := range c.Ticks {
		x := f.x.at(t.At)
		grid.move(pt{x, f.top - 2}).line(pt{x, foot})
		kids = append(kids, text("ch-axis", t.Text, pt{x, foot + 16}, anchored("middle")))
	}
	kids = append(kids, grid.node("ch-grid"))
	for i, r := range c.Rows {
		kids = append(kids, c.rowOf(f, i, r))
	}
	return c.frame(c.WidthPx, foot+22, kids...)
}

func (c WorksBars) place() worksFrame {
	f := worksFrame{left: 10, top: 30, row: 36, bar: 12}
	if c.WidthPx >= narrowWorksPx {
		for _, r := range c.Rows {
			f.left = max(f.left, wordsWide(r.Name, 6.7)+14)
		}
		f.row = 24
	}
	last := 1.0
	for _, r := range c.Rows {
		last = max(last, r.StartDays+r.WorkDays+r.WeatherDays+r.InspectionDays)
	}
	for _, t := range c.Ticks {
		last = max(last, t.At)
	}
	f.x = span{0, last, f.left, c.WidthPx - 12}
	return f
}

// key shows the three textures with their names.
func (c WorksBars) key() markup.Node {
	var kids []markup.Node
	x := 0.0
	for i, name := range []string{c.Work, c.Weather, c.Inspection} {
		if name == "" {
			continue
		}
		kids = append(kids, c.texture(i, pt{x + 0.5, 4}, pt{x + 16, 15}), text("ch-axis", name, pt{x + 21, 14}))
		x += 21 + wordsWide(name, 6.7) + 10
	}
	return markup.E("g", kids)
}

func (c WorksBars) texture(kind int, lo, hi pt) markup.Node {
	switch kind {
	case 0:
		return rect("ch-solid", lo, hi)
	case 1:
		return rect("ch-ruled", lo, hi, c.hatch())
	}
	return rect("ch-outline", lo, hi)
}

func (c WorksBars) rowOf(f worksFrame, i int, r WorksRow) markup.Node {
	y := f.top + f.row*float64(i)
	at, base := pt{0, y + f.row/2 + 4.5}, y+(f.row-f.bar)/2
	if c.WidthPx < narrowWorksPx {
		at, base = pt{0, y + 14}, y+f.row-f.bar-4
	}
	kids := []markup.Node{text("ch-label", r.Name, at)}
	from := r.StartDays
	for kind, days := range []float64{r.WorkDays, r.WeatherDays, r.InspectionDays} {
		if !(days > 0) || math.IsInf(days, 0) {
			continue
		}
		kids = append(kids, c.texture(kind, pt{f.x.at(from), base}, pt{f.x.at(from + days), base + f.bar}))
		from += days
	}
	return markup.E("g", kids)
}
