// Package post tells the office of each enquiry, by webhook and by mail: a
// worker takes deliveries from the outbox, tries each until it is sent or dead,
// and loses none when it is stopped at any moment.
package post

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"tarnwright/internal/lead"
)

// Message is one event on its way.
type Message struct {
	ID      string // the same over all tries, so that a receiver knows a repeat
	Event   string // "lead.created"
	Attempt int
	At      time.Time // of this attempt
	Lead    lead.Lead
}

// Channel is one way to tell the office.
type Channel interface {
	Name() string
	// Target is a digest of where the channel leads to; another one is another
	// channel to the outbox.
	Target() string
	// Send returns nil when the other side has taken the message over, and
	// else a *Failure.
	Send(ctx context.Context, m Message) error
}

// Failure is why a message did not go. Why names no person and no secret: it
// is stored, listed and logged.
type Failure struct {
	Why   string
	After time.Duration // the other side asked to be left alone so long
	Gone  bool          // the other side wants no more, ever
	err   error
}

// Error is the reason.
func (f *Failure) Error() string { return f.Why }

// Unwrap is what happened, for a test; it may name anything.
func (f *Failure) Unwrap() error { return f.err }

// waits are the times between one attempt and the next, ten attempts in all.
// Source: the retry schedule in the Standard Webhooks specification, read as
// times since the first attempt, so that the last one is a day after it.
func waits() []time.Duration {
	since := []time.Duration{0, 5 * time.Second, 5 * time.Minute, 30 * time.Minute, 2 * time.Hour,
		5 * time.Hour, 10 * time.Hour, 14 * time.Hour, 20 * time.Hour, 24 * time.Hour}
	out := make([]time.Duration, 0, len(since)-1)
	for i := 1; i < len(since); i++ {
		out = append(out, since[i]-since[i-1])
	}
	return out
}

// jitterShare is how much longer a wait may be, so that a receiver that was
// down is not met by everything at once; longestWait is the most that the
// other side may ask for. Common practice, no source.
const (
	jitterShare = 0.1
	longestWait = 24 * time.Hour
)

// next is when a failed attempt, counted from one, is followed by another; ok
// is false when it was the last.
func next(attempt int, now time.Time, asked time.Duration, jitterRatio float64) (due time.Time, ok bool) {
	w := waits()
	if attempt > len(w) {
		return time.Time{}, false
	}
	wait := w[attempt-1]
	wait += time.Duration(float64(wait) * jitterShare * jitterRatio)
	return now.Add(max(wait, min(asked, longestWait))), true
}

// Config is what a worker is made of.
type Config struct {
	Outbox   lead.Outbox
	Find     func(ctx context.Context, reference string) (lead.Lead, error)
	Channels []Channel
	Now      func() time.Time
	Jitter   func() float64 // from 0 up to 1
	Log      *slog.Logger
}

// Worker empties the outbox.
type Worker struct {
	cfg  Config
	bell chan struct{}
}

// New is a worker; it does nothing until it runs.
func New(cfg Config) *Worker { return &Worker{cfg, make(chan struct{}, 1)} }

// Ring tells the worker that there is something new.
func (w *Worker) Ring() {
	select {
	case w.bell <- struct{}{}:
	default: // it has been told
	}
}

// The worker's measures. A lease outlasts every attempt, so that nobody else
// takes a message that is on its way. Common practice, no source.
const (
	batch       = 8
	attemptTime = 20 * time.Second
	lease       = time.Minute
	idle        = 30 * time.Second // another process may have put something in
	troubled    = 5 * time.Second
)

// Run works until the context ends, and then lets what is on its way end, so
// that its outcome is noted.
func (w *Worker) Run(ctx context.Context) {
	for ctx.Err() == nil {
		wait := time.Duration(0)
		taken, err := w.Round(ctx)
		switch {
		case err != nil && ctx.Err() == nil:
			w.cfg.Log.LogAttrs(ctx, slog.LevelError, "outbox trouble", slog.String("kind", kindOf(err)))
			wait = troubled
		case taken == 0:
			wait = w.pause(ctx)
		}
		timer := time.NewTimer(wait)
		select {
		case <-ctx.Done():
		case <-w.bell:
		case <-timer.C:
		}
		timer.Stop()
	}
}

// kindOf says what went wrong without quoting it.
func kindOf(err error) string {
	switch {
	case errors.Is(err, lead.ErrBusy):
		return "busy"
	case errors.Is(err, lead.ErrNotFound):
		return "not found"
	}
	return fmt.Sprintf("%T", err)
}

func (w *Worker) pause(ctx context.Context) time.Duration {
	names, err := w.open(ctx)
	if err != nil {
		return troubled
	}
	at, ok, err := w.cfg.Outbox.NextDue(ctx, names)
	if err != nil {
		return troubled
	}
	if !ok {
		return idle
	}
	return max(0, min(at.Sub(w.cfg.Now()), idle))
}

// Round spreads what is new, takes what is due and tries each once, all at the
// same time. It returns how many it took.
func (w *Worker) Round(ctx context.Context) (taken int, err error) {
	all := make([]string, len(w.cfg.Channels))
	for i, c := range w.cfg.Channels {
		all[i] = c.Name()
	}
	if err := w.cfg.Outbox.Spread(ctx, all, w.cfg.Now()); err != nil {
		return 0, fmt.Errorf("spread the outbox: %w", err)
	}
	open, err := w.open(ctx)
	if err != nil || len(open) == 0 {
		return 0, err
	}
	now := w.cfg.Now()
	due, err := w.cfg.Outbox.Take(ctx, lead.Taking{Channels: open, Now: now, Until: now.Add(lease), Limit: batch})
	if err != nil {
		return 0, fmt.Errorf("take from the outbox: %w", err)
	}
	errs := make([]error, len(due))
	var trying sync.WaitGroup
	for i, d := range due {
		trying.Go(func() { errs[i] = w.try(context.WithoutCancel(ctx), d) })
	}
	trying.Wait()
	return len(due), errors.Join(errs...)
}

// open lists the channels that are not stopped.
func (w *Worker) open(ctx context.Context) ([]string, error) {
	var names []string
	for _, c := range w.cfg.Channels {
		stopped, err := w.cfg.Outbox.Stopped(ctx, c.Name(), c.Target())
		if err != nil {
			return nil, fmt.Errorf("ask for stopped channels: %w", err)
		}
		if !stopped {
			names = append(names, c.Name())
		}
	}
	return names, nil
}

func (w *Worker) channel(name string) (Channel, bool) {
	for _, c := range w.cfg.Channels {
		if c.Name() == name {
			return c, true
		}
	}
	return nil, false
}

// try makes one attempt and notes how it ended.
func (w *Worker) try(ctx context.Context, d lead.Delivery) error {
	c, ok := w.channel(d.Channel)
	if !ok {
		return nil
	}
	l, err := w.cfg.Find(ctx, d.Reference)
	if errors.Is(err, lead.ErrNotFound) {
		return nil // deleted since, and its deliveries with it
	}
	if err != nil {
		return fmt.Errorf("find the enquiry of a delivery: %w", err)
	}
	sending, cancel := context.WithTimeout(ctx, attemptTime)
	defer cancel()
	failed := c.Send(sending, Message{ID: d.Event, Event: event, Attempt: d.Attempts, At: w.cfg.Now(), Lead: l})
	out, err := w.outcome(ctx, c, d, failed)
	if err != nil {
		return err
	}
	level := slog.LevelInfo
	if out.State != lead.Sent {
		level = slog.LevelWarn
	}
	w.cfg.Log.LogAttrs(ctx, level, "delivery", slog.String("event", d.Event), slog.String("channel", d.Channel),
		slog.Int("attempt", d.Attempts), slog.String("state", string(out.State)), slog.String("why", out.Why))
	return w.cfg.Outbox.Settle(ctx, d, out)
}

// event is what happened; there is only one kind yet.
const event = "lead.created"

func (w *Worker) outcome(ctx context.Context, c Channel, d lead.Delivery, failed error) (lead.Outcome, error) {
	now := w.cfg.Now()
	if failed == nil {
		return lead.Outcome{State: lead.Sent, At: now}, nil
	}
	f := &Failure{Why: "it could not be sent"}
	errors.As(failed, &f)
	if f.Gone {
		err := w.cfg.Outbox.Stop(ctx, lead.Stopping{Channel: c.Name(), Target: c.Target(), Why: f.Why, At: now})
		return lead.Outcome{State: lead.Dead, At: now, Why: f.Why}, err
	}
	due, ok := next(d.Attempts, now, f.After, w.cfg.Jitter())
	if !ok {
		return lead.Outcome{State: lead.Dead, At: now, Why: f.Why}, nil
	}
	return lead.Outcome{State: lead.Waiting, At: now, Due: due, Why: f.Why}, nil
}

// Ringing is a store that tells the worker of each new lead.
func Ringing(s lead.Store, w *Worker) lead.Store { return ringing{s, w} }

type ringing struct {
	lead.Store
	worker *Worker
}

// Put stores the lead and rings.
func (r ringing) Put(ctx context.Context, l lead.Lead) (stored lead.Lead, fresh bool, err error) {
	stored, fresh, err = r.Store.Put(ctx, l)
	if fresh {
		r.worker.Ring()
	}
	return stored, fresh, err
}
