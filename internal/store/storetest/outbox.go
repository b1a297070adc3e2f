package storetest

import (
	"context"
	"reflect"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/lead"
)

// Both is a store of leads that also keeps their outbox.
type Both interface {
	lead.Store
	lead.Outbox
}

// RunOutbox holds a store to the contract of the outbox.
func RunOutbox(t *testing.T, open func(t *testing.T) Both) {
	t.Helper()
	for _, c := range []struct {
		name string
		test func(*testing.T, Both)
	}{
		{"an event is spread over the channels, once", spreadsOnce},
		{"without a channel an event is spent", spendsWithoutChannel},
		{"what is taken is nobody else's until the lease ends", leases},
		{"a failed attempt waits until it is due", waitsUntilDue},
		{"sent and dead are not taken again", endsInSentOrDead},
		{"a late outcome does not undo a later attempt", fencesLateOutcomes},
		{"takers share what there is, each delivery once", sharesAmongTakers},
		{"a stopped channel is stopped for its target", stops},
		{"a lead's deliveries can be made due again", goesAgain},
	} {
		t.Run(c.name, func(t *testing.T) { t.Parallel(); c.test(t, open(t)) })
	}
}

func noon() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }

func channels() []string { return []string{"mail", "webhook"} }

func check(t *testing.T, doing string, err error) {
	t.Helper()
	if err != nil {
		t.Fatalf("%s: %v", doing, err)
	}
}

// spread puts leads from first on and spreads them.
func spread(t *testing.T, s Both, first, count int) {
	t.Helper()
	for n := range count {
		put(t, s, sample(first+n))
	}
	check(t, "spread", s.Spread(context.Background(), channels(), noon()))
}

func take(t *testing.T, s Both, now time.Time, limit int) []lead.Delivery {
	t.Helper()
	got, err := s.Take(context.Background(), lead.Taking{Channels: channels(), Now: now, Until: now.Add(time.Minute), Limit: limit})
	check(t, "take", err)
	return got
}

func settle(t *testing.T, s Both, d lead.Delivery, o lead.Outcome) {
	t.Helper()
	check(t, "settle", s.Settle(context.Background(), d, o))
}

func untold(t *testing.T, s Both) []lead.Delivery {
	t.Helper()
	got, err := s.Untold(context.Background())
	check(t, "list the untold", err)
	return got
}

func spreadsOnce(t *testing.T, s Both) {
	spread(t, s, 1, 2)
	spread(t, s, 3, 1)
	var got []string
	for _, d := range untold(t, s) {
		if d.State != lead.Waiting || d.Attempts != 0 || !d.Due.Equal(noon()) {
			t.Errorf("%+v is not new and due", d)
		}
		got = append(got, d.Event+" "+d.Reference+" "+d.Channel)
	}
	want := []string{
		"lead.created/AR-000001 AR-000001 mail", "lead.created/AR-000001 AR-000001 webhook", "lead.created/AR-000002 AR-000002 mail",
		"lead.created/AR-000002 AR-000002 webhook", "lead.created/AR-000003 AR-000003 mail", "lead.created/AR-000003 AR-000003 webhook",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("spread into %q, want %q", got, want)
	}
}

func spendsWithoutChannel(t *testing.T, s Both) {
	put(t, s, sample(1))
	check(t, "spread", s.Spread(context.Background(), nil, noon()))
	check(t, "spread", s.Spread(context.Background(), channels(), noon()))
	if got := untold(t, s); len(got) > 0 {
		t.Errorf("a channel set up later was given %+v", got)
	}
}

func leases(t *testing.T, s Both) {
	spread(t, s, 1, 1)
	first := take(t, s, noon(), 10)
	if len(first) != 2 || first[0].Attempts != 1 || first[0].Reference != "AR-000001" {
		t.Fatalf("took %+v", first)
	}
	if got := take(t, s, noon().Add(59*time.Second), 10); len(got) > 0 {
		t.Errorf("under lease, %+v was taken", got)
	}
	if at, ok, err := s.NextDue(context.Background(), channels()); err != nil || !ok || !at.Equal(noon().Add(time.Minute)) {
		t.Errorf("next due %v, %v, %v; want the end of the lease", at, ok, err)
	}
	if got := take(t, s, noon().Add(time.Minute), 10); len(got) != 2 || got[0].Attempts != 2 {
		t.Errorf("after the lease %+v was taken, want both for a second attempt", got)
	}
}

func waitsUntilDue(t *testing.T, s Both) {
	spread(t, s, 1, 1)
	later := noon().Add(time.Hour)
	for _, d := range take(t, s, noon(), 10) {
		settle(t, s, d, lead.Outcome{State: lead.Waiting, At: noon(), Due: later, Why: "answered 500"})
	}
	if got := take(t, s, later.Add(-time.Millisecond), 10); len(got) > 0 {
		t.Errorf("%+v was taken before it was due", got)
	}
	if got := untold(t, s); len(got) != 2 || got[0].LastError != "answered 500" || !got[0].Due.Equal(later) {
		t.Errorf("untold %+v", got)
	}
	if got := take(t, s, later, 1); len(got) != 1 || got[0].Attempts != 2 {
		t.Errorf("when due, %+v was taken; want one, for its second attempt", got)
	}
}

func endsInSentOrDead(t *testing.T, s Both) {
	spread(t, s, 1, 1)
	ends := map[string]lead.DeliveryState{"mail": lead.Sent, "webhook": lead.Dead}
	for _, d := range take(t, s, noon(), 10) {
		settle(t, s, d, lead.Outcome{State: ends[d.Channel], At: noon(), Why: "because"})
	}
	if got := take(t, s, noon().Add(1000*time.Hour), 10); len(got) > 0 {
		t.Errorf("%+v was taken again", got)
	}
	if _, ok, err := s.NextDue(context.Background(), channels()); ok || err != nil {
		t.Errorf("something is due, %v", err)
	}
	if got := untold(t, s); len(got) != 1 || got[0].Channel != "webhook" || got[0].State != lead.Dead || got[0].LastError != "because" {
		t.Errorf("untold %+v, want the dead one", got)
	}
}

func fencesLateOutcomes(t *testing.T, s Both) {
	spread(t, s, 1, 1)
	slow := take(t, s, noon(), 1)[0]
	quick := take(t, s, noon().Add(time.Minute), 10)
	settle(t, s, slow, lead.Outcome{State: lead.Dead, At: noon(), Why: "late"})
	for _, d := range quick {
		settle(t, s, d, lead.Outcome{State: lead.Sent, At: noon()})
	}
	settle(t, s, slow, lead.Outcome{State: lead.Waiting, Due: noon(), Why: "later still"})
	if got := untold(t, s); len(got) > 0 {
		t.Errorf("%+v was sent and is untold", got)
	}
}

func sharesAmongTakers(t *testing.T, s Both) {
	const leads, takers = 10, 4
	spread(t, s, 1, leads)
	var mu sync.Mutex
	var wg sync.WaitGroup
	seen := map[int64]int{}
	for range takers {
		wg.Go(func() {
			for range 4 * leads { // a store that forgets its leases would give for ever
				got, err := s.Take(context.Background(), lead.Taking{Channels: channels(), Now: noon(), Until: noon().Add(time.Hour), Limit: 3})
				if err != nil {
					t.Errorf("take: %v", err)
				}
				if len(got) == 0 {
					return
				}
				mu.Lock()
				for _, d := range got {
					seen[d.ID]++
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	if len(seen) != 2*leads {
		t.Errorf("%d deliveries were taken, want %d", len(seen), 2*leads)
	}
	for id, n := range seen {
		if n != 1 {
			t.Errorf("delivery %d was taken %d times", id, n)
		}
	}
}

func stops(t *testing.T, s Both) {
	ctx := context.Background()
	for range 2 {
		check(t, "stop", s.Stop(ctx, lead.Stopping{Channel: "webhook", Target: "digest-1", Why: "answered 410", At: noon()}))
	}
	for _, c := range []struct {
		channel, target string
		want            bool
	}{{"webhook", "digest-1", true}, {"webhook", "digest-2", false}, {"mail", "digest-1", false}} {
		if got, err := s.Stopped(ctx, c.channel, c.target); err != nil || got != c.want {
			t.Errorf("%s to %s is stopped: %v, %v; want %v", c.channel, c.target, got, err, c.want)
		}
	}
}

func goesAgain(t *testing.T, s Both) {
	ctx := context.Background()
	spread(t, s, 1, 2)
	for _, d := range take(t, s, noon(), 10) {
		settle(t, s, d, lead.Outcome{State: lead.Dead, At: noon(), Why: "answered 500"})
	}
	check(t, "stop", s.Stop(ctx, lead.Stopping{Channel: "webhook", Target: "digest-1"}))
	later := noon().Add(time.Hour)
	if n, err := s.Again(ctx, "AR-000002", later); n != 2 || err != nil {
		t.Errorf("%d deliveries go again, %v; want 2", n, err)
	}
	got := take(t, s, later, 10)
	if len(got) != 2 || got[0].Reference != "AR-000002" || got[0].Attempts != 1 || got[0].LastError != "" {
		t.Errorf("took %+v, want both of the one lead, as if new", got)
	}
	if stopped, err := s.Stopped(ctx, "webhook", "digest-1"); stopped || err != nil {
		t.Errorf("the channel is still stopped, %v", err)
	}
	if n, err := s.Again(ctx, "AR-NOBODY", later); n != 0 || err != nil {
		t.Errorf("%d deliveries of nobody, %v", n, err)
	}
}
