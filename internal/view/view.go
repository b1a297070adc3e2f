// Package view words a sheet for screens and paper: readings, notes, tables,
// chart labels and the calc sheet, all as text. It knows no browser and no
// framework, and does no arithmetic beyond what showing needs.
package view

import (
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
)

// View is one sheet for one reader.
type View struct {
	page  say.Page
	brief bool
}

// Of is the view of a sheet, in a language, for a reader's units.
func Of(s *sheet.Sheet, w say.Words, t measure.Terms) View {
	return View{page: say.Page{Words: w, Sheet: s, Terms: t}}
}

// Brief is the same view without workings and sources, for figures that follow
// a finger.
func (v View) Brief() View {
	v.brief = true
	return v
}

// Readings words a sheet in English.
func Readings(s *sheet.Sheet, t measure.Terms) []Reading {
	return Of(s, say.English(), t).Readings()
}

// Reading is one result as a person reads it.
type Reading struct {
	ID      string
	Title   string
	Figures []measure.Shown
	// Join stands between the figures: "at".
	Join  string
	Big   bool
	Note  string
	How   []string // how it was worked out, with this pond's numbers
	Cited []string // where the methods come from
	Bars  []Bar
	Staff *Staff
}

// Bar is one of a pair of bars; Share is of the longest.
type Bar struct {
	Label  string
	Amount measure.Shown
	Share  float64
	Solid  bool
}

// Staff is a budget range on a ruled line; the marks run from 0 to 1.
type Staff struct {
	Low, Likely, High float64
	Marks             []Mark
	LowText, HighText string
	LikelyText        string
}

// Mark is a labelled place on a line from 0 to 1.
type Mark struct {
	At   float64
	Text string
}

// figure is a figure in the form that suits it, or a dash with its unit.
func (v View) figure(id sheet.ID) measure.Shown {
	f, ok := v.page.Sheet.Find(id)
	if !ok {
		return measure.None("")
	}
	return v.page.Words.Shown(say.Shown(f, v.page.Terms))
}

// form is a figure in a form asked for; where the sheet lacks it, a dash with
// the unit in its place, so that nothing moves when it comes.
func (v View) form(id sheet.ID, form string, unit sheet.Unit) measure.Shown {
	f, ok := v.page.Sheet.Find(id)
	if ok {
		return v.page.Words.Shown(say.Form(f, form, v.page.Terms))
	}
	return measure.None(say.Form(sheet.Figure{ID: id, Unit: unit}, form, v.page.Terms).Unit)
}

func (v View) has(id sheet.ID) bool { _, ok := v.page.Sheet.Find(id); return ok }

// line is a key's text with figures filled in, "" when one is missing.
func (v View) line(key string, args ...string) string {
	text, ok := v.page.Fill(key, args...)
	if !ok {
		return ""
	}
	return text
}

// some tells whether the sheet has more than nothing of a figure.
func (v View) some(id sheet.ID) bool {
	return v.page.Sheet.Value(id) > 0 || v.page.Sheet.Amount(id).Sign() > 0
}

// given is a key when the sheet has some of a figure, and none otherwise.
func (v View) given(id sheet.ID, key string) string {
	if v.some(id) {
		return key
	}
	return ""
}

// falling is a key for a pond with a cascade, or its twin for one without.
func (v View) falling(key string) string {
	if v.some("cascade.lip") {
		return key
	}
	return key + ".flow"
}

// lines are the keys that can be said.
func (v View) lines(keys ...string) []string {
	var out []string
	for _, k := range keys {
		if k == "" || v.brief {
			continue
		}
		if text := v.line(k); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// cited lists the sources of these figures once each; what is so by definition
// needs none.
func (v View) cited(ids ...sheet.ID) []string {
	var out []string
	if v.brief {
		return nil
	}
	seen := map[source.Key]bool{}
	for _, id := range ids {
		f, ok := v.page.Sheet.Find(id)
		if !ok || seen[f.Source] {
			continue
		}
		seen[f.Source] = true
		if e, known := v.page.Words.Source(f.Source); !known || e.Known == source.Defined {
			continue
		}
		out = append(out, v.page.Words.Citation(f.Source))
	}
	return out
}

// Names of readings.
const (
	Volume = "volume"
	Flow   = "flow"
	Duty   = "duty"
	Power  = "power"
	Makeup = "water"
	Budget = "budget"
)

// Readings are the results in the order of the page.
func (v View) Readings() []Reading {
	all := []Reading{v.volume(), v.flow(), v.duty(), v.power(), v.makeup(), v.budget()}
	for i, r := range all {
		if len(r.How) > 0 {
			all[i].How = append(r.How, v.lines("view.leaves."+r.ID)...)
		}
	}
	return all
}

func (v View) volume() Reading {
	r := Reading{ID: Volume, Title: v.page.Words.Say("view.volume"), Big: true,
		Figures: []measure.Shown{v.form("water.net_volume", "", sheet.CubicMetre)},
		Note:    v.line("view.volume.note"),
		How:     v.lines("view.volume.how.1", "view.volume.how.2"),
		Cited:   v.cited("water.net_volume", "pond.gross_volume")}
	if v.some("water.zone_part") {
		r.How = append(r.How, v.lines("view.volume.how.3")...)
	} else {
		r.Note = v.page.Words.Say("view.volume.alone")
	}
	return r
}

func (v View) flow() Reading {
	return Reading{ID: Flow, Title: v.page.Words.Say("view.flow"), Big: true,
		Figures: []measure.Shown{v.form("flow.duty", "", sheet.CubicMPerS), v.form("turnover.time", "", sheet.Hour)},
		How:     v.lines("view.flow.how."+v.governs(), "view.flow.how.duty", "view.flow.how.full_turn"),
		Cited:   v.cited("flow.cascade", "flow.zone", "flow.duty")}
}

// governs is the part that asks for the whole flow wanted.
func (v View) governs() string {
	wanted := v.page.Sheet.Value("flow.wanted")
	for _, part := range []string{"together", "cascade", "zone", "turnover", "intake", "jets"} {
		if f, ok := v.page.Sheet.Find(sheet.ID("flow." + part)); ok && f.Value > 0 && f.Value >= wanted-f.Step {
			return part
		}
	}
	return "wanted"
}

func (v View) duty() Reading {
	head := v.form("pump.head", "", sheet.Metre)
	head.Unit = v.page.Words.Say("view.duty.head", head.Unit)
	r := Reading{ID: Duty, Title: v.page.Words.Say("view.duty"), Join: v.page.Words.Say("view.duty.at"),
		Figures: []measure.Shown{v.form("flow.duty", "minute", sheet.CubicMPerS), head},
		How:     v.lines(v.given("pump.head_static", "view.duty.how.1"), "view.duty.how.2", "view.duty.how.3", "view.duty.how.4"),
		Cited:   v.cited("pump.head", "suction.friction", "pump.head_fittings", "pump.npsh_available")}
	if !v.has("pump.head") {
		r.Note = v.page.Words.Say("view.duty.none")
	}
	return r
}

func (v View) power() Reading {
	single, variable := v.page.Sheet.Amount("power.single_cost"), v.page.Sheet.Amount("power.variable_cost")
	most := max(single.Approx(), variable.Approx())
	r := Reading{ID: Power, Title: v.page.Words.Say("view.power"),
		How: v.lines(v.falling("view.power.how.1"), "view.power.how.2", v.falling("view.power.how.3"), "view.power.how.night", "view.power.how.winter",
			v.given("power.extra_price", "view.power.how.4"), "view.power.how.5"),
		Cited: v.cited("power.single_cost", "power.variable_kwh")}
	if !v.has("power.single_cost") {
		return r
	}
	share := func(x float64) float64 {
		if most <= 0 {
			return 0
		}
		return x / most
	}
	r.Bars = []Bar{
		{Label: v.page.Words.Say("view.power.single"), Amount: v.figure("power.single_cost"), Share: share(single.Approx())},
		{Label: v.page.Words.Say("view.power.var"), Amount: v.figure("power.variable_cost"), Share: share(variable.Approx()), Solid: true},
	}
	r.Note = v.saving(single.Sub(variable))
	return r
}

// saving says what the variable pump saves a year.
func (v View) saving(saved money.Amount) string {
	switch saved.Sign() {
	case 1:
		return v.page.Words.Say("view.power.saves", v.page.Terms.Money(saved).String())
	case -1:
		return v.page.Words.Say("view.power.costs", v.page.Terms.Money(money.Amount{}.Sub(saved)).String())
	}
	return v.page.Words.Say("view.power.same")
}

func (v View) makeup() Reading {
	return Reading{ID: Makeup, Title: v.page.Words.Say("view.water"),
		Figures: []measure.Shown{v.figure("water.cost")},
		Note:    v.line("view.water.note"),
		How:     v.lines("view.water.how.1", v.given("water.splash", "view.water.how.splash"), "view.water.how.2", "view.water.how.3"),
		Cited:   v.cited("water.evaporation", "level.overnight_drop")}
}
