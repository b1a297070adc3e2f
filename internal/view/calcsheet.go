package view

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
)

// Widths of the calc sheet, in letters.
const (
	idWidth    = 28
	nameWidth  = 42
	valueWidth = 16
	lineWidth  = 100
)

// CalcSheet is the sheet as an engineer would initial it: every figure with
// its working and source, findings, tables and sources, in fixed width and in
// the order of the calculation. SI throughout, so that it reads the same for
// everyone.
func CalcSheet(s *sheet.Sheet) string {
	c := &calc{w: say.English(), s: s}
	c.line(c.w.Say("sheet.core", strconv.Itoa(s.CoreVersion), s.Book))
	c.line(c.w.Say("sheet.rough"))
	c.line(c.w.Say("sheet.rough.2"))
	c.heading(c.w.Say("sheet.figures"))
	if len(s.Figures) == 0 {
		c.line(c.w.Say("sheet.no_figures"))
	}
	for _, f := range s.Figures {
		c.figure(f)
	}
	for _, t := range s.Tables {
		c.table(t)
	}
	c.findings()
	c.sources()
	return c.b.String()
}

type calc struct {
	b strings.Builder
	w say.Words
	s *sheet.Sheet
}

// line writes one line without blanks at its end.
func (c *calc) line(text string) { c.b.WriteString(strings.TrimRight(text, " ") + "\n") }

func (c *calc) heading(text string) {
	c.line("")
	c.line(text)
}

func (c *calc) figure(f sheet.Figure) {
	shown := measure.Plain(f)
	if f.Unit == sheet.Ratio {
		shown.Unit = ""
	}
	c.line(pad(string(f.ID), idWidth) + " " + pad(c.w.Name(f.ID), nameWidth) + left(shown.Number, valueWidth) + " " + shown.Unit)
	lines := folded(f.Working, lineWidth-4)
	key := string(f.Source)
	for i, l := range lines {
		text := "    " + l
		if i == len(lines)-1 && key != "" {
			text = beside(text, key)
		}
		c.line(text)
	}
}

// beside puts a key at the right end of a line, or on the next when it is full.
func beside(text, key string) string {
	room := lineWidth - utf8.RuneCountInString(text) - utf8.RuneCountInString(key)
	if room < 2 {
		return text + "\n" + left(key, lineWidth)
	}
	return text + strings.Repeat(" ", room) + key
}

// table prints a grid; each column is as wide as its widest cell.
func (c *calc) table(t sheet.Table) {
	c.heading(strings.ToUpper(strings.ReplaceAll(t.ID, ".", " ")))
	grid := [][]string{{""}, {""}}
	for _, col := range t.Columns {
		grid[0] = append(grid[0], col.ID)
		grid[1] = append(grid[1], string(col.Unit))
	}
	for _, r := range t.Rows {
		row := []string{r.Name}
		if r.Plain != "" {
			row[0] = r.Plain
		}
		for i, col := range t.Columns {
			if i < len(r.Cells) {
				row = append(row, plainCell(col, r.Cells[i], columnStep(t, i)))
			}
		}
		grid = append(grid, row)
	}
	widths := make([]int, len(t.Columns)+1)
	for _, row := range grid {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range grid {
		line := pad(row[0], max(idWidth, widths[0]))
		for i, cell := range row[1:] {
			line += left(cell, widths[i+1]+3)
		}
		c.line(line)
	}
}

func plainCell(c sheet.Column, x sheet.Cell, step float64) string {
	return measure.Plain(sheet.Figure{Value: x.Value, Amount: x.Amount, Unit: c.Unit, Step: step}).Number
}

// columnStep keeps whole numbers whole and gives the largest of any others
// five figures or so, the same for the whole column.
func columnStep(t sheet.Table, i int) float64 {
	most, whole := 0.0, true
	for _, r := range t.Rows {
		if i < len(r.Cells) {
			x := math.Abs(r.Cells[i].Value)
			most = math.Max(most, x)
			whole = whole && x == math.Trunc(x)
		}
	}
	switch {
	case whole:
		return 1
	case most >= 1000:
		return 0.1
	case most >= 10:
		return 0.001
	case most >= 0.1:
		return 0.00001
	}
	return 0.0000001
}

func (c *calc) findings() {
	if len(c.s.Findings) == 0 {
		return
	}
	c.heading(c.w.Say("sheet.findings"))
	page := say.Page{Words: c.w, Sheet: c.s, Terms: measure.Terms{System: measure.Metric}}
	for _, f := range c.s.Findings {
		title, text := page.Finding(f)
		mark := c.w.Say("sheet." + string(f.Severity))
		c.line(pad(mark, 6) + pad(f.Code, idWidth) + " " + title)
		for _, l := range folded(text, lineWidth-6) {
			c.line("      " + l)
		}
		c.line(beside("      "+c.rests(f), string(f.Source)))
	}
}

// rests writes the figures that a finding rests on.
func (c *calc) rests(f sheet.Finding) string {
	var parts []string
	for _, id := range f.Figures {
		fig, ok := c.s.Find(id)
		if !ok {
			continue
		}
		shown := measure.Plain(fig)
		if fig.Unit == sheet.Ratio {
			shown.Unit = ""
		}
		parts = append(parts, string(id)+" = "+shown.String())
	}
	return strings.ReplaceAll(strings.Join(parts, "; "), "\u00a0", " ")
}

// sources lists every key that the sheet names, in key order.
func (c *calc) sources() {
	used := map[source.Key]bool{}
	for _, f := range c.s.Figures {
		used[f.Source] = true
	}
	for _, f := range c.s.Findings {
		used[f.Source] = true
	}
	c.heading(c.w.Say("sheet.sources"))
	for _, e := range source.All() {
		if !used[e.Key] {
			continue
		}
		lines := folded(c.w.Citation(e.Key), lineWidth-idWidth-1)
		for i, l := range lines {
			name := ""
			if i == 0 {
				name = string(e.Key)
			}
			c.line(pad(name, idWidth) + " " + l)
		}
	}
}

// pad fills a text with blanks to a width; a longer one keeps one blank.
func pad(t string, width int) string {
	n := utf8.RuneCountInString(t)
	if n >= width {
		return t
	}
	return t + strings.Repeat(" ", width-n)
}

// left fills with blanks on the left.
func left(t string, width int) string {
	n := utf8.RuneCountInString(t)
	if n >= width {
		return " " + t
	}
	return strings.Repeat(" ", width-n) + t
}

// folded breaks a text at blanks so that no line is wider than width, unless
// one word is.
func folded(t string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(t) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// Row is one figure for files and other programs.
type Row struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Value   string `json:"value"` // decimal text, SI
	Unit    string `json:"unit"`
	Working string `json:"working"`
	Source  string `json:"source"`
}

// Rows lists every figure of the sheet in its order.
func Rows(s *sheet.Sheet) []Row {
	w := say.English()
	rows := make([]Row, 0, len(s.Figures))
	for _, f := range s.Figures {
		shown := measure.Plain(f)
		rows = append(rows, Row{ID: string(f.ID), Name: w.Name(f.ID), Value: strings.ReplaceAll(shown.Number, " ", ""), Unit: shown.Unit,
			Working: f.Working, Source: string(f.Source)})
	}
	return rows
}
