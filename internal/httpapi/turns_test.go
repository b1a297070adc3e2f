package httpapi_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"tarnwright/internal/httpapi"
)

// Many who ask at once are drawn for a few at a time, and all of them in the
// end; who has gone meanwhile is not drawn for.
func TestPage_IsDrawnAsManyAtATimeAsThereAreProcessors(t *testing.T) {
	t.Parallel()
	var now, most, drawn atomic.Int64
	var open atomic.Bool // a server draws its tablet's page before it answers
	begun, hold := make(chan struct{}, 1000), make(chan struct{})
	r := setUp(t, func(c *httpapi.Config) {
		c.Limits = httpapi.Limits{ChecksPerMinute: 1000, CheckBurst: 1000, LeadsPerMinute: 1, LeadBurst: 1, SignInsPerMinute: 1, SignInBurst: 1}
		page := c.Page
		c.Page = func(a httpapi.Ask) httpapi.Shown {
			if !open.Load() {
				return page(a)
			}
			n := now.Add(1)
			for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
			}
			begun <- struct{}{}
			<-hold
			now.Add(-1)
			drawn.Add(1)
			return page(a)
		}
	})
	open.Store(true)
	at := runtime.GOMAXPROCS(0)
	var all sync.WaitGroup
	ask := func(ctx context.Context) int {
		w := httptest.NewRecorder()
		r.ServeHTTP(w, httptest.NewRequestWithContext(ctx, http.MethodGet, "/", nil))
		return w.Code
	}
	for range 4 * at {
		all.Go(func() {
			if code := ask(t.Context()); code != http.StatusOK {
				t.Errorf("answered %d", code)
			}
		})
	}
	for range at {
		<-begun
	}
	gone, leave := context.WithCancel(t.Context())
	leave()
	if code := ask(gone); code != http.StatusServiceUnavailable {
		t.Errorf("who has gone is answered %d", code)
	}
	close(hold)
	all.Wait()
	if most.Load() > int64(at) || drawn.Load() != int64(4*at) {
		t.Errorf("%d at a time, %d drawn; want at most %d, and %d", most.Load(), drawn.Load(), at, 4*at)
	}
}
