// Package jsonfile reads JSON strictly: into any struct with encoding/json
// tags, reporting every fault of a file at once, each with its line, its path
// and what would be right. An unknown key, a key given twice, a missing key, a
// number that is text: nothing is passed over, because a builder who edits a
// price file must hear about each slip in one go.
package jsonfile

import (
	"bytes"
	"fmt"
	"sort"
	"strconv"
	"strings"
)

// Fault is one thing wrong with a file.
type Fault struct {
	File   string
	Line   int    // from 1; 0 when the file as a whole is meant
	Column int    // in bytes, from 1
	Path   string // "outline.length_m"; empty for the whole file
	Code   string // "unknown_key", "missing", "not_a_number", …
	Text   string // "outline.length_m must be a number, like 10.36"
}

// String is the fault as a compiler would print it.
func (f Fault) String() string {
	at := f.File
	if f.Line > 0 {
		at += ":" + strconv.Itoa(f.Line) + ":" + strconv.Itoa(f.Column)
	}
	if at == "" {
		return f.Text
	}
	return at + ": " + f.Text
}

// maxFaults bounds what one broken file can say.
const maxFaults = 200

// maxDepth bounds nesting, so that a hostile file cannot exhaust the stack.
const maxDepth = 64

// Doc is a file taken apart, each value with its place.
type Doc struct {
	name  string
	data  []byte
	lines []int // offset at which each line starts
	root  *node
	more  []Fault
}

// Parse takes a file apart. A file that is not JSON gives one fault, at the
// first place where it stops being so; NaN and its kin are reported as values
// and do not end the reading.
func Parse(name string, data []byte) (*Doc, []Fault) {
	d := &Doc{name: name, data: data, lines: []int{0}}
	for i, b := range data {
		if b == '\n' {
			d.lines = append(d.lines, i+1)
		}
	}
	p := &parser{data: bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))}
	p.shift = len(data) - len(p.data)
	d.root = p.file()
	if p.bad != "" {
		return d, []Fault{d.fault(p.badAt+p.shift, "", "not_json", p.bad)}
	}
	d.root.move(p.shift)
	return d, nil
}

// Read parses a file and fills into, a pointer to a struct, a map or a list. It
// returns every fault; into is only to be trusted when there is none.
func Read(name string, data []byte, into any) []Fault {
	d, faults := Parse(name, data)
	if len(faults) > 0 {
		return faults
	}
	return d.Into(into)
}

// FaultAt is a fault found later, by someone who knows what the values mean,
// at the place in the file that the path names.
func (d *Doc) FaultAt(path, code, text string) Fault {
	return d.fault(d.root.find(path), path, code, text)
}

// TextAt is the text or the number that stands at a path, "" for anything
// else.
func (d *Doc) TextAt(path string) string {
	n, ok := d.root.reach(path)
	if !ok || n.kind != isString && n.kind != isNumber {
		return ""
	}
	return n.text
}

func (d *Doc) fault(at int, path, code, text string) Fault {
	line := sort.Search(len(d.lines), func(i int) bool { return d.lines[i] > at })
	return Fault{
		File: d.name, Line: line, Column: at - d.lines[line-1] + 1,
		Path: path, Code: code, Text: text,
	}
}

func (d *Doc) add(at int, path, code, text string) {
	if len(d.more) < maxFaults {
		d.more = append(d.more, d.fault(at, path, code, text))
	}
}

// join is the path of a member.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func index(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

// called names a path in a sentence; the whole file has no path.
func called(path string) string {
	if path == "" {
		return "the file"
	}
	return path
}

// sortFaults puts faults in file order, and keeps the order of those at one
// place.
func sortFaults(faults []Fault) {
	sort.SliceStable(faults, func(i, j int) bool {
		a, b := faults[i], faults[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
}

// shown is a piece of the file, short enough for a message.
func shown(raw []byte) string {
	const most = 40
	s := strings.ToValidUTF8(string(raw), "�")
	if len(s) > most {
		s = strings.ToValidUTF8(s[:most], "") + "…"
	}
	if strings.ContainsAny(s, "\n\r\t") {
		s = strings.Join(strings.Fields(s), " ")
	}
	return s
}

func quoteAll(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(out, ", ")
}
