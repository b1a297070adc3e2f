package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"path/filepath"
	"testing"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/seal"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/store/storetest"
)

// BenchmarkChecks prints how many ponds a second the server works out, draws
// and sends as a page without script, by clients, over real connections. The
// floor is a lone client.
func BenchmarkChecks(b *testing.B) {
	store, err := sqlite.Open(context.Background(), filepath.Join(b.TempDir(), "leads.db"))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = store.Close() })
	set := config.Defaults()
	set.TrustedProxies = []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8")}
	s, err := newServer(set, book.Demo(), seal.Key{}, store, parts{}, slog.New(slog.NewJSONHandler(io.Discard, nil)))
	if err != nil {
		b.Fatal(err)
	}
	at := httptest.NewServer(s)
	b.Cleanup(at.Close)
	http.DefaultTransport.(*http.Transport).MaxIdleConnsPerHost = 256
	const span = 3 * time.Second
	floor := 0.0
	for _, clients := range []int{1, 4, 16, 64, 256} {
		l, err := storetest.Drive(clients, span, func(client, n int) error {
			req, err := http.NewRequest(http.MethodGet, fmt.Sprintf("%s/?length=%d+ft", at.URL, 20+(client+n)%60), nil) //nolint:noctx // a bench against its own server
			if err != nil {
				return err
			}
			req.Header.Set("X-Forwarded-For", fmt.Sprintf("10.%d.%d.%d", client%250, n/200%250, n%200)) // as many visitors
			res, err := http.DefaultClient.Do(req)
			if err != nil {
				return err
			}
			defer func() { _ = res.Body.Close() }()
			if _, err := io.Copy(io.Discard, res.Body); err != nil {
				return err
			}
			if res.StatusCode != http.StatusOK {
				return fmt.Errorf("answered %s", res.Status)
			}
			return nil
		})
		if err != nil {
			b.Fatal(err)
		}
		if clients == 1 {
			floor = l.PerSecond
		}
		fmt.Println("checks " + l.Row("pages worked out and sent", floor))
	}
}
