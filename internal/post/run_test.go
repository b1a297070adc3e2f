package post_test

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/post"
)

// tray is an outbox of one channel in memory, for a test under a fake clock.
type tray struct {
	lead.Outbox
	mu      sync.Mutex
	waiting []lead.Delivery
	settled []lead.Outcome
	broken  int // so many takes fail
}

func (o *tray) Spread(context.Context, []string, time.Time) error { return nil }

func (o *tray) Stopped(context.Context, string, string) (bool, error) { return false, nil }

func (o *tray) Take(_ context.Context, t lead.Taking) ([]lead.Delivery, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.broken > 0 {
		o.broken--
		return nil, errors.New("the disk is full")
	}
	if len(o.waiting) == 0 || o.waiting[0].Due.After(t.Now) {
		return nil, nil
	}
	d := o.waiting[0]
	d.Attempts++
	o.waiting = o.waiting[1:]
	return []lead.Delivery{d}, nil
}

func (o *tray) NextDue(context.Context, []string) (time.Time, bool, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(o.waiting) == 0 {
		return time.Time{}, false, nil
	}
	return o.waiting[0].Due, true, nil
}

func (o *tray) Settle(ctx context.Context, d lead.Delivery, out lead.Outcome) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	if ctx.Err() != nil {
		return ctx.Err()
	}
	o.settled = append(o.settled, out)
	if out.State == lead.Waiting {
		d.Due = out.Due
		o.waiting = append(o.waiting, d)
	}
	return nil
}

func (o *tray) put(due time.Time) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.waiting = append(o.waiting, lead.Delivery{Event: "lead.created/AR-7F3K2Q", Channel: "bell", Due: due})
}

// slow is a channel that takes a while and then does as it is told.
type slow struct {
	takes time.Duration
	err   error
	mu    sync.Mutex
	begun []time.Time
}

func (s *slow) Name() string   { return "bell" }
func (s *slow) Target() string { return "" }
func (s *slow) Send(ctx context.Context, _ post.Message) error {
	s.mu.Lock()
	s.begun = append(s.begun, time.Now())
	s.mu.Unlock()
	select {
	case <-time.After(s.takes):
		return s.err
	case <-ctx.Done():
		return &post.Failure{Why: "it took too long"}
	}
}

// started runs a worker under the test's clock; stop ends it and waits.
func started(o *tray, c *slow) (w *post.Worker, stop func()) {
	w = post.New(post.Config{Outbox: o, Channels: []post.Channel{c}, Now: time.Now, Jitter: func() float64 { return 0 }, Log: slog.New(slog.DiscardHandler),
		Find: func(context.Context, string) (lead.Lead, error) { return maren(), nil }})
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { w.Run(ctx); close(done) }()
	return w, func() { cancel(); <-done }
}

func TestRun_SendsAtOnceWhenTheBellRings(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		o, c := &tray{}, &slow{}
		w, stop := started(o, c)
		defer stop()
		time.Sleep(10 * time.Second)
		start := time.Now()
		o.put(start)
		w.Ring()
		w.Ring()
		synctest.Wait()
		if len(c.begun) != 1 || !c.begun[0].Equal(start) || len(o.settled) != 1 || o.settled[0].State != lead.Sent {
			t.Errorf("begun %v, settled %v; want at once", c.begun, o.settled)
		}
		o.put(time.Now()) // by another process: nobody rings
		time.Sleep(31 * time.Second)
		synctest.Wait()
		if len(c.begun) != 2 {
			t.Errorf("what another process put in was begun %d times", len(c.begun)-1)
		}
	})
}

// putter answers as a store would: the first time fresh, then not.
type putter struct {
	lead.Store
	puts int
}

func (p *putter) Put(_ context.Context, l lead.Lead) (lead.Lead, bool, error) {
	p.puts++
	return l, p.puts == 1, nil
}

// A new lead rings, at once; a repeat has nothing to tell.
func TestRinging_RingsForANewLead(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		o, c := &tray{}, &slow{}
		w, stop := started(o, c)
		defer stop()
		store := post.Ringing(&putter{}, w)
		for n, want := range []int{1, 1} {
			time.Sleep(time.Second)
			o.put(time.Now())
			if _, _, err := store.Put(context.Background(), maren()); err != nil {
				t.Fatal(err)
			}
			if synctest.Wait(); len(c.begun) != want {
				t.Errorf("after lead %d the channel was used %d times, want %d", n+1, len(c.begun), want)
			}
		}
	})
}

func TestRun_KeepsTheTimesOfItsRetries(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		o, c := &tray{}, &slow{err: &post.Failure{Why: "answered 500"}}
		start := time.Now()
		o.put(start)
		_, stop := started(o, c)
		defer stop()
		time.Sleep(25 * time.Hour)
		synctest.Wait()
		want := []time.Duration{0, 5 * time.Second, 5 * time.Minute, 30 * time.Minute, 2 * time.Hour, 5 * time.Hour, 10 * time.Hour, 14 * time.Hour, 20 * time.Hour, 24 * time.Hour}
		if len(c.begun) != len(want) {
			t.Fatalf("begun %d times, want %d", len(c.begun), len(want))
		}
		for i, at := range c.begun {
			if got := at.Sub(start); got != want[i] {
				t.Errorf("try %d began after %v, want %v", i+1, got, want[i])
			}
		}
	})
}

// A stop lets a message that is on its way arrive, and its outcome is noted;
// one that hangs is given up in time.
func TestRun_StopsInOrder(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why   string
		takes time.Duration
		state lead.DeliveryState
		most  time.Duration
	}{
		{"on its way", 3 * time.Second, lead.Sent, 3 * time.Second},
		{"hanging", time.Hour, lead.Waiting, 20 * time.Second},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			synctest.Test(t, func(t *testing.T) {
				o, ch := &tray{}, &slow{takes: c.takes}
				o.put(time.Now())
				_, stop := started(o, ch)
				synctest.Wait()
				start := time.Now()
				stop()
				if took := time.Since(start); took > c.most || len(o.settled) != 1 || o.settled[0].State != c.state {
					t.Errorf("stopped after %v, settled %+v; want %s within %v", took, o.settled, c.state, c.most)
				}
			})
		})
	}
}

func TestRun_GoesOnAfterTroubleWithTheStore(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		o, c := &tray{broken: 2}, &slow{}
		start := time.Now()
		o.put(start)
		_, stop := started(o, c)
		defer stop()
		time.Sleep(time.Minute)
		synctest.Wait()
		if len(c.begun) != 1 || c.begun[0].Sub(start) != 10*time.Second {
			t.Errorf("begun at %v, want once, after two pauses of 5 s", c.begun)
		}
	})
}
