package sqlite

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// OpenUnder opens a store on another file layer, with pragmas after the
// store's own, which win.
func OpenUnder(ctx context.Context, file, layer string, more ...string) (*Store, error) {
	return OpenFolding(ctx, file, layer, foldPages, more...)
}

// OpenFolding does that with a log that is folded from so many pages on; with
// 0 the database does it by itself.
func OpenFolding(ctx context.Context, file, layer string, pages int, more ...string) (*Store, error) {
	// The size of a page is what is said first.
	first := slices.DeleteFunc(slices.Clone(more), func(p string) bool { return !strings.HasPrefix(p, "page_size") })
	return open(ctx, file, ground{layer, slices.Concat(first, pragmas(), more), pages})
}

// Bare puts leads without the store's doing: the same statements, read by the
// database once, with rows made beforehand, in a transaction for each.
func (s *Store) Bare(ctx context.Context, like lead.Lead) (put func(n int) error, err error) {
	var st statements
	if err := st.prepare(ctx, s.write); err != nil {
		return nil, err
	}
	like.Site = s.site
	r, err := rowsOf(like)
	if err != nil {
		return nil, err
	}
	return func(n int) error {
		r.lead.Reference = fmt.Sprintf("B-%d", n)
		r.Lead[1], r.Lead[2] = r.lead.Reference, "key-of-the-sender-"+r.lead.Reference
		tx, err := s.write.BeginTx(ctx, nil)
		if err != nil {
			return err
		}
		defer func() { _ = tx.Rollback() }()
		if _, _, err := st.one(ctx, tx, r); err != nil {
			return err
		}
		return tx.Commit()
	}, nil
}

// Fill stores many leads at once, with keys and references in no order, and
// with the papers of one like them or with hardly any.
func (s *Store) Fill(ctx context.Context, first, last int, like lead.Lead, heavy bool) error {
	papers := []any{"{}", "{}", "null", "null"}
	if heavy {
		r, err := ledger.RowsOf(like)
		if err != nil {
			return err
		}
		papers = r.Papers
	}
	const atOnce = 10_000
	for ; first < last; first += atOnce {
		tx, err := s.write.BeginTx(ctx, nil)
		if err != nil {
			return err
		}
		defer func() { _ = tx.Rollback() }()
		// Below the numbers of leads that are put otherwise.
		const base = -10_000_000
		from, to := base+first+1, base+min(first+atOnce, last)
		for _, step := range []struct {
			sql  string
			more []any
		}{
			{`INSERT INTO leads (id, ` + ledger.LeadColumns + `) SELECT n, 'main', 'FP-' || ((n + 10000000) * 7368787 % 33554393), hex(randomblob(16)), 'digest', 1700000000000 + (n + 10000000) * 1000, '', '',
 'Person ' || (n + 10000000), 'person' || (n + 10000000) || '@oakesmail.example', '', 'Lower Alder', '', '', 'fp person ' || (n + 10000000) || ' person' || (n + 10000000) || '@oakesmail.example lower alder',
 1, 'demo/1' FROM (WITH RECURSIVE c(n) AS (SELECT ?1 UNION ALL SELECT n + 1 FROM c WHERE n < ?2) SELECT n FROM c)`, nil},
			{`INSERT INTO consents SELECT id, 'Fernhollow Ponds may reply to me.', 'd', 'en', 'page', received FROM leads WHERE id BETWEEN ?1 AND ?2`, nil},
			{`INSERT INTO papers SELECT id, ?3, ?4, ?5, ?6 FROM leads WHERE id BETWEEN ?1 AND ?2`, papers},
			{`INSERT INTO outbox (id, lead_id, kind, due, done, site) SELECT 'lead.created/' || reference, id, 'lead.created', received, received, 'main' FROM leads WHERE id BETWEEN ?1 AND ?2`, nil},
		} {
			if _, err := tx.ExecContext(ctx, step.sql, append([]any{from, to}, step.more...)...); err != nil {
				return err
			}
		}
		if err := tx.Commit(); err != nil {
			return err
		}
	}
	return nil
}

// Queued is how many senders wait for the next transaction.
func (s *Store) Queued() int { return len(s.putting.queue) }

// Folder folds a log that is not SQLite's.
type Folder struct{ f *folder }

// NewFolder folds by a function from so many pages on.
func NewFolder(fold func() (pages, folded int64, err error), pages int) Folder {
	return Folder{newFolder(fold, pages)}
}

// Grown and Relieve are what a writer calls, Close ends it.
func (f Folder) Grown(pages int) { f.f.grown(pages) }
func (f Folder) Relieve()        { f.f.relieve() }
func (f Folder) Close()          { f.f.close() }

// Reading holds on to what the file reads as now, until done.
func (s *Store) Reading(ctx context.Context) (done func() error, err error) {
	tx, err := s.read.BeginTx(ctx, nil)
	if err != nil {
		return nil, err
	}
	var n int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM leads`).Scan(&n); err != nil {
		return nil, errors.Join(err, tx.Rollback())
	}
	return tx.Rollback, nil
}
