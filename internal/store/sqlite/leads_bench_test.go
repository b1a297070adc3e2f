package sqlite_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/store/storetest"
	"tarnwright/internal/wire"
)

var (
	stored = flag.Int("stored", 1_000_000, "how many leads stand already in the large database of the bench")
	span   = flag.Duration("span", 3*time.Second, "how long each load of the bench takes")
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

// bareInserts is the floor: the same rows, one lead after the other, each in a
// transaction of its own that waits for the disk, without the store's groups.
func bareInserts(b *testing.B, like lead.Lead, settings ...string) storetest.Load {
	b.Helper()
	file := filepath.Join(b.TempDir(), "leads.db")
	s, err := sqlite.OpenUnder(context.Background(), file, "", settings...)
	if err != nil {
		b.Fatal(err)
	}
	bare, err := s.Bare(context.Background(), like)
	if err != nil {
		b.Fatal(err)
	}
	got, err := storetest.Drive(1, *span, func(_, n int) error { return bare(n) })
	if err != nil {
		b.Fatal(err)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return got
}

// appends is what the disk itself does: the same bytes at the end of a file,
// and a wait for it.
func appends(b *testing.B, size int) storetest.Load {
	b.Helper()
	f, err := os.Create(filepath.Join(b.TempDir(), "bytes"))
	if err != nil {
		b.Fatal(err)
	}
	data := make([]byte, size)
	got, err := storetest.Drive(1, *span, func(int, int) error {
		if _, err := f.Write(data); err != nil {
			return err
		}
		return f.Sync()
	})
	if err != nil {
		b.Fatal(err)
	}
	_ = f.Close()
	return got
}

// BenchmarkLeads prints how many leads are durable in a second, beside the bare
// loop that puts the same rows one at a time: by clients, and with many leads
// stored already.
func BenchmarkLeads(b *testing.B) {
	ctx := context.Background()
	like := enquiry(b)
	const plain = "wal_autocheckpoint(1000)"
	before, tuned := bareInserts(b, like, plain).PerSecond, bareInserts(b, like).PerSecond
	disk := appends(b, len(like.SheetJSON)).PerSecond
	s, err := sqlite.Open(ctx, filepath.Join(b.TempDir(), "leads.db"))
	if err != nil {
		b.Fatal(err)
	}
	var loads []storetest.Load
	for _, clients := range []int{1, 4, 16, 64, 256} {
		l, err := storetest.PutLoad(ctx, s, fmt.Sprintf("C%d", clients), clients, *span, like)
		if err != nil {
			b.Fatal(err)
		}
		loads = append(loads, l)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	after := bareInserts(b, like, plain).PerSecond
	floor := max(before, after, tuned)
	fmt.Printf("leads  floor, bare loop of SQLite with a wait for each: %.0f /s before, %.0f /s after, %.0f /s with the store's settings; the highest counts\n", before, after, tuned)
	fmt.Printf("leads  a file with %d bytes appended and synced: %.0f /s\n", len(like.SheetJSON), disk)
	for _, l := range loads {
		fmt.Println("leads  " + l.Row("SQLite, empty at first", floor))
	}
	large(b, floor, like)
}

// large does the same with many leads stored, and looks things up among them.
func large(b *testing.B, floor float64, like lead.Lead) {
	b.Helper()
	ctx := context.Background()
	file := filepath.Join("..", "..", "..", ".build", "bench", fmt.Sprintf("stored-%d.db", *stored))
	for _, end := range []string{"", "-wal", "-shm"} {
		_ = os.Remove(file + end)
	}
	begin := time.Now()
	s, err := sqlite.OpenUnder(ctx, file, "", "synchronous(OFF)")
	if err != nil {
		b.Fatal(err)
	}
	if err := s.Fill(ctx, *stored); err != nil {
		b.Fatal(err)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	fmt.Printf("leads  %d leads stored in %s\n", *stored, time.Since(begin).Round(time.Second))
	if s, err = sqlite.Open(ctx, file); err != nil {
		b.Fatal(err)
	}
	defer func() {
		_ = s.Close()
		_ = os.Remove(file)
	}()
	for _, clients := range []int{1, 64, 256} {
		l, err := storetest.PutLoad(ctx, s, fmt.Sprintf("C%d", clients), clients, *span, like)
		if err != nil {
			b.Fatal(err)
		}
		fmt.Println("leads  " + l.Row(fmt.Sprintf("SQLite, %d stored", *stored), floor))
	}
	for _, line := range storetest.LookUps(ctx, s) {
		fmt.Println("leads  SQLite, " + line)
	}
}
