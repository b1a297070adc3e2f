package view

import (
	"strconv"
	"strings"
)

// Paper is the one printed page in words: every number on it is one that the
// screen shows.
type Paper struct {
	Kind, Size string
	Readings   []Reading
	How        []Explained
	Also       string // cautions without a place on the plan
	Marks      string
	Moves      string
	Version    string // of figures and book, so that an old page can be explained
}

// Explained is a name and how it is worked out.
type Explained struct{ Name, Text string }

// Paper words the printed page; electricity is the price as the form shows it.
func (v View) Paper(electricity string) Paper {
	w := v.page.Words
	p := Paper{Kind: w.Say("print.kind"), Size: v.line("print.size"), Readings: v.Readings(), Marks: v.markLine(), Moves: v.moveLine(),
		Version: w.Say("print.version", strconv.Itoa(v.page.Sheet.CoreVersion), v.page.Sheet.Book)}
	add := func(name, text string) {
		if text != "" {
			p.How = append(p.How, Explained{w.Say(name), text})
		}
	}
	zone := ""
	if v.some("water.zone_part") {
		zone = v.line("view.volume.how.3")
	}
	add("print.volume", strings.TrimSpace(v.line("view.volume.how.1")+" "+zone))
	add("print.flow", v.line("view.flow.how."+v.governs()))
	add("print.turnover", v.line("view.flow.how.full_turn"))
	add("print.head", v.headLine())
	slower := v.lines("view.power.how.night", "view.power.how.winter")
	add("print.power", strings.Join(append([]string{v.line(v.falling("print.power.how"), electricity)}, slower...), " "))
	add("print.water", strings.Join(v.lines("view.water.how.1", "view.water.how.2"), " "))
	var also []string
	for _, n := range v.Notes() {
		if n.Care && !n.Pinned() {
			also = append(also, n.Title)
		}
	}
	if len(also) > 0 {
		p.Also = w.Say("print.also", strings.Join(also, " · "))
	}
	return p
}

// headLine lists the parts of the head that there are.
func (v View) headLine() string {
	if !v.has("pump.head") {
		return ""
	}
	var parts []string
	for _, s := range v.Head().Segments {
		parts = append(parts, s.Label+" "+s.Head.String())
	}
	return strings.Join(parts, ", ") + "."
}

// markLine is the schedule of depth marks on one line.
func (v View) markLine() string {
	marks, _ := v.DepthMarks()
	var parts []string
	for from := 0; from < len(marks); {
		to := from // neighbours that read the same stand together
		for to+1 < len(marks) && marks[to+1].Text == marks[from].Text {
			to++
		}
		name := marks[from].Number
		if to > from {
			name += "–" + marks[to].Number
		}
		parts = append(parts, name+": "+marks[from].Text)
		from = to + 1
	}
	if len(parts) == 0 {
		return ""
	}
	return v.page.Words.Say("print.marks", strings.Join(parts, " · "))
}

// moveLine is what moves the budget and the days, on one line.
func (v View) moveLine() string {
	var parts []string
	if d := v.drivers(); d != "" {
		parts = append(parts, v.page.Words.Say("view.budget.moves", d))
	}
	return strings.Join(append(parts, v.lines("view.budget.how.2")...), " ")
}
