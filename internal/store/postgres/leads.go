package postgres

import (
	"context"
	"errors"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// insert is one statement, and so one transaction and one way to the server
// and back; when the key stands already it gives no row.
const insert = `WITH added AS (
 INSERT INTO leads (` + ledger.LeadColumns + `)
  VALUES ($1,$2,$3,$4,$5,$6,$7,$8,$9,$10,$11,$12,$13,$14,$15,$16) ON CONFLICT (site, key) DO NOTHING
  RETURNING id, site, reference, received, quarantine),
agreed AS (INSERT INTO consents (lead_id, ` + ledger.ConsentColumns + `) SELECT id, $17, $18, $19, $20, $21 FROM added),
laid AS (INSERT INTO papers (lead_id, ` + ledger.PaperColumns + `) SELECT id, $22, $23, $24, $25 FROM added),
told AS (INSERT INTO outbox (id, site, lead_id, kind, due) SELECT 'lead.created/' || reference, site, id, 'lead.created', received
  FROM added WHERE quarantine = '')
SELECT id FROM added`

// Put stores a lead, its consent and its outbox entry together, once a key.
func (s *Store) Put(ctx context.Context, l lead.Lead) (lead.Lead, bool, error) {
	l.Site = s.site
	args, err := arguments(&l)
	if err != nil {
		return lead.Lead{}, false, err
	}
	const tries = 3 // the lead under the key may be deleted before it is read
	for range tries {
		var id int64
		err := s.pool.QueryRow(ctx, insert, args...).Scan(&id)
		var pg *pgconn.PgError
		switch {
		case err == nil:
			return l, true, nil
		case errors.As(err, &pg) && pg.ConstraintName == "leads_reference":
			return lead.Lead{}, false, lead.ErrReferenceTaken
		case !errors.Is(err, pgx.ErrNoRows):
			return lead.Lead{}, false, kind(err)
		}
		old, err := ledger.Scan(s.pool.QueryRow(ctx, `SELECT `+ledger.Columns+ledger.From+`WHERE l.site = $1 AND l.key = $2`, s.site, l.Key))
		if !errors.Is(err, pgx.ErrNoRows) {
			return old, false, kind(err)
		}
	}
	return lead.Lead{}, false, lead.ErrBusy
}

// arguments are what insert takes. A text of PostgreSQL holds no NUL; nobody
// types one, and it is taken off.
func arguments(l *lead.Lead) ([]any, error) {
	for _, text := range []*string{&l.MadeAt, &l.Consent.Text, &l.Consent.Language, &l.Consent.Channel} {
		*text = strings.ReplaceAll(*text, "\x00", "")
	}
	r, err := ledger.RowsOf(*l)
	return slices.Concat(r.Lead, r.Consent, r.Papers), err
}

// Find returns the lead of a reference.
func (s *Store) Find(ctx context.Context, reference string) (lead.Lead, error) {
	l, err := ledger.Scan(s.pool.QueryRow(ctx, `SELECT `+ledger.Columns+ledger.From+`WHERE l.site = $1 AND l.reference = $2`, s.site, reference))
	return l, kind(err)
}

// List returns leads, those received last first.
func (s *Store) List(ctx context.Context, before string, limit int) ([]lead.Lead, error) {
	rows, err := s.pool.Query(ctx, `SELECT `+ledger.Columns+ledger.From+`WHERE l.site = $1
  AND ($2 = '' OR (l.received, l.id) < (SELECT received, id FROM leads WHERE reference = $2))`+ledger.Newest+` LIMIT $3`, s.site, before, limit)
	return collect(rows, err, func(row pgx.CollectableRow) (lead.Lead, error) { return ledger.Scan(row) })
}

// collect reads all rows; none is no list.
func collect[T any](rows pgx.Rows, err error, one pgx.RowToFunc[T]) ([]T, error) {
	if err != nil {
		return nil, kind(err)
	}
	all, err := pgx.CollectRows(rows, one)
	if err != nil || len(all) == 0 {
		return nil, kind(err)
	}
	return all, nil
}
