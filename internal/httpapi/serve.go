package httpapi

import (
	"context"
	"errors"
	"fmt"
	"log"
	"log/slog"
	"net"
	"net/http"
	"time"
)

// HTTPServer is the server with its time-outs: no client may hold a connection
// by being slow. Common practice, no source.
func (s *Server) HTTPServer() *http.Server { return s.httpServer(s) }

func (s *Server) httpServer(h http.Handler) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       15 * time.Second,
		WriteTimeout:      30 * time.Second,
		IdleTimeout:       60 * time.Second,
		MaxHeaderBytes:    16 << 10,
		// The standard server's own complaints name addresses.
		ErrorLog: log.New(quiet{s.cfg.Log}, "", 0),
	}
}

// quiet notes that the standard server complained, and of what kind, not what
// it said.
type quiet struct{ log *slog.Logger }

func (q quiet) Write(b []byte) (int, error) {
	q.log.LogAttrs(context.Background(), slog.LevelWarn, "connection trouble")
	return len(b), nil
}

// stopTime is how long requests that are running may take to end.
const stopTime = 20 * time.Second

// Serve answers on a listener until the context ends, then lets what runs end:
// an enquiry that was begun is stored and answered.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	return answerUntil(ctx, l, s.HTTPServer(), s.Drain)
}

func answerUntil(ctx context.Context, l net.Listener, srv *http.Server, drain func()) error {
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	select {
	case err := <-done:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	drain()
	stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopTime)
	defer cancel()
	if err := srv.Shutdown(stop); err != nil {
		return fmt.Errorf("stop: %w", err)
	}
	if err := <-done; !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("serve: %w", err)
	}
	return nil
}
