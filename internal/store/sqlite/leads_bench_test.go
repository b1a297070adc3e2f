package sqlite_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3/vfs"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/store/storetest"
	"tarnwright/internal/wire"
)

var (
	stored = flag.Int("stored", 100_000, "up to how many leads the bench fills a database")
	span   = flag.Duration("span", 600*time.Millisecond, "how long each turn of a round takes")
)

// enquiry is a lead as the demo's page sends it.
func enquiry(b *testing.B) lead.Lead {
	b.Helper()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	s := core.Compute(d, book.Demo())
	raw, err := wire.SheetJSON(s, "", nil)
	if err != nil {
		b.Fatal(err)
	}
	return lead.Lead{Digest: "digest", Received: time.Now().UTC().Truncate(time.Millisecond),
		Contact: lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Town: "Lower Alder", Note: "The lane is narrow.", Consent: true},
		Consent: lead.Consent{Text: "Fernhollow Ponds may reply to me.", Language: "en", Channel: "page"}, Design: d,
		SheetJSON: raw, CoreVersion: s.CoreVersion, Book: s.Book, Client: lead.FiguresOf(s)}
}

// bare is the floor: the same rows, one lead after the other, each in a
// transaction of its own that waits for the disk, without the store's groups.
func bare(b *testing.B, name, layer string, like lead.Lead, settings ...string) storetest.Turn {
	b.Helper()
	s, err := sqlite.OpenFolding(context.Background(), filepath.Join(b.TempDir(), "leads.db"), layer, 0, settings...)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = s.Close() })
	put, err := s.Bare(context.Background(), like)
	if err != nil {
		b.Fatal(err)
	}
	return storetest.Turn{Name: name, Clients: 1, One: func(_, n int) error { return put(n) }}
}

// appends is what the disk itself does: the same bytes at the end of a file,
// and a wait for it.
func appends(b *testing.B, size int) storetest.Turn {
	b.Helper()
	f, err := os.Create(filepath.Join(b.TempDir(), "bytes"))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = f.Close() })
	data := make([]byte, size)
	return storetest.Turn{Name: fmt.Sprintf("a file, %d bytes appended and synced", size), Clients: 1, One: func(int, int) error {
		if _, err := f.Write(data); err != nil {
			return err
		}
		return f.Sync()
	}}
}

// puts are turns of a store of its own by many clients.
func puts(b *testing.B, name, layer string, like lead.Lead, clients ...int) (turns []storetest.Turn) {
	b.Helper()
	s, err := sqlite.OpenUnder(context.Background(), filepath.Join(b.TempDir(), "leads.db"), layer)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = s.Close() })
	for _, n := range clients {
		turns = append(turns, storetest.Puts(context.Background(), name, fmt.Sprintf("C%d", n), n, s, like))
	}
	return turns
}

// BenchmarkLeads prints how many leads are durable in a second, beside the bare
// loop that puts the same rows one at a time: by clients, on this disk and on
// one whose sync takes two milliseconds more, and with many leads stored.
func BenchmarkLeads(b *testing.B) {
	like := enquiry(b)
	slow := slowDisk{VFS: vfs.Find(""), wait: 2 * time.Millisecond}
	vfs.Register("slow", slow)
	b.Cleanup(func() { vfs.Unregister("slow") })
	floors := []storetest.Turn{
		bare(b, "SQLite, bare loop", "", like),
		// What SQLite does when nobody sets anything but durability.
		bare(b, "SQLite, bare loop, pages of 4 kB", "", like, "page_size(4096)", "wal_autocheckpoint(1000)"),
	}
	turns := append(append(floors, appends(b, len(like.SheetJSON))), puts(b, "SQLite, empty at first", "", like, 1, 4, 16, 64, 256)...)
	table(b, turns, len(floors))
	floors = []storetest.Turn{bare(b, "SQLite, sync 2 ms longer, bare loop", "slow", like)}
	table(b, append(floors, puts(b, "SQLite, sync 2 ms longer", "slow", like, 1, 4, 16, 64, 256)...), len(floors))
	large(b, like)
}

// table runs turns, prints them and returns the floor: the best of the first
// few.
func table(b *testing.B, turns []storetest.Turn, floors int) (floor float64) {
	b.Helper()
	loads, err := storetest.Rounds(rounds, *span, turns)
	if err != nil {
		b.Fatal(err)
	}
	for _, l := range loads[:floors] {
		floor = max(floor, l.PerSecond)
	}
	for i, l := range loads {
		fmt.Println("leads  " + l.Row(turns[i].Name, floor))
	}
	return floor
}

const rounds = 5

// large fills a database and looks things up in it.
func large(b *testing.B, like lead.Lead) {
	b.Helper()
	ctx := context.Background()
	file := filepath.Join(b.TempDir(), "leads.db")
	s, err := sqlite.Open(ctx, file)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = s.Close() })
	floor := table(b, []storetest.Turn{bare(b, "SQLite, bare loop again", "", like)}, 1)
	g := storetest.Growing{Name: "SQLite", Store: s, Like: like, Fill: func(first, last int, heavy bool) error {
		fast, err := sqlite.OpenUnder(ctx, file, "", "synchronous(OFF)")
		if err != nil {
			return err
		}
		return errors.Join(fast.Fill(ctx, first, last, like, heavy), fast.Close())
	}}
	if err := g.Grow(ctx, *stored, *span, floor); err != nil {
		b.Fatal(err)
	}
}
