package postgres_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/postgres"
)

// asReleased is a database as a release left it: its steps ran, and there are
// enquiries in it.
func asReleased(t *testing.T, release int) (address string) {
	t.Helper()
	ctx := context.Background()
	address = room(t)
	c, err := pgx.Connect(ctx, address)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = c.Close(ctx) }()
	run := func(sql string, args ...any) {
		t.Helper()
		if _, err := c.Exec(ctx, sql, args...); err != nil {
			t.Fatal(err)
		}
	}
	run(`CREATE TABLE migrations (position INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL)`)
	for i, file := range steps(t)[:release] {
		text := read(t, file)
		run(text)
		run(`INSERT INTO migrations VALUES ($1, $2, $3)`, i, filepath.Base(file), text)
	}
	run(read(t, filepath.Join("testdata", "released", fmt.Sprintf("v%d.sql", release))))
	return address
}

func steps(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("migrations/*.sql")
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func read(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A database as each release left it comes up to date: nothing of its enquiries
// changes, what is to be told is told, and new enquiries fit in.
func TestOpen_BringsAnOlderDatabaseUpToDate(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	address := asReleased(t, 1)
	for range 2 { // at once, and opened again
		s, err := postgres.Open(ctx, address)
		if err != nil {
			t.Fatal(err)
		}
		found, err := s.Search(ctx, lead.Filter{Limit: 10})
		if err != nil || found.Total != 2 || len(found.Cases) != 2 {
			t.Fatalf("%d of %d cases, %v", len(found.Cases), found.Total, err)
		}
		newer, older := found.Cases[0], found.Cases[1]
		want := lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Town: "Lower Alder", Start: "next_spring", Note: "The lane is narrow.", Consent: true}
		if older.Reference != "FP-0000A7" || older.Contact != want || older.Design.Name != "Alder Reach" || !older.Received.Equal(time.UnixMilli(1795599000123)) ||
			older.Status != lead.StatusNew || len(older.Client) != 1 || len(older.Differences) != 1 || older.Differences[0].Server != "53.1" ||
			string(older.SheetJSON) != `{"figures":[]}` || older.Consent.Text != "Fernhollow Ponds may reply to me." {
			t.Errorf("the older came over as %+v", older)
		}
		if newer.Status != lead.StatusCalled || newer.Assignee != "anna@fernhollow.example" || newer.Version != 2 || newer.Notes != 1 {
			t.Errorf("the newer came over as %+v", newer)
		}
		if counts, err := s.Counts(ctx); err != nil || counts.PutAside != 1 || counts.ByStatus[lead.StatusNew] != 1 || counts.ByStatus[lead.StatusCalled] != 1 {
			t.Errorf("counts %+v, %v", counts, err)
		}
		if one, err := s.At("oakhill").Find(ctx, "OH-000001"); err != nil || one.Contact.Name != "Tomás Ríos" {
			t.Errorf("the other site's: %+v, %v", one, err)
		}
		if err := s.Spread(ctx, []string{"mail"}, time.UnixMilli(1795800000000)); err != nil {
			t.Error(err)
		}
		if ds, err := s.Untold(ctx); err != nil || len(ds) != 2 {
			t.Errorf("to be told: %+v, %v", ds, err)
		}
		if l, fresh, err := s.Put(ctx, lead.Lead{Reference: "FP-NEW", Key: "key-of-the-sender-1"}); fresh || err != nil || l.Reference != "FP-7F3K2Q" {
			t.Errorf("a repeat is %s, fresh %v, %v", l.Reference, fresh, err)
		}
		_ = s.Close()
	}
}

// Every release has its enquiries in testdata: all steps but the newest were
// released.
func TestMigrations_EachReleaseHasItsDatabase(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/released/v*.sql")
	if n := len(steps(t)); err != nil || len(files) != n-1 {
		t.Errorf("%d databases for %d steps, %v", len(files), n, err)
	}
}

// A released step is never edited: databases hold its text.
func TestMigrations_AreFrozen(t *testing.T) {
	t.Parallel()
	want := map[string]string{
		"0001_leads.sql":  "3226090846e126b6b05166341613c7f915559a1ee0c3eb0e8b0083adbf6b5318",
		"0002_papers.sql": "a1c063108d22806f2b2397ae5b4dde4ee3fbbbfb36eea4e2f64b3b0f4caa45db",
	}
	files := steps(t)
	if len(files) != len(want) {
		t.Fatalf("%d steps, want %d", len(files), len(want))
	}
	for _, f := range files {
		if got := fmt.Sprintf("%x", sha256.Sum256([]byte(read(t, f)))); got != want[filepath.Base(f)] {
			t.Errorf("%s is %s, was released as %s", f, got, want[filepath.Base(f)])
		}
	}
}
