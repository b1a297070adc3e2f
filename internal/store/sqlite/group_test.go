package sqlite_test

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3/vfs"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

// crowd puts so many leads at the same time, and holds the writing lock until
// all of them wait.
func crowd(t *testing.T, s *sqlite.Store, file string, leads []lead.Lead) (got []lead.Lead, fresh []bool, errs []error) {
	t.Helper()
	ctx := context.Background()
	db := raw(t, file)
	tx, err := db.Begin() // immediate: takes the write lock
	if err != nil {
		t.Fatal(err)
	}
	got, fresh, errs = make([]lead.Lead, len(leads)), make([]bool, len(leads)), make([]error, len(leads))
	var wg sync.WaitGroup
	for i, l := range leads {
		wg.Go(func() { got[i], fresh[i], errs[i] = s.Put(ctx, l) })
	}
	for end := time.Now().Add(3 * time.Second); s.Queued() < len(leads)-1 && time.Now().Before(end); {
		time.Sleep(time.Millisecond)
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	wg.Wait()
	return got, fresh, errs
}

func some(n int) []lead.Lead {
	out := make([]lead.Lead, n)
	for i := range out {
		key := fmt.Sprintf("%06d", i)
		out[i] = lead.Lead{Reference: "AR-" + key, Key: key, Consent: lead.Consent{Text: "yes"}}
	}
	return out
}

// Those who come together wait for the disk once.
func TestPut_SharesTheWaitForTheDisk(t *testing.T) {
	t.Parallel()
	// While one group waits, the next one gathers. A log that is never folded
	// has no other waits.
	disk := slowDisk{VFS: vfs.Find(""), wait: 5 * time.Millisecond, syncs: new(atomic.Int64)}
	vfs.Register("counted", disk)
	t.Cleanup(func() { vfs.Unregister("counted") })
	s, err := sqlite.OpenFolding(context.Background(), filepath.Join(t.TempDir(), "leads.db"), "counted", 1_000_000)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	const senders, each = 64, 20
	before := disk.syncs.Load()
	var wg sync.WaitGroup
	for c := range senders {
		wg.Go(func() {
			for n := range each {
				key := fmt.Sprintf("%03d%03d", c, n)
				if _, fresh, err := s.Put(context.Background(), lead.Lead{Reference: "AR-" + key, Key: key}); err != nil || !fresh {
					t.Errorf("%s: fresh %v, %v", key, fresh, err)
				}
			}
		})
	}
	wg.Wait()
	syncs := disk.syncs.Load() - before
	t.Logf("%d leads in %d waits for the disk", senders*each, syncs)
	if syncs == 0 || syncs > senders*each/3 {
		t.Errorf("%d leads took %d waits for the disk, want fewer than a third", senders*each, syncs)
	}
}

// In one transaction, each sender gets an answer of its own: one that is
// refused, one that is a repeat and one that breaks harm no other.
func TestPut_OneThatFailsHarmsNoOther(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	file := filepath.Join(t.TempDir(), "leads.db")
	s := must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	put(t, s, "taken")
	db := raw(t, file)
	if _, err := db.Exec(`CREATE TRIGGER no_outbox BEFORE INSERT ON outbox WHEN new.id LIKE '%BROKEN' BEGIN SELECT raise(ABORT, 'no'); END`); err != nil {
		t.Fatal(err)
	}
	leads := some(40)
	leads[7].Reference = "AR-taken"   // somebody else's
	leads[13].Reference = "AR-BROKEN" // its last part fails
	leads[21].Key = leads[20].Key     // a double tap
	leads[30].Key = "taken"           // a repeat
	got, fresh, errs := crowd(t, s, file, leads)
	for i, l := range leads {
		switch i {
		case 7:
			if !errors.Is(errs[i], lead.ErrReferenceTaken) {
				t.Errorf("the taken reference: %v", errs[i])
			}
		case 13:
			if errs[i] == nil {
				t.Error("the one that breaks was stored")
			}
			if _, err := s.Find(ctx, "AR-BROKEN"); !errors.Is(err, lead.ErrNotFound) {
				t.Errorf("a part of the one that breaks stands: %v", err)
			}
		case 20, 21:
			if errs[i] != nil || got[20].Reference != got[21].Reference || fresh[20] == fresh[21] {
				t.Errorf("the double tap: %s and %s, fresh %v and %v, %v", got[20].Reference, got[21].Reference, fresh[20], fresh[21], errs[i])
			}
		case 30:
			if errs[i] != nil || fresh[i] || got[i].Reference != "AR-taken" {
				t.Errorf("the repeat: %s, fresh %v, %v", got[i].Reference, fresh[i], errs[i])
			}
		default:
			if errs[i] != nil || !fresh[i] || got[i].Reference != l.Reference {
				t.Errorf("%s: %s, fresh %v, %v", l.Key, got[i].Reference, fresh[i], errs[i])
			}
		}
	}
	if all, err := s.List(ctx, "", 1000); err != nil || len(all) != 1+40-4 {
		t.Errorf("%d leads stand, %v; want %d", len(all), err, 37)
	}
	check(t, s.Check(ctx))
}

// A store that closes serves who waits, and refuses who comes later.
func TestClose_ServesWhoWaits(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	file := filepath.Join(t.TempDir(), "leads.db")
	s := must(t, file)
	answered := make(chan string, 64)
	var wg sync.WaitGroup
	for _, l := range some(64) {
		wg.Go(func() {
			switch _, _, err := s.Put(ctx, l); {
			case err == nil:
				answered <- l.Reference
			case !errors.Is(err, lead.ErrBusy):
				t.Errorf("while it closes: %v", err)
			}
		})
	}
	check(t, s.Close())
	wg.Wait()
	close(answered)
	if _, _, err := s.Put(ctx, lead.Lead{Reference: "AR-LATE", Key: "late"}); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("after it closed: %v, want busy", err)
	}
	s = must(t, file)
	t.Cleanup(func() { _ = s.Close() })
	for reference := range answered {
		if _, err := s.Find(ctx, reference); err != nil {
			t.Errorf("%s was answered and is gone: %v", reference, err)
		}
	}
}
