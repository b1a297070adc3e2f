package postgres_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/cluster"
	"tarnwright/internal/store/postgres"
	"tarnwright/internal/store/storetest"
)

// server is one for all tests of this package; each has a room of its own.
var server *cluster.Server

func TestMain(m *testing.M) { os.Exit(withServer(m)) }

func withServer(m *testing.M) int {
	var err error
	// What reaches the disk is the server's own business, and not tried here.
	if server, err = cluster.Start(context.Background(), "fsync=off"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	code := m.Run()
	if err := server.Stop(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return code
}

func room(t *testing.T) string {
	t.Helper()
	address, err := server.Empty(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return address
}

func must(t *testing.T, address string) *postgres.Store {
	t.Helper()
	s, err := postgres.Open(context.Background(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func fresh(t *testing.T) *postgres.Store { t.Helper(); return must(t, room(t)) }

func TestStore_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.Run(t, func(t *testing.T) (lead.Store, func() lead.Store) {
		t.Helper()
		address := room(t)
		s := must(t, address)
		return s, func() lead.Store {
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			s = must(t, address)
			return s
		}
	})
}

func TestOutbox_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.RunOutbox(t, func(t *testing.T) storetest.Both { t.Helper(); return fresh(t) })
}

func TestOffice_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.RunOffice(t, func(t *testing.T) (one, other storetest.Whole) {
		t.Helper()
		s := fresh(t)
		return s, s.At("oakhill")
	})
}

// A commit waits for the disk though the database was set up not to.
func TestOpen_WaitsForTheDisk(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	if err := server.Exec(ctx, "pond", `ALTER DATABASE pond SET synchronous_commit = off`); err != nil {
		t.Fatal(err)
	}
	c, err := pgx.Connect(ctx, room(t))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = c.Close(ctx) }()
	var bare string
	if err := c.QueryRow(ctx, `SHOW synchronous_commit`).Scan(&bare); err != nil || bare != "off" {
		t.Fatalf("the database itself has synchronous_commit=%s, %v; the test needs off", bare, err)
	}
	got, err := fresh(t).Synchronous(ctx)
	if err != nil || got != "on" {
		t.Errorf("the store works with synchronous_commit=%s, %v; want on", got, err)
	}
}

// Several servers start at once on an empty database: one makes the tables.
func TestOpen_LetsOneServerMakeTheTables(t *testing.T) {
	t.Parallel()
	address := room(t)
	const servers = 5
	errs := make(chan error, servers)
	for range servers {
		go func() {
			s, err := postgres.Open(context.Background(), address)
			if err == nil {
				err = s.Close()
			}
			errs <- err
		}()
	}
	for range servers {
		if err := <-errs; err != nil {
			t.Error(err)
		}
	}
}

func TestOpen_RefusesAForeignDatabase(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	for _, c := range []struct{ why, sql string }{
		{"a newer program has been at it", `INSERT INTO migrations VALUES (99, '0099_future.sql', 'x')`},
		{"a step was edited", `UPDATE migrations SET text = text || ' '`},
	} {
		address := room(t)
		must(t, address)
		conn, err := pgx.Connect(ctx, address)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := conn.Exec(ctx, c.sql); err != nil {
			t.Fatal(err)
		}
		_ = conn.Close(ctx)
		if _, err := postgres.Open(ctx, address); !errors.Is(err, postgres.ErrSchema) {
			t.Errorf("%s: %v", c.why, err)
		}
	}
	const secret = "hunter-of-newts"
	if _, err := postgres.Open(ctx, "postgres://pond:"+secret+"@/%zz"); err == nil || strings.Contains(err.Error(), secret) {
		t.Errorf("a wrong address gives %v", err)
	}
}

// A text of PostgreSQL holds no NUL; one that a program sends is taken off, and
// the lead is stored.
func TestPut_TakesATextWithNUL(t *testing.T) {
	t.Parallel()
	s := fresh(t)
	l, _, err := s.Put(context.Background(), lead.Lead{Reference: "AR-1", Key: "key", MadeAt: "a\x00b", Consent: lead.Consent{Text: "y\x00es", Channel: "\x00"}})
	if err != nil || l.MadeAt != "ab" {
		t.Fatalf("%+v, %v", l, err)
	}
	got, err := s.Find(context.Background(), "AR-1")
	if err != nil || got.MadeAt != "ab" || got.Consent.Text != "yes" {
		t.Errorf("found %+v, %v", got, err)
	}
}

// The server is gone: the store says that it is busy, and does not hang.
func TestPut_IsBusyWithoutAServer(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	own, err := cluster.Start(ctx)
	if err != nil {
		t.Fatal(err)
	}
	address, err := own.Empty(ctx)
	if err != nil {
		t.Fatal(err)
	}
	s := must(t, address)
	if err := own.Stop(); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(ctx, 5*time.Second)
	defer cancel()
	for range 3 {
		if _, _, err := s.Put(ctx, lead.Lead{Reference: "AR-1", Key: "first"}); !errors.Is(err, lead.ErrBusy) {
			t.Errorf("put = %v, want busy", err)
		}
	}
	if err := s.Ready(ctx); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("ready = %v, want busy", err)
	}
}
