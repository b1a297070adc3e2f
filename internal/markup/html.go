package markup

import (
	"html"
	"strings"
)

// HTML writes a node as HTML. Text and attribute values are escaped; a name
// that is not a plain name, an element that would run or swallow what stands
// in it, a handler, a style attribute and an address with a scheme other than
// the usual four are left out, so that no value can break out of its place.
//
// Characters that HTML does not allow become U+FFFD.
func HTML(n Node) string {
	var w strings.Builder
	write(&w, n)
	return w.String()
}

func write(w *strings.Builder, n Node) {
	if n.Tag == "" {
		w.WriteString(escape(n.Text))
		return
	}
	if !allowedTag(n.Tag) {
		return
	}
	w.WriteByte('<')
	w.WriteString(n.Tag)
	seen := make(map[string]bool, len(n.Attrs))
	for _, a := range n.Attrs {
		name := strings.ToLower(a.Name)
		if seen[name] || !allowedAttr(a) {
			continue
		}
		seen[name] = true
		w.WriteByte(' ')
		w.WriteString(a.Name)
		if !a.Bare {
			w.WriteString(`="`)
			w.WriteString(escape(a.Value))
			w.WriteByte('"')
		}
	}
	w.WriteByte('>')
	if void(n.Tag) {
		return
	}
	if n.Tag == "textarea" || n.Tag == "pre" {
		w.WriteByte('\n') // a parser drops the first line break of these
	}
	for _, k := range n.Kids {
		write(w, k)
	}
	w.WriteString("</")
	w.WriteString(n.Tag)
	w.WriteByte('>')
}

func escape(s string) string {
	return strings.ReplaceAll(html.EscapeString(strings.Map(printable, s)), "\r", "&#13;")
}

func printable(r rune) rune {
	switch {
	case r == '\t' || r == '\n' || r == '\r':
		return r
	case r < 0x20, r >= 0x7f && r < 0xa0, r&0xfffe == 0xfffe:
		return '\uFFFD'
	}
	return r
}

// void lists the elements that have no end tag.
func void(tag string) bool {
	switch tag {
	case "area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr":
		return true
	}
	return false
}

func allowedTag(tag string) bool {
	switch strings.ToLower(tag) {
	case "script", "style", "template", "iframe", "object", "embed", "base", "noscript", "noembed", "noframes", "xmp", "plaintext", "listing", "frameset", "foreignobject", "html", "head", "body":
		return false
	}
	return name(tag)
}

func allowedAttr(a Attr) bool {
	lower := strings.ToLower(a.Name)
	switch {
	case !name(a.Name), strings.HasPrefix(lower, "on"), lower == "sty"+"le", lower == "srcdoc":
		return false
	case lower == "href", lower == "src", lower == "action", lower == "formaction", lower == "xlink:href":
		return allowedAddress(a.Value)
	}
	return true
}

// allowedAddress takes addresses within the site and the four usual schemes.
// Anything before a colon that comes ahead of the first /, ? or # is a scheme;
// browsers skip control characters and spaces in it, so those are refused.
func allowedAddress(s string) bool {
	i := strings.IndexAny(s, ":/?#")
	if i < 0 || s[i] != ':' {
		return true
	}
	switch strings.ToLower(s[:i]) {
	case "http", "https", "mailto", "tel":
		return true
	}
	return false
}

// name tells whether s is a plain name: letters, digits, - and :, a letter first.
func name(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
		other := c >= '0' && c <= '9' || c == '-' || c == ':' || c == '_'
		if !letter && (i == 0 || !other) {
			return false
		}
	}
	return s != ""
}
