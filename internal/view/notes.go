package view

import (
	"slices"
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Note is a finding as a person reads it.
type Note struct {
	Number string // "1"
	Code   string
	Care   bool
	Title  string
	Text   string
	Defers string // who has the last word, from a builder's rule
	Cited  string
	Place  sheet.Place
	Mend   []sheet.Change
	Else   []sheet.Change // another that would help

	of *sheet.Finding
}

// Pinned says whether the note has a place on the plan.
func (n Note) Pinned() bool { return n.Place != sheet.NoPlace }

// Notes are the findings, numbered as they are shown: those that are seen on
// the plan before the others, safety before the working of the pump, and
// cautions before what is as it should be.
func (v View) Notes() []Note {
	notes := v.ordered()
	for i := range notes {
		v.word(&notes[i])
	}
	return notes
}

// ordered are the notes as they are shown, before they are worded.
func (v View) ordered() []Note {
	notes := make([]Note, 0, len(v.page.Sheet.Findings))
	for i := range v.page.Sheet.Findings {
		f := &v.page.Sheet.Findings[i]
		n := Note{Code: f.Code, Care: f.Severity == sheet.Care, Defers: f.Defers, Place: f.Place, Mend: f.Mend, Else: f.Else, of: f}
		if key := "finding." + f.Code + ".defers"; n.Defers == "" && v.page.Words.Has(key) {
			n.Defers = v.page.Words.Say(key)
		}
		notes = append(notes, n)
	}
	slices.SortStableFunc(notes, func(a, b Note) int { return rank(a) - rank(b) })
	for i := range notes {
		notes[i].Number = strconv.Itoa(i + 1)
	}
	return notes
}

// rank orders notes; safety rules are those that say who has the last word.
func rank(n Note) int {
	r := 0
	if !n.Pinned() {
		r += 4
	}
	if n.Defers == "" {
		r += 2
	}
	if !n.Care {
		r++
	}
	return r
}

func (v View) word(n *Note) {
	n.Title, n.Text = v.page.Finding(*n.of)
	switch {
	case n.of.Cited != "":
		n.Cited = n.of.Cited
	case n.of.Source != "":
		n.Cited = v.page.Words.Citation(n.of.Source)
	}
}

// OfPump tells whether a note belongs to pump and pipes: what the circulation
// found, or what a change of pump or pipe would mend.
func (n Note) OfPump() bool {
	switch n.Code {
	case "no_pump", "pump_unknown", "no_duty_point", "outside_curve", "flow_short", "suction_fast", "suction_fast_no_wider", "discharge_fast",
		"discharge_fast_no_wider", "npsh_short", "npsh_short_else", "prime_needed", "prime_kept", "weir_thin", "jets_fast", "jets_fast_no_wider", "jets_hold",
		"jets_take_all", "fitting_unknown", "speed_rule", "speed_rule_states", "speed_rule_met",
		"speed_rule_apart", "variable_pays", "air_drawn", "air_drawn_no_wider", "air_kept", "intake_gentle", "intake_fast":
		return true
	}
	for _, c := range n.Mend {
		switch c.Field {
		case "pump", "model", "pumps", "pipe", "discharge":
			return true
		}
	}
	return false
}

// Judged are the two of the notes that stand beside the readings: the first caution
// and the first thing that is as it should be.
func (v View) Judged() []Note {
	var out []Note
	notes := v.ordered()
	for _, care := range []bool{true, false} {
		if i := slices.IndexFunc(notes, func(n Note) bool { return n.Care == care }); i >= 0 {
			v.word(&notes[i])
			out = append(out, notes[i])
		}
	}
	return out
}

// Noted is how many notes there are.
func (v View) Noted() int { return len(v.page.Sheet.Findings) }

// Docked is one of the readings kept in view on a phone.
type Docked struct {
	ID, Title string
	Figure    measure.Shown
}

// Dock is the three readings kept in view on a phone.
func (v View) Dock() []Docked {
	w := v.page.Words
	return []Docked{
		{Volume, w.Say("view.dock.water"), v.form("water.net_volume", "", sheet.CubicMetre)},
		{Flow, w.Say("view.dock.turnover"), v.form("turnover.time", "", sheet.Hour)},
		{Budget, w.Say("view.dock.budget"), v.figure("budget.likely")},
	}
}

// Spoken is the one sentence a screen reader hears after a change.
func (v View) Spoken() string {
	w := v.page.Words
	parts := v.lines("view.spoken.volume", "view.spoken.turn")
	if v.has("power.single_cost") {
		parts = append(parts, w.Say("view.spoken.power", v.figure("power.single_cost").String()))
	}
	if v.has("budget.low") {
		parts = append(parts, w.Say("view.spoken.budget",
			v.page.Terms.BudgetRange(v.page.Sheet.Amount("budget.low"), v.page.Sheet.Amount("budget.high")).String()))
	}
	return strings.ReplaceAll(strings.Join(parts, ", "), "\u00a0", " ")
}

// Say is a key's text with the sheet's figures filled in, "" when one is
// missing: labels of the drawing and the charts. {0}, {1} … are args.
func (v View) Say(key string, args ...string) string { return v.line(key, args...) }
