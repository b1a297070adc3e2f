package sqlite_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

func listed(t *testing.T, s *sqlite.Store) map[string]lead.Lead {
	t.Helper()
	leads, err := s.List(context.Background(), "", 100_000)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]lead.Lead{}
	for _, l := range leads {
		out[l.Key] = l
	}
	return out
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// A backup made while leads come in holds every lead that was answered before
// it began, and comes back whole.
func TestBackup_ComesBackWhole(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	dir := t.TempDir()
	s := must(t, filepath.Join(dir, "data", "leads.db"))
	t.Cleanup(func() { _ = s.Close() })
	const before, during = 40, 60
	for n := range before {
		put(t, s, fmt.Sprintf("%06d", n))
	}
	var wg sync.WaitGroup
	wg.Go(func() {
		for n := range during {
			put(t, s, fmt.Sprintf("%06d", before+n))
		}
	})
	file := filepath.Join(dir, "copies", "monday.db")
	if err := os.Mkdir(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	n, err := s.Backup(ctx, file)
	wg.Wait()
	if err != nil || n < before || n > before+during {
		t.Fatalf("%d leads in the backup, %v; want %d to %d", n, err, before, before+during)
	}
	if got := names(t, filepath.Dir(file)); len(got) != 1 {
		t.Errorf("beside the backup stand %v", got)
	}
	if st, err := os.Stat(file); err != nil || st.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v; want 0600", st.Mode(), err)
	}
	if _, err := s.Backup(ctx, file); !errors.Is(err, sqlite.ErrExists) {
		t.Errorf("a backup written over another: %v", err)
	}
	back := filepath.Join(dir, "new machine", "leads.db")
	if m, err := sqlite.Restore(ctx, file, back); m != n || err != nil {
		t.Fatalf("%d leads came back, %v; want %d", m, err, n)
	}
	if got := names(t, filepath.Dir(back)); len(got) != 1 {
		t.Errorf("beside the restored database stand %v", got)
	}
	if _, err := sqlite.Restore(ctx, file, back); !errors.Is(err, sqlite.ErrExists) {
		t.Errorf("a database written over: %v", err)
	}
	r := must(t, back)
	t.Cleanup(func() { _ = r.Close() })
	was, is := listed(t, s), listed(t, r)
	if len(is) != n {
		t.Errorf("%d leads are listed, want %d", len(is), n)
	}
	for key, l := range is {
		if was[key].Reference != l.Reference {
			t.Errorf("%s came back as %+v", key, l)
		}
	}
	for n := range before {
		if key := fmt.Sprintf("%06d", n); is[key].Reference == "" {
			t.Errorf("%s did not come back", key)
		}
	}
	if l, fresh, err := r.Put(ctx, lead.Lead{Reference: "AR-NEW", Key: "000000"}); fresh || err != nil || l.Reference != "AR-000000" {
		t.Errorf("a repeat after the restore: %+v, %v, %v", l, fresh, err)
	}
	put(t, r, "999999")
}

func TestRestore_RefusesWhatIsNoBackup(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	dir := t.TempDir()
	s := must(t, filepath.Join(dir, "leads.db"))
	t.Cleanup(func() { _ = s.Close() })
	for n := range 60 {
		put(t, s, fmt.Sprintf("%06d", n))
	}
	good := filepath.Join(dir, "good.db")
	if _, err := s.Backup(ctx, good); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	hurt := bytes.Clone(whole)
	const page = 16 << 10 // a whole one, since parts of it may be unused
	for i := len(hurt) / 2; i < len(hurt)/2+page; i++ {
		hurt[i] ^= 0x5a
	}
	other := filepath.Join(dir, "other.db")
	db, err := sql.Open("sqlite3", "file:"+other)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`CREATE TABLE songs (title TEXT)`); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	foreign, err := os.ReadFile(other)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		why  string
		data []byte
	}{
		{"damaged inside", hurt}, {"cut short", whole[:len(whole)*2/3]}, {"empty", nil}, {"a letter", []byte("Dear Maren, the pond is full and the frogs are in it.")},
		{"another program's", foreign},
	} {
		bad := filepath.Join(t.TempDir(), "bad.db")
		if err := os.WriteFile(bad, c.data, 0o600); err != nil {
			t.Fatal(err)
		}
		back := filepath.Join(t.TempDir(), "data", "leads.db")
		if n, err := sqlite.Restore(ctx, bad, back); err == nil {
			t.Errorf("%s: %d leads came back", c.why, n)
		}
		if _, err := os.Stat(back); err == nil {
			t.Errorf("%s: a database was left", c.why)
		}
		if got := names(t, filepath.Dir(bad)); len(got) != 1 {
			t.Errorf("%s: beside it stand %v", c.why, got)
		}
	}
	if _, err := sqlite.Restore(ctx, filepath.Join(dir, "nowhere.db"), filepath.Join(dir, "x", "leads.db")); err == nil {
		t.Error("nothing came back as something")
	}
	stale := filepath.Join(t.TempDir(), "leads.db")
	if err := os.WriteFile(stale+"-wal", []byte("an older log"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := sqlite.Restore(ctx, good, stale); !errors.Is(err, sqlite.ErrExists) {
		t.Errorf("a restore beside an older log: %v", err)
	}
}

// A backup that is broken off leaves nothing.
func TestBackup_LeavesNoHalf(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	s := must(t, filepath.Join(dir, "leads.db"))
	t.Cleanup(func() { _ = s.Close() })
	put(t, s, "000001")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	copies := filepath.Join(dir, "copies")
	if err := os.Mkdir(copies, 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Backup(ctx, filepath.Join(copies, "x.db")); err == nil {
		t.Error("a cancelled backup was made")
	}
	if got := names(t, copies); len(got) > 0 {
		t.Errorf("a cancelled backup left %v", got)
	}
}
