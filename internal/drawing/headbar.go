package drawing

import (
	"strconv"

	"tarnwright/internal/markup"
)

// HeadBar is where the pump's head goes: real lifting first, then the
// frictions, in falling tints.
type HeadBar struct {
	Caption
	WidthPx float64 // 0 takes 800
	Parts   []HeadPart
	// LiftText and FrictionText stand under the brackets.
	LiftText, FrictionText string
}

// HeadPart is one piece of the head.
type HeadPart struct {
	Name, Text string
	HeadM      float64
	Kind       HeadKind
}

// HeadKind tells lifting from friction.
type HeadKind string

// The kinds.
const (
	Friction HeadKind = ""
	Lifting  HeadKind = "lift"
)

// Node draws the bar. A name that has no room over its piece stands a row
// higher, and one that still has none is left to the table.
func (c HeadBar) Node() markup.Node {
	wide := c.WidthPx
	if wide == 0 {
		wide = 800
	}
	total := 0.0
	for _, p := range c.Parts {
		total += max(p.HeadM, 0)
	}
	if total == 0 {
		return c.frame(wide, 90)
	}
	const top, foot = 42.0, 82.0
	var kids []markup.Node
	var leads pen
	x, lifted := 0.0, 0.0
	tint := 0
	free := [2]float64{0, 0} // how far the two rows of names are written
	for _, p := range c.Parts {
		w := max(p.HeadM, 0) / total * wide
		class := "ch-lift"
		if p.Kind == Friction {
			tint++
			class = "ch-t" + strconv.Itoa(min(tint, 5))
		} else {
			lifted += w
		}
		kids = append(kids, rect(class, pt{x, top}, pt{x + w, foot}))
		if wordsWide(p.Text, 8.6)+14 < w {
			kids = append(kids, text("ch-on-"+class[3:], p.Text, pt{x + 9, top + 26}))
		}
		need := wordsWide(p.Name, 6.7) + 10
		for row := range 2 {
			if y := top - 9 - 17*float64(row); x >= free[row]-0.5 && x+need <= wide+12 && (row == 1 || need <= w+8) {
				kids = append(kids, text("ch-label", p.Name, pt{x, y}))
				free[row] = x + need
				if row == 1 {
					leads.move(pt{x + 0.5, y + 4}).line(pt{x + 0.5, top})
				}
				break
			}
		}
		x += w
	}
	kids = append(kids, rect("ch-outline", pt{0.5, top}, pt{wide - 0.5, foot}), leads.node("ch-lead"))
	kids = append(kids, bracket(c.LiftText, 0.5, lifted-1, foot+8), bracket(c.FrictionText, lifted+1, wide-0.5, foot+8))
	return c.frame(wide, foot+38, kids...)
}

// bracket spans a stretch of the bar with words under it.
func bracket(words string, from, to, y float64) markup.Node {
	if words == "" || to-from < 4 {
		return markup.None()
	}
	var w pen
	w.open([]pt{{from, y}, {from, y + 5}, {to, y + 5}, {to, y}})
	at, where := (from+to)/2, "middle"
	if half := wordsWide(words, 6.7) / 2; at < half {
		at, where = 0, "start"
	}
	return markup.E("g", w.node("ch-tick"), text("ch-note", words, pt{at, y + 23}, anchored(where)))
}
