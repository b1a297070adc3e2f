package sqlite

import (
	"context"
	"database/sql"
	"sync"
	"sync/atomic"

	"github.com/ncruces/go-sqlite3"
)

// folder folds the log into the file, on a connection of its own, while others
// go on writing. Left to itself SQLite folds within the commit that made the
// log long, and whoever is in that commit waits for all of it.
type folder struct {
	fold folding
	mu   sync.Mutex // SQLite lets one fold at a time, and refuses the other
	at   int64      // from how many pages on the log is folded
	wake chan struct{}
	quit chan struct{}
	done chan struct{}

	pages  atomic.Int64 // in the log after the last commit
	next   atomic.Int64 // from how many on it is folded aside
	most   atomic.Int64 // from how many on who writes folds it
	nearly atomic.Bool  // little is left: who writes does the rest
	folded int64        // pages at the last pass
}

// folding folds what it can at the moment, and tells how many pages the log had
// and how many of them stand in the file now.
type folding func() (pages, folded int64, err error)

// aside folds on a connection, and waits for nobody.
func aside(db *sql.DB) folding {
	return func() (pages, folded int64, err error) {
		var busy int
		err = db.QueryRowContext(context.Background(), `PRAGMA wal_checkpoint(PASSIVE)`).Scan(&busy, &pages, &folded)
		return pages, folded, err
	}
}

// The log begins anew only when all of it is folded at a moment when nobody
// writes. While many write without a pause there is no such moment: then who
// writes folds the rest, when that is a small share of the log, or when the log
// has grown so many times too long.
const (
	smallShare = 4
	tooLong    = 4
)

func newFolder(fold folding, pages int) *folder {
	f := &folder{fold: fold, at: int64(pages), wake: make(chan struct{}, 1), quit: make(chan struct{}), done: make(chan struct{})}
	f.begun()
	go f.run()
	return f
}

// watch makes a connection that writes tell how long the log has become, in
// place of folding it.
func (f *folder) watch(c *sqlite3.Conn) error {
	c.WALHook(func(_ *sqlite3.Conn, _ string, pages int) error {
		f.grown(pages)
		return nil
	})
	return nil
}

// grown is called after each commit.
func (f *folder) grown(pages int) {
	f.pages.Store(int64(pages))
	if int64(pages) >= f.next.Load() {
		select {
		case f.wake <- struct{}{}:
		default: // it is awake
		}
	}
}

// close ends after the pass that runs.
func (f *folder) close() {
	close(f.quit)
	<-f.done
}

func (f *folder) run() {
	defer close(f.done)
	for {
		select {
		case <-f.wake:
			for again := f.pages.Load() >= f.next.Load(); again; again = f.beside() {
				select {
				case <-f.quit:
					return
				default:
				}
			}
		case <-f.quit:
			return
		}
	}
}

// begun is after all of the log was folded: it begins anew.
func (f *folder) begun() {
	f.next.Store(f.at)
	f.most.Store(tooLong * f.at)
}

// beside folds while others write, and tells whether to do so again at once.
func (f *folder) beside() (again bool) {
	left, further := f.pass()
	switch {
	case left <= 0:
		f.begun()
	case !further: // somebody reads an older state, or is in the middle of a commit
		f.next.Store(f.pages.Load() + f.at)
	case left <= f.at/smallShare:
		f.nearly.Store(true)
		f.next.Store(f.pages.Load() + f.at) // should nobody write for a time
	default:
		return true
	}
	return false
}

// relieve is called by who writes, between two transactions.
func (f *folder) relieve() {
	if !f.nearly.CompareAndSwap(true, false) && f.pages.Load() < f.most.Load() {
		return
	}
	if left, _ := f.pass(); left <= 0 {
		f.begun()
		return
	}
	// Nobody writes, so somebody reads an older state.
	f.most.Store(f.pages.Load() + tooLong*f.at)
}

// pass folds what nobody reads an older state of, and tells how many pages are
// left and whether it came further than before. A disk that is full or gone is
// the writers' trouble: the log holds all, and is folded later.
func (f *folder) pass() (left int64, further bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	pages, folded, err := f.fold()
	if err != nil {
		return max(f.pages.Load(), 1), false
	}
	further = folded != f.folded
	// Somebody may have written since SQLite looked.
	if left = max(pages, f.pages.Load()) - folded; left <= 0 {
		folded = 0
	}
	f.folded = folded
	return left, further
}
