package wire

import (
	"math"
	"strconv"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/jsonfile"
)

// SheetVersion is the version of a sheet's JSON.
const SheetVersion = 1

// Sheet is a sheet as JSON: every figure with its working and source.
type Sheet struct {
	Version     int       `json:"sheet_version"`
	CoreVersion int       `json:"core_version"`
	Book        string    `json:"book"`
	Caution     string    `json:"caution"`
	Figures     []Figure  `json:"figures"`
	Findings    []Finding `json:"findings"`
	Tables      []Table   `json:"tables"`
}

// Figure is one value. Money is decimal text, everything else a number.
type Figure struct {
	ID      string `json:"id"`
	Words   string `json:"words,omitempty"`
	Value   Value  `json:"value"`
	Unit    string `json:"unit"`
	Working string `json:"working"`
	Source  string `json:"source"`
}

// Finding is a result that is not a number.
type Finding struct {
	Code     string   `json:"code"`
	Severity string   `json:"severity"`
	Title    string   `json:"title,omitempty"`
	Text     string   `json:"text,omitempty"`
	Defers   string   `json:"defers,omitempty"`
	Figures  []string `json:"figures"`
	Source   string   `json:"source"`
	Place    string   `json:"place,omitempty"`
}

// Table is a named grid.
type Table struct {
	ID      string   `json:"id"`
	Columns []Column `json:"columns"`
	Rows    []Row    `json:"rows"`
}

// Column heads a table.
type Column struct {
	ID   string `json:"id"`
	Unit string `json:"unit"`
}

// Row is one line of a table.
type Row struct {
	Name   string  `json:"name"`
	Values []Value `json:"values"`
}

// Value is a number or decimal text, as JSON.
type Value struct{ json string }

// MarshalJSON writes the value.
func (v Value) MarshalJSON() ([]byte, error) {
	if v.json == "" {
		return []byte("null"), nil
	}
	return []byte(v.json), nil
}

func number(x float64) Value {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Value{}
	}
	return Value{strconv.FormatFloat(x, 'f', -1, 64)}
}

func isMoney(u sheet.Unit) bool {
	return u == sheet.Money || u == sheet.MoneyPerKWh || u == sheet.MoneyPerM3
}

// NewSheet turns a sheet into its JSON shape. The caution says what the figures
// are not, and goes wherever they go; words names a figure for people and may
// be nil.
func NewSheet(s *sheet.Sheet, caution string, words func(sheet.ID) string) Sheet {
	out := Sheet{Version: SheetVersion, CoreVersion: s.CoreVersion, Book: s.Book, Caution: caution}
	for _, f := range s.Figures {
		j := Figure{ID: string(f.ID), Value: number(f.Value), Unit: string(f.Unit), Working: f.Working, Source: string(f.Source)}
		if isMoney(f.Unit) {
			j.Value = Value{strconv.Quote(f.Amount.String())}
		}
		if words != nil {
			j.Words = words(f.ID)
		}
		out.Figures = append(out.Figures, j)
	}
	for _, f := range s.Findings {
		j := Finding{Code: f.Code, Severity: string(f.Severity), Title: f.Title, Text: f.Text, Defers: f.Defers, Source: string(f.Source), Place: string(f.Place)}
		for _, id := range f.Figures {
			j.Figures = append(j.Figures, string(id))
		}
		out.Findings = append(out.Findings, j)
	}
	for _, t := range s.Tables {
		out.Tables = append(out.Tables, newTable(t))
	}
	return out
}

func newTable(t sheet.Table) Table {
	j := Table{ID: t.ID}
	for _, c := range t.Columns {
		j.Columns = append(j.Columns, Column{c.ID, string(c.Unit)})
	}
	for _, r := range t.Rows {
		row := Row{Name: r.Name}
		if r.Plain != "" {
			row.Name = r.Plain
		}
		for i, c := range r.Cells {
			v := number(c.Value)
			if i < len(t.Columns) && isMoney(t.Columns[i].Unit) {
				v = Value{strconv.Quote(c.Amount.String())}
			}
			row.Values = append(row.Values, v)
		}
		j.Rows = append(j.Rows, row)
	}
	return j
}

// SheetJSON is the canonical text of a sheet.
func SheetJSON(s *sheet.Sheet, caution string, words func(sheet.ID) string) ([]byte, error) {
	return jsonfile.Write(NewSheet(s, caution, words))
}
