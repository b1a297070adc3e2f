// Package tally counts what the server does, for a program that watches it,
// and writes the counts in the text format that such programs read. It knows
// routes, classes of status and codes, and nothing about a person.
package tally

import (
	"context"
	"io"
	"net/http"
	"runtime"
	"runtime/debug"
	"sync"
	"time"
)

// Tally is everything that is counted.
type Tally struct {
	mu        sync.Mutex
	answers   map[answer]uint64
	times     map[string]*histogram // by route
	enquiries map[[2]string]uint64  // by site and outcome
	started   time.Time
	look      func(context.Context) []State
}

type answer struct{ route, class string }

// State is how one site stands at the moment of asking.
type State struct {
	Site          string
	Ready         bool // an enquiry could be stored now
	Waiting, Dead int  // messages to the office
	Oldest        time.Duration
}

// New starts counting. look tells how each site stands; it is asked when
// somebody reads the counts.
func New(started time.Time, look func(context.Context) []State) *Tally {
	return &Tally{answers: map[answer]uint64{}, times: map[string]*histogram{}, enquiries: map[[2]string]uint64{}, started: started, look: look}
}

// Site is a tally as one site's server sees it.
type Site struct {
	tally *Tally
	id    string
}

// Site is what a site's server tells.
func (t *Tally) Site(id string) Site { return Site{t, id} }

// Answered counts a request by its route's pattern.
func (s Site) Answered(route string, status int, took time.Duration) {
	t := s.tally
	t.mu.Lock()
	defer t.mu.Unlock()
	t.answers[answer{route, class(status)}]++
	h := t.times[route]
	if h == nil {
		h = &histogram{}
		t.times[route] = h
	}
	h.add(took.Seconds())
}

// Enquiry counts an enquiry by what became of it.
func (s Site) Enquiry(outcome string) {
	s.tally.mu.Lock()
	defer s.tally.mu.Unlock()
	s.tally.enquiries[[2]string{s.id, outcome}]++
}

// class keeps every status to one of six.
func class(status int) string {
	if status < 100 || status > 599 {
		return "none"
	}
	return string(rune('0'+status/100)) + "xx"
}

// histogram counts durations up to each bound.
type histogram struct {
	counts [buckets + 1]uint64
	sum    float64
}

const buckets = 10

// bounds are in seconds, from a cached file to the longest that a request may
// take. Common practice, no source.
func bounds() [buckets]float64 {
	return [buckets]float64{0.001, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 1, 5, 20}
}

func (h *histogram) add(s float64) {
	h.sum += s
	for i, b := range bounds() {
		if s <= b {
			h.counts[i]++
			return
		}
	}
	h.counts[len(h.counts)-1]++
}

// Handler answers at /metrics and nowhere else.
func (t *Tally) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /metrics", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
		w.Header().Set("Cache-Control", "no-store")
		w.Header().Set("X-Content-Type-Options", "nosniff")
		_, _ = io.WriteString(w, t.Text(r.Context()))
	})
	return mux
}

func version() (version, goVersion string) {
	version = "unknown"
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				version = s.Value
			}
		}
	}
	return version, runtime.Version()
}
