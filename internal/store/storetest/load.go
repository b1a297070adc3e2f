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

// Turn is one thing to be measured: clients that do it again and again, each
// with numbers of its own.
type Turn struct {
	Name    string
	Clients int
	One     func(client, n int) error
}

// Rounds lets each do its turn for a span, one after the other, again and
// again, so that whatever else the machine does falls on all alike. The best
// round of each counts for its rate; how long one waits is over all rounds.
func Rounds(rounds int, span time.Duration, turns []Turn) ([]Load, error) {
	loads := make([]Load, len(turns))
	waits := make([][]time.Duration, len(turns))
	from := make([]int, len(turns))
	for range rounds {
		for i, t := range turns {
			l, took, err := drive(t, span, from[i])
			if err != nil {
				return nil, fmt.Errorf("%s, %d clients: %w", t.Name, t.Clients, err)
			}
			from[i] += l.Done
			waits[i] = append(waits[i], took...)
			if l.PerSecond > loads[i].PerSecond {
				loads[i] = l
			}
		}
	}
	for i, w := range waits {
		slices.Sort(w)
		loads[i].P50, loads[i].P99 = quantiles(w)
	}
	return loads, nil
}

// Drive is one turn.
func Drive(clients int, span time.Duration, one func(client, n int) error) (Load, error) {
	l, took, err := drive(Turn{Clients: clients, One: one}, span, 0)
	slices.Sort(took)
	l.P50, l.P99 = quantiles(took)
	return l, err
}

func quantiles(waits []time.Duration) (p50, p99 time.Duration) {
	if len(waits) == 0 {
		return 0, 0
	}
	return waits[len(waits)/2], waits[len(waits)*99/100]
}

// drive gives each client numbers from first on.
func drive(t Turn, span time.Duration, first int) (Load, []time.Duration, error) {
	took := make([][]time.Duration, t.Clients)
	errs := make([]error, t.Clients)
	begin := time.Now()
	var wg sync.WaitGroup
	for c := range t.Clients {
		wg.Go(func() {
			for n := first; time.Since(begin) < span; n++ {
				at := time.Now()
				if errs[c] = t.One(c, n); errs[c] != nil {
					return
				}
				took[c] = append(took[c], time.Since(at))
			}
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return Load{}, nil, err
		}
	}
	all := slices.Concat(took...)
	l := Load{Clients: t.Clients, Done: len(all), Took: time.Since(begin)}
	l.PerSecond = float64(l.Done) / l.Took.Seconds()
	return l, all, nil
}

// Puts is a turn of clients that put leads; tag tells its leads from others'.
func Puts(ctx context.Context, name, tag string, clients int, s lead.Store, like lead.Lead) Turn {
	return Turn{name, clients, func(client, n int) error {
		l := like
		l.Reference = fmt.Sprintf("%s-%d-%d", tag, client, n)
		l.Key = "key-of-the-sender-" + l.Reference
		_, fresh, err := s.Put(ctx, l)
		if err == nil && !fresh {
			err = fmt.Errorf("%s stood there already", l.Key)
		}
		return err
	}}
}

// Row is a line of the table of a load, beside a floor.
func (l Load) Row(name string, floorPerSecond float64) string {
	return fmt.Sprintf("%-42s %4d clients %8.0f /s %6.2f × floor   p50 %8s   p99 %8s", name, l.Clients, l.PerSecond, l.PerSecond/floorPerSecond,
		l.P50.Round(10*time.Microsecond), l.P99.Round(10*time.Microsecond))
}

// Growing is a store that is measured while it fills.
type Growing struct {
	Name  string
	Store Whole
	// Fill stores the leads after the first ones up to a number, at once, in no
	// order of keys and references. Heavy ones have the papers of a real one.
	Fill func(first, last int, heavy bool) error
	Like lead.Lead
}

// heavy is up to how many leads papers have their real size: a million of them
// would be more than a small machine's disk. Lists and searches read the papers
// of one page at most.
const heavy = 10_000

// Grow fills a store in steps up to a number, and prints at each step how fast
// leads go in and what the office waits for.
func (g Growing) Grow(ctx context.Context, most int, span time.Duration, floor float64) error {
	stored := 0
	for _, size := range []int{0, heavy, 100_000, 1_000_000} {
		if size > most {
			break
		}
		if size > stored {
			begin := time.Now()
			if err := g.Fill(stored, size, size <= heavy); err != nil {
				return err
			}
			took := time.Since(begin)
			fmt.Printf("leads  %s, %d leads filled in by %.1f s, %.0f /s\n", g.Name, size-stored, took.Seconds(), float64(size-stored)/took.Seconds())
			stored = size
		}
		var turns []Turn
		for _, clients := range []int{1, 64, 256} {
			turns = append(turns, Puts(ctx, fmt.Sprintf("%s, %d stored", g.Name, size), fmt.Sprintf("G%d-%d", size, clients), clients, g.Store, g.Like))
		}
		loads, err := Rounds(3, span, turns)
		if err != nil {
			return err
		}
		for i, l := range loads {
			fmt.Println("leads  " + l.Row(turns[i].Name, floor))
		}
		if err := lookUps(ctx, g.Store, fmt.Sprintf("leads  %s, %d stored", g.Name, size)); err != nil {
			return err
		}
	}
	return nil
}

// lookUps times what the office asks for, the best of three.
func lookUps(ctx context.Context, s Whole, what string) error {
	var found lead.Found
	search := func(f lead.Filter) func() error {
		return func() (err error) { f.Limit = 50; found, err = s.Search(ctx, f); return err }
	}
	for _, q := range []struct {
		name string
		ask  func() error
	}{
		{"newest page", search(lead.Filter{})},
		{"new ones, page 3", search(lead.Filter{Statuses: []lead.Status{lead.StatusNew}, Offset: 100})},
		{"a name that few have", search(lead.Filter{Text: "person 7777"})},
		{"a name that none has", search(lead.Filter{Text: "nobody at all"})},
		{"a status that none has", search(lead.Filter{Statuses: []lead.Status{lead.StatusWon}})},
		{"counts by status", func() error { found = lead.Found{}; _, err := s.Counts(ctx); return err }},
	} {
		best := time.Hour
		for range 3 {
			at := time.Now()
			if err := q.ask(); err != nil {
				return fmt.Errorf("%s: %w", q.name, err)
			}
			best = min(best, time.Since(at))
		}
		fmt.Printf("%s: %-24s %8s, %d of %d\n", what, q.name, best.Round(100*time.Microsecond), len(found.Cases), found.Total)
	}
	return nil
}
