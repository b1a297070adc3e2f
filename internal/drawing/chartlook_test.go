package drawing_test

import (
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// months is an invented year of pump electricity.
func months() drawing.MonthBars {
	c := drawing.MonthBars{
		Caption: drawing.Caption{ID: "months", Title: "Pump electricity by month", Says: "Most in July."},
		Names:   []string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
		First:   []float64{0, 0, 30, 58, 89, 86, 89.4, 89, 86, 60, 29, 0}, Second: []float64{0, 0, 13, 25, 39, 38, 39.2, 39, 38, 26, 12, 0},
		FirstPeak: "$89", SecondPeak: "$39", Resting: "pump resting",
	}
	for _, v := range drawing.Stops(0, 90, 3) {
		c.Ticks = append(c.Ticks, drawing.Tick{At: v, Text: "$" + strconv.Itoa(int(v))})
	}
	return c
}

func headBar() drawing.HeadBar {
	return drawing.HeadBar{
		Caption: drawing.Caption{ID: "head", Title: "Where the head goes", Says: "Less than a quarter is lifting."},
		Parts: []drawing.HeadPart{
			{Name: "Lift to the lip", Text: "2.6 ft", HeadM: 2.6, Kind: drawing.Lifting}, {Name: "Gravel bed", Text: "1.7 ft", HeadM: 1.7},
			{Name: "Pipe", Text: "2.8 ft", HeadM: 2.8}, {Name: "Bends and valves", Text: "0.6 ft", HeadM: 0.6}, {Name: "Intake", Text: "1.8 ft", HeadM: 1.8},
		},
		LiftText: "Real lifting", FrictionText: "Friction, 6.9 ft. It fades quickly as the flow slows",
	}
}

func staff() drawing.BudgetStaff {
	c := drawing.BudgetStaff{Caption: drawing.Caption{ID: "staff", Title: "Rough budget", Says: "From 72 to 118 thousand."}, Low: 72, Likely: 91, High: 118}
	for _, v := range drawing.Stops(60, 130, 4) {
		c.Ticks = append(c.Ticks, drawing.Tick{At: v, Text: "$" + strconv.Itoa(int(v)) + "k"})
	}
	return c
}

func pumpChart() drawing.PumpChart {
	c := drawing.PumpChart{
		Caption: drawing.Caption{ID: "pump", Title: "Where the pump settles", Says: "At 9,000 gallons an hour and 11.5 feet."},
		Duty:    &sheet.XY{X: 150, Y: 11.5}, QuietDuty: &sheet.XY{X: 75, Y: 4.83}, EasyFromX: 110, EasyToX: 184, LiftY: 2.6,
		Words: drawing.PumpWords{
			XAxis: "Flow, gallons an hour", YAxis: "Head, feet", Full: "Pump at full speed", Quiet: "Pump at 59% speed", System: "What your pond asks for",
			Easy: "Runs easily along here", Lift: "2.6 ft of real lifting", Duty: "Duty point", DutyNote: "150 gal/min at 11.5 ft", QuietDuty: "Quiet hours",
			QuietNote: "75 gal/min at 4.8 ft", DutyX: "9,000", DutyY: "11.5",
		},
	}
	for q := 0.0; q <= 240; q += 2 {
		c.Full = append(c.Full, sheet.XY{X: q, Y: 19.6 - 0.00036*q*q})
		c.Quiet = append(c.Quiet, sheet.XY{X: q, Y: 6.86 - 0.00036*q*q})
		c.System = append(c.System, sheet.XY{X: q, Y: 2.6 + 0.0003956*q*q})
	}
	for v := 0; v <= 14; v += 2 {
		c.XTicks = append(c.XTicks, drawing.Tick{At: float64(v) * 1000 / 60, Text: strconv.Itoa(v) + ",000"})
	}
	for v := 0; v <= 20; v += 5 {
		c.YTicks = append(c.YTicks, drawing.Tick{At: float64(v), Text: strconv.Itoa(v)})
	}
	return c
}

func strip() drawing.ValueStrip {
	c := drawing.ValueStrip{
		Caption: drawing.Caption{ID: "strip", Title: "Ten-year cost", Says: "A is best."},
		Dots:    []drawing.Dot{{Name: "A", At: 165, Stand: drawing.Best}, {Name: "B", At: 173.6}, {Name: "C", At: 173}},
	}
	for v := 160; v <= 180; v += 5 {
		c.Ticks = append(c.Ticks, drawing.Tick{At: float64(v), Text: "$" + strconv.Itoa(v)})
	}
	return c
}

func charts() string {
	box := func(class string, n markup.Node) string {
		return "<div class=" + class + ">" + markup.HTML(n) + "</div>"
	}
	out := box("c8", pumpChart().Node()) + box("c8", headBar().Node()) + box("c7", months().Node()) + box("c2", staff().Node()) + box("c3", strip().Node())
	small := months()
	small.ID, small.WidthPx = "m2", 358
	small.Names, small.First, small.Second, small.Resting = small.Names[2:11], small.First[2:11], small.Second[2:11], ""
	out += box("p", small.Node())
	for i, share := range []float64{1, 0.44} {
		out += box("bar", drawing.PairBar{Caption: drawing.Caption{ID: "b" + strconv.Itoa(i)}, Share: share, Solid: []drawing.Fill{drawing.Ruled, drawing.FilledIn}[i]}.Node())
	}
	out += box("c2", drawing.DepthTrack{LeastM: 3 * footM, MostM: 9 * footM, StepM: footM}.Node())
	for _, s := range []string{"bean", "ellipse", "circle", "rounded_rectangle", "rectangle", "l_shape", "freehand"} {
		out += markup.HTML(drawing.ShapeIcon(s))
	}
	return out
}
