package view

import (
	"strconv"
	"strings"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Segment is a part of the head.
type Segment struct {
	Label string
	Head  measure.Shown
	Share float64
	Real  bool // lifting, not friction
}

// Head says where the head goes, real lifting first.
type Head struct {
	Title    string
	Segments []Segment
	Real     string
	Friction string // "Friction, 8.9 ft. It fades quickly as the flow slows"
	Table    Table
}

// Head is the breakdown of the head at the duty point.
func (v View) Head() Head {
	h := Head{Title: v.line("view.head.title"), Real: v.page.Words.Say("view.head.real"),
		Table: Table{Caption: v.line("view.head.title"), Heads: []string{v.page.Words.Say("view.head.part"), v.page.Words.Say("view.head.head")}}}
	total := v.page.Sheet.Value("pump.head")
	if total <= 0 {
		return h
	}
	lift := "view.head.static"
	if v.some("cascade.lip") {
		lift = "view.head.lip"
	}
	var rubbed float64
	for _, p := range []struct {
		id   sheet.ID
		key  string
		real bool
	}{
		{"pump.head_static", lift, true},
		{"pump.head_gravel", "view.head.gravel", false},
		{"pump.head_suction", "view.head.suction", false},
		{"pump.head_discharge", "view.head.disch", false},
		{"pump.head_fittings", "view.head.fittings", false},
		{"pump.head_intake", "view.head.intake", false},
		{"pump.head_held", "view.head.held", false},
	} {
		x := v.page.Sheet.Value(p.id)
		if x <= 0 {
			continue
		}
		if !p.real {
			rubbed += x
		}
		s := Segment{Label: v.page.Words.Say(p.key), Head: v.figure(p.id), Share: x / total, Real: p.real}
		h.Segments = append(h.Segments, s)
		h.Table.Rows = append(h.Table.Rows, []string{s.Label, s.Head.String()})
	}
	h.Friction = v.page.Words.Say("view.head.friction", v.page.Terms.Head(rubbed).String())
	return h
}

// Plain is how the pump settles, in plain words.
func (v View) Plain() string {
	if !v.has("pump.head") || v.page.Sheet.Value("pump.head") <= 0 {
		return v.page.Words.Say("view.duty.none")
	}
	first := "view.plain.flow"
	if v.governs() == "cascade" {
		first = "view.plain.cascade"
	}
	parts := append(v.lines(first), v.line("view.plain.feels", v.page.Words.Say(v.lifting())))
	rest := "view.plain.rest.pipe"
	if v.some("pump.head_gravel") {
		rest = "view.plain.rest"
	}
	parts = append(parts, v.lines(rest, "view.plain.quiet")...)
	return strings.Join(parts, " ")
}

// lifting is the share of the head that is real lifting, in words.
func (v View) lifting() string {
	if !v.some("pump.head_static") {
		return "view.share.none"
	}
	share := v.page.Sheet.Value("pump.head_static") / v.page.Sheet.Value("pump.head")
	for _, s := range []struct {
		below float64
		word  string
	}{
		{0.07, "little"}, {0.15, "tenth"}, {0.22, "fifth"}, {0.29, "quarter"}, {0.42, "third"}, {0.58, "half"}, {0.74, "two"},
	} {
		if share < s.below {
			return "view.share." + s.word
		}
	}
	return "view.share.most"
}

// Powers compares the two pumps: watts in each mode and the yearly bill.
func (v View) Powers() Table {
	if !v.has("pump.power") {
		return Table{}
	}
	w, busy := v.page.Words, "view.table.cascade"
	if !v.some("cascade.lip") {
		busy = "view.table.flow"
	}
	t := Table{
		Caption: w.Say("view.power"), Total: true,
		Heads: []string{"", w.Say("view.power.single"), w.Say("view.power.var")},
		Rows:  [][]string{{v.line(busy), v.figure("pump.power").String(), v.figure("pump.variable_power").String()}},
	}
	for _, mode := range []string{"quiet", "night", "winter"} {
		single := v.figure("pump.power")
		if v.has("pump.alone_power") {
			single = v.figure("pump.alone_power")
		}
		if v.some(sheet.ID("power.hours_"+mode)) || mode == "quiet" {
			t.Rows = append(t.Rows, []string{v.line("view.table." + mode), single.String(), v.figure(sheet.ID(mode + ".power")).String()})
		}
	}
	t.Rows = append(t.Rows, []string{w.Say("view.table.year"), v.figure("power.single_cost").String(), v.figure("power.variable_cost").String()})
	return t
}

// Month is one month of the chart; the amounts are for bars only.
type Month struct {
	Name             string
	Single, Variable float64
	SingleText       string
	VariableText     string
	Rests            bool
}

// Months is the year's pump electricity, month by month.
type Months struct {
	Title  string
	Months []Month
	Table  Table
}

// Months words the months of the pump's electricity.
func (v View) Months() Months {
	t := v.page.Sheet.Table("power.months")
	w := v.page.Words
	m := Months{Title: v.line("view.months.title")}
	if len(t.Rows) == 0 {
		return m
	}
	single, variable := w.Say("view.power.single"), w.Say("view.power.var")
	m.Table = Table{Caption: m.Title, Total: true, Heads: []string{w.Say("view.table.month"), w.Say("view.table.hours")}}
	modes := modesIn(t)
	for _, mode := range modes {
		m.Table.Heads = append(m.Table.Heads, w.Say("view.mode."+mode))
	}
	m.Table.Heads = append(m.Table.Heads, w.Say("view.table.kwh", single), w.Say("view.table.cost", single), w.Say("view.table.kwh", variable), w.Say("view.table.cost", variable))
	for _, r := range t.Rows {
		n, _ := strconv.Atoi(r.Name)
		row := Month{Name: w.Month(n), Single: amount(t, r, "single_cost").Approx(), Variable: amount(t, r, "variable_cost").Approx(),
			SingleText: v.page.Terms.Money(amount(t, r, "single_cost")).String(), VariableText: v.page.Terms.Money(amount(t, r, "variable_cost")).String(),
			Rests: number(t, r, "hours") == 0}
		m.Months = append(m.Months, row)
		cells := []string{row.Name, measure.Round(number(t, r, "hours"), 0)}
		for _, mode := range modes {
			cells = append(cells, measure.Round(number(t, r, mode), 0))
		}
		m.Table.Rows = append(m.Table.Rows, append(cells, measure.Round(number(t, r, "single_kwh"), 0), row.SingleText,
			measure.Round(number(t, r, "variable_kwh"), 0), row.VariableText))
	}
	cells := []string{w.Say("view.table.whole"), v.yearHours()}
	for _, mode := range modes {
		cells = append(cells, measure.Round(v.page.Sheet.Value(sheet.ID("power.hours_"+mode)), 0))
	}
	m.Table.Rows = append(m.Table.Rows, append(cells, v.figure("power.single_kwh").Number, v.figure("power.single_cost").String(),
		v.figure("power.variable_kwh").Number, v.figure("power.variable_cost").String()))
	return m
}

// modesIn lists the modes whose hours a table of months has apart.
func modesIn(t sheet.Table) []string {
	var modes []string
	for _, c := range t.Columns {
		if c.Unit == sheet.Hour && c.ID != "hours" {
			modes = append(modes, c.ID)
		}
	}
	return modes
}

func (v View) yearHours() string {
	sum := 0.0
	for _, mode := range []sheet.ID{"cascade", "quiet", "night", "winter"} {
		sum += v.page.Sheet.Value("power.hours_" + mode)
	}
	return measure.Round(sum, 0)
}

func column(t sheet.Table, id string) int {
	for i, c := range t.Columns {
		if c.ID == id {
			return i
		}
	}
	return -1
}

func amount(t sheet.Table, r sheet.Row, id string) money.Amount {
	if i := column(t, id); i >= 0 && i < len(r.Cells) {
		return r.Cells[i].Amount
	}
	return money.Amount{}
}

func number(t sheet.Table, r sheet.Row, id string) float64 {
	if i := column(t, id); i >= 0 && i < len(r.Cells) {
		return r.Cells[i].Value
	}
	return 0
}
