package page

import (
	"tarnwright/internal/core/source"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// Region is where the price of electricity comes from.
type Region struct {
	Options []part.Option
	Note    string // whose price it is, and of which year
	Cited   string
	Ways    []string // in which power can be priced
	Tariff  string   // whose tariff it is, and what it is asked
}

func regionOf(s State, k Kit) Region {
	out := Region{Ways: s.Form.Choices(form.Bill)}
	if len(s.Form.Regions()) < 2 && len(out.Ways) > 1 {
		out.Ways = append([]string{"average"}, out.Ways[2:]...) // any price is the home's own
	}
	if t := s.Form.Tariff(); t != "" {
		out.Tariff = k.Words.Say("ask.tariff.note", t)
	}
	all := s.Form.Regions()
	if len(all) < 2 {
		return out
	}
	for _, r := range all {
		out.Options = append(out.Options, part.Option{Value: r.Code, Label: placeName(k, r.Code, r.Name)})
	}
	out.Note = k.Words.Say("ask.state.own")
	if s.Form.RegionPrice() {
		r, _ := s.Form.Region()
		out.Note = k.Words.Say("ask.state.price", placeName(k, r.Code, r.Name), k.RegionsYear)
	}
	out.Cited = k.Words.Say("page.source", k.Words.Citation(source.Key("eia2023")))
	return out
}

// placeName is a place in the page's language; states keep their own names.
func placeName(k Kit, code, own string) string {
	if k.Words.Has("region." + code) {
		return k.Words.Say("region." + code)
	}
	return own
}

// region asks for the state, whose average price stands until another is typed.
func region(m Model) markup.Node {
	if len(m.Region.Options) == 0 {
		return markup.E("div")
	}
	return markup.E("div", markup.Class(part.ClassRow),
		markup.E("label", markup.Class(part.ClassKey), markup.A("for", part.ID(string(form.Place))), m.Say("ask.state")),
		markup.E("span", markup.Class("months places"), choose(m, form.Place, m.Region.Options)),
		part.FaultLine(string(form.Place), m.Answers[form.Place].Fault))
}

func priceSource(m Model) markup.Node {
	if len(m.Region.Options) == 0 {
		return markup.E("div")
	}
	return markup.E("div", markup.Class("from-where"),
		markup.E("p", markup.Class(part.ClassNote), m.Region.Note),
		markup.E("details", markup.Class("cited"), markup.E("summary", m.Say("send.source"), markup.E("span", markup.Class(part.ClassHidden), ": "+m.Say("ask.state.source"))),
			markup.E("p", markup.Class(part.ClassSource), m.Region.Cited)))
}
