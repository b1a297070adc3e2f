// Package gallery shows every part of the page in every state, side by side,
// for whoever changes how the page looks. No shipped program links it.
package gallery

import (
	"strconv"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// Piece is a part in one of its states.
type Piece struct {
	Part, State string
	Node        markup.Node
}

// Pieces lists every part in every state.
func Pieces() []Piece {
	var out []Piece
	for _, group := range [][]Piece{questions(), buttons(), fields(), readings(), marks()} {
		out = append(out, group...)
	}
	return out
}

func label(field, name, note string) part.Label {
	return part.Label{Field: field, Name: name, Note: note}
}

func questions() []Piece {
	number := func(field, value, fault string) part.Number {
		return part.Number{Label: label(field, "Length", ""), Value: value, Fault: fault, Less: "Length: less", More: "Length: more"}
	}
	noted := number("n-note", "250 ft", "")
	noted.Note = "Check the unit."
	price := part.Number{Label: label("n-price", "Electricity", ""), Value: "$0.16 / kWh", Wide: true}
	wrong := price
	wrong.Field, wrong.Fault = "n-price-wrong", "Write a price, like 0.16 or 16 cents."
	sides := []part.Option{{Value: "n", Label: "N", Name: "North"}, {Value: "e", Label: "E", Name: "East"}, {Value: "none", Label: "None"}}
	tiles := []part.Option{{Value: "bean", Label: "Bean", Icon: drawing.ShapeIcon("bean")}, {Value: "oval", Label: "Oval", Icon: drawing.ShapeIcon("ellipse")}}
	track := drawing.DepthTrack{LeastM: 0.9144, MostM: 2.7432, StepM: 0.3048}.Node()
	return []Piece{
		{"Number", "at rest", number("n-rest", "34 ft", "").Node()},
		{"Number", "with a note", noted.Node()},
		{"Number", "with a fault", number("n-fault", "34 cats", "Write a length, like 34 ft or 10.4 m.").Node()},
		{"Number", "a price", price.Node()},
		{"Number", "a price with a fault", wrong.Node()},
		{"Choice", "as a row", part.Choice{Label: label("c-row", "Beach", ""), Value: "e", Options: sides}.Node()},
		{"Choice", "with a fault", part.Choice{Label: label("c-fault", "Beach", ""), Fault: "Choose one of these.", Options: sides}.Node()},
		{"Choice", "as tiles", part.Choice{Label: label("c-tiles", "Shape", ""), Bare: true, Shapes: true, Value: "bean", Options: tiles}.Node()},
		{"Tile", "to press", part.Tile{Label: "Bean", Icon: tiles[0].Icon, ID: "t-bean"}.Node()},
		{"Switch", "on", part.Switch{Label: label("s-on", "Timber deck", "At the deep side"), On: true}.Node()},
		{"Switch", "off", part.Switch{Label: label("s-off", "Timber deck", "At the deep side")}.Node()},
		{"Slider", "at rest", part.Slider{Field: "slide", Name: "Deep end, by slider", Least: "36", Most: "108", Step: "3", Value: "78", Spoken: "6 ft 6 in",
			Track: track, Marks: []string{"3", "5", "7", "9 ft"}}.Node()},
		{"FaultLine", "said", part.FaultLine("said", "Length must be between 6 ft and 200 ft.")},
	}
}

func buttons() []Piece {
	return []Piece{
		{"Button", "first", part.Button{Label: "Send drawing and details", ID: "b-first"}.Node()},
		{"Button", "second", part.Button{Label: "Copy link", Ghost: true, ID: "b-second"}.Node()},
		{"Button", "off", part.Button{Label: "Sending…", Off: true, ID: "b-off"}.Node()},
		{"Button", "a mark alone", part.Button{Icon: part.MarkUndo, Name: "Undo", IconOnly: true, ID: "b-mark"}.Node()},
		{"Button", "a mark alone, off", part.Button{Icon: part.MarkRedo, Name: "Redo", IconOnly: true, Off: true, ID: "b-mark-off"}.Node()},
		{"Button", "a link", part.Button{Label: "Try 4 in pipe", Href: "#", Ghost: true, ID: "b-link"}.Node()},
		{"Tabs", "second of three", part.Tabs("Views", []part.Tab{{Label: "Draw", Href: "#", Act: part.Act{Arg: "g-draw"}},
			{Label: "Pump", Href: "#", Here: true, Act: part.Act{Arg: "g-pump"}}, {Label: "Compare", Href: "#", Act: part.Act{Arg: "g-compare"}}})},
	}
}

func fields() []Piece {
	text := func(field, value, fault string) part.Text {
		return part.Text{Label: label(field, "Email", ""), Value: value, Fault: fault, Kind: "email", Form: "none"}
	}
	optional := text("t-optional", "", "")
	optional.Optional, optional.Note = "optional", "An email or a phone number is enough."
	box := part.Text{Label: label("t-box", "Anything we should know", ""), Value: "The site slopes.", Lines: 5, Form: "none"}
	list := part.Text{Label: label("t-list", "Hoping to start", ""), Value: "soon", Form: "none", Options: []part.Option{{Value: "soon", Label: "As soon as can be"}}}
	agree := []markup.Node{markup.T("They may use these details to reply to me.")}
	notice := part.Notice{Mark: part.MarkOffline, Title: "It has not gone yet", Text: []string{"Everything you typed is still here."}}
	wrong := part.Notice{Mark: part.MarkCare, Title: "This outline is no pond", Text: []string{"It crosses itself near the north edge."}, Care: true,
		Actions: []markup.Node{part.Button{Label: "Put it back", Ghost: true, ID: "b-back"}.Node()}}
	return []Piece{
		{"Text", "empty", text("t-empty", "", "").Node()},
		{"Text", "filled in", text("t-full", "maren@oakesmail.example", "").Node()},
		{"Text", "with a fault", text("t-fault", "maren@oakesmail", "The end seems to be missing, such as .com or .org.").Node()},
		{"Text", "not needed", optional.Node()},
		{"Text", "a box", box.Node()},
		{"Text", "a list", list.Node()},
		{"Check", "off", part.Check{Field: "k-off", Form: "none", Text: agree}.Node()},
		{"Check", "on", part.Check{Field: "k-on", Form: "none", On: true, Text: agree}.Node()},
		{"Check", "with a fault", part.Check{Field: "k-fault", Form: "none", Text: agree, Fault: "Tick the box so that the builder may reply."}.Node()},
		{"Notice", "calm", notice.Node()},
		{"Notice", "care, with a way out", wrong.Node()},
	}
}

func readings() []Piece {
	how := part.How{Title: "Water volume", Prompt: "How it is worked out: ", Lines: []string{"570 sq ft of water, 3 ft deep on average."}, Cited: []string{"Source: by definition"}}
	reading := func(id string) part.Reading {
		return part.Reading{ID: id, Title: "Water volume", Figures: []part.Figure{{Value: "13,000", Unit: "gal"}}, Big: true, Note: "In the pond, less stone and gravel", How: how}
	}
	pair := reading("g-pair")
	pair.Title, pair.Big, pair.Join, pair.Figures = "Pump duty", false, "at", []part.Figure{{Value: "165", Unit: "gal/min"}, {Value: "11.5", Unit: "ft of head"}}
	stale := reading("g-stale")
	stale.Title, stale.Stale = "Make-up water, a year", true
	missing := reading("g-missing")
	missing.Title = "Turnover"
	missing.Figures, missing.Note, missing.How = []part.Figure{{Value: "–", Unit: "gal"}}, "", part.How{}
	bars := part.Bars("Pump electricity, a year", "g-bars", []part.Bar{{Label: "Single-speed", Amount: "$577", Share: 1}, {Label: "Variable-speed", Amount: "$239", Share: 0.41, Solid: true}})
	open := how.Node()
	open.Attrs = append(open.Attrs, markup.Flag("open", true))
	rows := [][]part.Cell{{{Text: "Mar"}, {Text: "$24"}}, {{Text: "The year"}, {Text: "$577", Large: true}}}
	table := part.Table{Caption: "By month", Heads: []string{"Month", "Cost"}, Rows: rows, Total: true}
	folded := table
	folded.Fold = "Show as a table"
	return []Piece{
		{"Figure", "with a unit", markup.E("p", markup.Class(part.ClassFigures), part.Figure{Value: "13,000", Unit: "gal"}.Node())},
		{"Figure", "all number", markup.E("p", markup.Class(part.ClassFigures), part.Figure{Value: "6 ft 6 in"}.Node())},
		{"Reading", "at rest", reading("g-rest").Node()},
		{"Reading", "two figures", pair.Node()},
		{"Reading", "of the last good pond", stale.Node()},
		{"Reading", "not known yet", missing.Node()},
		{"How", "open", markup.E("div", markup.Class(part.ClassReading), open)},
		{"Bars", "ruled and solid", bars},
		{"Scroll", "around a table", part.Scroll("By month", table.Node())},
		{"Table", "in the open", table.Node()},
		{"Table", "folded", folded.Node()},
		{"Judgement", "care", part.Judgement(true, "Over head height")},
		{"Judgement", "fine", part.Judgement(false, "Beach slopes 1 in 5")},
		{"Pin", "care", part.Pin(true, "1")},
		{"Pin", "fine", part.Pin(false, "2")},
	}
}

// Marks lists every mark.
func Marks() []part.Mark {
	return []part.Mark{part.MarkPlus, part.MarkMinus, part.MarkEquals, part.MarkCare, part.MarkFine, part.MarkUndo, part.MarkRedo,
		part.MarkUp, part.MarkFit, part.MarkBuilder, part.MarkOffline, part.MarkWait}
}

func marks() []Piece {
	var out []Piece
	for _, m := range Marks() {
		out = append(out, Piece{"Icon", string(m), markup.E("span", markup.Class(part.ClassTool), part.Icon(m))})
	}
	return out
}

// Tree is the whole gallery; each piece has an id of its number.
func Tree() markup.Node {
	var items []markup.Node
	for i, p := range Pieces() {
		items = append(items, markup.E("section", markup.Class("piece"), markup.A("id", "piece-"+strconv.Itoa(i)), markup.A("aria-label", p.Part+", "+p.State),
			markup.E("h2", p.Part, markup.E("small", " "+p.State)), markup.E("div", markup.Class("piece-in"), p.Node)))
	}
	return markup.E("main", markup.Class("gallery tw live"), markup.E("h1", "Parts and their states"),
		markup.E("form", markup.A("id", part.DesignForm)), markup.E("form", markup.A("id", "none")), items)
}
