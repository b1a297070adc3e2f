package jsonfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

type kind int

const (
	isObject kind = iota
	isList
	isString
	isNumber
	isBool
	isNull
	isNaN // NaN, Infinity: not JSON, but what they mean is clear
)

// node is one value with its place in the file.
type node struct {
	kind    kind
	at, end int
	text    string // of a string, unescaped; otherwise the value as written
	members []member
	items   []*node
}

type member struct {
	key   string
	at    int
	value *node
}

// move shifts every offset, for files that begin with a byte-order mark.
func (n *node) move(by int) {
	if by == 0 {
		return
	}
	n.at, n.end = n.at+by, n.end+by
	for i := range n.members {
		n.members[i].at += by
		n.members[i].value.move(by)
	}
	for _, it := range n.items {
		it.move(by)
	}
}

// find returns the offset of the value at a path, or of the nearest value
// around it when the file does not have it.
func (n *node) find(path string) int {
	near, _ := n.reach(path)
	return near.at
}

// reach walks to the value at a path, or as near to it as there is one.
func (n *node) reach(path string) (near *node, whole bool) {
	near = n
	for path != "" {
		next, rest := near.step(path)
		if next == nil {
			return near, false
		}
		near, path = next, rest
	}
	return near, true
}

func (n *node) step(path string) (*node, string) {
	if rest, ok := strings.CutPrefix(path, "["); ok {
		num, rest, _ := strings.Cut(rest, "]")
		i, err := strconv.Atoi(num)
		if err != nil || i < 0 || i >= len(n.items) {
			return nil, ""
		}
		return n.items[i], strings.TrimPrefix(rest, ".")
	}
	end := strings.IndexAny(path, ".[")
	if end < 0 {
		end = len(path)
	}
	for _, m := range n.members {
		if m.key == path[:end] {
			return m.value, strings.TrimPrefix(path[end:], ".")
		}
	}
	return nil, ""
}

// parser reads JSON as RFC 8259 has it. It stops at the first place that is
// not JSON.
type parser struct {
	data  []byte
	i     int
	depth int
	shift int
	bad   string
	badAt int
}

func (p *parser) fail(at int, text string) *node {
	if p.bad == "" {
		p.bad, p.badAt = text, at
	}
	return &node{kind: isNull, at: at, end: at}
}

func (p *parser) space() {
	for p.i < len(p.data) && strings.IndexByte(" \t\r\n", p.data[p.i]) >= 0 {
		p.i++
	}
}

func (p *parser) file() *node {
	if !utf8.Valid(p.data) {
		return p.fail(badUTF8(p.data), "the file must be UTF-8 text, and is not from here on")
	}
	p.space()
	if p.i == len(p.data) {
		return p.fail(0, "the file is empty")
	}
	n := p.value()
	if p.bad != "" {
		return n
	}
	p.space()
	if p.i < len(p.data) {
		return p.fail(p.i, "nothing may follow the closing bracket of the file")
	}
	return n
}

func badUTF8(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return 0
}

func (p *parser) value() *node {
	if p.i >= len(p.data) {
		return p.fail(p.i, "the file ends where a value should stand")
	}
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > maxDepth {
		return p.fail(p.i, "brackets are nested deeper than "+strconv.Itoa(maxDepth))
	}
	switch c := p.data[p.i]; {
	case c == '{':
		return p.object()
	case c == '[':
		return p.list()
	case c == '"':
		n := &node{kind: isString, at: p.i}
		n.text = p.str()
		n.end = p.i
		return n
	default:
		return p.word()
	}
}

func (p *parser) object() *node {
	n := &node{kind: isObject, at: p.i}
	p.i++
	for first := true; ; first = false {
		p.space()
		if p.take('}') {
			break
		}
		if !first && !p.comma('}') {
			return n
		}
		p.space()
		m := member{at: p.i}
		if p.i >= len(p.data) || p.data[p.i] != '"' {
			return p.fail(p.i, `a key in double quotes should stand here, like "name"`)
		}
		m.key = p.str()
		p.space()
		if p.bad == "" && !p.take(':') {
			return p.fail(p.i, fmt.Sprintf("a colon should stand after the key %q", m.key))
		}
		p.space()
		m.value = p.value()
		if p.bad != "" {
			return n
		}
		n.members = append(n.members, m)
	}
	n.end = p.i
	return n
}

func (p *parser) list() *node {
	n := &node{kind: isList, at: p.i}
	p.i++
	for first := true; ; first = false {
		p.space()
		if p.take(']') {
			break
		}
		if !first && !p.comma(']') {
			return n
		}
		p.space()
		it := p.value()
		if p.bad != "" {
			return n
		}
		n.items = append(n.items, it)
	}
	n.end = p.i
	return n
}

func (p *parser) take(c byte) bool {
	if p.i < len(p.data) && p.data[p.i] == c {
		p.i++
		return true
	}
	return false
}

// comma passes the comma between two members; a comma before the closing
// bracket is a slip worth its own words.
func (p *parser) comma(closing byte) bool {
	if !p.take(',') {
		p.fail(p.i, fmt.Sprintf("a comma or %q should stand here", string(closing)))
		return false
	}
	at := p.i - 1
	p.space()
	if p.i < len(p.data) && p.data[p.i] == closing {
		p.fail(at, fmt.Sprintf("no comma may stand before %q", string(closing)))
		return false
	}
	return true
}

// str reads a string; the escapes are left to the standard decoder.
func (p *parser) str() string {
	at := p.i
	for p.i++; p.i < len(p.data); p.i++ {
		switch c := p.data[p.i]; {
		case c == '\\':
			p.i++
		case c == '"':
			p.i++
			var s string
			if err := json.Unmarshal(p.data[at:p.i], &s); err != nil {
				p.fail(at, "this text has an escape that JSON does not know")
			}
			return s
		case c < 0x20:
			p.fail(p.i, "a text may not hold a line break or another control character; write \\n")
			return ""
		}
	}
	p.fail(at, "this text has no closing quote")
	return ""
}

func (p *parser) word() *node {
	at := p.i
	for p.i < len(p.data) && strings.IndexByte(" \t\r\n,:[]{}\"", p.data[p.i]) < 0 {
		p.i++
	}
	n := &node{at: at, end: p.i, text: string(p.data[at:p.i])}
	switch n.text {
	case "true", "false":
		n.kind = isBool
	case "null":
		n.kind = isNull
	case "":
		return p.fail(at, "a value should stand here")
	default:
		n.kind = isNumber
		if bytes.ContainsAny(p.data[at:p.i], "nNI") {
			if named := strings.TrimLeft(strings.ToLower(n.text), "+-"); named == "nan" || named == "inf" || named == "infinity" {
				n.kind = isNaN
				return n
			}
		}
		if !json.Valid(p.data[at:p.i]) {
			return p.fail(at, fmt.Sprintf("%q is not a JSON value; text stands in double quotes, a number like 10.36", shown(p.data[at:p.i])))
		}
	}
	return n
}
