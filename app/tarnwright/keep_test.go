package main

import (
	"context"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

// putAged stores an enquiry that came in so many months ago, a day more or less.
func putAged(t *testing.T, s lead.Store, reference string, months, days int) {
	t.Helper()
	l := lead.Lead{Reference: reference, Key: "key-of-" + reference, Received: time.Now().UTC().AddDate(0, -months, days), Contact: lead.Contact{Name: "Maren Oakes"}}
	if _, _, err := s.Put(context.Background(), l); err != nil {
		t.Fatal(err)
	}
}

// The demo keeps enquiries for 24 months: a server that starts deletes what is
// older, names nobody in its log, and the command does the same.
func TestPurge_DeletesWhatTheBuilderNoLongerKeeps(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	data := t.TempDir()
	s, err := sqlite.Open(ctx, filepath.Join(data, "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	putAged(t, s, "FP-OLD", 24, -1)
	putAged(t, s, "FP-YOUNG", 24, 1)
	log := hear()
	stop := startPurge(ctx, s, book.Demo(), slog.New(slog.NewJSONHandler(log, nil)))
	eventually(t, "the purge", func() bool {
		all, err := s.List(ctx, "", 10)
		return err == nil && len(all) == 1 && all[0].Reference == "FP-YOUNG"
	})
	stop()
	if text := log.String(); !strings.Contains(text, `"deleted":1`) || strings.Contains(text, "Maren") || strings.Contains(text, "FP-") {
		t.Errorf("the log says %s", text)
	}
	putAged(t, s, "FP-OLDER", 30, 0)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if code, out, errs := call("purge", "-data", data); code != 0 || !strings.HasPrefix(out, "1 enquiries from before ") {
		t.Errorf("purge: %d %s %s", code, out, errs)
	}
	if _, list, _ := call("leads", "-data", data); !strings.Contains(list, "FP-YOUNG") || strings.Contains(list, "FP-OLD") {
		t.Errorf("left are\n%s", list)
	}
}

// A builder who says nothing has them kept for 24 months.
func TestKeptSince_IsTwoYearsUnlessTheBookSays(t *testing.T) {
	t.Parallel()
	now := time.Date(2026, 11, 28, 12, 0, 0, 0, time.UTC)
	b := book.Demo()
	for months, want := range map[int]time.Time{0: now.AddDate(-2, 0, 0), 6: now.AddDate(0, -6, 0), 60: now.AddDate(-5, 0, 0)} {
		b.Builder.RetentionMonths = months
		if got := keptSince(b, now); !got.Equal(want) {
			t.Errorf("%d months keep from %s, want %s", months, got, want)
		}
	}
}

// The list says how far the office is, and why one was put aside.
func TestLeads_SayWhatBecameOfThem(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	data := t.TempDir()
	s, err := sqlite.Open(ctx, filepath.Join(data, "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	putAged(t, s, "FP-ONE", 0, -2)
	if _, _, err := s.Put(ctx, lead.Lead{Reference: "FP-TWO", Key: "key-of-FP-TWO", Received: time.Now().UTC(), Quarantine: "trap, links"}); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Put(ctx, lead.Lead{Reference: "FP-TRI", Key: "key-of-FP-TRI", Received: time.Now().UTC().AddDate(0, 0, -3), Quarantine: "links"}); err != nil {
		t.Fatal(err)
	}
	if err := s.Release(ctx, lead.Touch{Reference: "FP-TRI", At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	if err := s.SetStatus(ctx, lead.Touch{Reference: "FP-ONE", At: time.Now()}, lead.StatusVisited); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	_, list, _ := call("leads", "-data", data)
	lines := strings.Split(list, "\n")
	if len(lines) != 5 || !strings.Contains(lines[1], "FP-TWO") || !strings.Contains(lines[1], "new") || !strings.Contains(lines[1], "put aside: trap, links") ||
		!strings.Contains(lines[2], "FP-ONE") || !strings.Contains(lines[2], "visited") || strings.Contains(lines[3], "put aside") {
		t.Errorf("the list:\n%s", list)
	}
}
