package page

import (
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// pumping words the pump's view.
func pumping(s State, v view.View, w say.Words) Pumping {
	pipes, choice := v.Pipework(), v.Choice()
	p := Pumping{Easy: v.Easy(), PipeTitle: pipes.Title, PipeTable: tableFrom(pipes.Table),
		Models: models(s, w), Counts: plainOptions(s, form.Pumps), Discharges: pipeOptions(s, form.Discharge), JetPipes: pipeOptions(s, form.JetPipe),
		Why: choice.Why, Choice: tableFrom(choice.Table), Note: choice.Note, Asks: tableFrom(v.Asks())}
	if s.Form.Word(form.Jets) != "0" {
		p.Jets = w.Say("jets.shut")
	}
	for _, place := range s.Form.Choices(form.Stand) {
		p.Stands = append(p.Stands, part.Option{Value: place, Label: w.Say("ask.stand." + place)})
	}
	p.PipeTable.Fold, p.Choice.Fold = w.Say("page.as_table"), w.Say("page.as_table")
	schedule, advice := v.Schedule()
	p.Schedule, p.Advice = tableFrom(schedule), advice
	bars, lift := v.Suction()
	p.Lift = lift
	for _, b := range bars {
		p.Suction = append(p.Suction, part.Bar{Label: b.Label, Amount: b.Amount.String(), Share: b.Share, Solid: b.Solid})
	}
	for _, t := range choice.Tries {
		if c := mend(s, w, t.Mend); c.Href != s.address(s.Form, s.View) {
			c.Label = w.Say("view.try.this.for", t.Name)
			p.Tries = append(p.Tries, c)
		}
	}
	notes := v.Notes()
	for _, care := range []bool{true, false} {
		for _, n := range notes {
			if n.OfPump() && n.Care == care {
				p.Notes = append(p.Notes, note(s, w, n))
			}
		}
	}
	for _, key := range []string{"pump.care.hold", "pump.care.dry", "pump.care.power"} {
		p.Cautions = append(p.Cautions, w.Say(key))
	}
	for _, key := range []source.Key{"usc8003", "practice", "nec680_26"} {
		p.Cited = append(p.Cited, w.Citation(key))
	}
	return p
}

// models are the pumps of the book by kind, after the choice of the check.
func models(s State, w say.Words) []part.Option {
	out := []part.Option{{Value: form.Auto, Label: w.Say("pump.model.auto")}}
	for _, p := range s.Form.Defaults().Pumps {
		kind := "pump.model.single"
		if p.Drive == design.VariableSpeed {
			kind = "pump.model.variable"
		}
		label := p.Name
		if !strings.Contains(strings.ToLower(label), "speed") {
			label += ", " + w.Say(kind)
		}
		out = append(out, part.Option{Value: p.ID, Label: label})
	}
	if len(out) == 1 {
		return nil
	}
	return out
}

func plainOptions(s State, f form.Field) []part.Option {
	var out []part.Option
	for _, name := range s.Form.Choices(f) {
		out = append(out, part.Option{Value: name, Label: name})
	}
	return out
}

// mend is a change, of one answer or of several at once, as something to press.
func mend(s State, w say.Words, changes []sheet.Change) Mend {
	var fields, set []string
	for _, c := range changes {
		fields = append(fields, c.Field)
		set = append(set, c.Field+"="+c.Value)
	}
	all := strings.Join(set, ";")
	next := s.Form.Set(all)
	label := ""
	if len(changes) > 0 {
		own, _ := next.Understood(form.Field(changes[0].Field))
		label = tryWords(w, changes[0], own)
		if key := "try." + strings.Join(fields, "."); len(changes) > 1 && w.Has(key) {
			label = w.Say(key, own)
		}
	}
	return Mend{Label: label, Href: s.address(next, s.View), Act: part.Act{Name: ActSet, Arg: all}}
}

// paintPipework draws the pipework for wide pages, for phones, or for both.
func paintPipework(m *Model, v view.View, width Width) {
	works := v.Pipework()
	if len(works.Parts) == 0 {
		m.Pumping.Pipework = markup.None()
		return
	}
	c := drawing.Schematic{Caption: drawing.Caption{ID: "pipework", Title: works.Title, Says: works.Says},
		Lines: works.Lines, WaterLine: works.WaterLine, Lift: works.Lift, Pumps: pumpPlace(works.Place)}
	for _, p := range works.Parts {
		c.Parts = append(c.Parts, drawing.SchematicPart{Kind: partKind(p.Kind), Name: p.Name, Notes: p.Notes})
	}
	var kids []markup.Node
	if width != Narrow {
		kids = append(kids, markup.E("div", markup.Class("at-wide"), c.Node()))
	}
	if width != Wide {
		c.ID, c.WidthPx = "pipeworklet", 360
		kids = append(kids, markup.E("div", markup.Class("at-narrow"), c.Node()))
	}
	m.Pumping.Pipework = markup.E("div", markup.Class("drawn"), kids)
}

func pumpPlace(place string) drawing.PumpPlace {
	switch place {
	case "water":
		return drawing.InWater
	case "pit":
		return drawing.InPit
	}
	return drawing.OnPad
}

// partKind is how a row of the schedule is drawn.
func partKind(kind string) drawing.PartKind {
	switch kind {
	case "intake":
		return drawing.IntakePart
	case "suction_pipe":
		return drawing.SuctionPart
	case "discharge_pipe":
		return drawing.DischargePart
	case "zone":
		return drawing.GravelPart
	case "cascade":
		return drawing.LipPart
	case "jets":
		return drawing.JetPart
	case "return":
		return drawing.ReturnPart
	case "check_valve", "straight_check":
		return drawing.CheckPart
	case "foot_valve", "foot_valve_poppet":
		return drawing.FootPart
	case "priming_tee":
		return drawing.TeePart
	case "union":
		return drawing.UnionPart
	}
	if strings.HasPrefix(kind, "pump_") {
		return drawing.PumpPart
	}
	return drawing.ValvePart
}
