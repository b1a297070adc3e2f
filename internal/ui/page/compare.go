package page

import (
	"strconv"
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
)

// Compare is what the comparison shows.
type Compare struct {
	Title, Lede string
	Scale, Key  markup.Node
	Each        Each
	KeyTitle    string
	Hows        []string
	Labels      []string // of the rows, bars and closing row among them
	Ponds       []Compared
	Adds        []Mend
	Months      Monthly
	Best        BestValue
	Purse       part.Table
	PurseNotes  []string
	Table       part.Table
	Steps       Sensitivity
}

// Compared is one of the ponds.
type Compared struct {
	Letter, Name string
	Named        string // what stands in the field for its name
	Size, Unlike string
	Best, InHand bool
	LastGood     bool
	Thumb        markup.Node
	Rows         []CompareRow
	Bill         string
	Open, Copy   Mend
	Left, Right  Mend // without a label where there is nowhere to go
	Drop         Mend
	Link         string
}

// CompareRow is one row of a pond: figures, or a bar with its amount.
type CompareRow struct {
	Figures []part.Figure
	Join    string // a word between the figures
	Bar     markup.Node
	Better  string // the words for the better buy, where it is
	Close   bool   // the closing row
}

// Monthly is the chart of months that all options share.
type Monthly struct {
	Chart            markup.Node
	Single, Variable string
	Table            part.Table
	Links            []part.Tab
}

// BestValue is which pond is the best value, and why.
type BestValue struct {
	Mark, Headline string
	Strip          markup.Node
	Rule           string
	Bills          []string
}

// thumb is a small picture that was drawn before.
type thumb struct {
	key    string
	ground string // of all thumbs with one ground, stones and plants are the same
	pic    drawing.Picture
}

// Sizes of the small pictures.
const (
	thumbWidePx = 300
	thumbHighPx = 204
	mostThumbs  = 12
	// longestBarPx is the bar of the dearest pump of all.
	longestBarPx = 112
)

// comparing gathers what wording the comparison needs.
type comparing struct {
	s       State
	w       say.Words
	options []Option
	answers []Answered
	views   []view.View
	set     view.Comparison
	base    design.Running
}

func newComparing(s State, a Answered, k Kit) comparing {
	c := comparing{s: s, w: k.Words, options: s.Options(), answers: a.Beside, base: s.Form.Defaults().Base.Running}
	if len(c.answers) != len(c.options) {
		c.options, c.answers = []Option{{s.Name, s.Form}}, []Answered{a}
	}
	var names []string
	for i, x := range c.answers {
		c.views = append(c.views, view.Of(x.Sheet, k.Words, s.Form.Terms()))
		names = append(names, letter(i)+": "+c.name(i))
	}
	c.set = view.Compare(c.views, names)
	return c
}

func letter(i int) string { return string(rune('A' + i)) }

// name is what a pond is called.
func (c comparing) name(i int) string { return c.options[i].called(i, c.w) }

func (o Option) called(i int, w say.Words) string {
	switch {
	case o.Name != "":
		return o.Name
	case i == 0:
		return w.Say("compare.drawn")
	}
	return w.Say("compare.option", letter(i))
}

// drawn says which of several ponds is in hand; nothing where there is one.
func drawn(s State, w say.Words) string {
	all := s.Options()
	if len(all) < 2 {
		return ""
	}
	return w.Say("compare.drawing", letter(s.At), all[s.At].called(s.At, w)) + " "
}

// paintCompare words and draws the comparison; small pictures are kept on the
// easel, so that only a pond that changed is drawn again.
func paintCompare(m Model, s State, a Answered, k Kit, e Easel) (Model, Easel) {
	c := newComparing(s, a, k)
	w := c.w
	sys := string(s.Form.System)
	m.Compare = Compare{Title: w.Say("compare.title." + strconv.Itoa(len(c.options))), Lede: w.Say("compare.lede"),
		KeyTitle: w.Say("compare.depth", w.Say("compare.depth."+sys)), Hows: c.views[0].Workings(), Labels: c.labels(),
		Each: c.each(), Adds: c.adds(), Best: c.best(), Table: tableFrom(c.set.Table)}
	m.Compare.Table.Fold = w.Say("page.as_table")
	if c.onePrice() {
		m.Compare.Lede += " " + w.Say("compare.lede.price")
	}
	alike := drawing.AlikeOf(c.plans(), thumbWidePx, thumbHighPx)
	m.Compare.Scale, m.Compare.Key = alike.Key(c.deepest(), options(s, c.answers[0], c.views[0]))
	for i := range c.options {
		p := c.pond(i)
		p.Thumb, e = c.thumb(i, alike, e)
		m.Compare.Ponds = append(m.Compare.Ponds, p)
	}
	at := min(max(s.Months, 0), len(c.options)-1)
	m.Compare.Months = c.months(at, e.Width)
	m.Compare.Purse, m.Compare.PurseNotes = c.purse(at, k)
	m.Compare.Steps = sensitivity(s, a, k)
	return m, e
}

func (c comparing) plans() []sheet.Plan {
	var out []sheet.Plan
	for _, a := range c.answers {
		out = append(out, a.Plan)
	}
	return out
}

func (c comparing) deepest() float64 {
	deepM := 0.0
	for _, a := range c.answers {
		deepM = max(deepM, a.Plan.DeepM)
	}
	return deepM
}

// onePrice tells whether power and water cost the same for all.
func (c comparing) onePrice() bool {
	first := prices(c.options[0].Form)
	for _, o := range c.options {
		if prices(o.Form) != first {
			return false
		}
	}
	return true
}

// prices is what sets a pond's bills: the price of power, or, by the builder's
// tariff, the home's own use, and the price of water.
func prices(f form.State) [3]string {
	if f.Bill() == "tariff" {
		return [3]string{f.Bill(), understood(f, form.HomeUse), understood(f, form.Water)}
	}
	return [3]string{"", understood(f, form.Power), understood(f, form.Water)}
}

func understood(f form.State, q form.Field) string { own, _ := f.Understood(q); return own }

func (c comparing) thumb(i int, alike drawing.Alike, e Easel) (markup.Node, Easel) {
	name := c.w.Say("compare.plan", letter(i), c.set.Ponds[i].Size)
	ground := strings.Join([]string{letter(i), c.options[i].Form.Ground(), measure.Round(alike.ScalePxPerM, 6), measure.Round(alike.HeightPx, 0)}, "|")
	key := strings.Join([]string{ground, name, string(c.s.Form.System)}, "|")
	var planted *drawing.Picture
	for _, t := range e.thumbs {
		if t.key == key {
			return t.pic.Node, e
		}
		if t.ground == ground {
			planted = &t.pic
		}
	}
	o := options(c.s, c.answers[i], c.views[i])
	o.ID, o.Ground = "thumb-"+letter(i), planted
	o.Words.Title, o.Words.Description = name, ""
	t := thumb{key, ground, alike.Thumb(c.answers[i].Plan, o)}
	kept := append([]thumb{t}, e.thumbs...)
	e.thumbs = kept[:min(len(kept), mostThumbs)]
	return t.pic.Node, e
}

// labels are the rows' names from top to bottom, the bars among them.
func (c comparing) labels() []string {
	out := append([]string(nil), c.set.Labels[:4]...)
	out = append(out, c.set.Single, c.set.Variable)
	out = append(out, c.set.Labels[4:]...)
	return append(out, c.set.PerArea)
}

func (c comparing) pond(i int) Compared {
	x, o := c.set.Ponds[i], c.options[i]
	p := Compared{Letter: letter(i), Name: c.name(i), Named: o.Name, Size: x.Size, Unlike: c.unlike(i), Bill: x.Bill,
		Best: i == c.set.Best && len(c.options) > 1, InHand: i == c.s.At && len(c.options) > 1,
		LastGood: len(o.Form.Faults()) > 0, Link: State{Form: o.Form, View: DrawView}.Address()}
	for n, cells := range x.Cells {
		if n == 4 {
			p.Rows = append(p.Rows, c.bar(i, 0), c.bar(i, 1))
		}
		var figs []part.Figure
		for _, f := range cells {
			figs = append(figs, figure(f))
		}
		r := CompareRow{Figures: figs}
		if n == 3 {
			r.Join = c.w.Say("view.duty.at")
		}
		p.Rows = append(p.Rows, r)
	}
	p.Rows = append(p.Rows, CompareRow{Figures: []part.Figure{{Value: x.PerArea.Number}}, Close: true})
	p.Open = c.offer("compare.open", "open "+strconv.Itoa(i))
	if len(c.options) < mostOptions {
		p.Copy = c.offer("compare.copy", "copy "+strconv.Itoa(i)+" "+c.w.Say("compare.copied", c.name(i)))
	}
	if i > 0 {
		p.Left = c.offer("compare.left", "left "+strconv.Itoa(i))
	}
	if i < len(c.options)-1 {
		p.Right = c.offer("compare.right", "right "+strconv.Itoa(i))
	}
	if len(c.options) > 1 {
		p.Drop = c.offer("compare.drop", "drop "+strconv.Itoa(i))
	}
	return p
}

func (c comparing) bar(i, n int) CompareRow {
	x := c.set.Ponds[i]
	b := x.Bars[n]
	fill, kind := drawing.Ruled, "single"
	if b.Solid {
		fill, kind = drawing.FilledIn, "variable"
	}
	r := CompareRow{Figures: []part.Figure{figure(b.Amount)}}
	if b.Share > 0 {
		long := max(b.Share*longestBarPx, 3)
		r.Bar = drawing.PairBar{Caption: drawing.Caption{ID: "cmp-" + letter(i) + "-" + kind}, Share: 1, Solid: fill, WidthPx: long}.Node()
		r.Bar.Attrs = append(r.Bar.Attrs, markup.A("width", measure.Round(long, 1)), markup.A("height", "12"))
	}
	if x.Better == kind {
		r.Better = c.w.Say("compare.buy")
	}
	return r
}

// offer is something to do with the comparison; its address does it without
// script.
func (c comparing) offer(key, arg string) Mend {
	s := c.s
	s.undo, s.redo = nil, nil
	return Mend{Label: c.w.Say(key), Href: Update(s, Action{Name: ActCompare, Arg: arg}).Address(), Act: part.Act{Name: ActCompare, Arg: arg}}
}

func (c comparing) adds() []Mend {
	if len(c.options) >= mostOptions {
		return nil
	}
	at := strconv.Itoa(min(c.s.At, len(c.options)-1))
	return []Mend{
		c.offer("compare.longer", "longer "+at+" "+c.w.Say("compare.longer.name")),
		c.offer("compare.smaller", "smaller "+at+" "+c.w.Say("compare.smaller.name")),
	}
}

// unlike says in words what differs from the first pond.
func (c comparing) unlike(i int) string {
	if i == 0 {
		return ""
	}
	var out []string
	for _, f := range asked() {
		if f == form.Units || f == form.Place || skipped(c.options[i].Form, f) {
			continue
		}
		own := understood(c.options[i].Form, f)
		switch {
		case own == understood(c.options[0].Form, f):
		case f == form.Handles:
			out = append(out, c.w.Say("compare.outline"))
		default:
			out = append(out, differs(c.w, f, own))
		}
	}
	for _, f := range placed() {
		if understood(c.options[i].Form, f) != understood(c.options[0].Form, f) {
			out = append(out, c.w.Say("compare.moved"))
			break
		}
	}
	if len(out) == 0 {
		return c.w.Say("compare.alike", letter(0))
	}
	return c.w.Say("compare.unlike", letter(0), strings.Join(out, ", "))
}

// placed are the answers that say where things stand.
func placed() []form.Field {
	return []form.Field{form.BeachAt, form.ZoneAt, form.CascadeAt, form.StepsAt, form.DeckAt, form.PumpAt, form.IntakeAt}
}

// skipped tells of a question that is not asked while its feature is off.
func skipped(f form.State, q form.Field) bool {
	switch q {
	case form.Lip, form.Rise, form.Sheet, form.CascadeHours:
		return !f.On(form.Cascade)
	case form.Nozzle, form.JetPipe:
		return f.Word(form.Jets) == "0"
	case form.Power, form.Place:
		return f.Bill() == "tariff"
	case form.HomeUse:
		return f.Bill() != "tariff"
	case form.ZoneArea:
		return !f.On(form.Zone)
	case form.BeachSlope:
		return !f.On(form.Beach)
	}
	return false
}

// differs is a question with its answer; an answer that names the question
// stands alone: "beach on the east".
func differs(w say.Words, f form.Field, own string) string {
	name, answer := askName(w, f), answerWords(w, f, own)
	switch own {
	case "on":
		return w.Say("compare.with", name)
	case "off":
		return w.Say("compare.without", name)
	}
	if strings.HasPrefix(answer, name+" ") {
		return answer
	}
	return name + " " + answer
}

// askName is a question's name in the middle of a sentence.
func askName(w say.Words, f form.Field) string {
	name := strings.ToLower(w.Say("ask." + string(f)))
	switch f {
	case form.Lip, form.Rise:
		return strings.ToLower(w.Say("ask.cascade")) + " " + name
	case form.ZoneArea:
		return strings.ToLower(w.Say("ask.zone")) + " " + name
	case form.BeachSlope:
		return strings.ToLower(w.Say("ask.beach")) + " " + name
	case form.From, form.To:
		return strings.ToLower(name)
	}
	return name
}

// answerWords is an answer as the page words it, where it is a choice.
func answerWords(w say.Words, f form.Field, own string) string {
	for _, key := range []string{"ask." + string(f) + "." + own + ".is", "ask." + string(f) + "." + own} {
		if w.Has(key) {
			return strings.ToLower(w.Say(key))
		}
	}
	switch f {
	case form.Pipe, form.Discharge, form.JetPipe:
		return own + " in"
	case form.Nozzle:
		return own + " mm"
	}
	return own
}
