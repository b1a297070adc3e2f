package jsonfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Meet holds the file's values against limits and says of each that lies
// outside what to write instead.
func (d *Doc) Meet(limits []Limit) []Fault {
	d.more = nil
	for _, l := range limits {
		d.meet(d.root, "", l.Path, l)
	}
	sortFaults(d.more)
	return d.more
}

// meet walks to every value that a limit's path names.
func (d *Doc) meet(n *node, at, rest string, l Limit) {
	if n == nil {
		return
	}
	if rest == "" {
		d.limit(n, at, l)
		return
	}
	if tail, ok := strings.CutPrefix(rest, "[]"); ok {
		for i, it := range n.items {
			d.meet(it, index(at, i), strings.TrimPrefix(tail, "."), l)
		}
		return
	}
	end := strings.IndexAny(rest, ".[")
	if end < 0 {
		end = len(rest)
	}
	for _, m := range n.members {
		if m.key == rest[:end] {
			d.meet(m.value, join(at, m.key), strings.TrimPrefix(rest[end:], "."), l)
		}
	}
}

func (d *Doc) limit(n *node, path string, l Limit) {
	switch n.kind {
	case isString:
		d.limitText(n, path, l)
	case isNumber:
		x, err := strconv.ParseFloat(n.text, 64)
		if err == nil && (l.Least != nil && x < *l.Least || l.Most != nil && x > *l.Most) {
			d.add(n.at, path, "out_of_range", path+" must "+l.span()+", and is "+n.text+l.only())
		}
	case isList:
		if l.Filled && len(n.items) == 0 {
			d.add(n.at, path, "missing", path+" must hold at least one member")
		}
	}
}

func (d *Doc) limitText(n *node, path string, l Limit) {
	switch {
	case len(l.Words) > 0 && !among(l.Words, n.text):
		d.add(n.at, path, "unknown_choice", fmt.Sprintf("%s must be one of %s, and is %q", path, quoteAll(l.Words), shown([]byte(n.text))))
	case l.Filled && strings.TrimSpace(n.text) == "":
		d.add(n.at, path, "missing", path+" must hold something")
	case l.Pattern != "" && !regexp.MustCompile(l.Pattern).MatchString(n.text):
		d.add(n.at, path, "wrong_text", fmt.Sprintf("%s must be %s, and is %q", path, l.About, shown([]byte(n.text))))
	}
}

func among(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}

// span says in words where a number may lie.
func (l Limit) span() string {
	number := func(x *float64) string { return strconv.FormatFloat(*x, 'f', -1, 64) }
	switch {
	case l.Least != nil && l.Most != nil && *l.Least == *l.Most:
		return "be " + number(l.Least)
	case l.Least != nil && l.Most != nil:
		return "lie between " + number(l.Least) + " and " + number(l.Most)
	case l.Least != nil:
		return "be " + number(l.Least) + " or more"
	}
	return "be " + number(l.Most) + " or less"
}

// only says that a version is the one there is.
func (l Limit) only() string {
	if l.Least != nil && l.Most != nil && *l.Least == *l.Most {
		return "; this program reads no other"
	}
	return ""
}
