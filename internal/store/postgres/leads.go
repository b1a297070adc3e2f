package postgres

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"tarnwright/internal/lead"
)

const columns = `l.site, l.reference, l.key, l.digest, l.received, l.made_at, l.quarantine, l.name, l.email, l.phone, l.town, l.start, l.note,
 l.design, l.sheet, l.core_version, l.book, l.client, l.differences, c.text, c.language, c.channel`

const from = ` FROM leads l JOIN consents c ON c.lead_id = l.id `

// newest is the order of every list.
const newest = ` ORDER BY l.received DESC, l.id DESC`

// insert is one statement, and so one transaction and one way to the server
// and back; when the key stands already it gives no row.
const insert = `WITH added AS (
 INSERT INTO leads (site, reference, key, digest, received, made_at, quarantine, name, email, phone, town, start, note,
   search, design, sheet, core_version, book, client, differences)
  VALUES ($1,$2,$3,$4,$5,$6,$7,$8,$9,$10,$11,$12,$13,$14,$15,$16,$17,$18,$19,$20) ON CONFLICT (site, key) DO NOTHING
  RETURNING id, site, reference, received, quarantine),
agreed AS (INSERT INTO consents (lead_id, text, digest, language, channel, given) SELECT id, $21, $22, $23, $24, received FROM added),
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
		old, err := scan(s.pool.QueryRow(ctx, `SELECT `+columns+from+`WHERE l.site = $1 AND l.key = $2`, s.site, l.Key))
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
	design, err1 := json.Marshal(l.Design)
	client, err2 := json.Marshal(l.Client)
	differences, err3 := json.Marshal(l.Differences)
	c := l.Contact
	return []any{
		l.Site, l.Reference, l.Key, l.Digest, l.Received.UnixMilli(), l.MadeAt, l.Quarantine,
		c.Name, c.Email, c.Phone, c.Town, c.Start, c.Note, lead.SearchText(*l),
		string(design), string(l.SheetJSON), l.CoreVersion, l.Book, string(client), string(differences),
		l.Consent.Text, l.Consent.Digest(), l.Consent.Language, l.Consent.Channel,
	}, errors.Join(err1, err2, err3)
}

// Find returns the lead of a reference.
func (s *Store) Find(ctx context.Context, reference string) (lead.Lead, error) {
	l, err := scan(s.pool.QueryRow(ctx, `SELECT `+columns+from+`WHERE l.site = $1 AND l.reference = $2`, s.site, reference))
	return l, kind(err)
}

// List returns leads, those received last first.
func (s *Store) List(ctx context.Context, before string, limit int) ([]lead.Lead, error) {
	rows, err := s.pool.Query(ctx, `SELECT `+columns+from+`WHERE l.site = $1
  AND ($2 = '' OR (l.received, l.id) < (SELECT received, id FROM leads WHERE reference = $2))`+newest+` LIMIT $3`, s.site, before, limit)
	return collect(rows, err, func(row pgx.CollectableRow) (lead.Lead, error) { return scan(row) })
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

// scan reads the columns of a lead, and into more what follows them.
func scan(row pgx.Row, more ...any) (lead.Lead, error) {
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
