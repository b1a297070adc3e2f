package sqlite_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

// canary is a lead whose every text holds a mark of its own, of random size,
// so that it lies in every way that rows lie on pages.
func canary(n int, rng *rand.Rand) lead.Lead {
	mark := fmt.Sprintf("Canary%04dX", n)
	fill := strings.Repeat("y", rng.IntN(400))
	return lead.Lead{
		Reference: fmt.Sprintf("AR-%06d", n), Key: mark + "-key-of-the-sender", Digest: "digest-" + mark, MadeAt: mark,
		Received: time.Date(2026, 11, 25, 0, 0, n, 0, time.UTC),
		Contact:  lead.Contact{Name: mark, Email: mark + "@oakesmail.example", Phone: "555 010 0147", Town: mark, Note: mark + fill, Consent: true},
		Consent:  lead.Consent{Text: mark + " agrees", Language: "en", Channel: "page"}, Design: design.Design{Version: 1, Name: mark},
		SheetJSON: []byte(`"` + mark + strings.Repeat("m", rng.IntN(9000)) + mark + `"`), Book: mark,
		Client: []lead.Figure{{ID: mark, Value: "1"}}, Differences: []lead.Difference{{ID: mark}},
	}
}

// left lists the marks that stand in any file beside the database, by their
// number; the search text has them in small letters.
func left(t *testing.T, dir string, numbers []int) (marks []string) {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		data = bytes.ToLower(data)
		for _, n := range numbers {
			for _, mark := range []string{fmt.Sprintf("canary%04dx", n), fmt.Sprintf("ar-%06d", n)} {
				if c := bytes.Count(data, []byte(mark)); c > 0 {
					marks = append(marks, fmt.Sprintf("%s: %s %d times", f.Name(), mark, c))
				}
			}
		}
	}
	return marks
}

// A deleted lead leaves no byte in the files, however the rows lie, while the
// server goes on and others read; the rest stays whole.
func TestDelete_LeavesNoByte(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	rng := rand.New(rand.NewPCG(20261128, 1))
	dir := t.TempDir()
	s := must(t, filepath.Join(dir, "leads.db"))
	t.Cleanup(func() { _ = s.Close() })
	const leads = 160
	numbers := rng.Perm(leads)
	for n := range leads {
		if _, _, err := s.Put(ctx, canary(n, rng)); err != nil {
			t.Fatal(err)
		}
		reference := fmt.Sprintf("AR-%06d", n)
		check(t, s.AddNote(ctx, reference, lead.Note{At: time.Unix(1, 0), Author: "lena", Text: fmt.Sprintf("Canary%04dX says", n)}))
		check(t, s.Assign(ctx, lead.Touch{Reference: reference, At: time.Unix(1, 0)}, fmt.Sprintf("Canary%04dX", n)))
	}
	check(t, s.Spread(ctx, []string{"mail"}, time.Unix(2, 0)))
	if marks := left(t, dir, numbers); len(marks) < leads {
		t.Fatalf("only %d marks are in the files before anything is deleted", len(marks))
	}
	gone := numbers[:leads/2]
	for i, n := range gone {
		check(t, s.Delete(ctx, fmt.Sprintf("AR-%06d", n)))
		if i%20 == 0 || i == len(gone)-1 {
			if marks := left(t, dir, gone[:i+1]); len(marks) > 0 {
				t.Fatalf("after %d deletions there are %d marks: %s …", i+1, len(marks), marks[0])
			}
		}
	}
	check(t, s.Check(ctx))
	if rest, err := s.List(ctx, "", 1000); err != nil || len(rest) != leads/2 {
		t.Errorf("%d leads are left, %v", len(rest), err)
	}
	if n, err := s.PurgeBefore(ctx, time.Now().AddDate(10, 0, 0)); err != nil || n != leads/2 {
		t.Errorf("%d purged, %v", n, err)
	}
	if marks := left(t, dir, numbers); len(marks) > 0 {
		t.Errorf("after a purge there are %d marks: %s …", len(marks), marks[0])
	}
}

// Somebody reads an older state for ever: the caller hears that bytes are left,
// and the next deletion takes them too.
func TestDelete_SaysWhenAReaderHoldsTheLog(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	rng := rand.New(rand.NewPCG(20261128, 2))
	dir := t.TempDir()
	file := filepath.Join(dir, "leads.db")
	s, err := sqlite.Open(ctx, file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	for n := range 2 {
		if _, _, err := s.Put(ctx, canary(n, rng)); err != nil {
			t.Fatal(err)
		}
	}
	db := raw(t, file)
	conn, err := db.Conn(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var n int
	for _, sql := range []string{`BEGIN DEFERRED`, `SELECT count(*) FROM leads`} {
		if err := conn.QueryRowContext(ctx, sql).Scan(&n); err != nil && !strings.HasPrefix(sql, "BEGIN") {
			t.Fatal(err)
		}
	}
	if err := s.Delete(ctx, "AR-000000"); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("delete beside a reader: %v, want busy", err)
	}
	if _, err := s.Find(ctx, "AR-000000"); !errors.Is(err, lead.ErrNotFound) {
		t.Errorf("it is not deleted: %v", err)
	}
	if _, err := conn.ExecContext(ctx, `COMMIT`); err != nil {
		t.Fatal(err)
	}
	check(t, conn.Close())
	check(t, s.Delete(ctx, "AR-000001"))
	if marks := left(t, dir, []int{0, 1}); len(marks) > 0 {
		t.Errorf("%d marks are left: %s …", len(marks), marks[0])
	}
}
