package postgres

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// numbered is a query with the marks that PostgreSQL knows: $1, $2 and so on.
func numbered(q ledger.Query) string {
	var b strings.Builder
	n := 0
	for _, r := range q.Text {
		if r != '?' {
			b.WriteRune(r)
			continue
		}
		n++
		b.WriteString("$" + strconv.Itoa(n))
	}
	return b.String()
}

func scanCase(row pgx.CollectableRow) (lead.Case, error) { return ledger.ScanCase(row) }

// Search returns a page of cases.
func (s *Store) Search(ctx context.Context, f lead.Filter) (found lead.Found, err error) {
	total, page := ledger.Total(s.site, f), ledger.Page(s.site, f)
	if err := s.pool.QueryRow(ctx, numbered(total), total.Args...).Scan(&found.Total); err != nil {
		return lead.Found{}, kind(err)
	}
	rows, err := s.pool.Query(ctx, numbered(page), page.Args...)
	if found.Cases, err = collect(rows, err, scanCase); err != nil {
		return lead.Found{}, err
	}
	return found, nil
}

// Counts counts all cases.
func (s *Store) Counts(ctx context.Context) (counts lead.Counts, err error) {
	all, aside := ledger.Total(s.site, lead.Filter{Aside: lead.Without}), ledger.Total(s.site, lead.Filter{Aside: lead.Only})
	var through int
	if err := errors.Join(
		s.pool.QueryRow(ctx, numbered(all), all.Args...).Scan(&through),
		s.pool.QueryRow(ctx, numbered(aside), aside.Args...).Scan(&counts.PutAside),
		s.pool.QueryRow(ctx, `SELECT count(DISTINCT event) FROM deliveries WHERE site = $1 AND state = 'dead'`, s.site).Scan(&counts.Dead)); err != nil {
		return lead.Counts{}, kind(err)
	}
	rows, err := s.pool.Query(ctx, ledger.Touched+`WHERE l.site = $1`+ledger.ByStatus, s.site)
	if err != nil {
		return lead.Counts{}, kind(err)
	}
	touched := map[lead.Status]int{}
	var status lead.Status
	var n int
	if _, err := pgx.ForEachRow(rows, []any{&status, &n}, func() error { touched[status] = n; return nil }); err != nil {
		return lead.Counts{}, kind(err)
	}
	counts.ByStatus = ledger.Statuses(through, touched)
	return counts, nil
}

// Case returns one case.
func (s *Store) Case(ctx context.Context, reference string) (lead.Case, error) {
	rows, err := s.pool.Query(ctx, `SELECT `+ledger.CaseColumns+ledger.From+ledger.Handled+`WHERE l.site = $1 AND l.reference = $2`, s.site, reference)
	if err != nil {
		return lead.Case{}, kind(err)
	}
	c, err := pgx.CollectExactlyOneRow(rows, scanCase)
	return c, kind(err)
}

// querier is the pool or a transaction.
type querier interface {
	QueryRow(ctx context.Context, sql string, args ...any) pgx.Row
}

// idOf is the row of a reference, or lead.ErrNotFound.
func (s *Store) idOf(ctx context.Context, q querier, reference string) (id int64, err error) {
	err = q.QueryRow(ctx, `SELECT id FROM leads WHERE site = $1 AND reference = $2`, s.site, reference).Scan(&id)
	return id, kind(err)
}

// Notes lists the remarks on a case.
func (s *Store) Notes(ctx context.Context, reference string) ([]lead.Note, error) {
	id, err := s.idOf(ctx, s.pool, reference)
	if err != nil {
		return nil, err
	}
	rows, err := s.pool.Query(ctx, `SELECT at, author, text FROM notes WHERE lead_id = $1 ORDER BY id`, id)
	return collect(rows, err, func(row pgx.CollectableRow) (n lead.Note, err error) {
		var at int64
		err = row.Scan(&at, &n.Author, &n.Text)
		n.At = time.UnixMilli(at).UTC()
		return n, err
	})
}

// Deliveries lists what was and is to be told of a case.
func (s *Store) Deliveries(ctx context.Context, reference string) ([]lead.Delivery, error) {
	if _, err := s.idOf(ctx, s.pool, reference); err != nil {
		return nil, err
	}
	rows, err := s.pool.Query(ctx, `SELECT `+shown+` FROM deliveries d WHERE d.site = $1 AND d.event = 'lead.created/' || $2::text ORDER BY d.id`, s.site, reference)
	return collect(rows, err, delivery)
}

// SetStatus notes how far the office is.
func (s *Store) SetStatus(ctx context.Context, t lead.Touch, status lead.Status) error {
	if !status.Known() {
		return fmt.Errorf("no status %q", status)
	}
	return s.touch(ctx, t, `UPDATE handlings SET status = $2 WHERE lead_id = $1`, string(status))
}

// Assign notes who looks after a case.
func (s *Store) Assign(ctx context.Context, t lead.Touch, assignee string) error {
	return s.touch(ctx, t, `UPDATE handlings SET assignee = $2 WHERE lead_id = $1`, assignee)
}

// Release lets a lead that was put aside through; the outbox tells of it.
func (s *Store) Release(ctx context.Context, t lead.Touch) error {
	return s.touch(ctx, t, `WITH told AS (
 INSERT INTO outbox (id, site, lead_id, kind, due) SELECT 'lead.created/' || reference, site, id, 'lead.created', $2
  FROM leads WHERE id = $1 AND quarantine <> '' ON CONFLICT DO NOTHING)
UPDATE handlings SET released = $2 WHERE lead_id = $1`, t.At.UnixMilli())
}

// touch changes one thing of a case that is as it was last seen.
func (s *Store) touch(ctx context.Context, t lead.Touch, update string, value any) error {
	return s.together(ctx, func(tx pgx.Tx) error {
		id, err := s.idOf(ctx, tx, t.Reference)
		if err != nil {
			return err
		}
		if _, err := tx.Exec(ctx, `INSERT INTO handlings (lead_id, version, status, assignee, changed) VALUES ($1, 0, 'new', '', $2) ON CONFLICT DO NOTHING`,
			id, t.At.UnixMilli()); err != nil {
			return err
		}
		res, err := tx.Exec(ctx, `UPDATE handlings SET version = version + 1, changed = $1 WHERE lead_id = $2 AND version = $3`, t.At.UnixMilli(), id, t.Version)
		if err != nil {
			return err
		}
		if res.RowsAffected() == 0 {
			return lead.ErrStale
		}
		_, err = tx.Exec(ctx, update, id, value)
		return err
	})
}

// AddNote keeps a remark.
func (s *Store) AddNote(ctx context.Context, reference string, n lead.Note) error {
	res, err := s.pool.Exec(ctx, `INSERT INTO notes (lead_id, at, author, text) SELECT id, $1, $2, $3 FROM leads WHERE site = $4 AND reference = $5`,
		n.At.UnixMilli(), n.Author, n.Text, s.site, reference)
	if err == nil && res.RowsAffected() == 0 {
		return lead.ErrNotFound
	}
	return kind(err)
}

// Delete takes a lead out. Its bytes stay in the server's files until a vacuum
// and later rows use their place, in its log until that is used again, and in
// backups as long as those are kept.
func (s *Store) Delete(ctx context.Context, reference string) error {
	res, err := s.pool.Exec(ctx, `DELETE FROM leads WHERE site = $1 AND reference = $2`, s.site, reference)
	if err == nil && res.RowsAffected() == 0 {
		return lead.ErrNotFound
	}
	return kind(err)
}

// PurgeBefore deletes what was received before then, a part at a time.
func (s *Store) PurgeBefore(ctx context.Context, then time.Time) (purged int, err error) {
	const atOnce = 1000
	for {
		res, err := s.pool.Exec(ctx, `DELETE FROM leads WHERE id IN
 (SELECT id FROM leads WHERE site = $1 AND received < $2 ORDER BY received LIMIT $3 FOR UPDATE SKIP LOCKED)`, s.site, then.UnixMilli(), atOnce)
		if err != nil {
			return purged, kind(err)
		}
		purged += int(res.RowsAffected())
		if res.RowsAffected() < atOnce {
			return purged, nil
		}
	}
}
