package sqlite_test

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/store/storetest"
)

func open(t *testing.T) (lead.Store, func() lead.Store) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "a folder with spaces & %", "leads.db")
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	return s, func() lead.Store {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		s = must(t, file)
		return s
	}
}

func must(t *testing.T, file string) *sqlite.Store {
	t.Helper()
	s, err := sqlite.Open(context.Background(), file)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestStore_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.Run(t, open)
}

func raw(t *testing.T, file string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	return db
}

func put(t *testing.T, s *sqlite.Store, key string) {
	t.Helper()
	if _, _, err := s.Put(context.Background(), lead.Lead{Reference: "AR-" + key, Key: key, Consent: lead.Consent{Text: "yes"}}); err != nil {
		t.Fatal(err)
	}
}

// A lead, its consent and its outbox entry stand or fall together.
func TestPut_IsOneTransaction(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "leads.db")
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	put(t, s, "first")
	db := raw(t, file)
	counts := func() (leads, consents, outbox int) {
		row := db.QueryRow(`SELECT (SELECT count(*) FROM leads), (SELECT count(*) FROM consents), (SELECT count(*) FROM outbox)`)
		if err := row.Scan(&leads, &consents, &outbox); err != nil {
			t.Fatal(err)
		}
		return leads, consents, outbox
	}
	if l, c, o := counts(); l != 1 || c != 1 || o != 1 {
		t.Fatalf("%d leads, %d consents, %d outbox entries; want one of each", l, c, o)
	}
	// Make the last of the three inserts fail.
	if _, err := db.Exec(`CREATE TRIGGER no_outbox BEFORE INSERT ON outbox BEGIN SELECT raise(ABORT, 'no'); END`); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Put(context.Background(), lead.Lead{Reference: "AR-2", Key: "second"}); err == nil {
		t.Fatal("the lead was stored without its outbox entry")
	}
	if l, c, o := counts(); l != 1 || c != 1 || o != 1 {
		t.Errorf("%d leads, %d consents, %d outbox entries after a failure; want one of each", l, c, o)
	}
}

func TestOpen_WaitsForTheDiskAndKeepsOthersOut(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "leads.db")
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	got, err := s.Settings(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	want := sqlite.Settings{Journal: "wal", Synchronous: 2, ForeignKeys: true, SecureDelete: true, BusyMs: 5000}
	if got != want {
		t.Errorf("settings %+v, want %+v (synchronous 2 is FULL)", got, want)
	}
	st, err := os.Stat(file)
	if err != nil || st.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v; want 0600", st.Mode(), err)
	}
}

func TestOpen_RefusesAForeignDatabase(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, sql string }{
		{"a newer program has been at it", `INSERT INTO migrations VALUES (99, '0099_future.sql', 'x')`},
		{"a step was edited", `UPDATE migrations SET text = text || ' '`},
	} {
		file := filepath.Join(t.TempDir(), "leads.db")
		if err := must(t, file).Close(); err != nil {
			t.Fatal(err)
		}
		db := raw(t, file)
		if _, err := db.Exec(c.sql); err != nil {
			t.Fatal(err)
		}
		if _, err := sqlite.Open(context.Background(), file); !errors.Is(err, sqlite.ErrSchema) {
			t.Errorf("%s: %v", c.why, err)
		}
	}
	file := filepath.Join(t.TempDir(), "not.db")
	if err := os.WriteFile(file, []byte("this is a letter to a friend, and longer than a header would be, by far"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := sqlite.Open(context.Background(), file); err == nil {
		t.Error("a letter was opened as a database")
	}
}

// Another program holds the lock: the store says that it is busy, and does
// not hang.
func TestPut_IsBusyWhileAnotherProgramWrites(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "leads.db")
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	db := raw(t, file)
	tx, err := db.Begin() // immediate: takes the write lock
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 100e6)
	defer cancel()
	if err := s.Ready(ctx); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("ready = %v, want busy", err)
	}
	if _, _, err := s.Put(ctx, lead.Lead{Reference: "AR-1", Key: "first"}); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("put = %v, want busy", err)
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	put(t, s, "first")
}

func TestOffice_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.RunOffice(t, func(t *testing.T) (one, other storetest.Whole) {
		t.Helper()
		s := must(t, filepath.Join(t.TempDir(), "leads.db"))
		t.Cleanup(func() { _ = s.Close() })
		return s, s.At("oakhill")
	})
}
