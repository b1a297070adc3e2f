package sqlite_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
)

// paperLog is a log that a test makes long and folds.
type paperLog struct {
	mu            sync.Mutex
	pages, folded int64
	late          int64 // pages that come in while a pass goes on
	held          int64 // further than this nothing is folded; 0 for no bound
	full          error
	passes        int
	f             sqlite.Folder
}

func (l *paperLog) fold() (int64, int64, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.passes++
	if l.full != nil {
		return 0, 0, l.full
	}
	seen := l.pages
	l.folded = seen
	if l.held > 0 {
		l.folded = min(seen, l.held)
	}
	if l.late > 0 {
		l.pages += l.late
		l.f.Grown(int(l.pages))
	}
	return seen, l.folded, nil
}

// write appends as a commit does: to the start, when all is folded.
func (l *paperLog) write(pages int64) {
	l.mu.Lock()
	if l.pages == l.folded {
		l.pages, l.folded = 0, 0
	}
	l.pages += pages
	n := l.pages
	l.mu.Unlock()
	l.f.Grown(int(n))
	l.f.Relieve()
}

func (l *paperLog) now() (pages, folded int64, passes int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.pages, l.folded, l.passes
}

// until waits for what another goroutine does.
func until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if ok() {
			return
		}
	}
	t.Fatalf("%s did not happen", what)
}

func newPaperLog(t *testing.T) *paperLog {
	t.Helper()
	l := &paperLog{}
	l.f = sqlite.NewFolder(l.fold, 100)
	t.Cleanup(l.f.Close)
	return l
}

func TestFolder_FoldsAsideWhatIsLong(t *testing.T) {
	t.Parallel()
	l := newPaperLog(t)
	l.write(99)
	time.Sleep(5 * time.Millisecond) // it has nothing to wait for
	if _, _, passes := l.now(); passes != 0 {
		t.Errorf("a short log was folded %d times", passes)
	}
	l.write(1)
	until(t, "the folding", func() bool { pages, folded, _ := l.now(); return pages == folded })
	l.write(7)
	if pages, _, passes := l.now(); pages != 7 || passes != 1 {
		t.Errorf("the log has %d pages after %d passes, want to begin anew after one", pages, passes)
	}
}

func TestFolder_LetsAWriterDoTheRest(t *testing.T) {
	t.Parallel()
	l := newPaperLog(t)
	l.mu.Lock()
	l.late = 20 // others write on, whenever it folds
	l.mu.Unlock()
	l.write(120)
	until(t, "the pass aside", func() bool { _, folded, _ := l.now(); return folded == 120 })
	time.Sleep(5 * time.Millisecond)
	if pages, folded, passes := l.now(); pages != 140 || folded != 120 || passes != 1 {
		t.Fatalf("%d pages, %d folded, %d passes; want the rest left to a writer", pages, folded, passes)
	}
	l.mu.Lock()
	l.late = 0 // the next writer is the only one
	l.mu.Unlock()
	l.write(5)
	if pages, folded, passes := l.now(); pages != 145 || folded != 145 || passes != 2 {
		t.Errorf("%d pages, %d folded, %d passes; want the writer to have folded the rest", pages, folded, passes)
	}
}

func TestFolder_BearsAReaderAndAFullDisk(t *testing.T) {
	t.Parallel()
	for name, hold := range map[string]func(*paperLog){
		"a reader of an older state": func(l *paperLog) { l.held = 50 },
		"a full disk":                func(l *paperLog) { l.full = errors.New("full") },
	} {
		l := newPaperLog(t)
		l.mu.Lock()
		hold(l)
		l.mu.Unlock()
		const writes = 1000
		for range writes {
			l.write(1)
			time.Sleep(20 * time.Microsecond) // in which the folder may come round
		}
		time.Sleep(5 * time.Millisecond)
		if pages, _, passes := l.now(); pages != writes || passes == 0 || passes > 2*writes/100 {
			t.Errorf("%s: %d passes over %d pages, want a few", name, passes, pages)
		}
		l.mu.Lock()
		l.held, l.full = 0, nil
		l.mu.Unlock()
		until(t, name+": folding when it is over", func() bool { l.write(1); pages, _, _ := l.now(); return pages < writes })
	}
}

// While many write without a pause the log stays short, and all of it is in
// the file at last.
func TestFolding_KeepsTheLogShort(t *testing.T) {
	t.Parallel()
	const pageBytes, at, clients, each = 16384, 40, 4, 150
	longest := func(pages int) int64 {
		file := filepath.Join(t.TempDir(), "leads.db")
		s, err := sqlite.OpenFolding(context.Background(), file, "", pages)
		if err != nil {
			t.Fatal(err)
		}
		done, err := s.Reading(context.Background()) // a backup, for a time
		if err != nil {
			t.Fatal(err)
		}
		put := func(c, n int) {
			name := fmt.Sprintf("%d-%d", c, n)
			if _, _, err := s.Put(context.Background(), lead.Lead{Reference: "AR-" + name, Key: "key-" + name, Consent: lead.Consent{Text: "yes"},
				SheetJSON: []byte(`"` + strings.Repeat("m", 20_000) + `"`)}); err != nil {
				t.Error(err)
			}
		}
		for n := range 15 {
			put(clients, n)
		}
		if err := done(); err != nil {
			t.Error(err)
		}
		var all sync.WaitGroup
		for c := range clients {
			all.Go(func() {
				for n := range each {
					put(c, n)
				}
			})
		}
		all.Wait()
		log, err := os.Stat(file + "-wal")
		if err != nil {
			t.Fatal(err)
		}
		leads, err := s.List(context.Background(), "", 2*clients*each)
		if err := errors.Join(err, s.Check(context.Background()), s.Close()); err != nil || len(leads) != clients*each+15 {
			t.Errorf("%d leads of %d stand, %v", len(leads), clients*each+15, err)
		}
		return log.Size() / pageBytes
	}
	if got, most := longest(at), int64(10*at); got > most {
		t.Errorf("the log grew to %d pages, want at most %d", got, most)
	}
	if unfolded := longest(1_000_000); unfolded < 20*at {
		t.Errorf("left alone the log has %d pages: too few to tell", unfolded)
	}
}
