package part

import (
	"strings"

	"tarnwright/internal/markup"
)

// Act names what a control does when it is used with script, and on what.
type Act struct{ Name, Arg string }

func (a Act) attrs() []markup.Attr {
	if a.Name == "" {
		return nil
	}
	return []markup.Attr{markup.A("data-act", a.Name), markup.A("data-arg", a.Arg)}
}

// ID is the id of a field's input.
func ID(field string) string { return "f-" + field }

func faultID(field string) string { return ID(field) + "-fault" }
func noteID(field string) string  { return ID(field) + "-note" }

// said lists the ids that describe a field, or leaves the attribute out.
func said(field string, note, fault bool) markup.Attr {
	var ids []string
	if fault {
		ids = append(ids, faultID(field))
	}
	if note {
		ids = append(ids, noteID(field))
	}
	if len(ids) == 0 {
		return markup.Attr{}
	}
	return markup.A("aria-describedby", strings.Join(ids, " "))
}

// when returns the attribute if on, and nothing otherwise.
func when(on bool, a markup.Attr) markup.Attr {
	if on {
		return a
	}
	return markup.Attr{}
}

// FaultLine is the sentence below a field, marked as a caution. It is always
// in the tree, so that the fields after it keep their place.
func FaultLine(field, text string) markup.Node {
	return markup.E("p", markup.Class(ClassFault), markup.A("id", faultID(field)),
		when(text == "", markup.Flag("hidden", true)), when(text != "", markup.A("data-on", "1")),
		Icon(MarkCare), markup.E("span", text))
}

// Label is the words beside a control: a name and, smaller, a note. Before is
// said ahead of the name by assistive software, where sight has the context.
type Label struct{ Field, Name, Note, Before string }

func (l Label) parts() []markup.Node {
	var kids []markup.Node
	if l.Before != "" {
		kids = append(kids, markup.E("span", markup.Class(ClassHidden), l.Before+": "))
	}
	kids = append(kids, markup.E("span", l.Name))
	if l.Note != "" {
		kids = append(kids, markup.E("small", markup.Class(ClassNote), markup.A("id", noteID(l.Field)), l.Note))
	}
	return kids
}

// Number is a text field for a quantity, with a button on each side when it
// can be stepped. The button posts the form with step set, so it works without
// script.
type Number struct {
	Label
	Value       string
	Fault       string
	Less, More  string // accessible names of the buttons; empty for no buttons
	Wide        bool   // room for a price with its unit
	Placeholder string
	Act         Act // what typing does; nothing is an answer to the field
}

// Node draws the field.
func (n Number) Node() markup.Node {
	class := ClassValue + " " + ClassNumber
	if n.Fault != "" {
		class += " " + ClassFaulty
	}
	if n.Wide {
		class += " wide"
	}
	act := n.Act
	if act.Name == "" {
		act = Act{"field", n.Field}
	}
	input := markup.E("input", markup.Class(class), markup.A("type", "text"), markup.A("id", ID(n.Field)),
		markup.A("name", n.Field), markup.A("form", DesignForm), markup.A("inputmode", inputMode(n.Less != "")),
		markup.A("autocomplete", "off"), markup.A("spellcheck", "false"), markup.A("enterkeyhint", "done"),
		markup.A("value", n.Value), when(n.Placeholder != "", markup.A("placeholder", n.Placeholder)), act.attrs(),
		when(n.Fault != "", markup.A("aria-invalid", "true")), said(n.Field, n.Note != "", n.Fault != ""))
	var field markup.Node
	if n.Less == "" {
		field = markup.E("span", markup.Class(ClassStep+" plain"), input)
	} else {
		field = markup.E("span", markup.Class(ClassStep),
			stepButton(n.Field+"-", n.Less, MarkMinus), input, stepButton(n.Field+"+", n.More, MarkPlus))
	}
	return markup.E("div", markup.Class(ClassRow),
		markup.E("label", markup.Class(ClassKey), markup.A("for", ID(n.Field)), n.parts()),
		field, FaultLine(n.Field, n.Fault))
}

// inputMode asks for a number pad where the buttons carry the rest; a price is
// typed with its unit, so it keeps the whole keyboard.
func inputMode(decimal bool) string {
	if decimal {
		return "decimal"
	}
	return "text"
}

func stepButton(value, name string, m Mark) markup.Node {
	return markup.E("button", markup.Class(ClassStepBtn), markup.A("type", "submit"), markup.A("form", DesignForm),
		markup.A("name", "step"), markup.A("value", value), markup.A("id", "s-"+stepID(value)), Act{"step", value}.attrs(),
		markup.A("aria-label", name), Icon(m))
}

func stepID(value string) string {
	return strings.ReplaceAll(strings.ReplaceAll(value, "-", "-less"), "+", "-more")
}

// Option is one answer of a choice.
type Option struct {
	Value, Label string
	Name         string // accessible name when the label is short: "North" for "N"
	Icon         markup.Node
}

// Choice is one of a few, as radio buttons.
type Choice struct {
	Label
	Value   string
	Options []Option
	Fault   string
	Bare    bool // the name is for assistive software only
	Shapes  bool // as tiles with a picture
	Form    string
	Act     string
}

// Node draws the choice.
func (c Choice) Node() markup.Node {
	class, one := ClassSeg, ClassSegOne
	if c.Shapes {
		class, one = ClassShapes, ClassShape
	}
	var opts []markup.Node
	for _, o := range c.Options {
		opts = append(opts, c.option(o, one))
	}
	nameClass := ClassKey
	if c.Bare {
		nameClass = ClassHidden
	}
	rowClass := ClassRow
	if c.Shapes {
		rowClass = "tiles"
	}
	return markup.E("div", markup.Class(rowClass), markup.A("role", "radiogroup"), markup.A("aria-labelledby", c.Field+"-name"),
		said(c.Field, false, c.Fault != ""),
		markup.E("span", markup.Class(nameClass), markup.A("id", c.Field+"-name"), c.parts()),
		markup.E("span", markup.Class(class), opts), FaultLine(c.Field, c.Fault))
}

func (c Choice) option(o Option, class string) markup.Node {
	act := c.Act
	if act == "" {
		act = "field"
	}
	form := c.Form
	if form == "" {
		form = DesignForm
	}
	return markup.E("label", markup.Class(class),
		markup.E("input", markup.Class("choice"), markup.A("type", "radio"), markup.A("id", ID(c.Field)+"-"+o.Value), markup.A("name", c.Field),
			markup.A("form", form), markup.A("value", o.Value), markup.Flag("checked", o.Value == c.Value),
			when(o.Name != "", markup.A("aria-label", o.Name)), Act{act, c.Field}.attrs()),
		markup.E("span", o.Icon, markup.E("span", o.Label)))
}

// Tile is a picture with a word below it, to press.
type Tile struct {
	Label string
	Name  string // accessible name when the label is short
	Icon  markup.Node
	Act   Act
	ID    string
}

// Node draws the tile.
func (t Tile) Node() markup.Node {
	return markup.E("button", markup.Class(ClassShape+" "+ClassTile), markup.A("type", "button"), markup.A("id", t.ID),
		when(t.Name != "", markup.A("aria-label", t.Name)), t.Act.attrs(), markup.E("span", t.Icon, markup.E("span", t.Label)))
}

// Switch is a yes or no. A form leaves an unticked box out, so whoever reads it
// takes a missing one as off.
type Switch struct {
	Label
	On bool
}

// Node draws the switch.
func (s Switch) Node() markup.Node {
	return markup.E("div", markup.Class(ClassRow),
		markup.E("label", markup.Class(ClassKey), markup.A("for", ID(s.Field)), s.parts()),
		markup.E("input", markup.Class(ClassSwitch), markup.A("type", "checkbox"), markup.A("role", "switch"), markup.A("id", ID(s.Field)),
			markup.A("name", s.Field), markup.A("form", DesignForm), markup.A("value", "on"), markup.Flag("checked", s.On),
			said(s.Field, s.Note != "", false), Act{"field", s.Field}.attrs()))
}

// Slider is a native range beside a text field of the same quantity. It has no
// name, so a form without script sends the text only.
type Slider struct {
	Field, Name    string
	Least, Most    string
	Step, Value    string
	Spoken         string // the value in words, "6 ft 6 in"
	Track          markup.Node
	Marks          []string
	Disabled, Lead bool
}

// Node draws the slider.
func (s Slider) Node() markup.Node {
	var marks []markup.Node
	for _, m := range s.Marks {
		marks = append(marks, markup.E("span", m))
	}
	return markup.E("div", markup.Class(ClassSlider), s.Track,
		markup.E("input", markup.A("type", "range"), markup.A("id", ID(s.Field)+"-slide"), markup.A("min", s.Least), markup.A("max", s.Most),
			markup.A("step", s.Step), markup.A("value", s.Value), markup.A("aria-label", s.Name), markup.A("aria-valuetext", s.Spoken),
			Act{"slide", s.Field}.attrs()),
		markup.E("div", markup.Class(ClassScale+" "+ClassNumber), markup.A("aria-hidden", "true"), marks))
}

// Button is something to press: a link when it has an address, a form's submit
// otherwise.
type Button struct {
	Label     string
	Icon      Mark
	Name      string // accessible name when there is no label
	Href      string
	Form      string // submits this form
	Act       Act
	Ghost     bool
	IconOnly  bool
	Off       bool
	ID        string
	SubmitKey string // name=value sent with the form: "set=pipe:4"
}

// Node draws the button.
func (b Button) Node() markup.Node {
	class := ClassButton
	switch {
	case b.IconOnly:
		class = ClassTool
	case b.Ghost:
		class += " " + ClassGhost
	}
	attrs := []markup.Attr{markup.Class(class), when(b.Name != "", markup.A("aria-label", b.Name)),
		when(b.ID != "", markup.A("id", b.ID)), when(b.Off, markup.A("aria-disabled", "true"))}
	attrs = append(attrs, b.Act.attrs()...)
	label := markup.None()
	if b.Label != "" {
		label = markup.E("span", b.Label)
	}
	if b.Href != "" {
		return markup.E("a", attrs, markup.A("href", b.Href), Icon(b.Icon), label)
	}
	kind := "button"
	if b.Form != "" {
		kind = "submit"
		attrs = append(attrs, markup.A("form", b.Form))
		if n, v, ok := strings.Cut(b.SubmitKey, "="); ok {
			attrs = append(attrs, markup.A("name", n), markup.A("value", v))
		}
	}
	return markup.E("button", markup.A("type", kind), attrs, Icon(b.Icon), label)
}
