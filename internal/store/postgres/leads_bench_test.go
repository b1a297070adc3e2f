package postgres_test

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/cluster"
	"tarnwright/internal/store/ledger"
	"tarnwright/internal/store/postgres"
	"tarnwright/internal/store/storetest"
	"tarnwright/internal/wire"
)

var (
	stored = flag.Int("stored", 100_000, "up to how many leads the bench fills a database")
	span   = flag.Duration("span", 600*time.Millisecond, "how long each turn of a round takes")
)

// BenchmarkLeads is the table of the embedded database, for PostgreSQL with its
// own settings on the same disk.
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
	floors := []storetest.Turn{bare(b, address, like)}
	turns := floors
	for _, n := range []int{1, 4, 16, 64, 256} {
		turns = append(turns, storetest.Puts(ctx, "PostgreSQL, empty at first", fmt.Sprintf("C%d", n), n, s, like))
	}
	const rounds = 5
	loads, err := storetest.Rounds(rounds, *span, turns)
	if err != nil {
		b.Fatal(err)
	}
	floor := loads[0].PerSecond
	for i, l := range loads {
		fmt.Println("leads  " + l.Row(turns[i].Name, floor))
	}
	g := storetest.Growing{Name: "PostgreSQL", Store: s, Like: like, Fill: func(first, last int, heavy bool) error {
		return fill(ctx, address, first, last, like, heavy)
	}}
	if err := g.Grow(ctx, *stored, *span, floor); err != nil {
		b.Fatal(err)
	}
}

// bare is the floor: the same rows, one lead after the other on one connection,
// each committed before the next.
func bare(b *testing.B, address string, like lead.Lead) storetest.Turn {
	b.Helper()
	ctx := context.Background()
	c, err := pgx.Connect(ctx, address)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = c.Close(ctx) })
	like.Site = lead.Main
	r, err := ledger.RowsOf(like)
	if err != nil {
		b.Fatal(err)
	}
	args := slices.Concat(r.Lead, r.Consent, r.Papers)
	return storetest.Turn{Name: "PostgreSQL, bare loop", Clients: 1, One: func(_, n int) error {
		args[1], args[2] = fmt.Sprintf("B-%d", n), fmt.Sprintf("key-of-the-sender-B-%d", n)
		var id int64
		return c.QueryRow(ctx, postgres.Insert, args...).Scan(&id)
	}}
}

// fill stores many leads at once, with keys and references in no order, and
// with the papers of one like them or with hardly any.
func fill(ctx context.Context, address string, first, last int, like lead.Lead, heavy bool) error {
	papers := []any{"{}", "{}", "null", "null"}
	if heavy {
		r, err := ledger.RowsOf(like)
		if err != nil {
			return err
		}
		papers = r.Papers
	}
	c, err := pgx.Connect(ctx, address)
	if err != nil {
		return err
	}
	defer func() { _ = c.Close(ctx) }()
	for _, step := range []struct {
		sql  string
		args []any
	}{
		{`INSERT INTO leads (` + ledger.LeadColumns + `)
 SELECT 'main', 'FP-' || (n * 7368787 % 33554393), md5(n::text), 'digest', 1700000000000 + n * 1000, '', '', 'Person ' || n, 'person' || n || '@oakesmail.example',
  '', 'Lower Alder', '', '', 'fp person ' || n || ' person' || n || '@oakesmail.example lower alder', 1, 'filled/1' FROM generate_series($1::bigint, $2) n`, []any{first + 1, last}},
		{`INSERT INTO consents SELECT id, 'Fernhollow Ponds may reply to me.', 'd', 'en', 'page', received FROM leads WHERE book = 'filled/1' ON CONFLICT DO NOTHING`, nil},
		{`INSERT INTO papers SELECT id, $1, $2, $3, $4 FROM leads l WHERE book = 'filled/1' AND NOT EXISTS (SELECT 1 FROM papers p WHERE p.lead_id = l.id)`, papers},
		{`INSERT INTO outbox (id, site, lead_id, kind, due, done) SELECT 'lead.created/' || reference, 'main', id, 'lead.created', received, received
  FROM leads WHERE book = 'filled/1' ON CONFLICT DO NOTHING`, nil},
		{`VACUUM ANALYZE`, nil},
	} {
		if _, err := c.Exec(ctx, step.sql, step.args...); err != nil {
			return err
		}
	}
	return nil
}
