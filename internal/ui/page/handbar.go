package page

import (
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
)

// gripNames lists what stands round the water, in the order a finger wants it.
func gripNames() []string {
	return []string{string(form.CascadeAt), string(form.StepsAt), string(form.DeckAt), string(form.ZoneAt), string(form.PumpAt), string(form.IntakeAt), string(form.BeachAt), CutFrom, CutTo}
}

// grips are the drawing's, each where its thing is.
func grips(s State, a Answered, w say.Words) []drawing.Grip {
	var out []drawing.Grip
	for _, name := range gripNames() {
		at, ok := s.GripDeg(name)
		place, there := gripPlace(s, a.Plan, name)
		if !ok || !there {
			continue
		}
		out = append(out, drawing.Grip{Name: name, Spoken: w.Say("grip.move", w.Say("grip."+name)), At: bearingWords(w, at),
			BearingDeg: at, Chosen: s.Held == name, Place: place})
	}
	return out
}

// bearingWords is a bearing in degrees and by its nearest of eight winds.
func bearingWords(w say.Words, bearingDeg float64) string {
	n := (int(bearingDeg+0.5)%360 + 360) % 360
	return w.Say("bearing.at", strconv.Itoa(n), w.Say("bearing."+strconv.Itoa((n+22)/45%8)))
}

func gripPlace(s State, p sheet.Plan, name string) (sheet.XY, bool) {
	switch name {
	case string(form.ZoneAt):
		return middleOf(p.Zone)
	case string(form.CascadeAt):
		return middleOf(p.Cascade)
	case string(form.StepsAt):
		return middleOf(stepsRing(p))
	case string(form.DeckAt):
		return middleOf(p.Deck)
	case string(form.PumpAt):
		return p.Pump, len(p.Rim) > 0
	case string(form.IntakeAt):
		return p.Intake, len(p.Rim) > 0
	case string(form.BeachAt):
		return beachMiddle(p)
	}
	// The plan's section runs from west to east, whichever end is which.
	ends := [2]sheet.XY{p.CutFrom, p.CutTo}
	i := endOf(name)
	if at := s.Form.CutDeg(); len(at) == 2 && apart(s.BearingOf(ends[i]), at[i]) > apart(s.BearingOf(ends[1-i]), at[i]) {
		i = 1 - i
	}
	return ends[i], len(p.Section) > 1
}

// apart is the angle between two bearings.
func apart(aDeg, bDeg float64) float64 {
	d := aDeg - bDeg
	for d > 180 {
		d -= 360
	}
	for d < -180 {
		d += 360
	}
	return max(d, -d)
}

func middleOf(ring []sheet.XY) (sheet.XY, bool) {
	var m sheet.XY
	for _, p := range ring {
		m.X += p.X / float64(len(ring))
		m.Y += p.Y / float64(len(ring))
	}
	return m, len(ring) > 2
}

// stepsRing is the flight of steps as one outline: its upper end and its foot.
func stepsRing(p sheet.Plan) []sheet.XY {
	if len(p.Treads) == 0 {
		return nil
	}
	first, last := p.Treads[0].Corners, p.Treads[len(p.Treads)-1].Corners
	return []sheet.XY{first[0], first[1], last[2], last[3]}
}

func beachMiddle(p sheet.Plan) (sheet.XY, bool) {
	n := len(p.Rim)
	if p.BeachFrom == p.BeachTo || n == 0 {
		return sheet.XY{}, false
	}
	return p.Rim[(p.BeachFrom+(p.BeachTo-p.BeachFrom+n)%n/2)%n], true
}

// zoomTools are the buttons that bring the drawing nearer.
func zoomTools(s State, m Model) markup.Node {
	if !s.Live {
		return markup.E("div", markup.Class("zooms"), markup.Flag("hidden", true))
	}
	tool := func(mark part.Mark, arg string, off bool) markup.Node {
		return part.Button{Icon: mark, Name: m.Say("zoom." + arg), Act: part.Act{Name: ActZoom, Arg: arg}, IconOnly: true, Off: off, ID: "zoom-" + arg}.Node()
	}
	return markup.E("div", markup.Class("zooms"), markup.A("role", "group"), markup.A("aria-label", m.Say("zoom")),
		tool(part.MarkPlus, "in", s.Zoom.Times >= 6), tool(part.MarkMinus, "out", s.Zoom.Times <= 1), tool(part.MarkFit, "fit", s.Zoom.Times <= 1))
}

// handbar stands beside the drawing: what can be done with the ring or the
// thing in hand, or what is wrong with the outline. It is always in the tree,
// so that what follows keeps its place.
func handbar(s State, m Model) markup.Node {
	ring, grip := markup.None(), markup.None()
	switch {
	case m.Outline != "": // first things first
	case s.Live && s.Chosen > 0 && s.Chosen <= len(s.Rings):
		ring = ringBar(s, m)
	case s.Live && s.Held != "":
		grip = gripBar(s, m)
	}
	return markup.E("div", markup.Class("handbar"), markup.A("role", "group"), markup.A("aria-label", m.Say("hand")), outlineFault(s, m), ring, grip)
}

// outlineFault says where the outline cannot be, with the way back.
func outlineFault(s State, m Model) markup.Node {
	if m.Outline == "" {
		return markup.None()
	}
	return part.Notice{Mark: part.MarkCare, Title: m.Say("outline.wrong"), Text: []string{m.Outline}, Care: true, ID: "outline-fault", Status: true,
		Actions: []markup.Node{part.Button{Label: m.Say("outline.mend"), Href: s.address(s.Form.Mended(), s.View), Act: part.Act{Name: ActMend}, Ghost: true, ID: "mend"}.Node()}}.Node()
}

func ringBar(s State, m Model) markup.Node {
	n := s.Chosen - 1
	act := func(name, label string, off bool) markup.Node {
		return part.Button{Label: m.Say(label), Name: m.Say(label + ".long"), Act: part.Act{Name: name, Arg: strconv.Itoa(n)}, Ghost: true, Off: off, ID: "ring-" + name}.Node()
	}
	place := func(axis string, i int) markup.Node {
		value := m.RingAt[i]
		if s.RingText[i] != "" {
			value = s.RingText[i]
		}
		id := "ring-at-" + axis
		wrong := markup.Attr{}
		class := "val"
		if _, ok := signedLength(value, s.Form.System); !ok {
			wrong, class = markup.A("aria-invalid", "true"), "val faulty"
		}
		return markup.E("label", markup.Class("ring-at"), markup.A("for", id), markup.E("span", m.Say("ring."+axis)),
			markup.E("input", markup.A("type", "text"), markup.A("id", id), markup.Class(class), markup.A("value", value), wrong,
				markup.A("autocomplete", "off"), markup.A("data-act", ActRingAt), markup.A("data-arg", axis)))
	}
	return markup.E("div", markup.Class("in-hand"),
		markup.E("p", markup.Class("name"), m.Say("plan.ring", strconv.Itoa(s.Chosen))),
		markup.E("div", markup.Class("hand-acts"), place("x", 0), place("y", 1),
			act(ActAdd, "ring.add", len(s.Rings) >= mostRings), act(ActRemove, "ring.remove", len(s.Rings) <= fewestRings),
			part.Button{Label: m.Say("hand.done"), Act: part.Act{Name: ActChoose}, ID: "hand-done"}.Node()))
}

func gripBar(s State, m Model) markup.Node {
	turn := func(way, label string, by string) markup.Node {
		return part.Button{Label: m.Say(label), Act: part.Act{Name: ActTurn, Arg: s.Held + "=" + by}, Ghost: true, ID: "turn-" + way}.Node()
	}
	uncut := markup.None()
	if (s.Held == CutFrom || s.Held == CutTo) && len(s.Form.CutDeg()) > 0 {
		uncut = part.Button{Label: m.Say("grip.uncut"), Act: part.Act{Name: ActUncut}, Ghost: true, ID: "uncut"}.Node()
	}
	return markup.E("div", markup.Class("in-hand"),
		markup.E("p", markup.Class("name"), m.Say("grip."+s.Held), markup.E("span", m.Held)),
		markup.E("div", markup.Class("hand-acts"), turn("on", "grip.on", "5"), turn("back", "grip.back", "-5"), uncut,
			part.Button{Label: m.Say("hand.done"), Act: part.Act{Name: ActHold}, ID: "hand-done"}.Node()))
}

// standing asks where things stand along the edge, in degrees.
func standing(s State, m Model) markup.Node {
	var rows []markup.Node
	for _, f := range []form.Field{form.CascadeAt, form.StepsAt, form.DeckAt, form.ZoneAt, form.PumpAt, form.IntakeAt, form.BeachAt} {
		_, there := s.Form.Bearing(f)
		rows = append(rows, optional(there, number(m, f)))
	}
	return markup.E("details", markup.Class("fold"), markup.A("id", "standing"), markup.E("summary", m.Say("ask.standing")),
		markup.E("p", markup.Class("note"), m.Say("ask.standing.note")), rows)
}
