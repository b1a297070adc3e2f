// Package say holds every word for people, by key, and fills in figures. A
// language is one set of maps with the same keys: English and Spanish.
package say

import (
	"sort"
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/measure"
)

// Words is one language's catalogue, and the sources that are cited in it. Make
// it once and pass it on.
type Words struct {
	text    map[string]string
	sources map[source.Key]source.Entry
}

// English is the catalogue in English, all parts together. Of a key in two
// parts the first stands; a test sees to it that there is none.
func English() Words { return gathered(english()) }

func gathered(parts []map[string]string) Words {
	w := Of(map[string]string{})
	for _, part := range parts {
		for key, text := range part {
			if _, twice := w.text[key]; !twice {
				w.text[key] = text
			}
		}
	}
	return w
}

// Keys lists the catalogue in order.
func (w Words) Keys() []string {
	keys := make([]string, 0, len(w.text))
	for k := range w.text {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// Has tells whether the catalogue has a key.
func (w Words) Has(key string) bool { _, ok := w.text[key]; return ok }

// Say is a key's text with {0}, {1} … filled in. A key without a text is said
// as itself, so that a slip shows.
func (w Words) Say(key string, args ...string) string {
	text, ok := w.text[key]
	if !ok {
		return key
	}
	return filled(text, args)
}

// filled puts args where {0}, {1} … stand.
func filled(text string, args []string) string {
	for i, a := range args {
		text = strings.ReplaceAll(text, "{"+strconv.Itoa(i)+"}", a)
	}
	return text
}

// Name is a figure's short name.
func (w Words) Name(id sheet.ID) string {
	if text, ok := w.text["figure."+string(id)]; ok {
		return text
	}
	return string(id)
}

// How is one sentence on how a figure is worked out, "" when there is none.
func (w Words) How(id sheet.ID) string { return w.text["how."+string(id)] }

// Month is a month's short name.
func (w Words) Month(month int) string { return w.Say("month." + strconv.Itoa(month)) }

// Page is the figures of one sheet, for one reader, in one language.
type Page struct {
	Words Words
	Sheet *sheet.Sheet
	Terms measure.Terms
}

// Fill puts figures where their ids stand in braces: "{pond.area} of water".
// A word after a bar asks for another form: {flow.wanted|minute}. ok is false
// when the sheet lacks one of them, and then nothing should be said. {0}, {1} …
// are args, as in Say.
func (p Page) Fill(key string, args ...string) (text string, ok bool) {
	rest, known := p.Words.text[key]
	if !known {
		return key, false
	}
	var b strings.Builder
	ok = true
	for {
		before, after, open := strings.Cut(rest, "{")
		b.WriteString(before)
		if !open {
			return b.String(), ok
		}
		name, tail, _ := strings.Cut(after, "}")
		if n, err := strconv.Atoi(name); err == nil && n < len(args) {
			b.WriteString(args[n])
			rest = tail
			continue
		}
		id, form, _ := strings.Cut(name, "|")
		f, found := p.Sheet.Find(sheet.ID(id))
		ok = ok && found
		b.WriteString(p.Words.Shown(Form(f, form, p.Terms)).String())
		rest = tail
	}
}

// Finding is a finding's title and sentence, its figures filled in. Words that
// come with a builder's rule are used as they are.
func (p Page) Finding(f sheet.Finding) (title, text string) {
	title, text = f.Title, f.Text
	if title == "" {
		title = p.Words.Say("finding." + f.Code + ".title")
	}
	if text == "" && p.Words.Has("finding."+f.Code+".text") {
		text = p.Words.Say("finding." + f.Code + ".text")
	}
	args := make([]string, len(f.Figures))
	for i, id := range f.Figures {
		args[i] = measure.None("").String()
		if fig, ok := p.Sheet.Find(id); ok {
			args[i] = p.Words.Shown(Shown(fig, p.Terms)).String()
		}
	}
	return filled(title, args), filled(text, args)
}

// Source is what the register holds under a key.
func (w Words) Source(key source.Key) (source.Entry, bool) { e, ok := w.sources[key]; return e, ok }

// Citation is a source as a person reads it: author, title, edition and where
// in the source's own language, and how the number is known in the reader's.
// What stands in no document is said in the reader's language alone.
func (w Words) Citation(key source.Key) string {
	e, ok := w.Source(key)
	if !ok {
		return string(key)
	}
	if text, own := w.text["cited."+string(key)]; own {
		return text
	}
	var parts []string
	for _, t := range []string{e.Author, e.Title, e.When, e.Where} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, ", ") + " (" + w.Say("known."+string(e.Known)) + ")"
}
