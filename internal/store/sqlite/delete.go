package sqlite

import (
	"context"
	"errors"
	"fmt"
	"time"

	"tarnwright/internal/lead"
)

// Delete takes a lead out. Its bytes are overwritten in the file (see
// pragmas), and the log, which may hold them still, is folded in and emptied.
func (s *Store) Delete(ctx context.Context, reference string) error {
	res, err := s.write.ExecContext(ctx, `DELETE FROM leads WHERE site = ? AND reference = ?`, s.site, reference)
	if err := found(res, err); err != nil {
		return err
	}
	return s.emptyLog(ctx)
}

// purgedAtOnce bounds a transaction of a purge, so that enquiries that come in
// meanwhile wait for little.
const purgedAtOnce = 200

// PurgeBefore deletes what was received before then.
func (s *Store) PurgeBefore(ctx context.Context, then time.Time) (purged int, err error) {
	for {
		res, err := s.write.ExecContext(ctx, `DELETE FROM leads WHERE id IN
 (SELECT id FROM leads WHERE site = ? AND received < ? ORDER BY received LIMIT ?)`, s.site, then.UnixMilli(), purgedAtOnce)
		if err != nil {
			return purged, kind(err)
		}
		n, err := res.RowsAffected()
		if err != nil {
			return purged, kind(err)
		}
		purged += int(n)
		if n < purgedAtOnce {
			break
		}
	}
	return purged, s.emptyLog(ctx)
}

// emptyLog folds the log into the file and cuts it to nothing. Somebody who
// reads an older state is waited for a while; then the next deletion or the
// next day's purge does it.
func (s *Store) emptyLog(ctx context.Context) error {
	const tries, pause = 15, 100 * time.Millisecond
	for range tries {
		done, err := s.cutLog(ctx)
		if err != nil || done {
			return kind(err)
		}
		select {
		case <-ctx.Done():
			return kind(ctx.Err())
		case <-time.After(pause):
		}
	}
	return fmt.Errorf("the enquiry is deleted, its bytes are in the log until readers end: %w", lead.ErrBusy)
}

// cutLog tries once, and does not let writers wait for a reader.
func (s *Store) cutLog(ctx context.Context) (done bool, err error) {
	if s.folding != nil {
		s.folding.mu.Lock()
		defer s.folding.mu.Unlock()
	}
	conn, err := s.write.Conn(ctx)
	if err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	if _, err := conn.ExecContext(ctx, `PRAGMA busy_timeout=0`); err != nil {
		return false, err
	}
	defer func() {
		_, again := conn.ExecContext(context.WithoutCancel(ctx), `PRAGMA busy_timeout=`+busyMs)
		err = errors.Join(err, again)
	}()
	var busy, frames, folded int
	err = conn.QueryRowContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`).Scan(&busy, &frames, &folded)
	return busy == 0 && err == nil, err
}
