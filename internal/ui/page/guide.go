package page

import (
	"net/url"
	"strconv"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// How the questions are asked: a group at a time with a way on and a way back,
// or all on one page. A page that was told neither goes by its width: a phone
// is led, a wide page shows all. The questions are the same, under the same
// names.
const (
	AskSteps = "steps"
	AskAll   = "all"
)

// Names in the address: how the questions are asked, where a button without
// script leads, and whether the builder's page is printed as well.
const (
	AskName    = "ask"
	GoName     = "goto"
	SheetsName = "sheets"
	bothSheets = "2"
)

func askOf(name string) string {
	if name == AskSteps || name == AskAll {
		return name
	}
	return ""
}

// gone is the state at another step, or asked in another way.
func (s State) gone(to string) State {
	if ask := askOf(to); ask != "" {
		s.Ask, s.Fix = ask, "g-"+s.Part
		return s
	}
	if to == string(SendView) {
		s.View, s.Fix = SendView, "tab-"+to
	}
	for _, p := range parts() {
		if p == to {
			s.Part, s.Fix = p, "g-"+p
		}
	}
	return s
}

// Leads tells whether an act goes to another step or view, which the browser's
// history remembers so that Back leads there again.
func Leads(a Action) bool { return a.Name == ActGo || a.Name == ActView }

// returned is the state at the step and view of an address, with the pond and
// all that was typed as they are now.
func (s State) returned(query string) State {
	v, err := url.ParseQuery(query)
	if err != nil {
		return s
	}
	s.View, s.Part, s.Ask = viewOf(v.Get(ViewName)), partOf(v.Get(PartName)), askOf(v.Get(AskName))
	s.Chosen, s.Held, s.last = 0, "", ""
	s.Fix = "tab-" + string(s.View)
	if s.View == DrawView {
		s.Fix = "g-" + s.Part
	}
	return s
}

// manner is how the page is shown, for the address and for forms.
func (s State) manner() []Pair {
	var out []Pair
	if s.Ask != "" {
		out = append(out, Pair{AskName, s.Ask})
	}
	if s.Sheets {
		out = append(out, Pair{SheetsName, bothSheets})
	}
	return out
}

// stepper leads from group to group, and lets a person choose how they are
// asked. Its buttons send the form, so that without script nothing typed is
// lost on the way.
func stepper(s State, m Model) markup.Node {
	all := parts()
	at := 0
	for i, p := range all {
		if p == s.Part {
			at = i
		}
	}
	step := func(id, label, to string, ghost bool) markup.Node {
		return part.Button{Label: label, Form: part.DesignForm, SubmitKey: GoName + "=" + to, Act: part.Act{Name: ActGo, Arg: to}, Ghost: ghost, ID: id}.Node()
	}
	back := markup.E("span", markup.Class("btn-gap"))
	if at > 0 {
		back = step("step-back", m.Say("guide.back"), all[at-1], true)
	}
	next := part.Button{Label: m.Say("guide.end"), Form: part.DesignForm, SubmitKey: GoName + "=" + string(SendView), Act: part.Act{Name: ActView, Arg: string(SendView)}, ID: "step-next"}.Node()
	if at+1 < len(all) {
		next = step("step-next", m.Say("guide.next", m.Say("page.part."+all[at+1])), all[at+1], false)
	}
	return markup.E("div", markup.Class("guide"),
		markup.E("div", markup.Class("steps"), markup.A("role", "group"), markup.A("aria-label", m.Say("guide.steps")),
			back, markup.E("p", markup.Class(part.ClassNote), m.Say("guide.at", strconv.Itoa(at+1), strconv.Itoa(len(all)))), next),
		// Where script runs the figures follow by themselves, and the button only
		// keeps its place: what stands below must not move when it goes.
		markup.E("div", markup.Class("ask"), manner(m, AskSteps), manner(m, AskAll),
			markup.E("span", markup.Class("update"), part.Button{Label: m.Say("page.update"), Form: part.DesignForm, ID: "update"}.Node())))
}

func manner(m Model, ask string) markup.Node {
	return markup.E("button", markup.A("type", "submit"), markup.A("form", part.DesignForm), markup.Class(part.ClassLink+" to-"+ask),
		markup.A("name", GoName), markup.A("value", ask), markup.A("id", "ask-"+ask), markup.A("data-act", ActGo), markup.A("data-arg", ask), m.Say("guide.ask."+ask))
}
