package browsertest_test

import (
	"context"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// TestRehearsal_IsNotNeeded opens the page as it is, where another thread
// fetches and compiles the widget, and where there is no other thread to do it
// or it fails. The page takes over each time; it fetches the widget itself
// only where nobody else has.
func TestRehearsal_IsNotNeeded(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, c := range []struct {
		why, before string
		fetches     bool
	}{
		{"on another thread", ``, false},
		{"threads are refused", `window.Worker = function () { throw new Error("refused"); };`, true},
		{"a thread that comes to no end", `const real = window.Worker; window.Worker = function (u) {
			const w = new real(u);
			Object.defineProperty(w, "onmessage", {set: f => w.addEventListener("message", e => { if (e.data !== "played") f(e); })});
			return w;
		};`, false},
		{"a thread that fails", `const real = window.Worker; window.Worker = function () { return new real("/nowhere.js"); };`, true},
	} {
		b := open(t, size{412, 823}, scriptOn)
		b.run(chromedp.ActionFunc(func(ctx context.Context) error {
			_, err := page.AddScriptToEvaluateOnNewDocument(c.before).Do(ctx)
			return err
		}), chromedp.Navigate(s.url+"/"))
		b.until("the widget took over: "+c.why, isLive)
		if got := eval[bool](b, `performance.getEntriesByType("resource").some(e => e.name.endsWith("/web/app.wasm"))`); got != c.fetches {
			t.Errorf("%s: the page fetched the widget itself: %v, want %v", c.why, got, c.fetches)
		}
		before := b.reading("volume")
		b.fill("f-length", "41 ft")
		b.changes("volume", before, "a longer pond ("+c.why+")")
	}
}

// TestRehearsal_EndsWithoutAnError lets the page lie until the rehearsal has
// come to its own end. An error there would throw away what it has compiled.
func TestRehearsal_EndsWithoutAnError(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, at := range []string{"/", "/?view=send"} {
		b := open(t, size{412, 823}, scriptOn)
		b.run(chromedp.ActionFunc(func(ctx context.Context) error {
			_, err := page.AddScriptToEvaluateOnNewDocument(`window.wrong = []; const real = window.Worker; window.Worker = function (u) {
				const w = new real(u);
				w.addEventListener("error", e => wrong.push(e.message));
				window.rehearsed = true;
				return w;
			};`).Do(ctx)
			return err
		}), chromedp.Navigate(s.url+at))
		b.until("the rehearsal has begun", `window.rehearsed === true`)
		b.run(chromedp.Evaluate(`new Promise(done => setTimeout(done, 9000))`, nil, awaitPromise)) // nothing tells of its end
		if got := eval[string](b, `wrong.join("; ")`); got != "" {
			t.Errorf("%s: %s", at, got)
		}
	}
}
