package page

import (
	"strconv"
	"strings"

	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// Width says for which pages the plan is drawn. A server does not know, so it
// draws both and the style sheet hides one.
type Width string

// The widths.
const (
	AnyWidth Width = ""
	Wide     Width = "wide"
	Narrow   Width = "narrow"
)

// Ids of the drawings; the widget asks where a pointer is in them.
const (
	WideID   = "pond"
	NarrowID = "pondlet"
)

// Easel is what a drawing needs beside the pond, and what it leaves behind.
type Easel struct {
	Width  Width
	Moving bool // a ring is in hand: keep the scale, the stones and the planting
	// Wide and Narrow are the pictures drawn last.
	Wide, Narrow *drawing.Picture
}

// Picture is the drawing that is on the page, where one of them is.
func (e Easel) Picture() *drawing.Picture {
	if e.Width == Narrow {
		return e.Narrow
	}
	return e.Wide
}

// Paint is Build on an easel that keeps pictures from one drawing to the next;
// it returns the easel with the new ones on it.
func Paint(s State, a Answered, k Kit, e Easel) (Model, Easel) {
	m := word(s, a, k)
	v := view.Of(a.Sheet, k.Words, s.Form.Terms())
	switch s.View {
	case DrawView:
		m, e = paintPlan(m, s, a, v, e)
		paintAsides(&m, s, v)
		paintMoves(&m, v, 256)
	case PumpView:
		paintPump(&m, s, a, v, e.Width)
	case SendView:
		o := pinned(s, a, v, m.Notes)
		o.DepthTicks = paintMarks(&m, v)
		m.Pinned = drawing.Plan(a.Plan, o).Node
		paintAsides(&m, s, v)
		paintMoves(&m, v, 560)
	}
	return m, e
}

func paintPlan(m Model, s State, a Answered, v view.View, e Easel) (Model, Easel) {
	draw := func(id string, look drawing.Look, last *drawing.Picture) *drawing.Picture {
		o := options(s, a, v)
		o.ID, o.Look = id, look
		if s.Live {
			o.Rings, o.Chosen = drawing.Drag, s.Chosen
		}
		if e.Moving && last != nil {
			o.Detail, o.Last = drawing.Moving, last
			held := last.View
			o.View = &held
		}
		p := drawing.Sheet(a.Plan, o)
		return &p
	}
	m.Drawing = markup.None()
	var kids []markup.Node
	if e.Width != Narrow {
		e.Wide = draw(WideID, drawing.Full, e.Wide)
		kids = append(kids, markup.E("div", markup.Class("at-wide"), e.Wide.Node))
	}
	if e.Width != Wide {
		e.Narrow = draw(NarrowID, drawing.Phone, e.Narrow)
		kids = append(kids, markup.E("div", markup.Class("at-narrow"), e.Narrow.Node))
	}
	m.Drawing = markup.E("div", markup.Class("drawn"), kids)
	return m, e
}

func options(s State, a Answered, v view.View) drawing.Options {
	t := s.Form.Terms()
	o := drawing.Options{DepthStepM: StepM(s.Form.System), ScaleStepM: StepM(s.Form.System), RiseM: a.Sheet.Value("cascade.rise")}
	if t.System == measure.Metric {
		o.ScaleStepM = 1
	}
	length := func(m float64) string { return t.Depth(m).String() }
	o.Words = drawing.Words{
		Title: v.Say("plan.title"), Description: v.Say("plan.desc"),
		Zone: v.Say("plan.zone"), ZoneNote: v.Say("plan.zone.note"), Cascade: v.Say("plan.cascade"), CascadeNote: v.Say("plan.cascade.lip"),
		Deck: v.Say("plan.deck"), Beach: v.Say("plan.beach"), Pump: v.Say("plan.pump"), Intake: v.Say("plan.intake"), DeepEnd: v.Say("plan.deep_end"),
		North: v.Say("plan.north"), Depth: v.Say("plan.depth"), Section: v.Say("plan.section"),
		WaterLine: v.Say("plan.water_line"), Liner: v.Say("plan.liner"), Gravel: v.Say("plan.gravel"),
		Adult: v.Say("plan.adult", length(adultM)), Child: v.Say("plan.child", length(childM)),
		LengthText: t.Length(a.Sheet.Value("pond.length")).String(), WidthText: t.Length(a.Sheet.Value("pond.width")).String(),
		DeepAt: length(a.Plan.DeepM),
		Ring:   func(i int) string { return v.Say("plan.ring", strconv.Itoa(i+1)) },
		Length: length,
		Number: func(m float64) string { return number1(t, m) },
	}
	return o
}

// adultM and childM are the heights of the people in the section.
const (
	adultM = safety.AdultHeightM
	childM = 1.2
)

// number1 is a length in whole feet or tenths of a metre, without its unit.
func number1(t measure.Terms, m float64) string {
	if t.System == measure.US {
		n, _, _ := strings.Cut(t.Depth(m).String(), "\u00a0")
		return n
	}
	return measure.Round(m, 1)
}

func pinned(s State, a Answered, v view.View, notes []Note) drawing.Options {
	o := options(s, a, v)
	o.ID, o.WidthPx, o.Look = "pinned", 440, drawing.Phone
	for i, n := range notes {
		if n.Place == sheet.NoPlace || i >= pinnedNotes {
			continue
		}
		mark := sheet.Fine
		if n.Care {
			mark = sheet.Care
		}
		o.Pins = append(o.Pins, drawing.Pin{Number: i + 1, Place: n.Place, Mark: mark})
	}
	return o
}

func slide(s State) (out part.Slider) {
	t := s.Form.Terms()
	deepM := s.Form.Value(form.Deep)
	out.Spoken = t.Depth(deepM).String()
	out.Track = drawing.DepthTrack{LeastM: 0.9144, MostM: 2.7432, StepM: StepM(s.Form.System)}.Node()
	if t.System == measure.Metric {
		out.Track = drawing.DepthTrack{LeastM: 0.6, MostM: 3.6, StepM: StepM(s.Form.System)}.Node()
		out.Least, out.Most, out.Step, out.Value = "60", "360", "5", measure.Round(deepM*100, 0)
		out.Marks = []string{"0.6", "1.2", "1.8", "2.4", "3.0", "3.6 m"}
		return out
	}
	out.Least, out.Most, out.Step, out.Value = "36", "108", "3", inches(deepM)
	out.Marks = []string{"3", "4", "5", "6", "7", "8", "9 ft"}
	return out
}

// inches is a depth in whole inches.
func inches(depthM float64) string { return measure.Round(depthM/perInchM(), 0) }

func perInchM() float64 { inchM, _ := measure.ParseLength("1 in", measure.US); return inchM }
