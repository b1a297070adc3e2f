package browsertest_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// kept is one enquiry that waits on a tablet, as the page makes it.
type kept struct{ Key, Body, Email string }

func fiftyKept(t *testing.T) []kept {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/cases/demo/design.json")
	if err != nil {
		t.Fatal(err)
	}
	d, faults := wire.ReadDesign("design.json", raw)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	var out []kept
	for i := range 50 {
		email := fmt.Sprintf("person%02d@oakesmail.example", i)
		body, err := wire.WriteLead(wire.LeadRequest{Schema: wire.Schema, Contact: lead.Contact{Name: fmt.Sprintf("Person %02d", i), Email: email, Consent: true},
			Consent: lead.Consent{Text: "They may reply.", Language: "en", Channel: "tablet"}, Design: d})
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, kept{fmt.Sprintf("0000000000000000000000000000%04d", i), string(body), email})
	}
	return out
}

// roams makes each request come from another network, as a tablet on the road
// does; otherwise the limit for one client would make the test wait.
func roams(next http.Handler) http.Handler {
	var posts atomic.Int64
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			n := posts.Add(1)
			r.Header.Set("X-Forwarded-For", fmt.Sprintf("198.51.%d.%d", 100+n/200, 1+n%200))
		}
		next.ServeHTTP(w, r)
	})
}

// TestQueue_FiftyAreStoredOnceEach keeps fifty enquiries without a line, and
// sends them over one that loses three replies in ten, while the tab is killed
// in the middle of sending again and again.
func TestQueue_FiftyAreStoredOnceEach(t *testing.T) {
	t.Parallel()
	s := serveWith(t, "-trusted-proxies", "127.0.0.0/8")
	l, front := behind(t, s)
	l.set(func(l *wobbly) { l.next, l.posts = roams(l.next), make(chan struct{}, 1000) })
	b := open(t, size{1024, 768}, scriptOn)
	b.run(chromedp.Navigate(front + "/?mode=tablet"))
	b.until("the queue is there", `window.tarnwrightQueue !== undefined`)
	l.set(func(l *wobbly) { l.down = true })
	all := fiftyKept(t)
	raw, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	n := evalAwait[int](b, `(async () => {
		const all = `+string(raw)+`, key = document.querySelector("script[data-seal]").dataset.seal;
		for (const x of all) await tarnwrightQueue.keep(key, x.Key, x.Body, "P", new Date().toISOString());
		return all.length;
	})()`)
	if n != 50 {
		t.Fatalf("%d are kept, want 50", n)
	}
	if text := evalAwait[string](b, keptHere); strings.Contains(text, "oakesmail") || strings.Count(text, "0000000000000000000000000000") != 50 {
		t.Fatalf("what is kept is not 50 sealed enquiries: %.300s", text)
	}
	b.run(chromedp.Navigate("about:blank"))

	l.set(func(l *wobbly) { l.down, l.loses = false, 0.3 })
	luck := rand.New(rand.NewPCG(3, 5))
	killed, left := 0, 50
	for end := time.Now().Add(2 * patience); left > 0; {
		if time.Now().After(end) {
			t.Fatalf("%d still wait after %d killed tabs", left, killed)
		}
		after := luck.IntN(12) // killed while this request is on its way
		if killed >= 8 {
			after = 1000
		}
		left = sendUntil(t, b, l, front, after)
		killed++
	}
	lost := 0
	l.set(func(l *wobbly) { lost = l.lost })
	t.Logf("%d tabs, %d replies lost", killed, lost)
	if killed < 5 || lost < 10 {
		t.Errorf("only %d tabs and %d lost replies: nothing was tried", killed, lost)
	}
	list := s.stored(t)
	for _, x := range all {
		if n := strings.Count(list, x.Email); n != 1 {
			t.Errorf("%s is stored %d times", x.Email, n)
		}
	}
}

// sendUntil opens the page in a tab of its own, sends, and kills the tab as the
// request with that number is on its way; it tells how many still wait, as far
// as that tab could say.
func sendUntil(t *testing.T, b *tab, l *wobbly, front string, request int) (left int) {
	t.Helper()
	for len(l.posts) > 0 {
		<-l.posts
	}
	ctx, kill := chromedp.NewContext(b.ctx, chromedp.WithExistingBrowserContext(b.own))
	defer kill()
	if err := chromedp.Run(ctx, chromedp.Navigate(front+"/?mode=tablet"),
		chromedp.Poll(`window.tarnwrightQueue !== undefined`, nil, chromedp.WithPollingTimeout(patience))); err != nil {
		t.Fatal(err)
	}
	result := make(chan int, 1)
	go func() {
		n := 50
		err := chromedp.Run(ctx, chromedp.Evaluate(`(async () => {
			let waiting = 50;
			for (let i = 0; i < 200 && waiting > 0; i++) {
				await tarnwrightQueue.send();
				const db = await new Promise(ok => { const r = indexedDB.open("tarnwright", 1); r.onsuccess = () => ok(r.result); });
				waiting = await new Promise(ok => { const r = db.transaction("waiting").objectStore("waiting").count(); r.onsuccess = () => ok(r.result); });
				db.close();
			}
			return waiting;
		})()`, &n, awaitPromise))
		if err == nil {
			result <- n
		}
	}()
	for seen := 0; ; {
		select {
		case n := <-result:
			return n
		case <-l.posts:
			if seen++; seen > request {
				return 50 // it did not live to tell
			}
		case <-ctx.Done():
			t.Fatal("the browser took too long")
		}
	}
}
