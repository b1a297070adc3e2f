package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/ncruces/go-sqlite3"

	"tarnwright/internal/lead"
)

const columns = `l.site, l.reference, l.key, l.digest, l.received, l.made_at, l.quarantine, l.name, l.email, l.phone, l.town, l.start, l.note,
 l.design, l.sheet, l.core_version, l.book, l.client, l.differences, c.text, c.language, c.channel`

const from = ` FROM leads l JOIN consents c ON c.lead_id = l.id `

// newest is the order of every list.
const newest = ` ORDER BY l.received DESC, l.id DESC`

// Put stores a lead, its consent and its outbox entry together, once a key.
func (s *Store) Put(ctx context.Context, l lead.Lead) (lead.Lead, bool, error) {
	l.Site = s.site
	r, err := rowsOf(l)
	if err != nil {
		return lead.Lead{}, false, err
	}
	return s.putting.put(ctx, r)
}

// rows are a lead as the tables take it, but for the number that it gets.
type rows struct {
	lead            lead.Lead
	insert, consent []any
}

// rowsOf is made by each sender, so that the one who writes only writes.
func rowsOf(l lead.Lead) (*rows, error) {
	design, err1 := json.Marshal(l.Design)
	client, err2 := json.Marshal(l.Client)
	differences, err3 := json.Marshal(l.Differences)
	if err := errors.Join(err1, err2, err3); err != nil {
		return nil, fmt.Errorf("write the lead %s: %w", l.Reference, err)
	}
	c := l.Contact
	return &rows{
		lead: l,
		insert: []any{
			l.Site, l.Reference, l.Key, l.Digest, l.Received.UnixMilli(), l.MadeAt, l.Quarantine,
			c.Name, c.Email, c.Phone, c.Town, c.Start, c.Note, lead.SearchText(l),
			string(design), string(l.SheetJSON), l.CoreVersion, l.Book, string(client), string(differences),
		},
		consent: []any{l.Consent.Text, l.Consent.Digest(), l.Consent.Language, l.Consent.Channel, l.Received.UnixMilli()},
	}, nil
}

// statements are what every put runs, read by the database once.
type statements struct{ insert, consent, outbox, old, save, release, undo *sql.Stmt }

func (st *statements) prepare(ctx context.Context, db *sql.DB) error {
	for _, p := range []struct {
		into **sql.Stmt
		text string
	}{
		{&st.insert, `INSERT INTO leads (site, reference, key, digest, received, made_at, quarantine, name, email, phone, town, start, note,
  search, design, sheet, core_version, book, client, differences)
 VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?) ON CONFLICT (site, key) DO NOTHING`},
		{&st.consent, `INSERT INTO consents (lead_id, text, digest, language, channel, given) VALUES (?,?,?,?,?,?)`},
		{&st.outbox, `INSERT INTO outbox (id, lead_id, kind, due, site) VALUES (?,?,'lead.created',?,?)`},
		{&st.old, `SELECT ` + columns + from + `WHERE l.site = ? AND l.key = ?`},
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
	for _, s := range []*sql.Stmt{st.insert, st.consent, st.outbox, st.old, st.save, st.release, st.undo} {
		if s != nil {
			errs = append(errs, s.Close())
		}
	}
	return errors.Join(errs...)
}

// one stores one lead in a transaction that may hold others, and returns the
// lead that stands under its key.
func (st *statements) one(ctx context.Context, tx *sql.Tx, r *rows) (lead.Lead, bool, error) {
	res, err := tx.StmtContext(ctx, st.insert).ExecContext(ctx, r.insert...)
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
		old, err := scan(tx.StmtContext(ctx, st.old).QueryRowContext(ctx, r.lead.Site, r.lead.Key))
		return old, false, err
	}
	id, err := res.LastInsertId()
	if err != nil {
		return lead.Lead{}, false, err
	}
	return r.lead, true, st.attach(ctx, tx, id, r)
}

// attach stores what belongs to a lead: the consent, and the entry that tells
// the office about it.
func (st *statements) attach(ctx context.Context, tx *sql.Tx, id int64, r *rows) error {
	if _, err := tx.StmtContext(ctx, st.consent).ExecContext(ctx, append([]any{id}, r.consent...)...); err != nil {
		return fmt.Errorf("store the consent: %w", err)
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
	l, err := scan(s.read.QueryRowContext(ctx, `SELECT `+columns+from+`WHERE l.site = ? AND l.reference = ?`, s.site, reference))
	return l, kind(err)
}

// List returns leads, those received last first.
func (s *Store) List(ctx context.Context, before string, limit int) (leads []lead.Lead, err error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+columns+from+`WHERE l.site = ?1
  AND (?2 = '' OR (l.received, l.id) < (SELECT received, id FROM leads WHERE reference = ?2))`+newest+` LIMIT ?3`, s.site, before, limit)
	if err != nil {
		return nil, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		l, err := scan(rows)
		if err != nil {
			return nil, err
		}
		leads = append(leads, l)
	}
	return leads, rows.Err()
}

type scanner interface{ Scan(...any) error }

// scan reads the columns of a lead, and into more what follows them.
func scan(row scanner, more ...any) (lead.Lead, error) {
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
