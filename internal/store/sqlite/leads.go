package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/ncruces/go-sqlite3"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// Put stores a lead, its consent and its outbox entry together, once a key.
func (s *Store) Put(ctx context.Context, l lead.Lead) (lead.Lead, bool, error) {
	l.Site = s.site
	r, err := rowsOf(l)
	if err != nil {
		return lead.Lead{}, false, err
	}
	return s.putting.put(ctx, r)
}

// rows are a lead with what the tables take of it.
type rows struct {
	lead lead.Lead
	ledger.Rows
}

func rowsOf(l lead.Lead) (*rows, error) {
	r, err := ledger.RowsOf(l)
	return &rows{l, r}, err
}

// statements are what every put runs, read by the database once.
type statements struct{ insert, consent, papers, outbox, old, save, release, undo *sql.Stmt }

func (st *statements) prepare(ctx context.Context, db *sql.DB) error {
	for _, p := range []struct {
		into **sql.Stmt
		text string
	}{
		{&st.insert, `INSERT INTO leads (` + ledger.LeadColumns + `) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?) ON CONFLICT (site, key) DO NOTHING`},
		{&st.consent, `INSERT INTO consents (lead_id, ` + ledger.ConsentColumns + `) VALUES (?,?,?,?,?,?)`},
		{&st.papers, `INSERT INTO papers (lead_id, ` + ledger.PaperColumns + `) VALUES (?,?,?,?,?)`},
		{&st.outbox, `INSERT INTO outbox (id, lead_id, kind, due, site) VALUES (?,?,'lead.created',?,?)`},
		{&st.old, `SELECT ` + ledger.Columns + ledger.From + `WHERE l.site = ? AND l.key = ?`},
		{&st.save, `SAVEPOINT one`},
		{&st.release, `RELEASE one`},
		{&st.undo, `ROLLBACK TO one`},
	} {
		var err error
		if *p.into, err = db.PrepareContext(ctx, p.text); err != nil {
			return errors.Join(err, st.close())
		}
	}
	return nil
}

func (st *statements) close() error {
	var errs []error
	for _, s := range []*sql.Stmt{st.insert, st.consent, st.papers, st.outbox, st.old, st.save, st.release, st.undo} {
		if s != nil {
			errs = append(errs, s.Close())
		}
	}
	return errors.Join(errs...)
}

// one stores one lead in a transaction that may hold others, and returns the
// lead that stands under its key.
func (st *statements) one(ctx context.Context, tx *sql.Tx, r *rows) (lead.Lead, bool, error) {
	res, err := tx.StmtContext(ctx, st.insert).ExecContext(ctx, r.Lead...)
	if errors.Is(err, sqlite3.CONSTRAINT_UNIQUE) {
		return lead.Lead{}, false, lead.ErrReferenceTaken // the key cannot conflict
	}
	if err != nil {
		return lead.Lead{}, false, err
	}
	n, err := res.RowsAffected()
	if err != nil {
		return lead.Lead{}, false, err
	}
	if n == 0 {
		old, err := ledger.Scan(tx.StmtContext(ctx, st.old).QueryRowContext(ctx, r.lead.Site, r.lead.Key))
		return old, false, err
	}
	id, err := res.LastInsertId()
	if err != nil {
		return lead.Lead{}, false, err
	}
	return r.lead, true, st.attach(ctx, tx, id, r)
}

// attach stores what belongs to a lead: the consent, the papers, and the entry
// that tells the office about it.
func (st *statements) attach(ctx context.Context, tx *sql.Tx, id int64, r *rows) error {
	if _, err := tx.StmtContext(ctx, st.consent).ExecContext(ctx, append([]any{id}, r.Consent...)...); err != nil {
		return fmt.Errorf("store the consent: %w", err)
	}
	if _, err := tx.StmtContext(ctx, st.papers).ExecContext(ctx, append([]any{id}, r.Papers...)...); err != nil {
		return fmt.Errorf("store the papers: %w", err)
	}
	if r.lead.Quarantine != "" {
		return nil
	}
	if _, err := tx.StmtContext(ctx, st.outbox).ExecContext(ctx, event(r.lead.Reference), id, r.lead.Received.UnixMilli(), r.lead.Site); err != nil {
		return fmt.Errorf("store the outbox entry: %w", err)
	}
	return nil
}

// event is the id of what is told of a lead, the same over all tries.
func event(reference string) string { return "lead.created/" + reference }

// Find returns the lead of a reference.
func (s *Store) Find(ctx context.Context, reference string) (lead.Lead, error) {
	l, err := ledger.Scan(s.read.QueryRowContext(ctx, `SELECT `+ledger.Columns+ledger.From+`WHERE l.site = ? AND l.reference = ?`, s.site, reference))
	return l, kind(err)
}

// List returns leads, those received last first.
func (s *Store) List(ctx context.Context, before string, limit int) (leads []lead.Lead, err error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+ledger.Columns+ledger.From+`WHERE l.site = ?1
  AND (?2 = '' OR (l.received, l.id) < (SELECT received, id FROM leads WHERE reference = ?2))`+ledger.Newest+` LIMIT ?3`, s.site, before, limit)
	if err != nil {
		return nil, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		l, err := ledger.Scan(rows)
		if err != nil {
			return nil, err
		}
		leads = append(leads, l)
	}
	return leads, rows.Err()
}
