package sqlite_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

// old copies a database that a released program made.
func old(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "released", name))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "leads.db")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// A database as each release left it, with three enquiries in it, comes up to
// date: nothing of them changes, what was to be told is told, what was sent is
// not sent again, and new enquiries fit in.
func TestOpen_BringsAnOlderDatabaseUpToDate(t *testing.T) {
	t.Parallel()
	untold := map[string][]string{
		"v1.db": {"FP-0000A7 mail waiting", "FP-0000A7 webhook waiting", "FP-7F3K2Q mail waiting", "FP-7F3K2Q webhook waiting",
			"FP-ZZ91C4 mail waiting", "FP-ZZ91C4 webhook waiting"},
		"v2.db": {"FP-0000A7 webhook dead", "FP-7F3K2Q mail waiting", "FP-7F3K2Q webhook waiting", "FP-ZZ91C4 mail waiting", "FP-ZZ91C4 webhook waiting"},
	}
	untold["v3.db"] = untold["v2.db"]
	for name, want := range untold {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			ctx := context.Background()
			file := old(t, name)
			for range 2 { // at once, and opened again
				s := must(t, file)
				sameAsReleased(t, s)
				if name == "v3.db" {
					handledAsReleased(t, s)
				}
				check(t, s.Spread(ctx, []string{"mail", "webhook"}, time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)))
				ds, err := s.Untold(ctx)
				check(t, err)
				var got []string
				for _, d := range ds {
					got = append(got, d.Reference+" "+d.Channel+" "+string(d.State))
				}
				if !reflect.DeepEqual(got, want) {
					t.Errorf("untold %q, want %q", got, want)
				}
				if stopped, err := s.Stopped(ctx, "webhook", "digest-of-the-target"); err != nil || stopped != (name != "v1.db") {
					t.Errorf("the channel is stopped: %v, %v", stopped, err)
				}
				check(t, s.Check(ctx))
				check(t, s.Close())
			}
			takesMore(t, file)
		})
	}
}

func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Error(err)
	}
}

// sameAsReleased holds the leads against what was put when the file was made.
func sameAsReleased(t *testing.T, s *sqlite.Store) {
	t.Helper()
	ctx := context.Background()
	found, err := s.Search(ctx, lead.Filter{Limit: 10})
	if err != nil || len(found.Cases) != 3 {
		t.Fatalf("%d cases, %v", len(found.Cases), err)
	}
	got := found.Cases[2]
	want := lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Town: "Lower Alder", Start: "next_spring", Note: "The lane is narrow.", Consent: true}
	if got.Reference != "FP-0000A7" || got.Site != lead.Main || got.Contact != want || got.Design.Name != "Alder Reach" || got.Digest != "digest-0" ||
		!got.Received.Equal(time.Date(2026, 11, 25, 9, 30, 0, 123e6, time.UTC)) || got.Quarantine != "" || got.Status != lead.StatusNew ||
		got.Consent != (lead.Consent{Text: "Fernhollow Ponds may reply to me.", Language: "en", Channel: "page"}) ||
		len(got.Client) != 1 || len(got.Differences) != 1 || got.Differences[0].Server != "53.1" || string(got.SheetJSON) != `{"figures":[]}` {
		t.Errorf("the oldest came over as %+v", got)
	}
	for text, reference := range map[string]string{"nunez": "FP-7F3K2Q", "5550100147": "FP-7F3K2Q", "weir millbrook": "FP-ZZ91C4"} {
		if found, err := s.Search(ctx, lead.Filter{Text: text, Limit: 10}); err != nil || len(found.Cases) != 1 || found.Cases[0].Reference != reference {
			t.Errorf("%q finds %d, %v; want %s", text, len(found.Cases), err, reference)
		}
	}
}

// handledAsReleased holds what the office did, what was put aside and another
// site's enquiry against what was put when the file was made.
func handledAsReleased(t *testing.T, s *sqlite.Store) {
	t.Helper()
	ctx := context.Background()
	c, err := s.Case(ctx, "FP-7F3K2Q")
	if err != nil || c.Status != lead.StatusCalled || c.Assignee != "anna@fernhollow.example" || c.Version != 2 || c.Notes != 1 {
		t.Errorf("the one called about came over as %+v, %v", c.Handling, err)
	}
	if counts, err := s.Counts(ctx); err != nil || counts.PutAside != 1 || counts.ByStatus[lead.StatusNew] != 2 || counts.ByStatus[lead.StatusCalled] != 1 {
		t.Errorf("counts %+v, %v", counts, err)
	}
	if l, err := s.At("oakhill").Find(ctx, "OH-000001"); err != nil || l.Design.Name != "Oak Hill" {
		t.Errorf("the other site's came over as %+v, %v", l, err)
	}
}

func takesMore(t *testing.T, file string) {
	t.Helper()
	ctx := context.Background()
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	if l, fresh, err := s.Put(ctx, lead.Lead{Reference: "FP-NEW", Key: "key-of-the-sender-1"}); fresh || err != nil || l.Reference != "FP-7F3K2Q" {
		t.Errorf("a repeat is %s, fresh %v, %v", l.Reference, fresh, err)
	}
	if _, fresh, err := s.At("oakhill").Put(ctx, lead.Lead{Reference: "OH-NEW", Key: "key-of-the-sender-1"}); !fresh || err != nil {
		t.Errorf("the same key in another site: fresh %v, %v", fresh, err)
	}
	check(t, s.Delete(ctx, "FP-0000A7"))
	if ds, err := s.Deliveries(ctx, "FP-7F3K2Q"); err != nil || len(ds) != 2 {
		t.Errorf("deliveries %+v, %v", ds, err)
	}
	if got, err := s.Settings(ctx); err != nil || !got.ForeignKeys {
		t.Errorf("settings after a step %+v, %v", got, err)
	}
	check(t, s.Check(ctx))
}

// Every release has its database in testdata: all steps but the newest were
// released.
func TestMigrations_EachReleaseHasItsDatabase(t *testing.T) {
	t.Parallel()
	steps, err1 := filepath.Glob("migrations/*.sql")
	files, err2 := filepath.Glob("testdata/released/v*.db")
	if err1 != nil || err2 != nil || len(files) != len(steps)-1 {
		t.Errorf("%d databases for %d steps, %v, %v", len(files), len(steps), err1, err2)
	}
}

// A released step is never edited: databases hold its text.
func TestMigrations_AreFrozen(t *testing.T) {
	t.Parallel()
	want := map[string]string{
		"0001_leads.sql":      "71c09ad599d4ea5c7de16f5bfe74cf9d2e2957b750e67053e159db69fdcd4030",
		"0002_deliveries.sql": "5c58decec4ffa2a5731d6d480254509cfe2bf32a8ff07b882828806d635a1809",
		"0003_sites.sql":      "22749fcbbe479498f3834c911f8fbcc7aa91a81c0b70176635ffd2dbb0d4e933",
		"0004_papers.sql":     "3afdddc2eafb4ea1da4ffa87158d654cf80af7b3d5d171ea8e46459c73bff37d",
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
