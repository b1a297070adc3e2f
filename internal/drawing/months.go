package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// MonthBars is a year in two rows of bars: the first ruled, the second solid.
// Months in which nothing runs keep their place, empty.
type MonthBars struct {
	Caption
	WidthPx       float64 // 0 takes 760
	Names         []string
	First, Second []float64
	// FirstPeak and SecondPeak are written over the highest bar of each.
	FirstPeak, SecondPeak string
	Ticks                 []Tick // the first is the base line
	Resting               string // written over the empty months
}

// Node draws the chart.
func (c MonthBars) Node() markup.Node {
	wide := c.WidthPx
	if wide == 0 {
		wide = 760
	}
	const top, foot, left = 26.0, 150.0, 44.0
	_, most := ends(c.Ticks, append(append([]float64{0}, c.First...), c.Second...)...)
	y := span{0, most, foot, top}
	kids := []markup.Node{c.hatchDefs()}
	var grid pen
	for i, t := range c.Ticks {
		if i > 0 {
			grid.move(pt{left, y.at(t.At)}).line(pt{wide, y.at(t.At)})
		}
		kids = append(kids, text("ch-axis", t.Text, pt{left - 10, y.at(t.At) + 4}, anchored("end")))
	}
	kids = append(kids, grid.node("ch-grid"))
	n := float64(len(c.Names))
	slot := (wide - left) / math.Max(n, 1)
	bar := math.Min(22, slot*0.36)
	var solid pen
	restFrom, restTo := -1, -1
	for i, name := range c.Names {
		mid := left + (float64(i)+0.5)*slot
		a, b := valueAt(c.First, i), valueAt(c.Second, i)
		if a > 0 {
			lo := pt{mid - bar - 0.8, y.at(a)}
			kids = append(kids, rect("ch-ruled", lo, pt{mid - 0.8, foot}, c.hatch()))
		}
		if b > 0 {
			solid.ring([]pt{{mid + 0.8, y.at(b)}, {mid + 0.8 + bar, y.at(b)}, {mid + 0.8 + bar, foot}, {mid + 0.8, foot}})
		}
		if a <= 0 && b <= 0 {
			if restFrom < 0 {
				restFrom = i
			}
			if restFrom >= 0 && (restTo < 0 || restTo == i-1) {
				restTo = i
			}
		}
		kids = append(kids, text("ch-axis", name, pt{mid, foot + 18}, anchored("middle")))
	}
	var base pen
	base.move(pt{left, foot}).line(pt{wide, foot})
	kids = append(kids, solid.node("ch-solid"), base.node("ch-base"))
	kids = append(kids, c.peak(c.First, c.FirstPeak, left, slot, -bar/2-0.8, y), c.peak(c.Second, c.SecondPeak, left, slot, bar/2+3, y))
	if c.Resting != "" && restFrom >= 0 && float64(restTo-restFrom+1)*slot > wordsWide(c.Resting, 6.4) {
		kids = append(kids, text("ch-quietly", c.Resting, pt{left + float64(restFrom+restTo+1)/2*slot, foot - 11}, anchored("middle")))
	}
	return c.frame(wide, foot+26, kids...)
}

func (c MonthBars) peak(values []float64, words string, left, slot, shift float64, y span) markup.Node {
	at, most := -1, 0.0
	for i, v := range values {
		if v > most*(1+1e-9) {
			at, most = i, v
		}
	}
	if at < 0 {
		return markup.None()
	}
	return text("ch-peak", words, pt{left + (float64(at)+0.5)*slot + shift, y.at(most) - 6}, anchored("middle"))
}

func valueAt(values []float64, i int) float64 {
	if i < len(values) {
		return values[i]
	}
	return 0
}

// PairBar is one bar of a pair beside a figure: ruled or solid, as long as its
// share of the longest.
type PairBar struct {
	Caption
	Share float64 // 0 to 1
	Solid Fill
	// WidthPx is the longest bar; 0 takes 94.
	WidthPx float64
}

// Fill is the texture of a bar.
type Fill string

// The textures.
const (
	Ruled    Fill = ""
	FilledIn Fill = "solid"
)

// Node draws the bar.
func (b PairBar) Node() markup.Node {
	wide := b.WidthPx
	if wide == 0 {
		wide = 94
	}
	hi := pt{0.6 + (wide-1.2)*math.Min(math.Max(b.Share, 0), 1), 11.4}
	if b.Solid == FilledIn {
		return b.frame(wide, 12, rect("ch-solid", pt{0.6, 0.6}, hi))
	}
	return b.frame(wide, 12, b.hatchDefs(), rect("ch-ruled", pt{0.6, 0.6}, hi, b.hatch()))
}
