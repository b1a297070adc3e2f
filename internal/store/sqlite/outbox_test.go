package sqlite_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/store/storetest"
)

func TestOutbox_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.RunOutbox(t, func(t *testing.T) storetest.Both {
		t.Helper()
		s := must(t, filepath.Join(t.TempDir(), "leads.db"))
		t.Cleanup(func() { _ = s.Close() })
		return s
	})
}

// A database as the first release left it, with an enquiry in it, comes up to
// date: nothing of it changes, and what was to be told is told.
func TestOpen_BringsAnOlderDatabaseUpToDate(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("migrations/0001_leads.sql")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "leads.db")
	db := raw(t, file)
	for _, step := range []struct {
		sql  string
		args []any
	}{
		{sql: `PRAGMA journal_mode=WAL`},
		{sql: `CREATE TABLE migrations (position INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL) STRICT`},
		{sql: string(text)},
		{sql: `INSERT INTO migrations VALUES (0, '0001_leads.sql', ?)`, args: []any{string(text)}},
		{sql: `INSERT INTO leads VALUES (7, 'AR-7F3K2Q', 'key-of-the-sender', 'digest', 1795599000123, '', 'Maren Oakes', 'maren@oakesmail.example', '', '', '', '',
 '{"version":1,"name":"Alder Reach"}', '{}', 1, 'demo/1', 'null', 'null')`},
		{sql: `INSERT INTO consents VALUES (7, 'yes', 'd', 'en', 'page', 1795599000123)`},
		{sql: `INSERT INTO outbox (id, lead_id, kind, due) VALUES ('lead.created/AR-7F3K2Q', 7, 'lead.created', 1795599000123)`},
	} {
		if _, err := db.Exec(step.sql, step.args...); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	for _, when := range []string{"at once", "opened again"} {
		s, err := sqlite.Open(ctx, file)
		if err != nil {
			t.Fatalf("%s: %v", when, err)
		}
		l, err := s.Find(ctx, "AR-7F3K2Q")
		if err != nil || l.Contact.Name != "Maren Oakes" || l.Design.Name != "Alder Reach" || l.Consent.Text != "yes" {
			t.Errorf("%s found %+v, %v", when, l, err)
		}
		if err := s.Spread(ctx, []string{"mail"}, time.UnixMilli(1795599999000)); err != nil {
			t.Error(err)
		}
		got, err := s.Untold(ctx)
		if err != nil || len(got) != 1 || got[0].Reference != "AR-7F3K2Q" || got[0].State != lead.Waiting {
			t.Errorf("%s untold %+v, %v", when, got, err)
		}
		if err := s.Check(ctx); err != nil {
			t.Error(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// A released step is never edited: databases hold its text.
func TestMigrations_AreFrozen(t *testing.T) {
	t.Parallel()
	want := map[string]string{
		"0001_leads.sql":      "71c09ad599d4ea5c7de16f5bfe74cf9d2e2957b750e67053e159db69fdcd4030",
		"0002_deliveries.sql": "5c58decec4ffa2a5731d6d480254509cfe2bf32a8ff07b882828806d635a1809",
		"0003_sites.sql":      "22749fcbbe479498f3834c911f8fbcc7aa91a81c0b70176635ffd2dbb0d4e933",
	}
	files, err := filepath.Glob("migrations/*.sql")
	if err != nil || len(files) != len(want) {
		t.Fatalf("%d steps, want %d, %v", len(files), len(want), err)
	}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprintf("%x", sha256.Sum256(text)); got != want[filepath.Base(f)] {
			t.Errorf("%s is %s, was released as %s", f, got, want[filepath.Base(f)])
		}
	}
}
