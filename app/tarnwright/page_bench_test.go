package main

import (
	"context"
	"io"
	"log/slog"
	"net/http/httptest"
	"path/filepath"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/seal"
	"tarnwright/internal/store/sqlite"
)

// BenchmarkPage is one whole answer to GET /: read the address, work the pond
// out, draw it, write it.
func BenchmarkPage(b *testing.B) {
	store, err := sqlite.Open(context.Background(), filepath.Join(b.TempDir(), "leads.db"))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = store.Close() })
	s, err := newServer(config.Defaults(), book.Demo(), seal.Key{}, store, parts{}, slog.New(slog.NewJSONHandler(io.Discard, nil)))
	if err != nil {
		b.Fatal(err)
	}
	bytes := 0
	for b.Loop() {
		w := httptest.NewRecorder()
		req := httptest.NewRequest("GET", "/?length=36+ft", nil)
		req.RemoteAddr = "192.0.2.1:1"
		s.ServeHTTP(w, req)
		bytes = w.Body.Len()
	}
	b.ReportMetric(float64(bytes), "bytes")
}
