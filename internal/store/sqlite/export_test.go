package sqlite

import (
	"context"
	"fmt"

	"tarnwright/internal/lead"
)

// OpenUnder opens a store on another file layer, with pragmas after the
// store's own, which win.
func OpenUnder(ctx context.Context, file, layer string, more ...string) (*Store, error) {
	return open(ctx, file, ground{layer, append(pragmas(), more...)})
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

// Fill stores many leads at once, with keys and references in no order and
// small designs and sheets.
func (s *Store) Fill(ctx context.Context, count int) error {
	const atOnce = 50_000
	for first := 0; first < count; first += atOnce {
		tx, err := s.write.BeginTx(ctx, nil)
		if err != nil {
			return err
		}
		defer func() { _ = tx.Rollback() }()
		for _, sql := range []string{
			`INSERT INTO leads SELECT n, 'main', 'FP-' || (n * 7368787 % 33554393), hex(randomblob(16)), 'digest', 1700000000000 + n * 1000, '', '',
 'Person ' || n, 'person' || n || '@oakesmail.example', '', 'Lower Alder', '', '', 'fp person ' || n || ' person' || n || '@oakesmail.example lower alder', 1, 'demo/1' FROM (WITH RECURSIVE c(n) AS (SELECT ?1 UNION ALL SELECT n + 1 FROM c WHERE n < ?2) SELECT n FROM c)`,
			`INSERT INTO consents SELECT id, 'Fernhollow Ponds may reply to me.', 'd', 'en', 'page', received FROM leads WHERE id BETWEEN ?1 AND ?2`,
			`INSERT INTO papers SELECT id, '{}', '{}', 'null', 'null' FROM leads WHERE id BETWEEN ?1 AND ?2`,
			`INSERT INTO outbox (id, lead_id, kind, due, done, site) SELECT 'lead.created/' || reference, id, 'lead.created', received, received, 'main' FROM leads WHERE id BETWEEN ?1 AND ?2`,
		} {
			if _, err := tx.ExecContext(ctx, sql, first+1, min(first+atOnce, count)); err != nil {
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
