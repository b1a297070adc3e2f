package part

import (
	"math"
	"strconv"

	"tarnwright/internal/markup"
)

// Figure is a number and its unit.
type Figure struct{ Value, Unit string }

// Node draws the figure; the space keeps the two apart when read aloud.
func (f Figure) Node() markup.Node {
	if f.Unit == "" {
		return markup.E("span", markup.Class("fig"), f.Value)
	}
	return markup.E("span", markup.Class("fig"), f.Value, markup.E("small", markup.Class(ClassUnit), " "+f.Unit))
}

// How is the working behind a figure, opened with the = button. It is a native
// details element, so it opens without script.
type How struct {
	Title  string // what it explains
	Prompt string // "How it is worked out: "
	Lines  []string
	Cited  []string
}

// Node draws the working, or nothing when there is none.
func (h How) Node() markup.Node {
	if len(h.Lines) == 0 && len(h.Cited) == 0 {
		return markup.None()
	}
	var lines []markup.Node
	for _, l := range h.Lines {
		lines = append(lines, markup.E("p", l))
	}
	for _, c := range h.Cited {
		lines = append(lines, markup.E("p", markup.Class(ClassSource), c))
	}
	return markup.E("details", markup.Class(ClassHow),
		markup.E("summary", Icon(MarkEquals), markup.E("span", markup.Class(ClassHidden), h.Prompt+h.Title)),
		markup.E("div", markup.Class(ClassWork+" "+ClassNumber), lines))
}

// Reading is one result: a title, figures with their units, a note, and the
// working.
type Reading struct {
	ID      string
	Title   string
	Figures []Figure
	Big     bool
	Join    string // a word between figures: "at"
	Body    markup.Node
	Note    string
	How     How
	Working markup.Node // How as it was drawn, where it was already
	Stale   bool
}

// Node draws the reading.
func (r Reading) Node() markup.Node {
	class := ClassReading
	if r.Stale {
		class += " stale"
	}
	value := ClassFigures + " " + ClassNumber
	if r.Big {
		value += " " + ClassBig
	}
	var figs []markup.Node
	for i, f := range r.Figures {
		if i > 0 && r.Join != "" {
			figs = append(figs, markup.E("span", markup.Class("join"), " "+r.Join+" "))
		}
		figs = append(figs, f.Node())
	}
	var shown markup.Node
	if len(figs) > 0 {
		shown = markup.E("p", markup.Class(value), figs)
	}
	var note markup.Node
	if r.Note != "" {
		note = markup.E("p", markup.Class(ClassNote), r.Note)
	}
	if r.Working.IsNone() {
		r.Working = r.How.Node()
	}
	return markup.E("section", markup.Class(class), when(r.ID != "", markup.A("id", r.ID)), when(r.ID != "", markup.A("aria-labelledby", r.ID+"-t")),
		markup.E("h2", markup.Class(ClassTitle), when(r.ID != "", markup.A("id", r.ID+"-t")), r.Title), shown, r.Body, note, r.Working)
}

// Bar is one of a few bars that share a scale; Share is of the longest.
type Bar struct {
	Label, Amount string
	Share         float64
	Solid         bool
}

// Bars compares amounts: ruled against solid, so that the two differ in
// texture as well as in value. The numbers stand beside them.
func Bars(caption, id string, bars []Bar) markup.Node {
	if len(bars) == 0 {
		return markup.None()
	}
	var rows []markup.Node
	for i, b := range bars {
		rows = append(rows, markup.E("tr", markup.E("th", markup.A("scope", "row"), b.Label),
			markup.E("td", barPicture(id+"-"+strconv.Itoa(i), b)), markup.E("td", markup.Class("amt"), b.Amount)))
	}
	return markup.E("table", markup.Class("bars "+ClassNumber), markup.E("caption", markup.Class(ClassHidden), caption), markup.E("tbody", rows))
}

func barPicture(id string, b Bar) markup.Node {
	const wide = 92.0
	w := strconv.FormatFloat(math.Max(1, math.Min(1, b.Share)*wide), 'f', 1, 64)
	bar := markup.E("rect", markup.A("x", "0.5"), markup.A("y", "0.5"), markup.A("width", w), markup.A("height", "11"))
	if b.Solid {
		return markup.E("svg", markup.Class("amount solid"), markup.A("viewBox", "0 0 93 12"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"), bar)
	}
	bar.Attrs = append(bar.Attrs, markup.A("fill", "url(#"+id+")"))
	hatch := markup.E("pattern", markup.A("id", id), markup.A("width", "5"), markup.A("height", "5"), markup.A("patternUnits", "userSpaceOnUse"), markup.A("patternTransform", "rotate(45)"),
		markup.E("path", markup.A("d", "M0 0V5"), markup.Class("rule")))
	return markup.E("svg", markup.Class("amount hatched"), markup.A("viewBox", "0 0 93 12"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"), markup.E("defs", hatch), bar)
}

// Judgement is a caution or something that is as it should be: a mark, never
// colour alone, and words.
func Judgement(care bool, text string) markup.Node {
	if care {
		return markup.E("p", markup.Class(ClassCare), Icon(MarkCare), markup.E("span", text))
	}
	return markup.E("p", markup.Class(ClassFine), Icon(MarkFine), markup.E("span", text))
}

// Pin is a numbered diamond or round, as on the plan.
func Pin(care bool, number string) markup.Node {
	kind := "pin-fine"
	d := "M3 15a12 12 0 1 0 24 0a12 12 0 1 0-24 0z"
	if care {
		kind = "pin-care"
		d = "M15 1L29 15 15 29 1 15z"
	}
	return markup.E("svg", markup.Class(ClassPin+" "+kind), markup.A("viewBox", "0 0 30 30"), markup.A("aria-hidden", "true"), markup.A("focusable", "false"),
		markup.E("path", markup.A("d", d)), markup.E("text", markup.A("x", "15"), markup.A("y", "19.5"), markup.A("text-anchor", "middle"), number))
}

// Cell is one cell of a table.
type Cell struct {
	Text  string
	Large bool
}

// Table is a grid of figures with a name; the first cell of each row names it.
// With Fold it is opened by that word.
type Table struct {
	Fold    string
	Caption string
	Heads   []string
	Rows    [][]Cell
	Total   bool // the last row closes the table
}

// Node draws the table.
func (t Table) Node() markup.Node {
	var heads []markup.Node
	for i, h := range t.Heads {
		if h == "" && i == 0 {
			heads = append(heads, markup.E("td"))
			continue
		}
		heads = append(heads, markup.E("th", markup.A("scope", "col"), h))
	}
	var rows []markup.Node
	for i, r := range t.Rows {
		var cells []markup.Node
		for j, c := range r {
			if j == 0 {
				cells = append(cells, markup.E("th", markup.A("scope", "row"), c.Text))
				continue
			}
			cells = append(cells, markup.E("td", when(c.Large, markup.Class("large")), c.Text))
		}
		total := t.Total && i == len(t.Rows)-1
		rows = append(rows, markup.E("tr", when(total, markup.Class("total")), cells))
	}
	table := markup.E("table", markup.Class(ClassTable+" "+ClassNumber),
		markup.E("caption", markup.Class(ClassHidden), t.Caption),
		markup.E("thead", markup.E("tr", heads)), markup.E("tbody", rows))
	if t.Fold == "" {
		return table
	}
	return markup.E("details", markup.Class("fold"), markup.E("summary", t.Fold), Scroll(t.Caption, table))
}

// Scroll is a box that is pushed sideways where its content is wider; with the
// keyboard too.
func Scroll(name string, kids ...markup.Node) markup.Node {
	return markup.E("div", markup.Class("scroll"), markup.A("tabindex", "0"), markup.A("role", "group"), markup.A("aria-label", name), kids)
}
