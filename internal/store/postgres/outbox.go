package postgres

import (
	"context"
	"sort"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

// list is never null, which would match nothing and everything.
func list(texts []string) []string { return append([]string{}, texts...) }

// Spread makes deliveries of the events that have none. It is one statement:
// an event that comes in meanwhile is left for the next.
func (s *Store) Spread(ctx context.Context, channels []string, now time.Time) error {
	_, err := s.pool.Exec(ctx, `WITH new AS (
  SELECT id, due FROM outbox WHERE site = $1 AND done IS NULL FOR UPDATE SKIP LOCKED),
spread AS (
  INSERT INTO deliveries (site, event, channel, due)
   SELECT $1, new.id, c.name, $2 FROM new, unnest($3::text[]) WITH ORDINALITY c (name, place) ORDER BY new.due, new.id, c.place
   ON CONFLICT DO NOTHING)
UPDATE outbox SET done = $2 WHERE id IN (SELECT id FROM new)`, s.site, now.UnixMilli(), list(channels))
	return kind(err)
}

const shown = `d.id, d.event, (SELECT l.reference FROM outbox o JOIN leads l ON l.id = o.lead_id WHERE o.id = d.event),
 d.channel, d.attempts, d.due, d.state, d.last_error, d.ended`

// Take leases what is due; what another server is taking is passed over.
func (s *Store) Take(ctx context.Context, t lead.Taking) ([]lead.Delivery, error) {
	rows, err := s.pool.Query(ctx, `UPDATE deliveries d SET attempts = attempts + 1, leased = $1
 WHERE id IN (SELECT id FROM deliveries WHERE site = $2 AND state = 'waiting' AND due <= $3 AND leased <= $3 AND channel = ANY ($4)
  ORDER BY due, id LIMIT $5 FOR UPDATE SKIP LOCKED)
 RETURNING `+shown, t.Until.UnixMilli(), s.site, t.Now.UnixMilli(), list(t.Channels), t.Limit)
	got, err := collect(rows, err, delivery)
	sort.Slice(got, func(i, j int) bool { return got[i].ID < got[j].ID })
	return got, err
}

func delivery(row pgx.CollectableRow) (d lead.Delivery, err error) {
	var due int64
	var ended *int64
	err = row.Scan(&d.ID, &d.Event, &d.Reference, &d.Channel, &d.Attempts, &due, &d.State, &d.LastError, &ended)
	d.Due, d.Ended = time.UnixMilli(due).UTC(), ledger.Moment(ended)
	return d, err
}

// Settle notes how an attempt ended. The count of attempts is the mark of who
// took it last.
func (s *Store) Settle(ctx context.Context, d lead.Delivery, o lead.Outcome) error {
	due := d.Due.UnixMilli()
	var ended *int64
	if at := o.At.UnixMilli(); o.State == lead.Waiting {
		due = o.Due.UnixMilli()
	} else {
		ended = &at
	}
	_, err := s.pool.Exec(ctx, `UPDATE deliveries SET state = $1, due = $2, leased = 0, last_error = $3, ended = $4
 WHERE id = $5 AND site = $6 AND attempts = $7 AND state = 'waiting'`, string(o.State), due, o.Why, ended, d.ID, s.site, d.Attempts)
	return kind(err)
}

// NextDue is when something is due and not leased.
func (s *Store) NextDue(ctx context.Context, channels []string) (time.Time, bool, error) {
	var at *int64
	err := s.pool.QueryRow(ctx, `SELECT min(greatest(due, leased)) FROM deliveries WHERE site = $1 AND state = 'waiting' AND channel = ANY ($2)`,
		s.site, list(channels)).Scan(&at)
	return ledger.Moment(at), at != nil, kind(err)
}

// Stop keeps a channel from being used with its target.
func (s *Store) Stop(ctx context.Context, st lead.Stopping) error {
	_, err := s.pool.Exec(ctx, `INSERT INTO stopped (site, channel, target, why, at) VALUES ($1,$2,$3,$4,$5) ON CONFLICT DO NOTHING`,
		s.site, st.Channel, st.Target, st.Why, st.At.UnixMilli())
	return kind(err)
}

// Stopped tells whether a channel must not be used with its target.
func (s *Store) Stopped(ctx context.Context, channel, target string) (stopped bool, err error) {
	err = s.pool.QueryRow(ctx, `SELECT EXISTS (SELECT 1 FROM stopped WHERE site = $1 AND channel = $2 AND target = $3)`, s.site, channel, target).Scan(&stopped)
	return stopped, kind(err)
}

// Untold lists what is waiting or dead.
func (s *Store) Untold(ctx context.Context) ([]lead.Delivery, error) {
	rows, err := s.pool.Query(ctx, `SELECT `+shown+` FROM deliveries d WHERE d.site = $1 AND d.state <> 'sent' ORDER BY d.id`, s.site)
	return collect(rows, err, delivery)
}

// Again makes a lead's deliveries due once more.
func (s *Store) Again(ctx context.Context, reference string, now time.Time) (n int, err error) {
	err = s.together(ctx, func(tx pgx.Tx) error {
		res, err := tx.Exec(ctx, `UPDATE deliveries SET state = 'waiting', due = $1, leased = 0, attempts = 0, last_error = '', ended = NULL
 WHERE event IN (SELECT o.id FROM outbox o JOIN leads l ON l.id = o.lead_id WHERE l.site = $2 AND l.reference = $3)`, now.UnixMilli(), s.site, reference)
		if err != nil {
			return err
		}
		n = int(res.RowsAffected())
		_, err = tx.Exec(ctx, `DELETE FROM stopped WHERE site = $1`, s.site)
		return err
	})
	return n, err
}
