package browsertest_test

import (
	"io"
	"net/http"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// squeezed fetches an address as a browser does, and gives what came over the
// line and what it says.
func squeezed(t *testing.T, address string) (bytes int, text string) {
	t.Helper()
	ask := func(coding string) []byte {
		r, err := http.NewRequest(http.MethodGet, address, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", coding)
		reply, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = reply.Body.Close() }()
		raw, err := io.ReadAll(reply.Body)
		if err != nil || reply.StatusCode != http.StatusOK {
			t.Fatalf("%s: %d %v", address, reply.StatusCode, err)
		}
		return raw
	}
	return len(ask("gzip, br")), string(ask("identity"))
}

// TestWeight_EveryFirstViewIsLight counts what comes before the widget is
// woken: the page, and what its head asks for. Headers are counted at 600 bytes
// a reply.
func TestWeight_EveryFirstViewIsLight(t *testing.T) {
	t.Parallel()
	const most, headers = 90_000, 600
	s := serve(t)
	for _, address := range []string{"/", "/?ask=steps", "/?view=pump", "/?view=compare", threeOptions, "/?view=send", "/?lang=es&view=send",
		"/?view=send&length=200+ft&width=120+ft&deep=12+ft&fence=on&patio=on&fire_pit=on"} {
		total, page := squeezed(t, s.url+address)
		parts := 1
		for _, link := range regexp.MustCompile(`<(?:link rel="(?:stylesheet|icon)" href|script src)="([^"]+)"`).FindAllStringSubmatch(page, -1) {
			n, _ := squeezed(t, s.url+link[1])
			total, parts = total+n, parts+1
		}
		total += parts * headers
		t.Logf("%5.1f kB in %d parts: %s", float64(total)/1000, parts, address)
		if parts < 4 || !strings.Contains(page, `id="tarnwright"`) {
			t.Errorf("%s: only %d parts", address, parts)
		}
		if total > most {
			t.Errorf("%s weighs %d bytes before the widget is woken, more than %d", address, total, most)
		}
	}
}

// traffic is what came over the line, by when it was asked for.
type traffic struct {
	mu    sync.Mutex
	asked map[network.RequestID]time.Time
	at    map[network.RequestID]string
	bytes map[network.RequestID]float64
}

func (l *traffic) hear(ev any) {
	l.mu.Lock()
	defer l.mu.Unlock()
	switch e := ev.(type) {
	case *network.EventRequestWillBeSent:
		l.asked[e.RequestID], l.at[e.RequestID] = e.WallTime.Time(), e.Request.URL
	case *network.EventLoadingFinished:
		l.bytes[e.RequestID] = e.EncodedDataLength
	}
}

// TestWeight_TheBrowserLoadsNoMoreBeforeWaking counts what Chromium really
// takes over the line, headers and all, up to the moment that the page begins
// to fetch the widget; what comes later is the widget's.
func TestWeight_TheBrowserLoadsNoMoreBeforeWaking(t *testing.T) {
	t.Parallel()
	const most = 90_000
	s := serve(t)
	for _, at := range []size{{412, 823}, {1280, 860}} {
		for _, address := range []string{"/", "/?view=send"} {
			b := open(t, at, scriptOn)
			l := &traffic{asked: map[network.RequestID]time.Time{}, at: map[network.RequestID]string{}, bytes: map[network.RequestID]float64{}}
			chromedp.ListenTarget(b.ctx, l.hear)
			b.run(network.Enable(), network.SetCacheDisabled(true), chromedp.Navigate(s.url+address))
			b.until("the widget took over", isLive)
			woke := eval[float64](b, `performance.timeOrigin + performance.getEntriesByName("wake")[0].startTime`)
			total, later := 0.0, 0.0
			l.mu.Lock()
			for id, n := range l.bytes {
				if float64(l.asked[id].UnixMicro())/1000 >= woke {
					later += n
					continue
				}
				total += n
				t.Logf("%6.0f %s", n, l.at[id])
			}
			l.mu.Unlock()
			t.Logf("%5.1f kB before waking, %.0f kB after, %d px, %s", total/1000, later/1000, at.w, address)
			if total > most || total < 30_000 {
				t.Errorf("%s at %d px weighs %.0f bytes before the widget is woken, more than %d or too few to be true", address, at.w, total, most)
			}
			if later < 30_000 { // words and book; the widget itself comes on another thread
				t.Errorf("%s at %d px: only %.0f bytes came after waking, so what is the widget's was counted before it", address, at.w, later)
			}
		}
	}
}
