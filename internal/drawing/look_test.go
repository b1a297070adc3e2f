package drawing_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// gallery are ponds that a drawing must stand up to.
func gallery() map[string]design.Design {
	all := map[string]design.Design{"demo": demo()}
	jets := demo()
	jets.Circulation.Jets = &design.Jets{Count: 6, NozzleM: 0.01, NozzleHeadM: 1.5}
	all["jets"] = jets
	oval := demo()
	oval.Outline.Shape, oval.Bowl.Beach, oval.Deck = design.Ellipse, nil, nil
	all["oval"] = oval
	long := demo()
	long.Outline = design.Outline{Shape: design.RoundedRectangle, LengthM: 22, WidthM: 5, CornerRadiusM: 2.5}
	long.Bowl.Beach.BearingDeg = 90
	long.Circulation.PumpBearingDeg, long.Deck.BearingDeg = 300, 180
	all["long"] = long
	north := demo()
	north.Bowl.Beach.BearingDeg, north.Zone.BearingDeg, north.Cascade.BearingDeg = 0, 90, 95
	north.Circulation.PumpBearingDeg = 200
	all["north"] = north
	south := demo()
	south.Bowl.Beach.BearingDeg, south.Deck.BearingDeg = 180, 270
	all["south"] = south
	bare := demo()
	bare.Zone, bare.Cascade, bare.Deck = nil, nil, nil
	bare.Outline = design.Outline{Shape: design.Rectangle, LengthM: 9, WidthM: 6}
	bare.Bowl.Beach = nil
	all["bare"] = bare
	tiny := demo()
	tiny.Outline.LengthM, tiny.Outline.WidthM, tiny.Bowl.DeepM, tiny.Zone.AreaM2 = 3.6, 2.6, 0.9, 2
	tiny.Cascade.LipM, tiny.Bowl.Beach.WidthM = 0.5, 1
	tiny.Deck.LengthM, tiny.Deck.WidthM = 1.5, 1
	all["tiny"] = tiny
	huge := demo()
	huge.Outline.LengthM, huge.Outline.WidthM, huge.Zone.AreaM2, huge.Bowl.DeepM = 60, 40, 400, 4
	all["huge"] = huge
	turned := demo()
	turned.Outline.RotationDeg = 35
	all["turned"] = turned
	free := demo()
	free.Outline = design.Outline{Shape: design.Freehand, Handles: []design.Point{
		{XM: -5, YM: -1}, {XM: -2.5, YM: -4}, {XM: 1, YM: -2}, {XM: 4, YM: -4.4}, {XM: 6, YM: 0}, {XM: 3, YM: 2}, {XM: 2, YM: 5}, {XM: -2, YM: 3}}}
	all["free"] = free
	fallen := demo()
	fallen.Zone, fallen.Deck, fallen.Bowl.DeepM = nil, nil, 3.2
	fallen.Bowl.Wall = []design.Knot{{}, {DepthM: 1}, {InsetM: 0.9, DepthM: 1}, {InsetM: 1.4, DepthM: 3.2}}
	fallen.Bowl.Beach.RunPerRiseRatio, fallen.Bowl.Beach.DescentRunPerRiseRatio = 4, 1
	all["fallen"] = fallen
	lshape := demo()
	lshape.Outline = design.Outline{Shape: design.LShape, LengthM: 11, WidthM: 8, NotchLengthM: 5, NotchWidthM: 4}
	all["lshape"] = lshape
	steps := demo()
	steps.Bowl.Steps = &design.Steps{BearingDeg: 45, WidthM: 1.2192, TreadM: 0.3556, RiserM: 0.1778, Count: 6}
	all["steps"] = steps
	return all
}

// cutOpen is the plan of a pond with its section between two bearings.
func cutOpen(t *testing.T, d design.Design, fromDeg, toDeg float64) sheet.Plan {
	t.Helper()
	rim, err := geom.NewRim(d.Outline)
	if err != nil {
		t.Fatal(err)
	}
	f := geom.NewField(rim, d.Bowl)
	return layout.Of(d, f, geom.Measure(f), layout.Sight{LevelsM: []float64{0.3048, 0.6096, 0.9144, 1.2192, 1.524, 1.8288}, CutDeg: []float64{fromDeg, toDeg}})
}

func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" { // set LOOK to a folder to look at them
		dir = t.TempDir()
	}
	css, err := os.ReadFile(filepath.Join("..", "..", "web", "css", "drawing.css"))
	if err != nil {
		t.Fatal(err)
	}
	show := func(name, body string) {
		page := "<!doctype html><meta charset=utf-8><title>" + name + "</title><link rel=stylesheet href=drawing.css><body>" + body
		if err := os.WriteFile(filepath.Join(dir, name+".html"), []byte(page), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "drawing.css"), append(css, []byte("body{margin:0;background:#fbf7ef;font:14px sans-serif}.w{width:704px;margin:auto}.p{width:390px}.c8{width:800px;padding:8px}.c7{width:720px;padding:8px}.c2{width:256px;padding:8px}.c3{width:392px;padding:8px}.bar{width:94px;padding:4px}.t{width:240px;display:inline-block}")...), 0o600); err != nil {
		t.Fatal(err)
	}
	d := demo()
	o := options(d)
	o.Look, o.ID, o.WidthPx, o.Rings = drawing.Full, "pins", 560, drawing.Still
	o.Words = drawing.Words{Title: "Plan with notes"}
	o.Pins = []drawing.Pin{
		{Number: 1, Place: sheet.AtDeepEnd, Mark: sheet.Care}, {Number: 2, Place: sheet.AtDeck, Mark: sheet.Care}, {Number: 3, Place: sheet.AtPump, Mark: sheet.Care},
		{Number: 4, Place: sheet.AroundGround, Mark: sheet.Care}, {Number: 5, Place: sheet.AtBeach, Mark: sheet.Fine}, {Number: 6, Place: sheet.AtIntake, Mark: sheet.Fine},
	}
	pins := markup.HTML(drawing.Plan(plan(d), o).Node)
	o = options(d)
	o.Colour, o.ID, o.Rings = drawing.Ink, "ink", drawing.Still
	ink := markup.HTML(drawing.Sheet(plan(d), o).Node)
	o = options(d)
	o.Words.Length = func(m float64) string { return strconv.FormatFloat(m, 'f', 2, 64) + " m" }
	o.Words.Number = func(m float64) string { return strconv.FormatFloat(m, 'f', 1, 64) }
	o.DepthStepM, o.ScaleStepM = 0.3, 1
	o.Words.DepthEvery, o.Words.LengthText, o.Words.WidthText, o.Words.DeepAt = nil, "10.36 m", "6.40 m", "1.98 m"
	show("metric", "<div class=w>"+markup.HTML(drawing.Sheet(layout.Plan(d, []float64{0.3, 0.6, 0.9, 1.2, 1.5, 1.8}), o).Node)+"</div>")
	o = options(d)
	o.State, o.Crossing = drawing.Wrong, &sheet.XY{X: 1, Y: -1.8}
	show("wrong", "<div class=w>"+markup.HTML(drawing.Sheet(plan(d), o).Node)+"</div>")
	o = options(d)
	o.Window = [4]float64{300, 150, 352, 430}
	show("zoomed", "<div class=w>"+markup.HTML(drawing.Sheet(plan(d), o).Node)+"</div>")
	show("charts", charts())
	o = options(d)
	show("steps-cut", "<div class=w>"+markup.HTML(drawing.Sheet(cutOpen(t, gallery()["steps"], 45, 225), o).Node)+"</div>")
	show("pins", "<div class=w>"+pins+"</div>")
	show("ink", "<div class=w>"+ink+"</div>")
	for name, d := range gallery() {
		o := options(d)
		o.Chosen = 4
		pic := drawing.Sheet(plan(d), o)
		html := markup.HTML(pic.Node)
		fmt.Println(name, len(html), pic.View)
		show(name, `<div class=w>`+html+`</div>`)
		o.Look = drawing.Phone
		phone := markup.HTML(drawing.Sheet(plan(d), o).Node)
		o.Look = drawing.Thumbnail
		o.ID = "u"
		thumb := markup.HTML(drawing.Plan(plan(d), o).Node)
		fmt.Println(name, "phone", len(phone), "thumb", len(thumb))
		show(name+"-phone", `<div class=p>`+phone+`</div><div class=t>`+thumb+`</div>`)
	}
}
