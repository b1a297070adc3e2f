package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// Search returns a page of cases.
func (s *Store) Search(ctx context.Context, f lead.Filter) (found lead.Found, err error) {
	total, page := ledger.Total(s.site, f), ledger.Page(s.site, f)
	if err := s.read.QueryRowContext(ctx, total.Text, total.Args...).Scan(&found.Total); err != nil {
		return lead.Found{}, kind(err)
	}
	rows, err := s.read.QueryContext(ctx, page.Text, page.Args...)
	if err != nil {
		return lead.Found{}, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		c, err := ledger.ScanCase(rows)
		if err != nil {
			return lead.Found{}, err
		}
		found.Cases = append(found.Cases, c)
	}
	return found, rows.Err()
}

// Counts counts all cases.
func (s *Store) Counts(ctx context.Context) (counts lead.Counts, err error) {
	all, aside := ledger.Total(s.site, lead.Filter{Aside: lead.Without}), ledger.Total(s.site, lead.Filter{Aside: lead.Only})
	var through int
	if err := errors.Join(
		s.read.QueryRowContext(ctx, all.Text, all.Args...).Scan(&through),
		s.read.QueryRowContext(ctx, aside.Text, aside.Args...).Scan(&counts.PutAside),
		s.read.QueryRowContext(ctx, `SELECT count(DISTINCT event) FROM deliveries WHERE site = ? AND state = 'dead'`, s.site).Scan(&counts.Dead)); err != nil {
		return lead.Counts{}, kind(err)
	}
	rows, err := s.read.QueryContext(ctx, ledger.Touched+`WHERE l.site = ?`+ledger.ByStatus, s.site)
	if err != nil {
		return lead.Counts{}, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	touched := map[lead.Status]int{}
	for rows.Next() {
		var status lead.Status
		var n int
		if err := rows.Scan(&status, &n); err != nil {
			return lead.Counts{}, err
		}
		touched[status] = n
	}
	counts.ByStatus = ledger.Statuses(through, touched)
	return counts, rows.Err()
}

// Case returns one case.
func (s *Store) Case(ctx context.Context, reference string) (lead.Case, error) {
	c, err := ledger.ScanCase(s.read.QueryRowContext(ctx, `SELECT `+ledger.CaseColumns+ledger.From+ledger.Handled+`WHERE l.site = ? AND l.reference = ?`, s.site, reference))
	return c, kind(err)
}

// idOf is the row of a reference, or lead.ErrNotFound.
func (s *Store) idOf(ctx context.Context, q interface {
	QueryRowContext(context.Context, string, ...any) *sql.Row
}, reference string) (id int64, err error) {
	err = q.QueryRowContext(ctx, `SELECT id FROM leads WHERE site = ? AND reference = ?`, s.site, reference).Scan(&id)
	return id, kind(err)
}

// Notes lists the remarks on a case.
func (s *Store) Notes(ctx context.Context, reference string) (notes []lead.Note, err error) {
	id, err := s.idOf(ctx, s.read, reference)
	if err != nil {
		return nil, err
	}
	rows, err := s.read.QueryContext(ctx, `SELECT at, author, text FROM notes WHERE lead_id = ? ORDER BY id`, id)
	if err != nil {
		return nil, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		var n lead.Note
		var at int64
		if err := rows.Scan(&at, &n.Author, &n.Text); err != nil {
			return nil, err
		}
		n.At = time.UnixMilli(at).UTC()
		notes = append(notes, n)
	}
	return notes, rows.Err()
}

// Deliveries lists what was and is to be told of a case.
func (s *Store) Deliveries(ctx context.Context, reference string) ([]lead.Delivery, error) {
	if _, err := s.idOf(ctx, s.read, reference); err != nil {
		return nil, err
	}
	return deliveries(s.read.QueryContext(ctx, `SELECT `+shown+` FROM deliveries WHERE site = ? AND event = ? ORDER BY id`, s.site, event(reference)))
}

// SetStatus notes how far the office is.
func (s *Store) SetStatus(ctx context.Context, t lead.Touch, status lead.Status) error {
	if !status.Known() {
		return fmt.Errorf("no status %q", status)
	}
	return s.touch(ctx, t, `UPDATE handlings SET status = ? WHERE lead_id = ?`, string(status))
}

// Assign notes who looks after a case.
func (s *Store) Assign(ctx context.Context, t lead.Touch, assignee string) error {
	return s.touch(ctx, t, `UPDATE handlings SET assignee = ? WHERE lead_id = ?`, assignee)
}

// Release lets a lead that was put aside through; the outbox tells of it.
func (s *Store) Release(ctx context.Context, t lead.Touch) error {
	return s.touch(ctx, t, `UPDATE handlings SET released = ? WHERE lead_id = ?`, t.At.UnixMilli(),
		`INSERT INTO outbox (id, lead_id, kind, due, site) SELECT 'lead.created/' || reference, id, 'lead.created', ?2, site
  FROM leads WHERE id = ?1 AND quarantine <> '' ON CONFLICT DO NOTHING`)
}

// touch changes one thing of a case that is as it was last seen; what follows
// it is run too, with the lead's row and the time.
func (s *Store) touch(ctx context.Context, t lead.Touch, update string, value any, then ...string) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return kind(err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	id, err := s.idOf(ctx, tx, t.Reference)
	if err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO handlings (lead_id, version, status, assignee, changed) VALUES (?, 0, 'new', '', ?) ON CONFLICT DO NOTHING`,
		id, t.At.UnixMilli()); err != nil {
		return kind(err)
	}
	res, err := tx.ExecContext(ctx, `UPDATE handlings SET version = version + 1, changed = ? WHERE lead_id = ? AND version = ?`, t.At.UnixMilli(), id, t.Version)
	if err != nil {
		return kind(err)
	}
	if n, err := res.RowsAffected(); err != nil || n == 0 {
		return errors.Join(err, lead.ErrStale)
	}
	if _, err := tx.ExecContext(ctx, update, value, id); err != nil {
		return kind(err)
	}
	for _, more := range then {
		if _, err := tx.ExecContext(ctx, more, id, t.At.UnixMilli()); err != nil {
			return kind(err)
		}
	}
	return kind(tx.Commit())
}

// AddNote keeps a remark.
func (s *Store) AddNote(ctx context.Context, reference string, n lead.Note) error {
	res, err := s.write.ExecContext(ctx, `INSERT INTO notes (lead_id, at, author, text) SELECT id, ?, ?, ? FROM leads WHERE site = ? AND reference = ?`,
		n.At.UnixMilli(), n.Author, n.Text, s.site, reference)
	return found(res, err)
}

// found turns no row into lead.ErrNotFound.
func found(res sql.Result, err error) error {
	if err != nil {
		return kind(err)
	}
	n, err := res.RowsAffected()
	if err == nil && n == 0 {
		return lead.ErrNotFound
	}
	return kind(err)
}
