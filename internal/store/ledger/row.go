// Package ledger is what both databases keep of an enquiry: its rows column by
// column, how they are read back and searched, and the steps that bring tables
// up to date. It opens no database.
package ledger

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"tarnwright/internal/lead"
)

// Columns are those of a whole lead, in the order that Scan reads.
const Columns = `l.site, l.reference, l.key, l.digest, l.received, l.made_at, l.quarantine, l.name, l.email, l.phone, l.town, l.start, l.note,
 p.design, p.sheet, l.core_version, l.book, p.client, p.differences, c.text, c.language, c.channel`

// From is where they stand.
const From = ` FROM leads l JOIN consents c ON c.lead_id = l.id JOIN papers p ON p.lead_id = l.id `

// Newest is the order of every list.
const Newest = ` ORDER BY l.received DESC, l.id DESC`

// CaseColumns are those of a lead with what the office did, for ScanCase.
const CaseColumns = Columns + `, coalesce(h.version, 0), coalesce(h.status, 'new'), coalesce(h.assignee, ''), h.released,
 (SELECT count(*) FROM notes n WHERE n.lead_id = l.id)`

// Handled joins what the office did to leads.
const Handled = ` LEFT JOIN handlings h ON h.lead_id = l.id `

// Aside tells the leads that wait to be let through.
const Aside = `(l.quarantine <> '' AND h.released IS NULL)`

// The columns of each table that a new lead fills, in the order of Rows.
const (
	LeadColumns    = `site, reference, key, digest, received, made_at, quarantine, name, email, phone, town, start, note, search, core_version, book`
	ConsentColumns = `text, digest, language, channel, given`
	PaperColumns   = `design, sheet, client, differences`
)

// Rows are a lead as the tables take it, but for the number that it gets.
type Rows struct{ Lead, Consent, Papers []any }

// RowsOf is made by who sends, so that who writes to the database only writes.
func RowsOf(l lead.Lead) (Rows, error) {
	design, err1 := json.Marshal(l.Design)
	client, err2 := json.Marshal(l.Client)
	differences, err3 := json.Marshal(l.Differences)
	if err := errors.Join(err1, err2, err3); err != nil {
		return Rows{}, fmt.Errorf("write the lead %s: %w", l.Reference, err)
	}
	c := l.Contact
	return Rows{
		Lead: []any{
			l.Site, l.Reference, l.Key, l.Digest, l.Received.UnixMilli(), l.MadeAt, l.Quarantine,
			c.Name, c.Email, c.Phone, c.Town, c.Start, c.Note, lead.SearchText(l), l.CoreVersion, l.Book,
		},
		Consent: []any{l.Consent.Text, l.Consent.Digest(), l.Consent.Language, l.Consent.Channel, l.Received.UnixMilli()},
		Papers:  []any{string(design), string(l.SheetJSON), string(client), string(differences)},
	}, nil
}

// Row is one row of an answer.
type Row interface{ Scan(into ...any) error }

// Scan reads Columns, and into more what follows them.
func Scan(row Row, more ...any) (lead.Lead, error) {
	var (
		l                                  lead.Lead
		received                           int64
		design, client, differences, sheet string
	)
	c := &l.Contact
	err := row.Scan(append([]any{&l.Site, &l.Reference, &l.Key, &l.Digest, &received, &l.MadeAt, &l.Quarantine,
		&c.Name, &c.Email, &c.Phone, &c.Town, &c.Start, &c.Note, &design, &sheet, &l.CoreVersion, &l.Book, &client, &differences,
		&l.Consent.Text, &l.Consent.Language, &l.Consent.Channel}, more...)...)
	if err != nil {
		return lead.Lead{}, err
	}
	c.Consent = true // a lead is stored only with it, beside the words agreed to
	l.Received = time.UnixMilli(received).UTC()
	l.SheetJSON = []byte(sheet)
	err = errors.Join(
		json.Unmarshal([]byte(design), &l.Design),
		json.Unmarshal([]byte(client), &l.Client),
		json.Unmarshal([]byte(differences), &l.Differences))
	if err != nil {
		return lead.Lead{}, fmt.Errorf("read the lead %s: %w", l.Reference, err)
	}
	return l, nil
}

// ScanCase reads CaseColumns.
func ScanCase(row Row) (c lead.Case, err error) {
	var released *int64
	c.Lead, err = Scan(row, &c.Version, &c.Status, &c.Assignee, &released, &c.Handling.Notes)
	c.Released = Moment(released)
	return c, err
}

// Moment is a time that may not have come.
func Moment(at *int64) time.Time {
	if at == nil {
		return time.Time{}
	}
	return time.UnixMilli(*at).UTC()
}
