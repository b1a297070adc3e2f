package book

import (
	"fmt"
	"strconv"
	"strings"

	"tarnwright/internal/core"
	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/jsonfile"
)

// fileVersion is the version of the files that have no other.
const fileVersion = 1

// builderFile is builder.json.
type builderFile struct {
	FileVersion int          `json:"file_version"`
	Invented    bool         `json:"invented"`
	Version     string       `json:"version"`
	Currency    string       `json:"currency"`
	Builder     core.Builder `json:"builder"`
}

func readBuilder(s source, b *core.Book) []Fault {
	var f builderFile
	faults := s.into(&f, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		c.text("version", f.Version, 40)
		c.text("builder.name", f.Builder.Name, 80)
		c.text("builder.short", f.Builder.Short, 40)
		c.that(f.Builder.Invented == f.Invented, "builder.invented", "invented", "builder.invented must be the same as invented")
		return c.faults
	})
	b.Builder, b.Version, b.Currency = f.Builder, f.Version, f.Currency
	return faults
}

func readPrices(s source, b *core.Book) []Fault {
	return s.into(&b.Prices, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.Prices.Faults() {
			switch f.Code {
			case "unknown_phase":
				c.unlike(f.Path, f.Code, "the id of a phase under works", ids(b.Prices.Works.Phases, func(p budget.Phase) string { return p.ID }))
			case "unknown_feature":
				c.unlike(f.Path, f.Code, "the id of a feature under features, or be left out", ids(b.Prices.Features, func(f budget.Feature) string { return f.ID }))
			case "order":
				c.rising(strings.TrimSuffix(f.Path, ".likely"))
			default:
				c.coded(f.Path, f.Code)
			}
		}
		return c.faults
	})
}

func ids[T any](list []T, id func(T) string) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = id(x)
	}
	return out
}

func readRates(s source, b *core.Book) []Fault {
	return s.into(&b.Rates, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.Rates.Faults() {
			if f.Twice {
				c.coded(f.Path, "twice")
				continue
			}
			c.that(false, f.Path, "out_of_range", fmt.Sprintf("%s must lie between %s and %s", f.Path, number(f.LeastCoef), number(f.MostCoef)))
		}
		return c.faults
	})
}

// rulesFile is rules.json.
type rulesFile struct {
	RulesVersion int           `json:"rules_version"`
	Invented     bool          `json:"invented"`
	Rules        []safety.Rule `json:"rules"`
}

func readRules(s source, b *core.Book) []Fault {
	var f rulesFile
	faults := coded(s, &f, func() []safety.Fault { return safety.Faults(f.Rules) })
	b.Rules = f.Rules
	return faults
}

// checker gathers what is wrong with what a file says, each at its line.
type checker struct {
	doc    *jsonfile.Doc
	faults []Fault
}

func (c *checker) that(right bool, path, code, text string) {
	if !right {
		c.faults = append(c.faults, c.doc.FaultAt(path, code, text))
	}
}

func (c *checker) text(path, s string, most int) {
	c.that(strings.TrimSpace(s) != "" && len(s) <= most, path, "text", fmt.Sprintf("%s must hold 1 to %d letters", path, most))
}

func (c *checker) notNegative(path string, p money.Price) {
	c.that(p.Sign() >= 0, path, "not_negative", path+" must not be less than nothing")
}

func (c *checker) id(path, id string, seen map[string]bool) {
	c.that(id != "", path, "missing", path+" must hold a name")
	c.that(id == "" || !seen[id], path, "twice", fmt.Sprintf("%s is used twice: %q", path, id))
	seen[id] = true
}

// unlike faults a name that is none of those it may be, with the nearest.
func (c *checker) unlike(path, code, what string, known []string) {
	got := c.doc.TextAt(path)
	text := meant(got, known)
	c.that(false, path, code, fmt.Sprintf("%s must be %s, and is %q; %s", path, what, got, text))
}

// meant is the nearest of the names there are, or those of the same family, or
// all when they are few.
func meant(name string, known []string) string {
	const few = 20
	text, best := jsonfile.Meant(name, known)
	if best != "" || len(known) <= few {
		return text
	}
	family, _, _ := strings.Cut(name, ".")
	var kin []string
	for _, k := range known {
		if strings.HasPrefix(k, family+".") {
			kin = append(kin, k)
		}
	}
	if len(kin) == 0 || len(kin) > few {
		return fmt.Sprintf("there are %d, like %q", len(known), known[0])
	}
	text, _ = jsonfile.Meant(name, kin)
	return text
}

// rising faults three points that fall.
func (c *checker) rising(at string) {
	point := func(key string) string { return c.doc.TextAt(at + "." + key) }
	c.that(false, at+".likely", "order", fmt.Sprintf("%s: low, likely and high must not fall from one to the next, and are %s, %s and %s", at, point("low"), point("likely"), point("high")))
}

// coded words a fault that a package of the core gives by its code alone.
func (c *checker) coded(path, code string) {
	c.that(false, path, code, path+" "+remedyAt(path, code))
}

// remedyAt is the remedy of a code, or one that fits the value better.
func remedyAt(path, code string) string {
	_, last, _ := strings.Cut(path[strings.LastIndex(path, "]")+1:], ".")
	switch {
	case code == "span" && strings.HasPrefix(last, "up_to_"):
		return "must be left out of the last step, which has no end"
	case code == "missing" && strings.HasPrefix(last, "up_to_"):
		return "must say where this step ends, like \"500\""
	case code == "span" && path == "tax_share":
		return "must be a share between 0 and 1, like \"0.05\""
	case code == "span" && last == "hours":
		return "must be times of a day, each with a start and an end, like \"16:00\" and \"21:00\""
	case code == "span" && strings.HasPrefix(last, "t_max"), code == "span" && strings.HasPrefix(last, "rh_max"):
		return "must not be below the least of that month"
	}
	return remedy(code)
}

func remedy(code string) string {
	switch code {
	case "version":
		return "must be 1; this program reads no other"
	case "above_zero":
		return "must be above zero"
	case "not_negative":
		return "must not be less than nothing"
	case "order":
		return "must not fall from one to the next"
	case "missing":
		return "must hold something"
	case "twice":
		return "is used twice; each needs a name of its own"
	case "unbounded":
		return "needs a bound, like \"above\": 1.5"
	case "span":
		return "must lie within what can be, or be one of the words that may stand here"
	case "unit":
		return "must be \"count\" where the quantity is \"fixed\""
	case "taken":
		return "is the name of a rule that every pond has; choose another"
	case "severity":
		return "must be \"care\" or \"fine\""
	case "place":
		return "must be a place on the plan, like \"deck\", or be left out"
	case "brace":
		return "has a brace { that is not closed; write it like {pond.area}"
	}
	return "is not right (" + strings.ReplaceAll(code, "_", " ") + ")"
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
