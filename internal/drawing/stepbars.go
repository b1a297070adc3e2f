package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// StepBars is a row of bars from one line: to the right and solid what adds,
// to the left and ruled what takes away. Both sides have one scale.
type StepBars struct {
	Caption
	WidthPx float64 // 0 takes 560
	Bars    []StepBar
}

// StepBar is one bar with its name before it and its amount at its end.
type StepBar struct {
	Name, Text string
	Amount     float64
}

// Node draws the bars.
func (c StepBars) Node() markup.Node {
	wide := c.WidthPx
	if wide == 0 {
		wide = 560
	}
	const row, high, gap = 26.0, 12.0, 6.0
	names, texts, less, more := 0.0, 0.0, 0.0, 0.0
	for _, b := range c.Bars {
		names = math.Max(names, wordsWide(b.Name, sansPx))
		texts = math.Max(texts, wordsWide(b.Text, sansPx))
		less, more = math.Max(less, -b.Amount), math.Max(more, b.Amount)
	}
	left, right := names+2*gap, wide-texts-gap
	if less > 0 {
		left += texts + gap
	}
	scale := 0.0
	if less+more > 0 {
		scale = (right - left) / (less + more)
	}
	zero := left + less*scale
	kids := []markup.Node{c.hatchDefs()}
	var base, solid pen
	for i, b := range c.Bars {
		y := float64(i)*row + 6
		end := zero + b.Amount*scale
		kids = append(kids, text("ch-axis", b.Name, pt{0, y + high - 1}))
		if b.Amount < 0 {
			kids = append(kids, rect("ch-ruled", pt{end, y}, pt{zero, y + high}, c.hatch()),
				text("ch-axis", b.Text, pt{end - gap, y + high - 1}, anchored("end")))
			continue
		}
		solid.ring([]pt{{zero, y}, {end, y}, {end, y + high}, {zero, y + high}})
		kids = append(kids, text("ch-axis", b.Text, pt{end + gap, y + high - 1}))
	}
	tall := float64(len(c.Bars))*row + 4
	base.move(pt{zero, 0}).line(pt{zero, tall})
	return c.frame(wide, tall, append(kids, solid.node("ch-solid"), base.node("ch-base"))...)
}
