package postgres_test

import (
	"context"
	"flag"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/cluster"
	"tarnwright/internal/store/postgres"
	"tarnwright/internal/store/storetest"
	"tarnwright/internal/wire"
)

var (
	stored = flag.Int("stored", 1_000_000, "how many leads stand already in the large database of the bench")
	span   = flag.Duration("span", 3*time.Second, "how long each load of the bench takes")
)

// BenchmarkLeads is the table of the embedded database, for PostgreSQL with its
// own settings on the same disk. The floor is a lone client that waits for each.
func BenchmarkLeads(b *testing.B) {
	ctx := context.Background()
	own, err := cluster.Start(ctx) // unlike the tests' one, it waits for the disk
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = own.Stop() })
	address, err := own.Empty(ctx)
	if err != nil {
		b.Fatal(err)
	}
	s, err := postgres.Open(ctx, address+"&pool_max_conns=32")
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = s.Close() })
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	sheet := core.Compute(d, book.Demo())
	raw, err := wire.SheetJSON(sheet, "", nil)
	if err != nil {
		b.Fatal(err)
	}
	like := lead.Lead{Digest: "digest", Received: time.Now().UTC().Truncate(time.Millisecond), Contact: lead.Contact{Name: "Maren Oakes", Consent: true},
		Consent: lead.Consent{Text: "Fernhollow Ponds may reply to me.", Language: "en", Channel: "page"}, Design: d,
		SheetJSON: raw, CoreVersion: sheet.CoreVersion, Book: sheet.Book, Client: lead.FiguresOf(sheet)}
	floor := 0.0
	for _, clients := range []int{1, 4, 16, 64, 256} {
		l, err := storetest.PutLoad(ctx, s, fmt.Sprintf("C%d", clients), clients, *span, like)
		if err != nil {
			b.Fatal(err)
		}
		if clients == 1 {
			floor = l.PerSecond
		}
		fmt.Println("leads  " + l.Row("PostgreSQL, empty at first", floor))
	}
	begin := time.Now()
	fill(b, address, like)
	fmt.Printf("leads  %d leads stored in PostgreSQL in %s\n", *stored, time.Since(begin).Round(time.Second))
	for _, clients := range []int{1, 64, 256} {
		l, err := storetest.PutLoad(ctx, s, fmt.Sprintf("L%d", clients), clients, *span, like)
		if err != nil {
			b.Fatal(err)
		}
		fmt.Println("leads  " + l.Row(fmt.Sprintf("PostgreSQL, %d stored", *stored), floor))
	}
	for _, line := range storetest.LookUps(ctx, s) {
		fmt.Println("leads  PostgreSQL, " + line)
	}
}

// fill stores many leads at once, with keys and references in no order and
// small sheets.
func fill(b *testing.B, address string, like lead.Lead) {
	b.Helper()
	ctx := context.Background()
	c, err := pgx.Connect(ctx, address)
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = c.Close(ctx) }()
	for _, sql := range []string{
		`INSERT INTO leads (site, reference, key, digest, received, made_at, quarantine, name, email, phone, town, start, note, search, core_version, book)
 SELECT 'main', 'FP-' || (n * 7368787 % 33554393), md5(n::text), 'digest', 1700000000000 + n * 1000, '', '', 'Person ' || n, 'person' || n || '@oakesmail.example',
  '', 'Lower Alder', '', '', 'fp person ' || n || ' person' || n || '@oakesmail.example lower alder', 1, 'filled/1'
  FROM generate_series(1::bigint, COUNT) n`,
		`INSERT INTO consents SELECT id, 'Fernhollow Ponds may reply to me.', 'd', 'en', 'page', received FROM leads WHERE book = 'filled/1'`,
		`INSERT INTO papers SELECT id, '{}', '{}', 'null', 'null' FROM leads WHERE book = 'filled/1'`,
		`INSERT INTO outbox (id, site, lead_id, kind, due, done) SELECT 'lead.created/' || reference, 'main', id, 'lead.created', received, received FROM leads WHERE book = 'filled/1'`,
		`ANALYZE`,
	} {
		if _, err := c.Exec(ctx, strings.ReplaceAll(sql, "COUNT", fmt.Sprint(*stored))); err != nil {
			b.Fatal(err)
		}
	}
}
