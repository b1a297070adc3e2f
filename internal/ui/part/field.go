package part

import "tarnwright/internal/markup"

// Text is a field of the form that people fill in about themselves.
type Text struct {
	Label
	Value, Fault string
	Optional     string // the word for it; empty when the field is asked for
	Kind         string // text, email, tel
	Fill         string // the browser's name for what it may fill in
	Lines        int    // more than one makes it a box
	Form         string
	Half         bool
	Options      []Option // a list to choose from
	Act          string
}

// Node draws the field.
func (f Text) Node() markup.Node {
	class := ClassField
	if f.Half {
		class += " " + ClassHalf
	}
	label := markup.E("label", markup.A("for", ID(f.Field)), f.Name)
	if f.Optional != "" {
		label = markup.E("label", markup.A("for", ID(f.Field)), f.Name, " ", markup.E("span", markup.Class(ClassOptional), f.Optional))
	}
	var note markup.Node
	if f.Note != "" {
		note = markup.E("p", markup.Class(ClassNote), markup.A("id", noteID(f.Field)), f.Note)
	}
	return markup.E("div", markup.Class(class), label, note, f.input(), FaultLine(f.Field, f.Fault))
}

func (f Text) input() markup.Node {
	act := f.Act
	if act == "" {
		act = "contact"
	}
	common := []markup.Attr{markup.A("id", ID(f.Field)), markup.A("name", f.Field), markup.A("form", f.Form),
		when(f.Fill != "", markup.A("autocomplete", f.Fill)), when(f.Fault != "", markup.A("aria-invalid", "true")),
		when(f.Fault != "", markup.Class(ClassFaulty)), said(f.Field, f.Note != "", f.Fault != "")}
	common = append(common, Act{act, f.Field}.attrs()...)
	switch {
	case len(f.Options) > 0:
		var opts []markup.Node
		for _, o := range f.Options {
			opts = append(opts, markup.E("option", markup.A("value", o.Value), markup.Flag("selected", o.Value == f.Value), o.Label))
		}
		return markup.E("select", common, opts)
	case f.Lines > 1:
		return markup.E("textarea", common, markup.A("rows", "5"), f.Value)
	}
	return markup.E("input", markup.A("type", f.Kind), markup.A("value", f.Value), common)
}

// Check is a box to tick beside a sentence.
type Check struct {
	Field, Form string
	Text        []markup.Node
	On          bool
	Fault       string
}

// Node draws the box.
func (c Check) Node() markup.Node {
	return markup.E("div", markup.Class(ClassCheck),
		markup.E("input", markup.A("type", "checkbox"), markup.A("id", ID(c.Field)), markup.A("name", c.Field), markup.A("form", c.Form),
			markup.A("value", "on"), markup.Flag("checked", c.On), when(c.Fault != "", markup.A("aria-invalid", "true")),
			when(c.Fault != "", markup.Class(ClassFaulty)), said(c.Field, false, c.Fault != ""), Act{"contact", c.Field}.attrs()),
		markup.E("label", markup.A("for", ID(c.Field)), c.Text), FaultLine(c.Field, c.Fault))
}

// Notice is a mark, a heading, a sentence and what can be done.
type Notice struct {
	Mark    Mark
	Title   string
	Text    []string
	Actions []markup.Node
	Care    bool
	ID      string
	Status  bool // read out when it appears
}

// Node draws the notice.
func (n Notice) Node() markup.Node {
	var lines []markup.Node
	for _, t := range n.Text {
		lines = append(lines, markup.E("p", t))
	}
	var acts markup.Node
	if len(n.Actions) > 0 {
		acts = markup.E("div", markup.Class("acts"), n.Actions)
	}
	class := ClassNotice
	if n.Care {
		class += " n-care"
	}
	return markup.E("div", markup.Class(class), when(n.ID != "", markup.A("id", n.ID)), when(n.ID != "", markup.A("tabindex", "-1")),
		when(n.Status, markup.A("role", "status")), Icon(n.Mark),
		markup.E("div", markup.E("h2", n.Title), lines, acts))
}

// Tab is a link to a view.
type Tab struct {
	Label, Href string
	Act         Act
	Here        bool
}

// Tabs is the list of views, as links that carry the pond along.
func Tabs(name string, tabs []Tab) markup.Node {
	var links []markup.Node
	for _, t := range tabs {
		links = append(links, markup.E("a", markup.A("href", t.Href), when(t.Here, markup.A("aria-current", "page")),
			markup.A("id", "tab-"+t.Act.Arg), t.Act.attrs(), t.Label))
	}
	return markup.E("nav", markup.Class(ClassTabs), markup.A("aria-label", name), links)
}
