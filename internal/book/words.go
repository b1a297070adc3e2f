package book

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"sort"
	"strings"

	"tarnwright/internal/core"
	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/waterbill"
	"tarnwright/internal/jsonfile"
)

// Languages are those that a builder may give their own words in.
func Languages() []string { return []string{"en", "es"} }

// WordsName is the file of a builder's own words in a language; a folder may
// do without.
func WordsName(language string) string { return "words." + language + ".json" }

// wordsFile is that file: texts by the id of what they name in the other
// files. What it leaves out is said as those files have it.
type wordsFile struct {
	FileVersion int               `json:"file_version"`
	Invented    bool              `json:"invented"`
	Items       map[string]string `json:"items,omitempty"`
	Features    map[string]string `json:"features,omitempty"`
	Phases      map[string]string `json:"phases,omitempty"`
	Pumps       map[string]string `json:"pumps,omitempty"`
	Climates    map[string]string `json:"climates,omitempty"`
	// Tariffs are the names on the bills: "power" and "water".
	Tariffs map[string]string    `json:"tariffs,omitempty"`
	Rules   map[string]ruleWords `json:"rules,omitempty"`
}

// ruleWords are all the words of one rule.
type ruleWords struct {
	Title  string `json:"title"`
	Text   string `json:"text"`
	Defers string `json:"defers"`
}

// Worded is a builder's book in another language's words.
type Worded struct {
	Book core.Book
	// Left are the texts that no word was given for; they stay as the builder's
	// other files have them.
	Left []string
}

// LoadWords reads the words that a builder's folder has in other languages and
// gives the book in each.
func LoadWords(dir fs.FS, b core.Book) (map[string]Worded, []Fault) {
	out := map[string]Worded{}
	var faults []Fault
	for _, language := range Languages() {
		name := WordsName(language)
		data, err := fs.ReadFile(dir, name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			faults = append(faults, missing(name, err))
			continue
		}
		w, wrong := readWords(source{name, data, wordLimits(), map[string]*jsonfile.Doc{}}, b)
		faults = append(faults, wrong...)
		out[language] = w
	}
	return out, faults
}

func readWords(s source, b core.Book) (Worded, []Fault) {
	var f wordsFile
	w := Worded{Book: b}
	faults := s.into(&f, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		w.Book, w.Left = c.worded(b, f)
		return c.faults
	})
	return w, faults
}

// worded is the book with a file's words in it. The book given stays as it is.
func (c *checker) worded(b core.Book, f wordsFile) (core.Book, []string) {
	b.Prices.Items = slices.Clone(b.Prices.Items)
	b.Prices.Features = slices.Clone(b.Prices.Features)
	b.Prices.Works.Phases = slices.Clone(b.Prices.Works.Phases)
	b.Pumps, b.Climates, b.Rules = slices.Clone(b.Pumps), slices.Clone(b.Climates), slices.Clone(b.Rules)
	return b, slices.Concat(
		c.names("items", f.Items, of(b.Prices.Items, func(it *budget.Item) named { return named{it.ID, &it.Name} })),
		c.names("features", f.Features, of(b.Prices.Features, func(ft *budget.Feature) named { return named{ft.ID, &ft.Name} })),
		c.names("phases", f.Phases, of(b.Prices.Works.Phases, func(p *budget.Phase) named { return named{p.ID, &p.Name} })),
		c.names("pumps", f.Pumps, of(b.Pumps, func(m *pump.Model) named { return named{m.ID, &m.Name} })),
		c.names("climates", f.Climates, of(b.Climates, func(k *waterbill.Climate) named { return named{k.ID, &k.Name} })),
		c.names("tariffs", f.Tariffs, []named{{"power", &b.Tariff.Name}, {"water", &b.WaterTariff.Name}}),
		c.rules(b.Rules, f.Rules),
	)
}

// named is a text of the book and what it is found by.
type named struct {
	id   string
	text *string
}

func of[T any](list []T, one func(*T) named) []named {
	out := make([]named, len(list))
	for i := range list {
		out[i] = one(&list[i])
	}
	return out
}

// names puts words where a list has names, and tells which it had none for.
func (c *checker) names(at string, words map[string]string, list []named) (left []string) {
	known := map[string]bool{}
	for _, n := range list {
		known[n.id] = true
		word, given := words[n.id]
		if !given {
			left = append(left, at+"."+n.id)
			continue
		}
		c.that(strings.TrimSpace(word) != "", at+"."+n.id, "missing", at+"."+n.id+" must hold something, or be left out")
		*n.text = word
	}
	c.strangers(at, slices.Sorted(maps.Keys(words)), known)
	return left
}

// strangers faults words for what the other files do not have.
func (c *checker) strangers(at string, given []string, known map[string]bool) {
	for _, id := range given {
		if !known[id] {
			c.that(false, at+"."+id, "unknown_id", fmt.Sprintf("%s.%s is nothing in the builder's other files; %s", at, id, meant(id, slices.Sorted(maps.Keys(known)))))
		}
	}
}

// rules puts words into rules; each must name the figures that the rule names.
func (c *checker) rules(rules []safety.Rule, words map[string]ruleWords) (left []string) {
	known := map[string]bool{}
	for i := range rules {
		r := &rules[i]
		known[r.ID] = true
		w, given := words[r.ID]
		at := "rules." + r.ID
		if !given {
			left = append(left, at)
			continue
		}
		for _, t := range []struct{ key, own, text string }{{"title", r.Title, w.Title}, {"text", r.Text, w.Text}, {"defers", r.Defers, w.Defers}} {
			c.that(strings.TrimSpace(t.text) != "", at+"."+t.key, "missing", at+"."+t.key+" must hold something")
			own, other := braces(t.own), braces(t.text)
			c.that(slices.Equal(own, other), at+"."+t.key, "figures", fmt.Sprintf("%s.%s must name the figures that the rule names, %s, and names %s", at, t.key, listed(own), listed(other)))
		}
		r.Title, r.Text, r.Defers = w.Title, w.Text, w.Defers
	}
	c.strangers("rules", slices.Sorted(maps.Keys(words)), known)
	return left
}

// braces are the figures that a text names, in order of name.
func braces(text string) []string {
	var names []string
	for {
		_, rest, open := strings.Cut(text, "{")
		if !open {
			sort.Strings(names)
			return slices.Compact(names)
		}
		name, after, _ := strings.Cut(rest, "}")
		names, text = append(names, "{"+name+"}"), after
	}
}

func listed(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, " and ")
}

func wordLimits() []jsonfile.Limit {
	return []jsonfile.Limit{between("file_version", fileVersion, fileVersion)}
}
