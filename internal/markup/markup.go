// Package markup is the page as a tree of plain values: one tree is written as
// escaped HTML by the server and taken over by the browser, so both show the same
// page. It knows elements and attributes, no pond words and no browser.
package markup

// Node is an element, or text when Tag is empty.
type Node struct {
	Tag   string
	Attrs []Attr
	Kids  []Node
	Text  string
	// Key names an element whose place among its siblings may change.
	Key string
}

// Attr is one attribute. A boolean attribute has Value "" and Bare set.
type Attr struct {
	Name, Value string
	Bare        bool
}

// A is an attribute.
func A(name, value string) Attr { return Attr{Name: name, Value: value} }

// Flag is a boolean attribute when on, and nothing otherwise.
func Flag(name string, on bool) Attr {
	if !on {
		return Attr{}
	}
	return Attr{Name: name, Bare: true}
}

// Class is the class attribute.
func Class(names string) Attr { return Attr{Name: "class", Value: names} }

// T is text.
func T(text string) Node { return Node{Text: text} }

// None is nothing.
func None() Node { return Node{} }

// IsNone tells whether a node is nothing.
func (n Node) IsNone() bool { return n.Tag == "" && n.Text == "" }

// E is an element: attributes, nodes, slices of either and strings, in order.
// Anything else is a programmer's mistake.
func E(tag string, parts ...any) Node {
	n := Node{Tag: tag}
	n.Attrs, n.Kids = room(parts)
	for _, p := range parts {
		switch v := p.(type) {
		case Attr:
			if v.Name != "" {
				n.Attrs = append(n.Attrs, v)
			}
		case []Attr:
			for _, a := range v {
				if a.Name != "" {
					n.Attrs = append(n.Attrs, a)
				}
			}
		case Node:
			n.add(v)
		case []Node:
			for _, k := range v {
				n.add(k)
			}
		case string:
			n.add(T(v))
		case nil:
		default:
			panic("markup: E takes attributes, nodes and strings")
		}
	}
	return n
}

// room is where the parts of an element will go: a page is made of thousands of
// elements at every frame, and growing each piece by piece takes twice as long.
func room(parts []any) ([]Attr, []Node) {
	attrs, kids := 0, 0
	for _, p := range parts {
		switch v := p.(type) {
		case Attr:
			attrs++
		case []Attr:
			attrs += len(v)
		case []Node:
			kids += len(v)
		default:
			kids++
		}
	}
	var a []Attr
	var k []Node
	if attrs > 0 {
		a = make([]Attr, 0, attrs)
	}
	if kids > 0 {
		k = make([]Node, 0, kids)
	}
	return a, k
}

// add appends a kid. Texts beside each other become one, as they do in a
// browser that reads them.
func (n *Node) add(k Node) {
	if k.IsNone() {
		return
	}
	if last := len(n.Kids) - 1; last >= 0 && k.Tag == "" && n.Kids[last].Tag == "" {
		n.Kids[last].Text += k.Text
		return
	}
	n.Kids = append(n.Kids, k)
}
