package page

import (
	"strconv"
	"strings"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

func (c comparing) months(at int, width Width) Monthly {
	v := c.views[at]
	by := v.Months()
	out := Monthly{Single: v.Say("compare.months.single"), Variable: v.Say("compare.months.var"), Table: tableFrom(by.Table)}
	out.Table.Fold = c.w.Say("page.as_table")
	if len(c.options) > 1 {
		for i := range c.options {
			arg := "months " + strconv.Itoa(i)
			out.Links = append(out.Links, part.Tab{Label: letter(i), Here: i == at, Act: part.Act{Name: ActCompare, Arg: arg},
				Href: c.offer("compare.open", arg).Href})
		}
	}
	if len(by.Months) == 0 {
		return out
	}
	title := c.w.Say("compare.months.title", letter(at)+" "+c.name(at))
	var kids []markup.Node
	if width != Narrow {
		bars := monthChart(c.s, by, title, 760)
		bars.ID, bars.Resting = "cmp-months", c.w.Say("compare.months.rest")
		kids = append(kids, markup.E("div", markup.Class("at-wide"), bars.Node()))
	}
	if width != Wide {
		bars := monthChart(c.s, by, title, 320)
		bars.ID, bars.SecondPeak = "cmp-monthlet", ""
		for i, name := range bars.Names {
			bars.Names[i] = string([]rune(name)[:1]) // no room for more; the table has them whole
		}
		kids = append(kids, markup.E("div", markup.Class("at-narrow"), bars.Node()))
	}
	out.Chart = markup.E("div", markup.Class("drawn"), kids)
	return out
}

// monthChart is a year of both pumps as bars.
func monthChart(s State, by view.Months, title string, widthPx float64) drawing.MonthBars {
	bars := drawing.MonthBars{Caption: drawing.Caption{Title: title, Says: by.Title}, WidthPx: widthPx}
	most, peak := 0.0, 0
	for i, x := range by.Months {
		bars.Names = append(bars.Names, x.Name)
		bars.First, bars.Second = append(bars.First, x.Single), append(bars.Second, x.Variable)
		if x.Single > by.Months[peak].Single {
			peak = i
		}
		most = max(most, x.Single, x.Variable)
	}
	bars.FirstPeak, bars.SecondPeak = by.Months[peak].SingleText, by.Months[peak].VariableText
	for _, at := range drawing.Stops(0, max(most, 1), 3) {
		bars.Ticks = append(bars.Ticks, drawing.Tick{At: at, Text: measure.Symbol(s.Form.Terms().Currency) + measure.Round(at, 0)})
	}
	return bars
}

func (c comparing) best() BestValue {
	n := len(c.options)
	out := BestValue{Rule: c.w.Say("compare.rule")}
	if c.s.Form.System == measure.Metric {
		out.Rule = c.w.Say("compare.rule.metric")
	}
	for i, p := range c.set.Ponds {
		out.Bills = append(out.Bills, letter(i)+": "+p.Bill)
	}
	if n < 2 {
		return out
	}
	if c.set.Best < 0 {
		out.Headline = c.w.Say("compare.best.none")
		return out
	}
	out.Mark = c.w.Say("compare.best." + strconv.Itoa(n))
	out.Headline = c.w.Say("compare.best."+c.set.Ponds[c.set.Best].Better, letter(c.set.Best))
	wide, narrow := c.strip(), c.strip()
	wide.ID, narrow.ID, narrow.WidthPx = "cmp-strip", "cmp-striplet", 300
	out.Strip = markup.E("div", markup.Class("drawn"), markup.E("div", markup.Class("at-wide"), wide.Node()), markup.E("div", markup.Class("at-narrow"), narrow.Node()))
	return out
}

// strip is the ten-year costs as dots on a line that need not start at zero.
func (c comparing) strip() drawing.ValueStrip {
	var said []string
	strip := drawing.ValueStrip{WidthPx: 392}
	lo, hi := 0.0, 0.0
	for i, p := range c.set.Ponds {
		if p.Dot <= 0 {
			continue
		}
		dot := drawing.Dot{Name: letter(i), At: p.Dot}
		if i == c.set.Best {
			dot.Stand = drawing.Best
		}
		strip.Dots = append(strip.Dots, dot)
		said = append(said, letter(i)+" "+p.PerArea.Number)
		if lo == 0 || p.Dot < lo {
			lo = p.Dot
		}
		hi = max(hi, p.Dot)
	}
	pad := max((hi-lo)/8, hi/200)
	for _, at := range drawing.Stops(lo-pad, hi+pad, 4) {
		decimals := 0
		if hi < 100 {
			decimals = 1
		}
		strip.Ticks = append(strip.Ticks, drawing.Tick{At: at, Text: measure.Symbol(c.s.Form.Terms().Currency) + measure.Round(at, decimals)})
	}
	strip.Caption = drawing.Caption{Title: c.w.Say("compare.strip", strings.Join(said, ", "))}
	return strip
}

func (c comparing) purse(at int, k Kit) (part.Table, []string) {
	t := tableFrom(c.views[at].Purse())
	if len(t.Rows) == 0 {
		return t, nil
	}
	notes := []string{c.w.Say("compare.purse.note", measure.Percent(c.base.PriceRiseRatio).String())}
	if c.base.DiscountRatio > 0 {
		notes = append(notes, c.w.Say("compare.purse.wait", measure.Percent(c.base.DiscountRatio).String()))
	}
	notes = append(notes, c.w.Say("compare.purse.leaves"))
	if k.Grid != "" {
		notes = append(notes, c.w.Say("compare.purse.grid", strings.TrimSuffix(k.Grid, ".")))
	}
	return t, notes
}
