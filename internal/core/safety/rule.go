// Package safety holds rules as data and reads them against a sheet. A rule
// says when it applies, which figures its sentence names, where on the plan it
// belongs and what published text is behind it. Local code and the licensed
// trades always have the last word.
package safety

import (
	"slices"
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
)

// Rule is one safety rule. The core's own are worded elsewhere by their id; a
// builder's rule carries its own words.
type Rule struct {
	ID       string         `json:"id"`
	Severity sheet.Severity `json:"severity"`
	// When lists what must all be true of the sheet.
	When []sheet.Clause `json:"when"`
	// Title and Text may name figures: "{pond.max_depth} at the deep end".
	Title string      `json:"title"`
	Text  string      `json:"text"`
	Place sheet.Place `json:"place,omitempty"`
	Cited Citation    `json:"source"`
	// Defers says who has the last word.
	Defers string `json:"defers"`
	// Figures are what the rule rests on; those named in its words are added.
	Figures []sheet.ID `json:"figures,omitempty"`
	// Source is the register's key, for the core's own rules.
	Source source.Key `json:"-"`
}

// Citation is the published text behind a builder's rule.
type Citation struct {
	Code    string `json:"code"`
	Edition string `json:"edition,omitempty"`
	Section string `json:"section,omitempty"`
	// Known says how the builder knows it: "read", "quoted", "from memory".
	Known string `json:"known"`
}

// String is the citation as a person reads it.
func (c Citation) String() string {
	var parts []string
	for _, p := range []string{c.Code, c.Edition, c.Section, c.Known} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

// Evaluate returns the finding of each rule that applies, in the rules' order.
// Words of a builder's rule come out with {0}, {1} … for its figures in order.
func Evaluate(rules []Rule, s *sheet.Sheet) []sheet.Finding {
	var found []sheet.Finding
	for _, r := range rules {
		if len(r.When) == 0 || !sheet.AllHold(r.When, s) {
			continue
		}
		f := sheet.Finding{Code: r.ID, Severity: r.Severity, Figures: append([]sheet.ID(nil), r.Figures...), Source: r.Source, Place: r.Place}
		if r.Source == "" {
			f.Source, f.Cited, f.Defers = "builder", r.Cited.String(), r.Defers
			f.Title = numbered(r.Title, &f.Figures)
			f.Text = numbered(r.Text, &f.Figures)
		}
		found = append(found, f)
	}
	return found
}

// All is the core's rules and then the builder's own. A builder cannot take one
// away or put another in its place: a rule that has a core rule's id, or one
// that stands already, is passed over.
func All(own []Rule) []Rule {
	all := Core()
	taken := map[string]bool{}
	for _, r := range all {
		taken[r.ID] = true
	}
	for _, r := range own {
		if !taken[r.ID] {
			taken[r.ID] = true
			all = append(all, r)
		}
	}
	return all
}

// numbered turns {figure.id} into {n}, n being the figure's place in the list,
// which grows as needed.
func numbered(text string, figures *[]sheet.ID) string {
	var out strings.Builder
	for {
		before, rest, open := strings.Cut(text, "{")
		name, after, closed := strings.Cut(rest, "}")
		out.WriteString(before)
		if !open || !closed {
			if open {
				out.WriteString("{" + rest)
			}
			return out.String()
		}
		out.WriteString("{" + strconv.Itoa(place(sheet.ID(name), figures)) + "}")
		text = after
	}
}

func place(id sheet.ID, figures *[]sheet.ID) int {
	for i, f := range *figures {
		if f == id {
			return i
		}
	}
	*figures = append(*figures, id)
	return len(*figures) - 1
}

// Fault is one thing wrong with a builder's rules. Code is one of: missing,
// taken, twice, severity, place, unbounded, unknown_figure, brace.
type Fault struct{ Path, Code string }

// Faults returns all that is wrong with a builder's own rules.
func Faults(own []Rule) []Fault {
	var faults []Fault
	when := func(wrong bool, path, code string) {
		if wrong {
			faults = append(faults, Fault{path, code})
		}
	}
	core := map[string]bool{}
	for _, r := range Core() {
		core[r.ID] = true
	}
	seen := map[string]bool{}
	for i, r := range own {
		at := "rules[" + strconv.Itoa(i) + "]."
		when(r.ID == "", at+"id", "missing")
		when(core[r.ID], at+"id", "taken")
		when(seen[r.ID] && r.ID != "", at+"id", "twice")
		seen[r.ID] = true
		when(r.Severity != sheet.Care && r.Severity != sheet.Fine, at+"severity", "severity")
		when(r.Title == "", at+"title", "missing")
		when(r.Text == "", at+"text", "missing")
		when(r.Defers == "", at+"defers", "missing")
		when(r.Cited.Code == "", at+"source.code", "missing")
		when(r.Cited.Known == "", at+"source.known", "missing")
		when(!isPlace(r.Place), at+"place", "place")
		when(len(r.When) == 0, at+"when", "missing")
		for j, c := range r.When {
			when(!c.Bounded(), at+"when["+strconv.Itoa(j)+"]", "unbounded")
		}
		when(!braced(r.Title), at+"title", "brace")
		when(!braced(r.Text), at+"text", "brace")
	}
	return faults
}

// Unmet returns the figures that a builder's rules name and the sheet lacks: a
// slip of spelling would silence a rule for ever.
func Unmet(own []Rule, s *sheet.Sheet) []Fault {
	var faults []Fault
	for i, r := range own {
		at := "rules[" + strconv.Itoa(i) + "]."
		for j, c := range r.When {
			if _, ok := s.Find(c.Figure); !ok {
				faults = append(faults, Fault{at + "when[" + strconv.Itoa(j) + "].figure", "unknown_figure"})
			}
		}
		for j, id := range r.Figures {
			if _, ok := s.Find(id); !ok {
				faults = append(faults, Fault{at + "figures[" + strconv.Itoa(j) + "]", "unknown_figure"})
			}
		}
		for _, t := range []struct{ key, words string }{{"title", r.Title}, {"text", r.Text}} {
			var named []sheet.ID
			numbered(t.words, &named)
			if slices.ContainsFunc(named, func(id sheet.ID) bool { _, ok := s.Find(id); return !ok }) {
				faults = append(faults, Fault{at + t.key, "unknown_figure"})
			}
		}
	}
	return faults
}

func isPlace(p sheet.Place) bool {
	switch p {
	case sheet.NoPlace, sheet.AtDeepEnd, sheet.AtDeck, sheet.AtPump, sheet.AtIntake, sheet.AtBeach,
		sheet.AtCascade, sheet.AtZone, sheet.AtRim, sheet.AroundGround:
		return true
	}
	return false
}

// braced says whether every brace that opens in a text closes round a name.
func braced(text string) bool {
	for {
		_, rest, open := strings.Cut(text, "{")
		if !open {
			return true
		}
		name, after, closed := strings.Cut(rest, "}")
		if !closed || name == "" || strings.ContainsAny(name, "{ ") {
			return false
		}
		text = after
	}
}
