package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// many is a list as SQLite's json_each takes it.
func many(list []string) string {
	raw, err := json.Marshal(list)
	if err != nil || list == nil {
		return "[]"
	}
	return string(raw)
}

// Spread makes deliveries of the events that have none. It looks before it
// writes, so that an idle server leaves the disk alone.
func (s *Store) Spread(ctx context.Context, channels []string, now time.Time) error {
	var some bool
	if err := s.read.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM outbox WHERE site = ? AND done IS NULL)`, s.site).Scan(&some); err != nil || !some {
		return kind(err)
	}
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return kind(err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	if _, err := tx.ExecContext(ctx, `INSERT INTO deliveries (event, channel, due, site)
 SELECT o.id, c.value, ?, o.site FROM outbox o, json_each(?) c WHERE o.site = ? AND o.done IS NULL ORDER BY o.due ON CONFLICT DO NOTHING`,
		now.UnixMilli(), many(channels), s.site); err != nil {
		return kind(err)
	}
	if _, err := tx.ExecContext(ctx, `UPDATE outbox SET done = ? WHERE site = ? AND done IS NULL`, now.UnixMilli(), s.site); err != nil {
		return kind(err)
	}
	return kind(tx.Commit())
}

const referenceOf = `(SELECT l.reference FROM outbox o JOIN leads l ON l.id = o.lead_id WHERE o.id = event)`

const shown = `id, event, ` + referenceOf + `, channel, attempts, due, state, last_error, ended`

// Take leases what is due.
func (s *Store) Take(ctx context.Context, t lead.Taking) ([]lead.Delivery, error) {
	at, ok, err := s.NextDue(ctx, t.Channels)
	if err != nil || !ok || at.After(t.Now) {
		return nil, err
	}
	return deliveries(s.write.QueryContext(ctx, `UPDATE deliveries SET attempts = attempts + 1, leased = ?1
 WHERE id IN (SELECT id FROM deliveries WHERE site = ?5 AND state = 'waiting' AND due <= ?2 AND leased <= ?2
  AND channel IN (SELECT value FROM json_each(?3)) ORDER BY due, id LIMIT ?4)
 RETURNING `+shown, t.Until.UnixMilli(), t.Now.UnixMilli(), many(t.Channels), t.Limit, s.site))
}

func deliveries(rows *sql.Rows, failed error) (out []lead.Delivery, err error) {
	if failed != nil {
		return nil, kind(failed)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		var d lead.Delivery
		var due int64
		var ended *int64
		if err := rows.Scan(&d.ID, &d.Event, &d.Reference, &d.Channel, &d.Attempts, &due, &d.State, &d.LastError, &ended); err != nil {
			return nil, err
		}
		d.Ended = ledger.Moment(ended)
		d.Due = time.UnixMilli(due).UTC()
		out = append(out, d)
	}
	return out, rows.Err()
}

// Settle notes how an attempt ended. The count of attempts is the mark of who
// took it last.
func (s *Store) Settle(ctx context.Context, d lead.Delivery, o lead.Outcome) error {
	due := d.Due.UnixMilli()
	var ended any
	if o.State == lead.Waiting {
		due = o.Due.UnixMilli()
	} else {
		ended = o.At.UnixMilli()
	}
	_, err := s.write.ExecContext(ctx, `UPDATE deliveries SET state = ?, due = ?, leased = 0, last_error = ?, ended = ?
 WHERE id = ? AND site = ? AND attempts = ? AND state = 'waiting'`, string(o.State), due, o.Why, ended, d.ID, s.site, d.Attempts)
	return kind(err)
}

// NextDue is when something is due and not leased.
func (s *Store) NextDue(ctx context.Context, channels []string) (time.Time, bool, error) {
	var at sql.NullInt64
	err := s.read.QueryRowContext(ctx, `SELECT min(max(due, leased)) FROM deliveries
 WHERE site = ? AND state = 'waiting' AND channel IN (SELECT value FROM json_each(?))`, s.site, many(channels)).Scan(&at)
	return time.UnixMilli(at.Int64).UTC(), at.Valid, kind(err)
}

// Stop keeps a channel from being used with its target.
func (s *Store) Stop(ctx context.Context, st lead.Stopping) error {
	_, err := s.write.ExecContext(ctx, `INSERT INTO stopped (site, channel, target, why, at) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
		s.site, st.Channel, st.Target, st.Why, st.At.UnixMilli())
	return kind(err)
}

// Stopped tells whether a channel must not be used with its target.
func (s *Store) Stopped(ctx context.Context, channel, target string) (stopped bool, err error) {
	err = s.read.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM stopped WHERE site = ? AND channel = ? AND target = ?)`, s.site, channel, target).Scan(&stopped)
	return stopped, kind(err)
}

// Untold lists what is waiting or dead.
func (s *Store) Untold(ctx context.Context) ([]lead.Delivery, error) {
	return deliveries(s.read.QueryContext(ctx, `SELECT `+shown+` FROM deliveries WHERE site = ? AND state <> 'sent' ORDER BY id`, s.site))
}

// Again makes a lead's deliveries due once more.
func (s *Store) Again(ctx context.Context, reference string, now time.Time) (int, error) {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return 0, kind(err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	res, err := tx.ExecContext(ctx, `UPDATE deliveries SET state = 'waiting', due = ?, leased = 0, attempts = 0, last_error = '', ended = NULL
 WHERE event IN (SELECT o.id FROM outbox o JOIN leads l ON l.id = o.lead_id WHERE l.site = ? AND l.reference = ?)`, now.UnixMilli(), s.site, reference)
	if err != nil {
		return 0, kind(err)
	}
	n, err := res.RowsAffected()
	if err != nil {
		return 0, kind(err)
	}
	if _, err := tx.ExecContext(ctx, `DELETE FROM stopped WHERE site = ?`, s.site); err != nil {
		return 0, kind(err)
	}
	return int(n), kind(tx.Commit())
}
