package storetest

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"time"

	"tarnwright/internal/lead"
)

// Load is what so many clients got done, each waiting for its answer before it
// goes on.
type Load struct {
	Clients   int
	Done      int
	Took      time.Duration
	P50, P99  time.Duration
	PerSecond float64
}

// Drive lets clients do one thing again and again for a time, each with
// numbers of its own, and measures it.
func Drive(clients int, span time.Duration, one func(client, n int) error) (Load, error) {
	took := make([][]time.Duration, clients)
	errs := make([]error, clients)
	begin := time.Now()
	var wg sync.WaitGroup
	for c := range clients {
		wg.Go(func() {
			for n := 0; time.Since(begin) < span; n++ {
				at := time.Now()
				if errs[c] = one(c, n); errs[c] != nil {
					return
				}
				took[c] = append(took[c], time.Since(at))
			}
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return Load{}, err
		}
	}
	all := slices.Concat(took...)
	slices.Sort(all)
	l := Load{Clients: clients, Done: len(all), Took: time.Since(begin)}
	if len(all) > 0 {
		l.P50, l.P99 = all[len(all)/2], all[len(all)*99/100]
	}
	l.PerSecond = float64(l.Done) / l.Took.Seconds()
	return l, nil
}

// PutLoad lets clients put leads; tag tells one load's leads from another's.
func PutLoad(ctx context.Context, s lead.Store, tag string, clients int, span time.Duration, like lead.Lead) (Load, error) {
	return Drive(clients, span, func(client, n int) error {
		l := like
		l.Reference = fmt.Sprintf("%s-%d-%d", tag, client, n)
		l.Key = "key-of-the-sender-" + l.Reference
		_, fresh, err := s.Put(ctx, l)
		if err == nil && !fresh {
			err = fmt.Errorf("%s stood there already", l.Key)
		}
		return err
	})
}

// Row is a line of the table of a load, beside a floor.
func (l Load) Row(name string, floorPerSecond float64) string {
	return fmt.Sprintf("%-34s %5d clients %9.0f /s %7.2f × floor   p50 %8s   p99 %8s", name, l.Clients, l.PerSecond, l.PerSecond/floorPerSecond,
		l.P50.Round(10*time.Microsecond), l.P99.Round(10*time.Microsecond))
}

// LookUps times what the office asks of a database with many leads.
func LookUps(ctx context.Context, s Whole) (lines []string) {
	for _, q := range []struct {
		name string
		f    lead.Filter
	}{
		{"newest page", lead.Filter{Limit: 50}},
		{"a name that few have", lead.Filter{Text: "person 7777", Limit: 50}},
		{"a status that none has", lead.Filter{Statuses: []lead.Status{lead.StatusWon}, Limit: 50}},
	} {
		at := time.Now()
		found, err := s.Search(ctx, q.f)
		lines = append(lines, fmt.Sprintf("%s: %d of %d in %s %v", q.name, len(found.Cases), found.Total, time.Since(at).Round(time.Millisecond), orNothing(err)))
	}
	at := time.Now()
	_, err := s.Counts(ctx)
	return append(lines, fmt.Sprintf("counts by status in %s %v", time.Since(at).Round(time.Millisecond), orNothing(err)))
}

func orNothing(err error) any {
	if err == nil {
		return ""
	}
	return err
}
