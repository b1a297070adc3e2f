package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/tally"
)

// metrics is what a program that watches the server may ask for, at an address
// of its own; nothing is counted unless that is set.
type metrics struct{ tally *tally.Tally }

// watch is what a site's server tells what it does.
func (m metrics) watch(site string) httpapi.Watch {
	if m.tally == nil {
		return nil
	}
	return m.tally.Site(site)
}

// newMetrics counts if there is an address to tell the counts at.
func newMetrics(sites []builder, db database) metrics {
	if sites[0].MetricsAddr == "" {
		return metrics{}
	}
	return metrics{tally.New(time.Now(), func(ctx context.Context) []tally.State {
		const patience = 2 * time.Second
		ctx, cancel := context.WithTimeout(ctx, patience)
		defer cancel()
		var all []tally.State
		for _, b := range sites {
			all = append(all, stateOf(ctx, b.ID, db.at(b.ID)))
		}
		return all
	})}
}

// watched is what is asked of a store to say how a site stands.
type watched interface {
	Ready(ctx context.Context) error
	Untold(ctx context.Context) ([]lead.Delivery, error)
}

func stateOf(ctx context.Context, site string, store watched) tally.State {
	s := tally.State{Site: site, Ready: store.Ready(ctx) == nil}
	untold, err := store.Untold(ctx)
	if err != nil {
		s.Ready = false
	}
	for _, d := range untold {
		if d.State == lead.Dead {
			s.Dead++
			continue
		}
		s.Waiting++
		s.Oldest = max(s.Oldest, time.Since(d.Due))
	}
	return s
}

// start tells the counts at their address; stop ends that.
func (m metrics) start(ctx context.Context, addr string, t tools) (stop func(), err error) {
	if m.tally == nil {
		return func() {}, nil
	}
	l, err := new(net.ListenConfig).Listen(ctx, "tcp", addr)
	if err != nil {
		return nil, fmt.Errorf("listen on %s for metrics: %w", addr, err)
	}
	const slowest = 10 * time.Second
	srv := &http.Server{Handler: m.tally.Handler(), ReadTimeout: slowest, WriteTimeout: slowest, IdleTimeout: time.Minute, MaxHeaderBytes: 16 << 10}
	done := make(chan struct{})
	go func() {
		defer close(done)
		if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			fmt.Fprintf(t.err, "metrics: %v\n", err)
		}
	}()
	fmt.Fprintf(t.out, "figures about the server on http://%s/metrics\n", visible(l.Addr()))
	return func() { _ = srv.Close(); <-done }, nil
}
