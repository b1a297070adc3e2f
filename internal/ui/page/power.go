package page

import (
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// powerQuestions ask how electricity is priced, and then for what that way
// needs: the state and a price, or what the home takes without the pond.
func powerQuestions(m Model) []markup.Node {
	byTariff := m.Answers[form.Bill].Text == "tariff"
	use := number(m, form.HomeUse)
	return []markup.Node{
		billChoice(m),
		optional(!byTariff, markup.E("div", region(m), plain(m, form.Power), priceSource(m))),
		optional(byTariff, markup.E("div", use, markup.E("p", markup.Class(part.ClassNote), m.Region.Tariff))),
	}
}

// billChoice offers the ways that there are; with one of them there is nothing
// to choose.
func billChoice(m Model) markup.Node {
	if len(m.Region.Ways) < 2 {
		return markup.E("div")
	}
	var options []part.Option
	for _, w := range m.Region.Ways {
		o := part.Option{Value: w, Label: m.Say("ask.bill." + w), Name: m.Say("ask.bill." + w + ".is")}
		if w == "average" && len(m.Region.Options) == 0 {
			o.Label, o.Name = m.Say("ask.bill.own"), m.Say("ask.bill.own.is")
		}
		options = append(options, o)
	}
	return part.Choice{Label: label(m, form.Bill, ""), Value: m.Answers[form.Bill].Text, Options: options}.Node()
}

// hourQuestions ask for the pump's day and year.
func hourQuestions(m Model) []markup.Node {
	cascade := m.Answers[form.Cascade].Text == "on"
	note := func(key string) markup.Node { return markup.E("p", markup.Class(part.ClassNote), m.Say(key)) }
	return []markup.Node{
		optional(cascade, markup.E("div", number(m, form.CascadeHours), note("ask.hours.note"))),
		listed(m, form.Night, worded(m, form.Night, "quiet", "slow", "off")),
		listed(m, form.Winter, worded(m, form.Winter, "off", "slow")), note("ask.winter.note"),
	}
}

// worded are the answers of a choice with their words.
func worded(m Model, f form.Field, values ...string) []part.Option {
	var out []part.Option
	for _, v := range values {
		out = append(out, part.Option{Value: v, Label: m.Say("ask." + string(f) + "." + v)})
	}
	return out
}

// listed is a question answered from a list.
func listed(m Model, f form.Field, options []part.Option) markup.Node {
	return markup.E("div", markup.Class(part.ClassRow),
		markup.E("label", markup.Class(part.ClassKey), markup.A("for", part.ID(string(f))), m.Say("ask."+string(f))),
		markup.E("span", markup.Class("months places"), choose(m, f, options)),
		part.FaultLine(string(f), m.Answers[f].Fault))
}

// jetQuestion asks for the number of jets.
func jetQuestion(m Model) markup.Node {
	var options []part.Option
	for _, n := range []string{"0", "2", "4", "6", "8"} {
		o := part.Option{Value: n, Label: n}
		if n == "0" {
			o.Name = m.Say("ask.jets.0")
		}
		options = append(options, o)
	}
	return part.Choice{Label: label(m, form.Jets, "ask.jets.note"), Value: m.Answers[form.Jets].Text, Options: options}.Node()
}

// jetParts asks, beside the pump, for the jets' mouths and pipe.
func jetParts(m Model) []markup.Node {
	asked := m.Answers[form.Jets].Text != "0"
	var mouths []part.Option
	for _, mm := range []string{"8", "10", "12", "16", "20"} {
		mouths = append(mouths, part.Option{Value: mm, Label: mm + " mm"})
	}
	return []markup.Node{optional(asked, picked(m, form.Nozzle, mouths)), optional(asked, picked(m, form.JetPipe, m.Pumping.JetPipes))}
}
