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

const columns = `l.reference, l.key, l.digest, l.received, l.made_at, l.name, l.email, l.phone, l.town, l.start, l.note,
 l.design, l.sheet, l.core_version, l.book, l.client, l.differences, c.text, c.language, c.channel`

const from = ` FROM leads l JOIN consents c ON c.lead_id = l.id `

// Put stores a lead, its consent and its outbox entry together, once a key.
func (s *Store) Put(ctx context.Context, l lead.Lead) (lead.Lead, bool, error) {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return lead.Lead{}, false, kind(err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	id, fresh, err := insert(ctx, tx, l)
	if err != nil {
		return lead.Lead{}, false, kind(err)
	}
	if !fresh {
		old, err := scan(tx.QueryRowContext(ctx, `SELECT `+columns+from+`WHERE l.key = ?`, l.Key))
		return old, false, kind(err)
	}
	if err := attach(ctx, tx, id, l); err != nil {
		return lead.Lead{}, false, kind(err)
	}
	if err := tx.Commit(); err != nil {
		return lead.Lead{}, false, kind(err)
	}
	return l, true, nil
}

func insert(ctx context.Context, tx *sql.Tx, l lead.Lead) (id int64, fresh bool, err error) {
	design, err1 := json.Marshal(l.Design)
	client, err2 := json.Marshal(l.Client)
	differences, err3 := json.Marshal(l.Differences)
	if err := errors.Join(err1, err2, err3); err != nil {
		return 0, false, err
	}
	c := l.Contact
	res, err := tx.ExecContext(ctx, `INSERT INTO leads (reference, key, digest, received, made_at,
  name, email, phone, town, start, note, design, sheet, core_version, book, client, differences)
 VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?) ON CONFLICT (key) DO NOTHING`,
		l.Reference, l.Key, l.Digest, l.Received.UnixMilli(), l.MadeAt,
		c.Name, c.Email, c.Phone, c.Town, c.Start, c.Note,
		string(design), string(l.SheetJSON), l.CoreVersion, l.Book, string(client), string(differences))
	if errors.Is(err, sqlite3.CONSTRAINT_UNIQUE) {
		return 0, false, lead.ErrReferenceTaken // the key cannot conflict
	}
	if err != nil {
		return 0, false, err
	}
	n, err := res.RowsAffected()
	if err != nil || n == 0 {
		return 0, false, err
	}
	id, err = res.LastInsertId()
	return id, true, err
}

// attach stores what belongs to a lead: the consent, and the entry that tells
// the office about it.
func attach(ctx context.Context, tx *sql.Tx, id int64, l lead.Lead) error {
	at := l.Received.UnixMilli()
	if _, err := tx.ExecContext(ctx, `INSERT INTO consents (lead_id, text, digest, language, channel, given) VALUES (?,?,?,?,?,?)`,
		id, l.Consent.Text, l.Consent.Digest(), l.Consent.Language, l.Consent.Channel, at); err != nil {
		return fmt.Errorf("store the consent: %w", err)
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO outbox (id, lead_id, kind, due) VALUES (?,?,'lead.created',?)`,
		"lead.created/"+l.Reference, id, at); err != nil {
		return fmt.Errorf("store the outbox entry: %w", err)
	}
	return nil
}

// Find returns the lead of a reference.
func (s *Store) Find(ctx context.Context, reference string) (lead.Lead, error) {
	l, err := scan(s.read.QueryRowContext(ctx, `SELECT `+columns+from+`WHERE l.reference = ?`, reference))
	return l, kind(err)
}

// List returns leads in the order they were stored, newest first.
func (s *Store) List(ctx context.Context, before string, limit int) (leads []lead.Lead, err error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+columns+from+
		`WHERE ?1 = '' OR l.id < (SELECT id FROM leads WHERE reference = ?1) ORDER BY l.id DESC LIMIT ?2`, before, limit)
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

func scan(row scanner) (lead.Lead, error) {
	var (
		l                           lead.Lead
		received                    int64
		design, client, differences string
		sheet                       string
	)
	c := &l.Contact
	err := row.Scan(&l.Reference, &l.Key, &l.Digest, &received, &l.MadeAt, &c.Name, &c.Email, &c.Phone, &c.Town, &c.Start, &c.Note,
		&design, &sheet, &l.CoreVersion, &l.Book, &client, &differences, &l.Consent.Text, &l.Consent.Language, &l.Consent.Channel)
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
