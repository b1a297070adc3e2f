package page

import (
	"strings"

	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// BeginID is the id of what stands in the drawing's place before a shape is
// chosen.
const BeginID = "begin"

// begins tells whether an act begins a pond or leaves the choice of its shape:
// from then on the drawing is on the page.
func begins(a Action) bool { return a.Name == ActView || a.Name == ActReturn }

// begun is the state with its first answer in hand. Before it there was no
// pond to go back to, so it is no step that can be undone.
func (s State) begun(next form.State, touched string) State {
	s.Form, s.Blank, s.redo, s.last = next, false, nil, touched
	s.Fix = "tab-" + string(DrawView)
	return s
}

// shapes are the outlines a person can choose from, the most asked for first.
func shapes() []string { return []string{"bean", "oval", "long", "free", "rect", "round", "ell"} }

// shapeOption is a shape as something to choose.
func shapeOption(m Model, shape string) part.Option {
	o := part.Option{Value: shape, Label: m.Say("ask.shape." + shape), Icon: m.Shapes[shape]}
	if shape == "rect" || shape == "ell" {
		o.Name = m.Say("ask.shape." + shape + ".is")
	}
	return o
}

// beginView asks for nothing but a shape. The next person at a tablet starts
// here, so that nobody takes another pond for their own.
func beginView(m Model) []markup.Node {
	var tiles []markup.Node
	for _, shape := range shapes() {
		o := shapeOption(m, shape)
		tiles = append(tiles, part.Tile{Label: o.Label, Name: o.Name, Icon: o.Icon, ID: BeginID + "-" + shape,
			Act: part.Act{Name: ActSet, Arg: string(form.Shape) + "=" + shape}}.Node())
	}
	whole := func(f form.Field) string { return strings.ReplaceAll(m.Answers[f].Text, " ", "\u00a0") }
	return []markup.Node{markup.E("section", markup.Class("begin"), markup.A("id", BeginID), markup.A("aria-labelledby", "begin-title"),
		markup.E("div", markup.Class("begin-sheet"), drawing.Unbegun(),
			markup.E("h1", markup.A("id", "begin-title"), markup.A("tabindex", "-1"), m.Say("begin.choose"))),
		markup.E("div", markup.Class("begin-tiles"), markup.A("role", "group"), markup.A("aria-labelledby", "begin-title"), tiles),
		markup.E("p", m.Say("begin.starts", whole(form.Length), whole(form.Width), whole(form.Deep))))}
}
