package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"

	"tarnwright/internal/lead"
)

// group puts leads for many senders at once: while one transaction waits for
// the disk, those that come in gather for the next, and share its wait.
type group struct {
	db      *sql.DB
	folding *folder // nil when SQLite folds by itself
	st      statements
	queue   chan *seat
	quit    chan struct{}
	done    chan struct{}
	closing sync.Once
}

// seat is one sender's place in a transaction.
type seat struct {
	ctx    context.Context
	rows   *rows
	lead   lead.Lead // that stands under the key now
	fresh  bool
	err    error
	served chan struct{}
}

// mostSeats bounds one transaction, so that the last to come in does not wait
// for long.
const mostSeats = 256

func newGroup(ctx context.Context, db *sql.DB, folding *folder) (*group, error) {
	g := &group{db: db, folding: folding, queue: make(chan *seat, mostSeats), quit: make(chan struct{}), done: make(chan struct{})}
	if err := g.st.prepare(ctx, db); err != nil {
		return nil, err
	}
	go g.run()
	return g, nil
}

// close serves who waits and ends.
func (g *group) close() (err error) {
	g.closing.Do(func() {
		close(g.quit)
		<-g.done
		err = g.st.close()
	})
	return err
}

// put waits for the disk, or for the sender's patience to end. Then the lead
// may be stored or not; the key tells, when it comes again.
func (g *group) put(ctx context.Context, r *rows) (lead.Lead, bool, error) {
	if err := ctx.Err(); err != nil {
		return lead.Lead{}, false, kind(err)
	}
	s := &seat{ctx: ctx, rows: r, served: make(chan struct{})}
	select {
	case g.queue <- s:
	case <-ctx.Done():
		return lead.Lead{}, false, kind(ctx.Err())
	case <-g.quit:
		return lead.Lead{}, false, fmt.Errorf("%w: it is closing", lead.ErrBusy)
	}
	select {
	case <-s.served:
		return s.lead, s.fresh, s.err
	case <-ctx.Done():
		return lead.Lead{}, false, kind(ctx.Err())
	case <-g.done: // it may have closed between
		select {
		case <-s.served:
			return s.lead, s.fresh, s.err
		default:
			return lead.Lead{}, false, fmt.Errorf("%w: it is closing", lead.ErrBusy)
		}
	}
}

func (g *group) run() {
	defer close(g.done)
	for {
		select {
		case s := <-g.queue:
			g.serve(g.gather(s))
			continue
		default:
		}
		select {
		case s := <-g.queue:
			g.serve(g.gather(s))
		case <-g.quit:
			return
		}
	}
}

// gather takes in those who wait already.
func (g *group) gather(first *seat) []*seat {
	seats := []*seat{first}
	for len(seats) < mostSeats {
		select {
		case s := <-g.queue:
			seats = append(seats, s)
		default:
			return seats
		}
	}
	return seats
}

// serve stores the leads of all seats in one transaction. One that fails harms
// no other; when the transaction fails, all of them have.
func (g *group) serve(seats []*seat) {
	if err := g.store(seats); err != nil {
		for _, s := range seats {
			s.lead, s.fresh, s.err = lead.Lead{}, false, kind(err)
		}
	}
	for _, s := range seats {
		close(s.served)
	}
	if g.folding != nil {
		g.folding.relieve()
	}
}

// store puts all of them as they come. Only when one cannot be put, which is
// seldom, each is put behind a savepoint of its own: for a savepoint SQLite
// keeps a copy of every page that changes, and all together that took a fifth
// of a put's time.
func (g *group) store(seats []*seat) error {
	err := g.transact(seats, g.plain)
	if errors.Is(err, errOne) {
		err = g.transact(seats, g.guarded)
	}
	return err
}

// errOne says that one of a group cannot be put.
var errOne = errors.New("one of the group cannot be put")

func (g *group) transact(seats []*seat, put func(context.Context, *sql.Tx, *seat) error) error {
	// Nobody's patience ends what others wait for.
	ctx := context.Background()
	tx, err := g.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	for _, s := range seats {
		s.lead, s.fresh, s.err = lead.Lead{}, false, nil
		if err := s.ctx.Err(); err != nil {
			s.err = kind(err)
			continue
		}
		if err := put(ctx, tx, s); err != nil {
			return err
		}
	}
	return tx.Commit()
}

// plain puts one lead; what it returns ends the transaction.
func (g *group) plain(ctx context.Context, tx *sql.Tx, s *seat) (err error) {
	if s.lead, s.fresh, err = g.st.one(ctx, tx, s.rows); err != nil {
		return errors.Join(errOne, err)
	}
	return nil
}

// guarded puts one lead that harms no other when it cannot be put; what it
// returns ends the transaction.
func (g *group) guarded(ctx context.Context, tx *sql.Tx, s *seat) error {
	if _, err := tx.StmtContext(ctx, g.st.save).ExecContext(ctx); err != nil {
		return err
	}
	stored, fresh, err := g.st.one(ctx, tx, s.rows)
	if err != nil {
		if _, undone := tx.StmtContext(ctx, g.st.undo).ExecContext(ctx); undone != nil {
			return errors.Join(err, undone)
		}
		s.err = kind(err)
	} else {
		s.lead, s.fresh = stored, fresh
	}
	_, err = tx.StmtContext(ctx, g.st.release).ExecContext(ctx)
	return err
}
