package page

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// Width says for which pages the plan is drawn. Where both are drawn the style
// sheet hides one; a server that guesses draws one, which then shows at every
// width.
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

// Pace says how much of the page follows what a person does at the moment; the
// rest is drawn when they rest.
type Pace int

// The paces.
const (
	Settled Pace = iota // all of it
	Typing              // a number changes: not the stones, the tables and the workings
	InHand              // a ring is pulled: drawing and readings alone
)

// Easel is what a drawing needs beside the pond, and what it leaves behind.
type Easel struct {
	Width Width
	Pace  Pace
	// Wide and Narrow are the pictures drawn last.
	Wide, Narrow *drawing.Picture
	thumbs       []thumb
	still        *Model // what was on the page before the ring was taken in hand
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
//
// While a ring is in hand only the drawing and the readings follow it: nobody
// reads a table or a question then, and they would take the time of a frame.
// The next settled frame brings the rest.
func Paint(s State, a Answered, k Kit, e Easel) (Model, Easel) {
	v := view.Of(a.Sheet, k.Words, s.Form.Terms())
	if e.Pace != Settled && e.still != nil && s.View == DrawView {
		m := *e.still
		m.kept.pace = e.Pace
		if e.Pace == InHand {
			m = follow(m, s, v.Brief(), k.Words)
		} else {
			m = word(s, v.Brief(), k)
			m.kept = e.still.kept
			m.kept.follow(m.Answers)
			paintAsides(&m, s)
		}
		return paintPlan(m, s, a, k, v, e)
	}
	m := word(s, v, k)
	m.kept = newKept(m.Answers)
	m, e = paint(m, s, a, k, v, e)
	e.still = nil
	if s.Live && s.View == DrawView {
		e.still = &m
	}
	return m, e
}

// Ahead draws the small pictures of ponds that are not beside each other yet,
// and leaves them on the easel.
func Ahead(s State, a Answered, k Kit, e Easel) Easel {
	_, with := Paint(s, a, k, Easel{Width: e.Width, thumbs: e.thumbs})
	e.thumbs = with.thumbs
	return e
}

// paint draws what a view shows.
func paint(m Model, s State, a Answered, k Kit, v view.View, e Easel) (Model, Easel) {
	switch s.View {
	case DrawView:
		m.Tables = drawingTables(s, a, v, k.Words)
		m, e = paintPlan(m, s, a, k, v, e)
		paintAsides(&m, s)
		paintMoves(&m, v, 256)
	case PumpView:
		m.Pumping = pumping(s, v, k.Words)
		paintPump(&m, s, a, v, e.Width)
	case CompareView:
		m, e = paintCompare(m, s, a, k, e)
	case SendView:
		o := pinned(s, a, v, m.Notes)
		o.DepthTicks = paintMarks(&m, v)
		m.Pinned = drawing.Plan(a.Plan, o).Node
		paintAsides(&m, s)
		paintMoves(&m, v, 560)
		paintPaper(&m, s, a, v)
	}
	return m, e
}

// fullHighPx is how high plan and section may be together in the picture's own
// space, so that a usual screen shows both.
const fullHighPx = 796

func paintPlan(m Model, s State, a Answered, k Kit, v view.View, e Easel) (Model, Easel) {
	m = paintHand(m, s, k)
	draw := func(id string, look drawing.Look, last *drawing.Picture) *drawing.Picture {
		o := options(s, a, v)
		o.ID, o.Look, o.Near = id, look, drawing.Near(s.Zoom)
		if look == drawing.Full {
			o.MaxHeightPx = fullHighPx
		}
		if s.Live {
			o.Rings, o.Chosen, o.Grips = drawing.Drag, s.Chosen, grips(s, a, k.Words)
		}
		plan := a.Plan
		if len(a.Trial.Rim) > 2 {
			plan = onTrial(plan, a.Trial)
			o.State, o.Crossing = drawing.Wrong, crossing(s)
			if last != nil {
				held := last.View
				o.View, o.Last = &held, last
			}
		}
		if last != nil && (s.Chosen > 0 || s.Held != "") {
			held := last.View // nothing jumps while it is in hand
			o.View = &held
		}
		if e.Pace != Settled && last != nil {
			held := last.View
			o.View, o.Last = &held, last
			o.Detail = drawing.Moving
			if e.Pace == Typing {
				o.Detail = drawing.Following
			}
		}
		p := drawing.Sheet(plan, o)
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
		Deck: v.Say("plan.deck"), Steps: v.Say("grip.stairs_at"), Beach: v.Say("plan.beach"), Pump: v.Say("plan.pump"), Intake: v.Say("plan.intake"), DeepEnd: v.Say("plan.deep_end"),
		North: v.Say("plan.north"), Depth: v.Say("plan.depth"), Section: v.Say(sectionWords(s)),
		WaterLine: v.Say("plan.water_line"), Liner: v.Say("plan.liner"), Gravel: v.Say("plan.gravel"),
		Adult: v.Say("plan.adult", length(adult(a.Sheet))), Child: v.Say("plan.child", length(childM)),
		LengthText: t.Length(a.Sheet.Value("pond.length")).String(), WidthText: t.Length(a.Sheet.Value("pond.width")).String(),
		DeepAt: length(a.Plan.DeepM),
		Ring:   func(i int) string { return v.Say("plan.ring", strconv.Itoa(i+1)) },
		Length: length,
		Number: func(m float64) string { return number1(t, m) },
	}
	if len(a.Plan.Jets) > 0 {
		o.Words.Jets, o.Words.JetsNote = v.Say("plan.jets"), v.Say("plan.jets.note")
		o.Words.Description += " " + v.Say("plan.desc.jets")
	}
	return o
}

func sectionWords(s State) string {
	if len(s.Form.CutDeg()) > 0 {
		return "plan.section.hand"
	}
	return "plan.section"
}

// paintHand words what is in hand and what is wrong with the outline.
func paintHand(m Model, s State, k Kit) Model {
	t := s.Form.Terms()
	if _, fault, ok := s.Form.Attempt(); ok {
		m.Outline = k.Words.Fault(fault, t)
	}
	if i := s.Chosen - 1; i >= 0 && i < len(s.Rings) {
		m.RingAt = [2]string{plainLength(t, s.Rings[i].X), plainLength(t, s.Rings[i].Y)}
	}
	if at, ok := s.GripDeg(s.Held); ok {
		m.Held = bearingWords(k.Words, at)
	}
	return m
}

// plainLength is a length with ordinary blanks, as a person would type it.
func plainLength(t measure.Terms, lengthM float64) string {
	return strings.ReplaceAll(t.Length(lengthM).String(), "\u00a0", " ")
}

// onTrial is the last plan with an outline that cannot be a pond.
func onTrial(p, trial sheet.Plan) sheet.Plan {
	p.Rim, p.Handles, p.Bands = trial.Rim, trial.Handles, nil
	p.BeachFrom, p.BeachTo = 0, 0
	return p
}

// crossing is where the outline that was tried meets itself.
func crossing(s State) *sheet.XY {
	_, fault, ok := s.Form.Attempt()
	if !ok || fault.Code != "crosses_itself" {
		return nil
	}
	var at sheet.XY
	for _, a := range fault.Args {
		switch a.Name {
		case "x":
			at.X = a.Value
		case "y":
			at.Y = a.Value
		}
	}
	return &at
}

// adultM and childM are the heights of the people in the section.
const (
	adultM = 1.75
	childM = 1.2
)

// adult is the adult that the notes speak of, or the usual one where the sheet
// has no figures.
func adult(s *sheet.Sheet) (heightM float64) {
	if f, ok := s.Find("safety.adult_height"); ok {
		return f.Value
	}
	return adultM
}

// inFeet is a length in feet without the unit, quarters as people write them.
func inFeet(m float64) string {
	perFootM, _ := measure.ParseLength("1 ft", measure.US)
	quarters := math.Round(m / perFootM * 4)
	if math.Abs(m/perFootM*4-quarters) > 0.17 {
		return measure.Round(m/perFootM, 1)
	}
	whole, part := measure.Round(math.Floor(quarters/4), 0), []string{"", "¼", "½", "¾"}[int(quarters)%4]
	if whole == "0" && part != "" {
		whole = ""
	}
	return whole + part
}

// number1 is a length in feet or tenths of a metre, without its unit.
func number1(t measure.Terms, m float64) string {
	if t.System == measure.US {
		return inFeet(m)
	}
	return measure.Round(m, 1)
}

func pinned(s State, a Answered, v view.View, notes []Note) drawing.Options {
	o := options(s, a, v)
	o.ID, o.WidthPx, o.Look, o.Detail = "pinned", 440, drawing.Phone, drawing.Quiet
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
