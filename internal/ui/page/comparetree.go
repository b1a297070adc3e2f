package page

import (
	"strconv"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// compareView is up to three ponds side by side, then what they have in
// common: the months of one, and which is the best value.
func compareView(s State, m Model) []markup.Node {
	c := m.Compare
	cols := []markup.Node{compareHead(m)}
	for i, p := range c.Ponds {
		cols = append(cols, comparedPond(m, i, p))
	}
	if len(c.Adds) > 0 {
		cols = append(cols, compareAdds(m))
	}
	return []markup.Node{
		markup.E("section", markup.Class("cmp-wrap"), markup.A("id", "figures"), markup.A("tabindex", "0"), markup.A("aria-label", m.Say("compare.side")),
			markup.E("div", markup.Class("cmp cmp-"+strconv.Itoa(len(c.Ponds))), cols)),
		markup.E("div", markup.Class("cmp-foot"),
			compareMonths(m), compareBest(m)),
		markup.E("section", markup.Class("cmp-more"), markup.A("aria-label", m.Say("compare.purse")),
			comparePurse(m), steps(s, m), tableOf(c.Table, "cmp-table")),
	}
}

func compareHead(m Model) markup.Node {
	c := m.Compare
	var labels, hows []markup.Node
	for i, l := range c.Labels {
		labels = append(labels, markup.E("li", markup.Class(rowClass(i, len(c.Labels))), l))
	}
	for _, h := range c.Hows {
		hows = append(hows, markup.E("p", h))
	}
	return markup.E("div", markup.Class("cmp-lab"),
		markup.E("div", markup.Class("cmp-head"),
			markup.E("h1", markup.A("id", "compare-title"), markup.A("tabindex", "-1"), c.Title),
			markup.E("p", markup.Class("lede"), c.Lede),
			markup.E("div", markup.Class("cmp-scale"), c.Scale),
			markup.E("p", markup.Class(part.ClassNote), c.KeyTitle),
			markup.E("div", markup.Class("cmp-key"), c.Key),
			markup.E("details", markup.Class("cmp-how"),
				markup.E("summary", part.Icon(part.MarkEquals), markup.E("span", m.Say("compare.how"))),
				markup.E("div", markup.Class(part.ClassWork), hows)),
			compareEach(m)),
		markup.E("ul", markup.Class("cmp-names"), markup.A("aria-hidden", "true"), labels))
}

// rowClass marks the last row, and the first of the two bars, which has no
// line below it.
func rowClass(i, n int) string {
	switch i {
	case 4:
		return "cmp-row cmp-pair"
	case n - 1:
		return "cmp-row cmp-close"
	}
	return "cmp-row"
}

func comparedPond(m Model, i int, p Compared) markup.Node {
	class, title := "cmp-pond", "option-"+strconv.Itoa(i)
	if p.Best {
		class += " cmp-best"
	}
	var rows []markup.Node
	for n, r := range p.Rows {
		rows = append(rows, markup.E("div", markup.Class(rowClass(n, len(p.Rows))), markup.E("dt", m.Compare.Labels[n]), compareCell(r)))
	}
	return markup.E("section", markup.Class(class), markup.A("aria-labelledby", title),
		markup.E("div", markup.Class("cmp-card"),
			markup.E("div", markup.Class("cmp-thumb"), p.Thumb),
			markup.E("div", markup.Class("cmp-name"),
				markup.E("span", markup.Class("cmp-letter"), markup.A("aria-hidden", "true"), p.Letter),
				markup.E("div",
					markup.E("h2", markup.A("id", title), markup.A("tabindex", "-1"), markup.E("span", markup.Class(part.ClassHidden), p.Letter+": "), p.Name),
					markup.E("p", p.Size)),
				bestMark(m, p.Best)),
			unlike(m, p)),
		markup.E("dl", markup.Class("cmp-rows "+part.ClassNumber), rows),
		compareTools(m, i, p))
}

func bestMark(m Model, best bool) markup.Node {
	if !best {
		return markup.E("span")
	}
	return part.Judgement(false, m.Say("compare.best"))
}

func unlike(m Model, p Compared) markup.Node {
	var out []markup.Node
	if p.Unlike != "" {
		out = append(out, markup.E("p", markup.Class(part.ClassNote), p.Unlike))
	}
	if p.InHand {
		out = append(out, markup.E("p", markup.Class(part.ClassNote), m.Say("compare.in_hand")))
	}
	if p.LastGood {
		out = append(out, part.Judgement(true, m.Say("compare.last_good")))
	}
	return markup.E("div", markup.Class("cmp-unlike"), out)
}

func compareCell(r CompareRow) markup.Node {
	var kids []markup.Node
	if !r.Bar.IsNone() {
		kids = append(kids, markup.E("span", markup.Class("cmp-bar"), r.Bar))
	}
	for i, f := range r.Figures {
		if i > 0 && r.Join != "" {
			kids = append(kids, markup.E("span", markup.Class(part.ClassUnit), r.Join+" "))
		}
		kids = append(kids, markup.E("span", markup.Class("cmp-fig"), f.Node()), markup.T(" "))
	}
	if r.Better != "" {
		kids = append(kids, markup.E("span", markup.Class("cmp-buy"), part.Icon(part.MarkFine), markup.E("span", r.Better)))
	}
	return markup.E("dd", kids)
}

// compareTools is what can be done with a pond. The links do it without script.
func compareTools(m Model, i int, p Compared) markup.Node {
	n := strconv.Itoa(i)
	act := func(id string, x Mend) markup.Node {
		if x.Label == "" {
			return markup.None()
		}
		return part.Button{Label: x.Label, Name: x.Label + ": " + p.Letter, Href: x.Href, Act: x.Act, Ghost: true, ID: id + "-" + n}.Node()
	}
	field := part.ID(calledName) + "-" + n
	return markup.E("div", markup.Class("cmp-tools"),
		act("open", p.Open),
		markup.E("details", markup.Class("fold"),
			markup.E("summary", markup.A("id", "change-"+n), m.Say("compare.change"), markup.E("span", markup.Class(part.ClassHidden), ": "+p.Letter)),
			markup.E("div", markup.Class("cmp-change"),
				markup.E("div", markup.Class(part.ClassField),
					markup.E("label", markup.A("for", field), m.Say("compare.name"), markup.E("span", markup.Class(part.ClassHidden), ", "+p.Letter)),
					markup.E("input", markup.A("type", "text"), markup.A("id", field), markup.A("name", calledName), markup.A("form", part.DesignForm),
						markup.A("maxlength", strconv.Itoa(mostNameRunes)), markup.A("autocomplete", "off"), markup.A("value", p.Named), markup.A("placeholder", p.Name),
						markup.A("data-act", ActCalled), markup.A("data-arg", n))),
				markup.E("div", markup.Class("update"), part.Button{Label: m.Say("page.update"), Form: part.DesignForm, Ghost: true, ID: "update-" + n}.Node()),
				markup.E("p", markup.Class("acts"), act("copy", p.Copy), act("left", p.Left), act("right", p.Right), act("drop", p.Drop)),
				markup.E("a", markup.Class(part.ClassLink), markup.A("href", p.Link), m.Say("compare.link"), markup.E("span", markup.Class(part.ClassHidden), ": "+p.Letter)))))
}

func compareAdds(m Model) markup.Node {
	var acts []markup.Node
	for i, x := range m.Compare.Adds {
		acts = append(acts, part.Button{Label: x.Label, Href: x.Href, Act: x.Act, Ghost: true, ID: "add-" + strconv.Itoa(i)}.Node())
	}
	return markup.E("section", markup.Class("cmp-adds"), markup.A("aria-labelledby", "add-title"),
		markup.E("h2", markup.A("id", "add-title"), m.Say("compare.add")), markup.E("p", markup.Class(part.ClassNote), m.Say("compare.add.why")),
		markup.E("p", markup.Class("acts"), acts))
}

func compareMonths(m Model) markup.Node {
	x := m.Compare.Months
	if x.Chart.IsNone() {
		return markup.E("section", markup.Class("cmp-months"))
	}
	key := func(class, text string) markup.Node {
		return markup.E("span", markup.Class("cmp-legend"), markup.E("i", markup.Class(class), markup.A("aria-hidden", "true")), text)
	}
	return markup.E("section", markup.Class("cmp-months"), markup.A("aria-labelledby", "cmp-months-title"),
		markup.E("div", markup.Class("cmp-months-t"),
			markup.E("h2", markup.A("id", "cmp-months-title"), m.Say("pump.months")),
			key("ruled", x.Single), key("solid", x.Variable), monthLinks(m, x)),
		x.Chart, tableOf(x.Table, "monthtable"))
}

func monthLinks(m Model, x Monthly) markup.Node {
	if len(x.Links) == 0 {
		return markup.E("span")
	}
	var links []markup.Node
	for _, t := range x.Links {
		here := markup.Attr{}
		if t.Here {
			here = markup.A("aria-current", "true")
		}
		links = append(links, markup.E("a", markup.Class("cmp-pick"), markup.A("href", t.Href), here, markup.A("id", "months-"+t.Label),
			markup.A("data-act", t.Act.Name), markup.A("data-arg", t.Act.Arg), t.Label))
	}
	return markup.E("nav", markup.Class("cmp-picks"), markup.A("aria-label", m.Say("compare.months.which")), links)
}

func compareBest(m Model) markup.Node {
	b := m.Compare.Best
	var head, strip, bills []markup.Node
	if b.Mark != "" {
		head = append(head, part.Judgement(false, b.Mark))
	}
	if b.Headline != "" {
		head = append(head, markup.E("h2", b.Headline))
		strip = append(strip, b.Strip)
	}
	for _, t := range b.Bills {
		bills = append(bills, markup.E("li", t))
	}
	rule := markup.None()
	if b.Headline != "" {
		rule = markup.E("p", b.Rule)
	}
	return markup.E("section", markup.Class("cmp-value"), markup.A("aria-label", m.Say("compare.best")),
		markup.E("div", head), markup.E("div", markup.Class("cmp-strip"), strip), rule, markup.E("ul", markup.Class("cmp-bills"), bills))
}

func comparePurse(m Model) markup.Node {
	if len(m.Compare.Purse.Rows) == 0 {
		return markup.E("div")
	}
	var notes []markup.Node
	for _, t := range m.Compare.PurseNotes {
		notes = append(notes, markup.E("p", markup.Class(part.ClassSource), t))
	}
	return markup.E("div", markup.Class("cmp-purse"),
		markup.E("h2", m.Compare.Purse.Caption), part.Scroll(m.Compare.Purse.Caption, m.Compare.Purse.Node()), notes)
}
