// Package sqlite keeps leads in one file beside the program, so that a builder
// needs no database server. Every lead is on the disk before it is answered.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/driver"

	"tarnwright/internal/account"
	"tarnwright/internal/lead"
)

// Store is what one site keeps in an SQLite file.
type Store struct {
	*database
	site string
}

// database is the file, which several sites share.
type database struct {
	// One connection writes, so that writers queue in the program and not on
	// the file's lock; readers do not wait for it.
	write, read *sql.DB
	aside       *sql.DB // folds the log
	putting     *group
	folding     *folder // nil when SQLite folds by itself
}

var (
	_ lead.Store    = (*Store)(nil)
	_ lead.Outbox   = (*Store)(nil)
	_ lead.Inbox    = (*Store)(nil)
	_ account.Store = (*Store)(nil)
)

// pragmas are set on every connection. FULL makes a commit wait for the disk:
// with NORMAL, a power cut loses the last answered leads. A deleted lead is
// overwritten with zeros, and the file is not trusted to bring code along. The
// log grows to 32 MB before it is folded in, so that this is seldom.
// An enquiry is some 50 kB: in pages of 16 kB, which a file has from its start
// or never, it is a quarter of the calls to the system that pages of 4 kB take.
// What undoes a savepoint stays in memory and not in a file.
func pragmas() []string {
	return []string{
		"busy_timeout(" + busyMs + ")", "page_size(16384)", "journal_mode(WAL)", "synchronous(FULL)", "temp_store(MEMORY)", "foreign_keys(ON)",
		"secure_delete(ON)", "trusted_schema(OFF)", "wal_autocheckpoint(" + strconv.Itoa(foldPages) + ")", "journal_size_limit(67108864)",
	}
}

// foldPages is from how many pages on the log is folded into the file.
const foldPages = 2000

// busyMs is how long a connection waits for another program's lock.
const busyMs = "5000"

const readers = 4

// ground is what a store stands on: the file layer by its name, the machine's
// own when empty, and what is set on every connection.
type ground struct {
	layer   string
	pragmas []string
	fold    int // from how many pages on a folder folds the log; 0 leaves it to SQLite
}

// Open opens the database in a file, makes it when there is none, and brings
// its tables up to date. What it returns keeps the site lead.Main.
func Open(ctx context.Context, file string) (*Store, error) {
	return open(ctx, file, ground{pragmas: pragmas(), fold: foldPages})
}

func open(ctx context.Context, file string, on ground) (*Store, error) {
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return nil, fmt.Errorf("make the data folder: %w", err)
	}
	if err := private(file); err != nil {
		return nil, err
	}
	d := &database{}
	if err := d.open(ctx, file, on); err != nil {
		return nil, errors.Join(fmt.Errorf("open %s: %w", file, err), d.close())
	}
	return &Store{d, lead.Main}, nil
}

func (d *database) open(ctx context.Context, file string, on ground) (err error) {
	var watch []func(*sqlite3.Conn) error
	if on.fold > 0 {
		if d.aside, err = connect(file, "deferred", on); err != nil {
			return err
		}
		d.aside.SetMaxOpenConns(1)
		d.folding = newFolder(aside(d.aside), on.fold)
		watch = append(watch, d.folding.watch)
	}
	if d.write, err = connect(file, "immediate", on, watch...); err != nil {
		return err
	}
	d.write.SetMaxOpenConns(1)
	if err := migrate(ctx, d.write); err != nil {
		return fmt.Errorf("bring it up to date: %w", err)
	}
	if d.read, err = connect(file, "deferred", on); err != nil {
		return err
	}
	d.read.SetMaxOpenConns(readers)
	d.putting, err = newGroup(ctx, d.write, d.folding)
	return err
}

// At is the store of another site in the same file; closing one closes all.
func (s *Store) At(site string) *Store { return &Store{s.database, site} }

// private makes the file readable by its owner only, before anything is in it.
func private(file string) error {
	f, err := os.OpenFile(file, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return fmt.Errorf("make the database: %w", err)
	}
	return f.Close()
}

func connect(file, lock string, on ground, started ...func(*sqlite3.Conn) error) (*sql.DB, error) {
	abs, err := filepath.Abs(file)
	if err != nil {
		return nil, err
	}
	q := url.Values{"_txlock": {lock}, "_pragma": on.pragmas}
	if on.layer != "" {
		q.Set("vfs", on.layer)
	}
	name := url.URL{Scheme: "file", Path: filepath.ToSlash(abs), RawQuery: q.Encode()}
	// A file address without an authority has one slash or three, never two.
	return driver.Open(strings.Replace(name.String(), "file:///", "file:/", 1), started...)
}

// Close lets what is being put end and closes both pools; the last connection
// folds the log into the file.
func (s *Store) Close() error { return s.close() }

// close closes what is open.
func (d *database) close() error {
	var errs []error
	if d.putting != nil {
		errs = append(errs, d.putting.close())
	}
	if d.folding != nil {
		d.folding.close()
	}
	for _, db := range []*sql.DB{d.aside, d.read, d.write} {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	return errors.Join(errs...)
}

// Ready takes the write lock and gives it back.
func (s *Store) Ready(ctx context.Context) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return kind(err)
	}
	return tx.Rollback()
}

// ErrDamaged says that what is in a database does not hang together.
var ErrDamaged = errors.New("the database is damaged")

// Check reads the whole database and returns ErrDamaged, with what SQLite
// found, when a table, an index or a reference is not right.
func (s *Store) Check(ctx context.Context) error { return sound(ctx, s.read) }

func sound(ctx context.Context, db *sql.DB) error {
	var found string
	if err := db.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&found); err != nil {
		return fmt.Errorf("check the database: %w", err)
	}
	if found != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, found)
	}
	var orphans int
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM pragma_foreign_key_check`).Scan(&orphans); err != nil {
		return fmt.Errorf("check the database: %w", err)
	}
	if orphans > 0 {
		return fmt.Errorf("%w: %d rows belong to nothing", ErrDamaged, orphans)
	}
	return nil
}

// Settings are what a connection works under, as the database itself reports.
type Settings struct {
	Journal      string
	Synchronous  int // 2 is FULL
	ForeignKeys  bool
	SecureDelete bool
	BusyMs       int
}

// Settings asks the writing connection.
func (s *Store) Settings(ctx context.Context) (Settings, error) {
	var got Settings
	for _, p := range []struct {
		name string
		into any
	}{
		{"journal_mode", &got.Journal}, {"synchronous", &got.Synchronous}, {"foreign_keys", &got.ForeignKeys},
		{"secure_delete", &got.SecureDelete}, {"busy_timeout", &got.BusyMs},
	} {
		if err := s.write.QueryRowContext(ctx, "PRAGMA "+p.name).Scan(p.into); err != nil {
			return Settings{}, kind(err)
		}
	}
	return got, nil
}

// kind turns what the driver says, by its codes, into what the lead package
// knows.
func kind(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, sql.ErrNoRows):
		return lead.ErrNotFound
	// A write that failed is nearly always a full disk, which the driver tells
	// apart only in part; nothing was stored, and the same key may come again.
	case errors.Is(err, sqlite3.BUSY), errors.Is(err, sqlite3.LOCKED), errors.Is(err, sqlite3.FULL), errors.Is(err, sqlite3.IOERR_WRITE),
		errors.Is(err, sqlite3.INTERRUPT), errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return fmt.Errorf("%w: %w", lead.ErrBusy, err)
	}
	return err
}
