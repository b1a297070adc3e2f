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

// pipework is the invented demo's; change makes another of it.
func pipework(change func(*drawing.Schematic)) drawing.Schematic {
	c := drawing.Schematic{Caption: drawing.Caption{ID: "pipes", Title: "The way of the water", Says: "In at 7.2 ft/s."}, Lines: 1, WaterLine: "Water line", Lift: "2 ft 7 in", Pumps: drawing.OnPad,
		Parts: []drawing.SchematicPart{
			{Kind: drawing.IntakePart, Name: "Intake", Notes: []string{"165 gal/min", "0.3 ft/s at the grate"}},
			{Kind: drawing.SuctionPart, Name: "Suction pipe", Notes: []string{"3.1 in inside, 16 ft 5 in long", "165 gal/min, 7.2 ft/s", "2 bends"}},
			{Kind: drawing.ValvePart, Name: "Ball valve"}, {Kind: drawing.CheckPart, Name: "Check valve"}, {Kind: drawing.TeePart, Name: "Priming tee"}, {Kind: drawing.UnionPart, Name: "Union"},
			{Kind: drawing.PumpPart, Name: "Pump, primes itself", Notes: []string{"Pump P-100, single speed", "165 gal/min", "1 ft above the water"}},
			{Kind: drawing.DischargePart, Name: "Discharge pipe", Notes: []string{"3.1 in inside, 45 ft 11 in long", "165 gal/min, 7.2 ft/s", "4 bends"}},
			{Kind: drawing.ValvePart, Name: "Ball valve"}, {Kind: drawing.UnionPart, Name: "Union"},
			{Kind: drawing.GravelPart, Name: "Distribution manifold under the gravel", Notes: []string{"158 sq ft of planted gravel"}},
			{Kind: drawing.LipPart, Name: "Cascade lip", Notes: []string{"165 gal/min", "2 ft 6 in above the water"}},
		}}
	if change != nil {
		change(&c)
	}
	return c
}

func without(kinds ...drawing.PartKind) func(*drawing.Schematic) {
	return func(c *drawing.Schematic) {
		var left []drawing.SchematicPart
		for _, p := range c.Parts {
			keep := true
			for _, k := range kinds {
				keep = keep && p.Kind != k
			}
			if keep {
				left = append(left, p)
			}
		}
		c.Parts = left
	}
}

// pipeworks are layouts that the picture must stand up to.
func pipeworks() map[string]drawing.Schematic {
	jet := drawing.SchematicPart{Kind: drawing.JetPart, Name: "Jets", Notes: []string{"10 gal/min"}}
	return map[string]drawing.Schematic{
		"demo": pipework(nil),
		"three pumps": pipework(func(c *drawing.Schematic) {
			c.Lines = 3
			c.Parts[6].Name = "3 × Pump, primes itself"
			for i := 2; i < 6; i++ {
				c.Parts[i].Name = "3 × " + c.Parts[i].Name
			}
		}),
		"two in a pit": pipework(func(c *drawing.Schematic) { c.Lines, c.Pumps = 2, drawing.InPit }),
		"no gravel":    pipework(without(drawing.GravelPart)),
		"no cascade":   pipework(without(drawing.LipPart)),
		"neither": pipework(func(c *drawing.Schematic) {
			without(drawing.LipPart, drawing.GravelPart)(c)
			c.Parts = append(c.Parts, drawing.SchematicPart{Kind: drawing.ReturnPart, Name: "Back to the pond", Notes: []string{"165 gal/min"}})
		}),
		"jets":    pipework(func(c *drawing.Schematic) { c.Parts = append(c.Parts, jet) }),
		"foot":    pipework(func(c *drawing.Schematic) { c.Parts[3].Kind, c.Parts[3].Name = drawing.FootPart, "Foot valve" }),
		"no pump": pipework(without(drawing.PumpPart)),
	}
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
	for _, name := range sortedKeys2(pipeworks()) {
		c := pipeworks()[name]
		c.ID = "pw" + name
		out += box("c8", c.Node())
		c.ID, c.WidthPx = c.ID+"n", 360
		out += box("p", c.Node())
	}
	for i, share := range []float64{1, 0.44} {
		out += box("bar", drawing.PairBar{Caption: drawing.Caption{ID: "b" + strconv.Itoa(i)}, Share: share, Solid: []drawing.Fill{drawing.Ruled, drawing.FilledIn}[i]}.Node())
	}
	out += box("c2", drawing.DepthTrack{LeastM: 3 * footM, MostM: 9 * footM, StepM: footM}.Node())
	for _, s := range []string{"bean", "ellipse", "circle", "rounded_rectangle", "rectangle", "l_shape", "freehand"} {
		out += markup.HTML(drawing.ShapeIcon(s))
	}
	return out
}

func sortedKeys2(m map[string]drawing.Schematic) []string {
	known := map[string]bool{}
	for k := range m {
		known[k] = true
	}
	return sortedKeys(known)
}
