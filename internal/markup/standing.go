package markup

import (
	"strconv"
	"strings"
)

// Standing is a tree as it stands in a browser, where each element and each
// text has a number: what has to be done to make it another tree is said in
// those numbers. It knows no browser; web/js/patch.js does what it says.
type Standing struct {
	tree Node
	ids  []int32 // in the order of the document
	last int32
}

// Stand is a tree that has just been numbered from 1 on, in the order of the
// document.
func Stand(tree Node) Standing {
	n := int32(size(&tree))
	s := Standing{tree: tree, ids: make([]int32, n), last: n}
	for i := range s.ids {
		s.ids[i] = int32(i + 1)
	}
	return s
}

// Size is how many elements and texts stand.
func (s Standing) Size() int { return len(s.ids) }

// sep stands between the words of a change. No text holds it: HTML has no such
// character.
const sep = "\x00"

// The kinds of step in a change, each followed by its words:
//
//	a element name value   an attribute has a value
//	r element name         an attribute goes
//	t text characters      a text reads otherwise
//	k element before gone first markup   among an element's kids, those named in
//	  gone go and others come before one of them (0 is the end), numbered from
//	  first on in the order of the document
const (
	stepAttr   = "a"
	stepUnset  = "r"
	stepText   = "t"
	stepKids   = "k"
	stepValue  = "v"
	stepTicked = "c"
)

// Change makes another tree stand and returns the steps that lead there, or
// nothing where none is needed. Parts that two trees share, by being made
// once, are not looked into.
func (s *Standing) Change(to Node) (steps string) {
	c := change{ids: s.ids, last: s.last, out: make([]int32, 0, len(s.ids)+64)}
	if !alike(&s.tree, &to) {
		panic("markup: the root of a page stays what it is")
	}
	c.node(&s.tree, &to, 0)
	s.tree, s.ids, s.last = to, c.out, c.last
	return c.steps.String()
}

// change walks two trees side by side. at is where a node of the old one is in
// ids.
type change struct {
	ids   []int32
	out   []int32
	last  int32
	steps strings.Builder
}

func (c *change) say(words ...string) {
	for _, w := range words {
		c.steps.WriteString(w)
		c.steps.WriteString(sep)
	}
}

func number(id int32) string { return strconv.Itoa(int(id)) }

// node writes what makes old into to, which is like it, and returns how many
// nodes old is.
func (c *change) node(old, to *Node, at int) (n int) {
	id := c.ids[at]
	c.out = append(c.out, id)
	if to.Tag == "" {
		if old.Text != to.Text {
			c.say(stepText, number(id), plain(to.Text))
		}
		return 1
	}
	c.attrs(old, to, id)
	if shared(old.Kids, to.Kids) {
		n = size(old)
		c.out = append(c.out, c.ids[at+1:at+n]...)
		return n
	}
	return 1 + c.kids(old.Kids, to.Kids, id, at+1)
}

func shared(a, b []Node) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// kids pairs the kids of two elements in order; what has no partner goes or
// comes.
func (c *change) kids(old, to []Node, parent int32, at int) (n int) {
	i, from := 0, at
	var gone []int32
	var come []*Node
	// settle writes what has gone and come before the old kid that is next.
	settle := func(before int32) {
		if len(gone) == 0 && len(come) == 0 {
			return
		}
		first := c.last + 1
		var html strings.Builder
		for _, k := range come {
			write(&html, *k)
			for range size(k) {
				c.last++
				c.out = append(c.out, c.last)
			}
		}
		c.say(stepKids, number(parent), number(before), numbers(gone), number(first), html.String())
		gone, come = gone[:0], come[:0]
	}
	for j := range to {
		k := i
		for k < len(old) && !alike(&old[k], &to[j]) {
			k++
		}
		if k == len(old) {
			come = append(come, &to[j])
			continue
		}
		for ; i < k; i++ {
			gone = append(gone, c.ids[at])
			at += size(&old[i])
		}
		settle(c.ids[at])
		at += c.node(&old[i], &to[j], at)
		i++
	}
	for ; i < len(old); i++ {
		gone = append(gone, c.ids[at])
		at += size(&old[i])
	}
	settle(0)
	return at - from
}

func numbers(ids []int32) string {
	var w strings.Builder
	for i, id := range ids {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteString(number(id))
	}
	return w.String()
}

// alike tells whether one node may become the other: the same element in the
// same place, by its id or what it is for.
func alike(a, b *Node) bool {
	if a.Tag != b.Tag || a.Tag == "" {
		return a.Tag == b.Tag
	}
	if a.Key != "" || b.Key != "" {
		return a.Key == b.Key
	}
	if id := a.attr("id"); id != "" || b.attr("id") != "" {
		return id == b.attr("id")
	}
	return firstWord(a.attr("class")) == firstWord(b.attr("class"))
}

func (n *Node) attr(name string) string {
	for i := range n.Attrs {
		if n.Attrs[i].Name == name {
			return n.Attrs[i].Value
		}
	}
	return ""
}

func firstWord(s string) string {
	if i := strings.IndexByte(s, ' '); i >= 0 {
		return s[:i]
	}
	return s
}

// attrs writes what changes in an element's attributes.
func (c *change) attrs(old, to *Node, id int32) {
	if shared2(old.Attrs, to.Attrs) {
		return
	}
	same := len(old.Attrs) == len(to.Attrs)
	for i := range to.Attrs {
		a := &to.Attrs[i]
		if i < len(old.Attrs) && old.Attrs[i].Name == a.Name {
			if old.Attrs[i].Value != a.Value || old.Attrs[i].Bare != a.Bare {
				c.set(to, a, id)
			}
			continue
		}
		same = false
		if was, ok := lookup(old, a.Name); !ok || was != *a {
			c.set(to, a, id)
		}
	}
	if same {
		return
	}
	for i := range old.Attrs {
		name := old.Attrs[i].Name
		if _, ok := lookup(to, name); !ok && !personal(to, name) {
			c.say(stepUnset, number(id), name)
		}
	}
}

func shared2(a, b []Attr) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func lookup(n *Node, name string) (Attr, bool) {
	for _, a := range n.Attrs {
		if a.Name == name {
			return a, true
		}
	}
	return Attr{}, false
}

func (c *change) set(n *Node, a *Attr, id int32) {
	if allowedAttr(*a) && !personal(n, a.Name) {
		c.say(stepAttr, number(id), a.Name, plain(a.Value))
	}
}

// personal tells what of a control belongs to the person who types or ticks:
// Controls speaks of that.
func personal(n *Node, name string) bool {
	switch name {
	case "checked":
		return n.Tag == "input"
	case "value":
		switch n.attr("type") {
		case "radio", "checkbox", "hidden":
			return false
		}
		return n.Tag == "input" || n.Tag == "textarea" || n.Tag == "select"
	}
	return false
}

// plain is a text as a browser reads it from HTML.
func plain(s string) string {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < 0x20 || c >= 0x7f {
			return strings.Map(printable, s)
		}
	}
	return s
}

func size(n *Node) int {
	all := 1
	for i := range n.Kids {
		all += size(&n.Kids[i])
	}
	return all
}

// Controls returns the steps that make every control of a tree show what it
// should, whatever a person has made of it since: but for the one in hand, for
// what was typed there since is on its way here.
func Controls(n Node, inHand string) string {
	var c change
	c.controls(&n, inHand)
	return c.steps.String()
}

func (c *change) controls(n *Node, inHand string) {
	id := n.attr("id")
	switch {
	case id == "" || id == inHand:
	case n.Tag == "input":
		switch n.attr("type") {
		case "hidden":
		case "radio", "checkbox":
			on := "0"
			if _, ok := lookup(n, "checked"); ok {
				on = "1"
			}
			c.say(stepTicked, id, on)
		default:
			c.say(stepValue, id, plain(n.attr("value")))
		}
	case n.Tag == "textarea":
		text := ""
		for _, k := range n.Kids {
			text += k.Text
		}
		c.say(stepValue, id, plain(text))
		return
	case n.Tag == "select":
		c.say(stepValue, id, chosen(n))
		return
	}
	for i := range n.Kids {
		c.controls(&n.Kids[i], inHand)
	}
}

func chosen(list *Node) string {
	for i := range list.Kids {
		if _, ok := lookup(&list.Kids[i], "selected"); ok {
			return list.Kids[i].attr("value")
		}
	}
	if len(list.Kids) > 0 {
		return list.Kids[0].attr("value")
	}
	return ""
}
