// Package theme is the builder's own look: colours, fonts and a logo. A theme
// that people could not read is refused, with the pair of colours named. The
// colours of depth are not part of it: one tone always means one depth.
package theme

import (
	"fmt"
	"strings"
)

// Theme is theme.json. What is left empty stays as it is.
type Theme struct {
	FileVersion int     `json:"file_version"`
	Colours     Colours `json:"colours,omitempty"`
	Fonts       Fonts   `json:"fonts,omitempty"`
	Logo        string  `json:"logo,omitempty"`
}

// Colours are written like "#16342F".
type Colours struct {
	Paper      string `json:"paper,omitempty"`     // the ground
	Field      string `json:"field,omitempty"`     // the ground of a field to type in
	Ink        string `json:"ink,omitempty"`       // text, buttons, lines
	InkSoft    string `json:"ink_soft,omitempty"`  // text of less weight
	InkFaint   string `json:"ink_faint,omitempty"` // notes and sources
	Control    string `json:"control,omitempty"`   // edges of what can be used
	Hairline   string `json:"hairline,omitempty"`  // lines that only divide
	Care       string `json:"care,omitempty"`      // what needs care
	CareInk    string `json:"care_ink,omitempty"`  // text in a box of faults
	CareGround string `json:"care_ground,omitempty"`
	Fine       string `json:"fine,omitempty"` // what is as it should be
}

// Fonts are lists of names that the reader's own machine may have, the best
// first and a general one last; none is fetched.
type Fonts struct {
	Serif []string `json:"serif,omitempty"`
	Sans  []string `json:"sans,omitempty"`
}

// Usual is the look of a page without a theme.
func Usual() Colours {
	return Colours{Paper: "#FBF7EF", Field: "#FFFDF8", Ink: "#16342F", InkSoft: "#3E5650", InkFaint: "#566B64",
		Control: "#7C8B84", Hairline: "#D9D2C3", Care: "#A84017", CareInk: "#7E2F0E", CareGround: "#F6E4D8", Fine: "#4A6A2C"}
}

// colour is one colour: its name in the file, what the style sheets call it,
// and where it stands.
type colour struct {
	name string
	css  []string // on the page; in the drawings
	at   *string
}

func (c *Colours) list() []colour {
	return []colour{
		{"paper", []string{"--paper", "--paper"}, &c.Paper},
		{"field", []string{"--field", ""}, &c.Field},
		{"ink", []string{"--ink", "--ink"}, &c.Ink},
		{"ink_soft", []string{"--ink-2", "--ink2"}, &c.InkSoft},
		{"ink_faint", []string{"--ink-3", "--ink3"}, &c.InkFaint},
		{"control", []string{"--ctl", "--ctl"}, &c.Control},
		{"hairline", []string{"--hair", "--hair"}, &c.Hairline},
		{"care", []string{"--ember", "--ember"}, &c.Care},
		{"care_ink", []string{"--ember-ink", ""}, &c.CareInk},
		{"care_ground", []string{"--ember-tint", ""}, &c.CareGround},
		{"fine", []string{"--moss", "--moss"}, &c.Fine},
	}
}

// whole is the colours with the usual ones where nothing is said.
func (c Colours) whole() Colours {
	usual := Usual()
	mine, theirs := c.list(), usual.list()
	for i := range mine {
		if *mine[i].at == "" {
			*mine[i].at = *theirs[i].at
		}
	}
	return c
}

// Fault is one thing wrong with a theme.
type Fault struct{ Path, Code, Text string }

// Faults says all that is wrong with a theme: colours that are none, pairs
// that cannot be told apart, fonts that are no names.
func (t Theme) Faults() []Fault {
	var faults []Fault
	for _, c := range t.Colours.list() {
		if _, ok := hex(*c.at); !ok && *c.at != "" {
			faults = append(faults, Fault{"colours." + c.name, "colour", fmt.Sprintf("colours.%s must be a colour like \"#16342F\", and is %q", c.name, *c.at)})
		}
	}
	if len(faults) == 0 {
		faults = t.Colours.whole().unreadable()
	}
	faults = append(faults, fontFaults("fonts.serif", t.Fonts.Serif)...)
	faults = append(faults, fontFaults("fonts.sans", t.Fonts.Sans)...)
	if t.Logo != "" && !plainName(t.Logo) {
		faults = append(faults, Fault{"logo", "logo", fmt.Sprintf("logo must name a file beside this one that ends in .svg, .png or .webp, and is %q", t.Logo)})
	}
	return faults
}

// plainName takes letters, digits, hyphens and one dot before a known ending.
func plainName(s string) bool {
	stem, ending, _ := strings.Cut(s, ".")
	return only(stem, "-_") && len(s) <= 60 && (ending == "svg" || ending == "png" || ending == "webp")
}

// only tells whether a text is letters and digits of ASCII and what else is
// allowed, and is not empty.
func only(s, more string) bool {
	for _, r := range s {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'
		if !letter && !strings.ContainsRune(more, r) {
			return false
		}
	}
	return s != ""
}

func general(name string) bool {
	switch name {
	case "serif", "sans-serif", "system-ui", "ui-serif", "ui-sans-serif", "ui-rounded", "monospace", "ui-monospace":
		return true
	}
	return false
}

func fontFaults(path string, names []string) []Fault {
	var faults []Fault
	for i, n := range names {
		if !only(n, " -") || len(n) > 40 || strings.TrimSpace(n) != n {
			at := fmt.Sprintf("%s[%d]", path, i)
			faults = append(faults, Fault{at, "font", fmt.Sprintf("%s must be the name of a font, in plain letters, and is %q", at, n)})
		}
	}
	if len(names) > 0 && !general(names[len(names)-1]) {
		faults = append(faults, Fault{path, "font_general", path + " must end with a general font, like \"serif\" or \"sans-serif\", for readers who have none of the others"})
	}
	return faults
}

// CSS is the style sheet of a theme without faults: properties for the page,
// and for the drawings that are in colour. It is nothing for an empty theme.
func (t Theme) CSS() []byte {
	var page, drawn strings.Builder
	for _, c := range t.Colours.list() {
		if *c.at == "" {
			continue
		}
		fmt.Fprintf(&page, "%s:%s;", c.css[0], *c.at)
		if c.css[1] != "" {
			fmt.Fprintf(&drawn, "%s:%s;", c.css[1], *c.at)
		}
	}
	for _, f := range []struct {
		css   string
		names []string
	}{{"--serif", t.Fonts.Serif}, {"--sans", t.Fonts.Sans}} {
		if len(f.names) > 0 {
			fmt.Fprintf(&page, "%s:%s;", f.css, stack(f.names))
		}
	}
	var out strings.Builder
	if page.Len() > 0 {
		fmt.Fprintf(&out, ":root{%s}\n", page.String())
	}
	if drawn.Len() > 0 {
		// What is drawn for black ink keeps its own.
		fmt.Fprintf(&out, ".dr:not(.dr-ink),.ch:not(.ch-ink){%s}\n", drawn.String())
	}
	return []byte(out.String())
}

// stack quotes names; the general ones are words of the language itself.
func stack(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = n
		if !general(n) {
			out[i] = `"` + n + `"`
		}
	}
	return strings.Join(out, ",")
}
