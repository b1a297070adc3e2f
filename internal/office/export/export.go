// Package export turns enquiries into files that other programs read: a table
// for spreadsheets, JSON, and contact cards for phones.
package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/jsonfile"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/wire"
)

// Writer writes one enquiry after the other; Close ends the file. A file that
// was not closed is not whole.
type Writer interface {
	Write(Item) error
	Close() error
}

// Item is one enquiry with what the office wrote about it.
type Item struct {
	lead.Case
	Remarks []lead.Note
}

// Kind is a kind of file.
type Kind struct {
	Ending, Type string
	// New starts a file; one says that it will hold one enquiry.
	New func(w io.Writer, t measure.Terms, one bool) (Writer, error)
}

// Kinds lists the kinds of file.
func Kinds() []Kind {
	return []Kind{
		{"csv", "text/csv; charset=utf-8", newTable},
		{"json", "application/json", newJSON},
		{"vcf", "text/vcard; charset=utf-8", newCards},
	}
}

// KindOf is the kind with an ending.
func KindOf(ending string) (Kind, bool) {
	for _, k := range Kinds() {
		if k.Ending == ending {
			return k, true
		}
	}
	return Kind{}, false
}

// table writes comma separated values (RFC 4180).
type table struct {
	csv *csv.Writer
	t   measure.Terms
}

// columns are the names of the table's columns; they never change their place,
// and a new one comes last.
func columns() []string {
	return []string{"reference", "received_utc", "status", "assignee", "name", "email", "phone", "town", "start", "project", "their_note",
		"water_volume", "water_volume_unit", "water_surface", "water_surface_unit", "flow", "flow_unit", "head", "head_unit",
		"budget_low", "budget_likely", "budget_high", "currency", "figures_that_differ", "put_aside", "office_notes"}
}

// byteOrderMark tells spreadsheets that the file is UTF-8. Common practice, no
// source.
const byteOrderMark = "\ufeff"

func newTable(w io.Writer, t measure.Terms, _ bool) (Writer, error) {
	if _, err := io.WriteString(w, byteOrderMark); err != nil {
		return nil, fmt.Errorf("start a table: %w", err)
	}
	c := csv.NewWriter(w)
	c.UseCRLF = true // RFC 4180 §2.1
	if err := c.Write(columns()); err != nil {
		return nil, fmt.Errorf("start a table: %w", err)
	}
	return table{c, t}, nil
}

// Write writes one line.
func (x table) Write(i Item) error {
	c, s := i.Contact, figuresOf(i)
	text := []string{i.Reference, i.Received.UTC().Format("2006-01-02 15:04:05"), string(i.Status), i.Assignee, c.Name, c.Email, c.Phone, c.Town, c.Start,
		i.Design.Name, c.Note}
	var line []string
	for _, t := range text {
		line = append(line, safe(t))
	}
	for _, id := range []sheet.ID{"water.net_volume", "pond.area", "flow.duty", "pump.head"} {
		line = append(line, x.quantity(s, id)...)
	}
	for _, id := range []sheet.ID{"budget.low", "budget.likely", "budget.high"} {
		line = append(line, amount(s, id))
	}
	line = append(line, x.t.Currency, strconv.Itoa(len(i.Differences)), safe(i.Quarantine), safe(remarks(i.Remarks)))
	if err := x.csv.Write(line); err != nil {
		return fmt.Errorf("write a line: %w", err)
	}
	return nil
}

// Close writes what is left.
func (x table) Close() error {
	x.csv.Flush()
	if err := x.csv.Error(); err != nil {
		return fmt.Errorf("end a table: %w", err)
	}
	return nil
}

// figuresOf are the figures as the server worked them out when the enquiry
// came; a sheet that cannot be read has none.
func figuresOf(i Item) *sheet.Sheet {
	s, err := wire.ReadStoredSheet(i.SheetJSON)
	if err != nil {
		return &sheet.Sheet{}
	}
	return s
}

// quantity is a figure in the reader's units, as a bare number and its unit.
func (x table) quantity(s *sheet.Sheet, id sheet.ID) []string {
	f, ok := s.Find(id)
	if !ok {
		return []string{"", ""}
	}
	shown := say.Shown(f, x.t)
	return []string{strings.ReplaceAll(shown.Number, ",", ""), strings.ReplaceAll(shown.Unit, "\u00a0", " ")}
}

func amount(s *sheet.Sheet, id sheet.ID) string {
	f, ok := s.Find(id)
	if !ok {
		return ""
	}
	return f.Amount.String()
}

func remarks(notes []lead.Note) string {
	var out []string
	for _, n := range notes {
		out = append(out, n.At.UTC().Format("2006-01-02 15:04")+" "+n.Author+": "+n.Text)
	}
	return strings.Join(out, "\n")
}

// safe keeps a spreadsheet from taking a text for a formula: one that starts
// with a sign of a formula, in the cell or on a line of it, also behind
// blanks, gets an apostrophe before it. Source: OWASP, "CSV Injection"; from
// memory. NUL goes, because some programs end a text there.
func safe(text string) string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\x00", ""), "\r\n", "\n")
	lines := strings.Split(text, "\n")
	for n, l := range lines {
		bare := strings.TrimLeft(l, " \u00a0\u3000\ufeff")
		if bare != "" && strings.ContainsRune("=+-@\t\r＝＋－＠|%", []rune(bare)[0]) {
			lines[n] = "'" + l
		}
	}
	return strings.Join(lines, "\n")
}

// document is JSON: one enquiry, or a list of them under a name.
type document struct {
	w   io.Writer
	one bool
	n   *int
}

// StoredCase is an enquiry with how it is handled.
type StoredCase struct {
	wire.StoredLead
	PutAside string   `json:"put_aside,omitempty"`
	Handling handling `json:"handling"`
}

type handling struct {
	Status   string   `json:"status"`
	Assignee string   `json:"assignee,omitempty"`
	Released string   `json:"released,omitempty"`
	Notes    []remark `json:"notes,omitempty"`
}

type remark struct {
	At     string `json:"at"`
	Author string `json:"author"`
	Text   string `json:"text"`
}

func newJSON(w io.Writer, _ measure.Terms, one bool) (Writer, error) {
	d := document{w, one, new(int)}
	if !one {
		if err := d.put("{\"schema_version\":" + strconv.Itoa(wire.Schema) + ",\"enquiries\":["); err != nil {
			return nil, err
		}
	}
	return d, nil
}

func (d document) put(text string) error {
	if _, err := io.WriteString(d.w, text); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	return nil
}

// Write writes one enquiry.
func (d document) Write(i Item) error {
	raw, err := jsonfile.Write(newStoredCase(i))
	if err != nil {
		return fmt.Errorf("write an enquiry as JSON: %w", err)
	}
	sep := "\n"
	if *d.n > 0 {
		sep = ",\n"
	}
	if d.one {
		sep = ""
	}
	*d.n++
	return d.put(sep + strings.TrimRight(string(raw), "\n"))
}

// Close ends the list.
func (d document) Close() error {
	if d.one {
		return d.put("\n")
	}
	return d.put("\n]}\n")
}

func newStoredCase(i Item) StoredCase {
	out := StoredCase{StoredLead: wire.NewStoredLead(i.Lead), PutAside: i.Quarantine, Handling: handling{Status: string(i.Status), Assignee: i.Assignee}}
	if !i.Released.IsZero() {
		out.Handling.Released = i.Released.UTC().Format(time.RFC3339)
	}
	for _, n := range i.Remarks {
		out.Handling.Notes = append(out.Handling.Notes, remark{n.At.UTC().Format(time.RFC3339), n.Author, n.Text})
	}
	return out
}
