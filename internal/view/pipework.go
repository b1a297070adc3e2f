package view

import (
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Pipework is what the water passes, in order of flow.
type Pipework struct {
	Title, Says string
	Parts       []PipePart
	Lines       int    // suction lines side by side
	Place       string // where the pumps stand: pad, pit or water
	WaterLine   string // words at the pond's level
	Lift        string // the height it is lifted to
	Table       Table  // the same in words
}

// PipePart is one part with its words; Kind is its code on the schedule.
type PipePart struct {
	Kind  string
	Name  string
	Notes []string
}

// piece is a row of the schedule.
type piece struct {
	kind                    string
	many                    float64
	long, bore, flow, speed string
	plain                   string
}

// pieces reads the schedule; what a part has not is empty.
func (v View) pieces() []piece {
	t := v.page.Sheet.Table("circulation.schedule")
	var out []piece
	for _, r := range t.Rows {
		p := piece{kind: r.Name, many: number(t, r, "count"), plain: r.Plain}
		if x := number(t, r, "length"); x > 0 {
			p.long = v.page.Terms.Length(x).String()
		}
		if x := number(t, r, "bore"); x > 0 {
			p.bore = v.bore(x)
		}
		if x := number(t, r, "flow"); x > 0 {
			p.flow = v.page.Terms.FlowByMinute(x).String()
		}
		if x := number(t, r, "velocity"); x > 0 {
			p.speed = v.page.Terms.Velocity(x).String()
		}
		out = append(out, p)
	}
	return out
}

// partName words a part, and how many there are where it is more than one.
func (v View) partName(p piece) string {
	name := v.page.Words.Say("part." + p.kind)
	if p.many > 1 {
		return v.page.Words.Say("view.pipes.times", measure.Round(p.many, 0), name)
	}
	return name
}

// bends are parts of a line that are counted and not drawn.
func bends(kind string) bool {
	switch kind {
	case "elbow_90", "elbow_45", "bend_90_long", "sweep_90", "return_180":
		return true
	}
	return false
}

// mouths are part of the intake and of the outlet.
func mouths(kind string) bool {
	return kind == "entrance" || kind == "entrance_inward" || kind == "exit" || kind == "tee_run" || kind == "tee_branch"
}

// Pipework is the way of the water.
func (v View) Pipework() Pipework {
	w := v.page.Words
	out := Pipework{Title: w.Say("view.pipes.title"), Says: v.line("view.pipes.says"), WaterLine: w.Say("view.pipes.line"), Lines: 1,
		Table: Table{Caption: w.Say("view.pipes.title"), Heads: []string{w.Say("view.pipes.part"), w.Say("view.pipes.notes")}}}
	if out.Says == "" {
		out.Says = w.Say("view.pipes.none")
	}
	if v.some("pump.head_static") && v.some("cascade.lip") {
		out.Lift = v.figure("pump.head_static").String()
	}
	pieces := v.pieces()
	aside := false
	for _, p := range pieces {
		if p.kind == "jets_pipe" {
			aside = true // the branch is told with its jets
		}
		if p.kind == "jets" {
			aside = false
		}
		if aside || bends(p.kind) || mouths(p.kind) {
			continue
		}
		if strings.HasPrefix(p.kind, "pump_") {
			out.Lines, out.Place = max(1, int(p.many)), v.place(p.kind)
		}
		out.Parts = append(out.Parts, PipePart{Kind: p.kind, Name: v.partName(p), Notes: v.partNotes(p, pieces)})
	}
	if n := len(out.Parts); n > 0 && out.Parts[n-1].Kind != "cascade" && !has(pieces, "zone") && !has(pieces, "cascade") {
		back := PipePart{Kind: "return", Name: w.Say("part.return")}
		if flow := pieces[0].flow; flow != "" {
			back.Notes = []string{flow}
		}
		out.Parts = append(out.Parts, back)
	}
	for _, p := range out.Parts {
		out.Table.Rows = append(out.Table.Rows, []string{p.Name, strings.Join(p.Notes, ", ")})
	}
	return out
}

func has(all []piece, kind string) bool {
	for _, p := range all {
		if p.kind == kind {
			return true
		}
	}
	return false
}

// partNotes are the figures that go with a part.
func (v View) partNotes(p piece, all []piece) []string {
	w := v.page.Words
	var out []string
	add := func(text string) {
		if text != "" {
			out = append(out, text)
		}
	}
	switch {
	case p.kind == "intake":
		add(p.flow)
		if v.some("intake.velocity") {
			add(w.Say("view.pipes.grate", v.figure("intake.velocity").String()))
		}
	case p.kind == "suction_pipe" || p.kind == "discharge_pipe":
		add(w.Say("view.pipes.size.long", p.bore, p.long))
		add(strings.TrimSuffix(p.flow+", "+p.speed, ", "))
		if p.flow == "" {
			out = out[:1]
		}
		add(v.bendsOf(p.kind, all))
	case strings.HasPrefix(p.kind, "pump_"):
		add(p.plain)
		add(p.flow)
		if p.many > 1 && p.flow != "" {
			out[len(out)-1] = w.Say("view.pipes.each", p.flow)
		}
		add(v.stands())
	case p.kind == "zone":
		if v.some("zone.area") {
			add(w.Say("view.pipes.bed", v.figure("zone.area").String()))
		}
	case p.kind == "cascade":
		add(p.flow)
		if v.some("cascade.rise") {
			add(w.Say("view.pipes.up", v.figure("cascade.rise").String()))
		}
	case p.kind == "jets":
		out = append(out, v.jetNotes(p, all)...)
	}
	return out
}

// jetNotes are the figures of the jets and of the branch that feeds them.
func (v View) jetNotes(p piece, all []piece) []string {
	if !v.has("jets.flow") {
		return []string{p.flow}
	}
	w := v.page.Words
	out := []string{v.form("jets.flow", "minute", sheet.CubicMPerS).String() + ", " + w.Say("view.pipes.mouths", measure.Round(p.many, 0), p.bore)}
	last := v.figure("jets.velocity").String()
	for _, line := range all {
		if line.kind == "jets_pipe" {
			out = append(out, w.Say("view.pipes.size.long", line.bore, line.long))
		}
	}
	if v.some("jets.held") {
		last += ", " + w.Say("view.pipes.valve", v.figure("jets.held").String())
	}
	return append(out, last)
}

// place is where the pumps stand.
func (v View) place(kind string) string {
	switch {
	case kind == "pump_submersible":
		return "water"
	case v.has("pump.above_water"):
		return "pad"
	}
	return "pit"
}

// stands says how high the pump is over the pond.
func (v View) stands() string {
	if !v.has("pump.above_water") {
		return ""
	}
	return v.page.Words.Say("view.pipes.up", v.figure("pump.above_water").String())
}

// bendsOf counts the bends of a line: those after its pipe and before the next.
func (v View) bendsOf(kind string, all []piece) string {
	n, on := 0.0, false
	lines := 1.0
	for _, p := range all {
		switch {
		case p.kind == kind:
			on, lines = true, max(p.many, 1)
		case p.kind == "discharge_pipe" || p.kind == "jets_pipe" || strings.HasPrefix(p.kind, "pump_"):
			on = false
		case on && bends(p.kind):
			n += p.many / lines
		}
	}
	switch {
	case n == 1:
		return v.page.Words.Say("view.pipes.bend")
	case n > 1:
		return v.page.Words.Say("view.pipes.bends", measure.Round(n, 0))
	}
	return ""
}

// Schedule lists pipes and fittings in order of flow for the builder, and what
// he should know of them.
func (v View) Schedule() (Table, []string) {
	w := v.page.Words
	t := Table{Caption: w.Say("view.builder.table"), Heads: []string{w.Say("view.pipes.part"), w.Say("view.pipes.many"), w.Say("view.pipes.size"),
		w.Say("view.pipes.long"), w.Say("view.pipes.flow"), w.Say("view.pipes.speed")}}
	for _, p := range v.pieces() {
		name := w.Say("part." + p.kind)
		if p.plain != "" {
			name = w.Say("view.pipes.named", name, p.plain)
		}
		t.Rows = append(t.Rows, []string{name, measure.Round(p.many, 0), dash(p.bore), dash(p.long), dash(p.flow), dash(p.speed)})
	}
	shut := ""
	if v.has("flow.together") {
		shut = "jets.shut"
	}
	return t, v.lines(shut, "view.builder.pad", "view.builder.slope", "view.builder.air", "view.builder.clear")
}

func dash(text string) string {
	if text == "" {
		return measure.None("").String()
	}
	return text
}

// Asks is what asks for flow, and which part asks for the most.
func (v View) Asks() Table {
	w := v.page.Words
	t := Table{Caption: w.Say("view.asks"), Heads: []string{w.Say("view.asks.part"), w.Say("view.asks.flow")}}
	governs := v.governs()
	for _, part := range []string{"turnover", "cascade", "zone", "jets", "together"} {
		id := sheet.ID("flow." + part)
		if !v.some(id) {
			continue
		}
		name := w.Say("view.asks." + part)
		if part == governs {
			name = w.Say("view.asks.governs", name)
		}
		t.Rows = append(t.Rows, []string{name, v.figure(id).String()})
	}
	return t
}

// Suction is the suction head there is beside what the pump needs, and what
// keeps it primed.
func (v View) Suction() ([]Bar, []string) {
	has, needs := v.page.Sheet.Value("pump.npsh_available"), v.page.Sheet.Value("pump.npsh_required")
	lines := v.lines("view.lift.above")
	if len(lines) == 0 && v.has("pump.head") {
		lines = []string{v.page.Words.Say("view.lift.below")}
	}
	if has <= 0 || needs <= 0 {
		return nil, lines
	}
	most := max(has, needs)
	return []Bar{
		{Label: v.page.Words.Say("view.lift.has"), Amount: v.figure("pump.npsh_available"), Share: has / most},
		{Label: v.page.Words.Say("view.lift.needs"), Amount: v.figure("pump.npsh_required"), Share: needs / most, Solid: true},
	}, append(lines, v.page.Words.Say("view.lift.spare"))
}

// Easy says whether the pump works where it does so easily.
func (v View) Easy() string {
	q := v.page.Sheet.Value("flow.duty")
	switch {
	case q <= 0:
		return ""
	case q < v.page.Sheet.Value("pump.easy_from"):
		return v.line("view.easy.low")
	case q > v.page.Sheet.Value("pump.easy_to"):
		return v.line("view.easy.high")
	}
	return v.line("view.easy.in")
}
