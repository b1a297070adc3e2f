package main

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/post"
	"tarnwright/internal/store/sqlite"
)

// hookSecret signs in tests; it is of 24 bytes.
const hookSecret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"

// crm is a program that the office runs: it is told of each enquiry, and knows
// a repeat by its id. Every fifth time it fails.
type crm struct {
	*httptest.Server
	mu    sync.Mutex
	calls int
	told  map[string]int // by id
}

func newCRM(t *testing.T) *crm {
	t.Helper()
	c := &crm{told: map[string]int{}}
	c.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body)
		c.mu.Lock()
		defer c.mu.Unlock()
		if c.calls++; c.calls%5 == 0 {
			w.WriteHeader(http.StatusServiceUnavailable)
			return
		}
		c.told[r.Header.Get("Webhook-Id")]++
	}))
	t.Cleanup(c.Close)
	return c
}

func (c *crm) env() []string {
	return []string{"TARNWRIGHT_WEBHOOK=" + c.URL, "TARNWRIGHT_WEBHOOK_SECRET=" + hookSecret, "TARNWRIGHT_WEBHOOK_NETWORKS=127.0.0.0/8"}
}

// finish lets a worker send what the kills left, an hour later by its clock,
// and holds what was told against what is stored.
func (c *crm) finish(t *testing.T, file string, stored int) {
	t.Helper()
	ctx := context.Background()
	store, err := sqlite.Open(ctx, file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	c.finishIn(t, store, stored)
}

func (c *crm) finishIn(t *testing.T, store keeper, stored int) {
	t.Helper()
	ctx := context.Background()
	hook, err := post.NewWebhook(post.Hook{URL: c.URL, Secret: hookSecret, Networks: []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8")}})
	if err != nil {
		t.Fatal(err)
	}
	now := time.Now()
	w := post.New(post.Config{Outbox: store, Find: store.Find, Channels: []post.Channel{hook}, Now: func() time.Time { return now },
		Jitter: func() float64 { return 0 }, Log: slog.New(slog.DiscardHandler)})
	rounds := 0
	for hours := 0; hours < 30; hours++ {
		now = now.Add(time.Hour)
		for n := 1; n > 0; rounds++ {
			if n, err = w.Round(ctx); err != nil {
				t.Fatal(err)
			}
		}
	}
	untold, err := store.Untold(ctx)
	if err != nil || len(untold) > 0 {
		t.Errorf("untold %+v, %v", untold, err)
	}
	repeats := 0
	for _, n := range c.told {
		repeats += n - 1
	}
	t.Logf("%d enquiries told, %d of them more than once, in %d calls", len(c.told), repeats, c.calls)
	if len(c.told) != stored {
		t.Errorf("%d enquiries were told, %d are stored", len(c.told), stored)
	}
}
