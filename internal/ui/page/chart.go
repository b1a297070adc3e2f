package page

import (
	"math"
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/view"
)

// paintAsides draws the small pictures beside the questions and the readings.
func paintAsides(m *Model, s State) {
	m.Slide = slide(s)
	for name, shape := range shapeNames() {
		m.Shapes[name] = drawing.ShapeIcon(shape)
	}
}

// staffOf draws the range of a reading that has one.
func staffOf(r view.Reading, v view.View) markup.Node {
	staff := drawing.BudgetStaff{Caption: drawing.Caption{ID: "staff", Title: r.Title, Says: v.Say("view.budget.near")},
		Low: r.Staff.Low, Likely: r.Staff.Likely, High: r.Staff.High}
	for _, t := range r.Staff.Marks {
		staff.Ticks = append(staff.Ticks, drawing.Tick{At: t.At, Text: t.Text})
	}
	return staff.Node()
}

// shapeNames are the outlines by their names in the form.
func shapeNames() map[string]string {
	return map[string]string{"bean": "bean", "oval": "ellipse", "long": "rounded_rectangle", "free": "freehand",
		"rect": "rectangle", "round": "circle", "ell": "l_shape"}
}

// paintPump draws where the pump settles, where the head goes, and the months.
func paintPump(m *Model, s State, a Answered, v view.View, w Width) {
	chart, bar := pumpChart(s, a.Sheet, v), headBar(v)
	var charts, bars []markup.Node
	if w != Narrow {
		charts = append(charts, markup.E("div", markup.Class("at-wide"), chart.Node()))
		bars = append(bars, markup.E("div", markup.Class("at-wide"), bar.Node()))
	}
	if w != Wide {
		chart.ID, chart.WidthPx, chart.HeightPx = "pumpchartlet", 360, 360
		chart.Words.Lift, chart.Words.QuietNote, chart.Words.DutyNote = "", "", "" // no room; the words beside the chart say them
		bar.ID, bar.WidthPx = "headbarlet", 400
		charts = append(charts, markup.E("div", markup.Class("at-narrow"), chart.Node()))
		bars = append(bars, markup.E("div", markup.Class("at-narrow"), bar.Node()))
	}
	m.PumpChart = markup.E("div", markup.Class("drawn"), charts)
	if len(bar.Parts) > 0 {
		m.HeadBar = markup.E("div", markup.Class("drawn"), bars)
	}
	paintPipework(m, v, w)
	paintMonths(m, s, v)
	wordPump(m, v)
}

// wordPump words what stands beside the charts, and the tables equal to them.
func wordPump(m *Model, v view.View) {
	head := v.Head()
	m.Plain, m.Power = v.Plain(), tableFrom(v.Powers())
	m.HeadTitle, m.HeadTable, m.BarTable = head.Title, tableFrom(head.Table), tableFrom(v.Months().Table)
	m.HeadTable.Fold, m.BarTable.Fold = m.Say("page.as_table"), m.Say("page.as_table")
}

func headBar(v view.View) drawing.HeadBar {
	head := v.Head()
	bar := drawing.HeadBar{Caption: drawing.Caption{ID: "headbar", Title: head.Title, Says: head.Friction},
		LiftText: head.Real, FrictionText: head.Friction}
	for _, p := range head.Segments {
		kind := drawing.Friction
		if p.Real {
			kind = drawing.Lifting
		}
		bar.Parts = append(bar.Parts, drawing.HeadPart{Name: p.Label, Text: p.Head.String(), HeadM: p.Share, Kind: kind})
	}
	return bar
}

func paintMonths(m *Model, s State, v view.View) {
	by := v.Months()
	if len(by.Months) == 0 {
		return
	}
	bars := drawing.MonthBars{Caption: drawing.Caption{ID: "months", Title: m.Say("pump.months"), Says: by.Title}, WidthPx: 420}
	most, peak := 0.0, 0
	for i, x := range by.Months {
		bars.Names = append(bars.Names, x.Name)
		bars.First = append(bars.First, x.Single)
		bars.Second = append(bars.Second, x.Variable)
		if x.Single > by.Months[peak].Single {
			peak = i
		}
		most = max(most, x.Single, x.Variable)
	}
	bars.FirstPeak = by.Months[peak].SingleText
	for _, at := range drawing.Stops(0, max(most, 1), 3) {
		bars.Ticks = append(bars.Ticks, drawing.Tick{At: at, Text: measure.Symbol(s.Form.Terms().Currency) + measure.Round(at, 0)})
	}
	m.Bars = bars.Node()
}

// axis is a unit of the chart: how much of SI one of it is, as people read it.
type axis struct{ flowM3PerS, headM float64 }

func axes(sys measure.System) axis {
	flow, length := "1 gal/h", "1 ft"
	if sys == measure.Metric {
		flow, length = "1 m3/h", "1 m"
	}
	f, _ := measure.ParseFlow(flow, sys)
	h, _ := measure.ParseLength(length, sys)
	return axis{f, h}
}

func (x axis) curve(c sheet.Curve) []sheet.XY {
	out := make([]sheet.XY, len(c.Points))
	for i, p := range c.Points {
		out[i] = sheet.XY{X: p.X / x.flowM3PerS, Y: p.Y / x.headM}
	}
	return out
}

func (x axis) at(sh *sheet.Sheet, flow, head sheet.ID) *sheet.XY {
	f, ok1 := sh.Find(flow)
	h, ok2 := sh.Find(head)
	if !ok1 || !ok2 {
		return nil
	}
	return &sheet.XY{X: f.Value / x.flowM3PerS, Y: h.Value / x.headM}
}

func pumpChart(s State, sh *sheet.Sheet, v view.View) drawing.PumpChart {
	x := axes(s.Form.System)
	sys := string(s.Form.System)
	c := drawing.PumpChart{Caption: drawing.Caption{ID: "pumpchart", Title: v.Say("pump.title"), Says: v.Say("view.chart.duty.at")},
		Full: x.curve(sh.Curve("pump.full")), Quiet: x.curve(sh.Curve("pump.quiet")), System: x.curve(sh.Curve("pump.system")),
		Duty: x.at(sh, "flow.duty", "pump.head"), QuietDuty: x.at(sh, "quiet.flow", "quiet.head"),
		LiftY: sh.Value("pump.head_static") / x.headM,
		Words: drawing.PumpWords{
			XAxis: v.Say("view.chart.x." + sys), YAxis: v.Say("view.chart.y." + sys),
			Full: v.Say("view.chart.full"), Quiet: v.Say("view.chart.quiet"), System: v.Say("view.chart.system"),
			Easy: v.Say("view.chart.easy"), Lift: v.Say("view.chart.lift"),
			Duty: v.Say("view.chart.duty"), DutyNote: v.Say("view.chart.duty.at"), QuietDuty: v.Say("view.chart.hush"), QuietNote: v.Say("view.chart.hush.at"),
		}}
	if c.Duty != nil {
		c.Words.DutyX, c.Words.DutyY = measure.Round(tidyStep(c.Duty.X), 0), measure.Round(c.Duty.Y, 1)
	}
	if from, to := sh.Value("pump.easy_from"), sh.Value("pump.easy_to"); to > from {
		c.EasyFromX, c.EasyToX = from/x.flowM3PerS, to/x.flowM3PerS
	}
	all := c.Full
	if c.Duty != nil {
		all = append(all[:len(all):len(all)], *c.Duty)
	}
	c.XTicks, c.MostX = axisOf(all, func(p sheet.XY) float64 { return p.X }, 7)
	c.YTicks, c.MostY = axisOf(all, func(p sheet.XY) float64 { return p.Y }, 5)
	return c
}

// tidyStep rounds a flow as the readings do: to hundreds where it is large.
func tidyStep(flow float64) float64 {
	if flow < 1000 {
		return flow
	}
	return sheet.Quantise(flow, 100)
}

// axisOf is an axis for a curve and a crossing: round stops, and an end a little over the
// curve's own most, so that no height is wasted on nothing.
func axisOf(curve []sheet.XY, of func(sheet.XY) float64, n int) (stops []drawing.Tick, end float64) {
	const spare = 1.06
	most := 1e-9
	for _, p := range curve {
		most = max(most, of(p))
	}
	all := drawing.Stops(0, most, n)
	decimals := 0
	if len(all) > 1 && all[1] != math.Trunc(all[1]) {
		decimals = 1
	}
	for _, at := range all {
		if at > most*spare {
			break
		}
		text := measure.Round(at, decimals)
		if at == 0 {
			text = strconv.Itoa(0)
		}
		stops = append(stops, drawing.Tick{At: at, Text: text})
	}
	return stops, most * spare
}
