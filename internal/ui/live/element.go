package live

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/browser"
)

const svgSpace = "http://www.w3.org/2000/svg"

// element is a node as the framework mounts it. Each element of a drawing
// carries its name space; the framework passes none on.
func element(n markup.Node, drawing bool) app.UI {
	if n.Tag == "" {
		return app.Text(n.Text)
	}
	drawing = drawing || n.Tag == "svg"
	if void(n.Tag) {
		e := app.ElemSelfClosing(n.Tag)
		for _, a := range attrs(n) {
			e = e.Attr(a.Name, value(a))
		}
		return e
	}
	e := app.Elem(n.Tag)
	if drawing {
		e = e.XMLNS(svgSpace)
	}
	for _, a := range attrs(n) {
		e = e.Attr(a.Name, value(a))
	}
	kids := make([]app.UI, 0, len(n.Kids))
	for _, k := range n.Kids {
		kids = append(kids, element(k, drawing))
	}
	return e.Body(kids...)
}

func void(tag string) bool {
	switch tag {
	case "br", "hr", "img", "input", "wbr", "col":
		return true
	}
	return false
}

// attrs leaves out what Show sets as a property: the framework knows only what
// it drew last, not what was typed or ticked since. A box's value is its own.
func attrs(n markup.Node) []markup.Attr {
	if n.Tag != "input" && n.Tag != "textarea" && n.Tag != "select" {
		return n.Attrs
	}
	kind := find(n, "type")
	out := make([]markup.Attr, 0, len(n.Attrs))
	for _, a := range n.Attrs {
		if a.Name == "checked" || (a.Name == "value" && kind != "radio" && kind != "checkbox" && kind != "hidden") {
			continue
		}
		out = append(out, a)
	}
	return out
}

// value is "true" for a bare attribute; the framework turns it into the
// property. An attribute that is empty would be dropped, so it becomes a blank.
func value(a markup.Attr) any {
	if a.Bare {
		return true
	}
	return a.Value
}

func find(n markup.Node, name string) string {
	for _, a := range n.Attrs {
		if a.Name == name {
			if a.Bare {
				return "true"
			}
			return a.Value
		}
	}
	return ""
}

// controls lists what every control of a tree should show.
func controls(n markup.Node) []browser.Control {
	var out []browser.Control
	var visit func(markup.Node)
	visit = func(n markup.Node) {
		id := find(n, "id")
		switch {
		case id == "":
		case n.Tag == "input":
			kind := find(n, "type")
			if kind == "hidden" {
				break
			}
			box := kind == "radio" || kind == "checkbox"
			out = append(out, browser.Control{ID: id, Value: find(n, "value"), Checked: find(n, "checked") == "true", Box: box})
		case n.Tag == "textarea":
			text := ""
			for _, k := range n.Kids {
				text += k.Text
			}
			out = append(out, browser.Control{ID: id, Value: text})
		case n.Tag == "select":
			out = append(out, browser.Control{ID: id, Value: chosen(n)})
		}
		for _, k := range n.Kids {
			visit(k)
		}
	}
	visit(n)
	return out
}

func chosen(list markup.Node) string {
	for _, o := range list.Kids {
		if find(o, "selected") == "true" {
			return find(o, "value")
		}
	}
	if len(list.Kids) > 0 {
		return find(list.Kids[0], "value")
	}
	return ""
}
