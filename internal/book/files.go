package book

import (
	"fmt"
	"strconv"
	"strings"

	"tarnwright/internal/core"
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
		c.version("file_version", f.FileVersion)
		c.text("version", f.Version, 40)
		c.that(isCurrency(f.Currency), "currency", "currency", "currency must be three capital letters, like \"USD\"")
		c.text("builder.name", f.Builder.Name, 80)
		c.text("builder.short", f.Builder.Short, 40)
		c.that(strings.Contains(f.Builder.Email, "@"), "builder.email", "email", "builder.email must be an email address, like \"hello@builder.example\"")
		c.that(strings.HasPrefix(f.Builder.PrivacyURL, "https://") && !strings.ContainsAny(f.Builder.PrivacyURL, " \"'<>"), "builder.privacy_url", "url",
			"builder.privacy_url must be a web address that starts with https://; without it no details may be asked for")
		c.span("builder.retention_months", float64(f.Builder.RetentionMonths), 1, 60)
		c.that(f.Builder.Invented == f.Invented, "builder.invented", "invented", "builder.invented must be the same as invented")
		return c.faults
	})
	b.Builder, b.Version, b.Currency = f.Builder, f.Version, f.Currency
	return faults
}

func isCurrency(s string) bool {
	if len(s) != 3 {
		return false
	}
	for _, r := range s {
		if r < 'A' || r > 'Z' {
			return false
		}
	}
	return true
}

func readPrices(s source, b *core.Book) []Fault {
	return s.into(&b.Prices, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.Prices.Faults() {
			c.coded(f.Path, f.Code)
		}
		return c.faults
	})
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
	faults := s.into(&f, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		c.version("rules_version", f.RulesVersion)
		for _, x := range safety.Faults(f.Rules) {
			c.coded(x.Path, x.Code)
		}
		return c.faults
	})
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

func (c *checker) version(path string, got int) {
	c.that(got == fileVersion, path, "version", fmt.Sprintf("%s must be %d; this program reads no other", path, fileVersion))
}

func (c *checker) text(path, s string, most int) {
	c.that(strings.TrimSpace(s) != "" && len(s) <= most, path, "text", fmt.Sprintf("%s must hold 1 to %d letters", path, most))
}

func (c *checker) span(path string, x, least, most float64) {
	c.that(x >= least && x <= most, path, "out_of_range",
		fmt.Sprintf("%s must lie between %s and %s, and is %s", path, number(least), number(most), number(x)))
}

func (c *checker) notNegative(path string, p money.Price) {
	c.that(p.Sign() >= 0, path, "not_negative", path+" must not be less than nothing")
}

func (c *checker) id(path, id string, seen map[string]bool) {
	c.that(id != "", path, "missing", path+" must hold a name")
	c.that(id == "" || !seen[id], path, "twice", fmt.Sprintf("%s is used twice: %q", path, id))
	seen[id] = true
}

// coded words a fault that a package of the core gives by its code alone.
func (c *checker) coded(path, code string) {
	c.that(false, path, code, path+" "+remedy(code))
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
	case "unknown_phase":
		return "must be the id of a phase under works"
	case "unbounded":
		return "needs a bound, like \"above\": 1.5"
	case "span":
		return "is outside what can be, or not one of the words that may stand here"
	case "unknown_figure":
		return "must be the id of a figure on the sheet, like \"pond.area\""
	case "unit":
		return "must be the unit of that figure"
	case "taken":
		return "is the name of a rule that every pond has; choose another"
	case "severity":
		return "must be \"care\" or \"fine\""
	case "place":
		return "must be a place on the plan, like \"deck\", or be left out"
	case "brace":
		return "has a brace { that is not closed"
	}
	return "is not right (" + strings.ReplaceAll(code, "_", " ") + ")"
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
