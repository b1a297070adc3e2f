package browsertest_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// anew does something to three ponds side by side and waits until the page
// shows what came of it.
const anew = `(async () => {
	const page = document.getElementById("tarnwright"), start = performance.now();
	const changed = new Promise(done => new MutationObserver((_, seen) => { seen.disconnect(); done(); }).observe(page, {subtree: true, attributes: true, childList: true, characterData: true}));
	%s
	await changed;
	await new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
	return performance.now() - start;
})()`

// BenchmarkCompare prints how long three ponds side by side take to be painted
// anew, at full speed and with the processor slowed four times. What was worked
// out once is kept, so that each time is of a page of its own: one that is
// touched as soon as it is there, and one that was looked at for some seconds
// first, as most are. The last lines are of one page, where a price is typed for
// all three, another one each time, and whose units change again and again.
func BenchmarkCompare(t *testing.B) {
	s := serve(t)
	const pages, again, typed = 10, 100, 300
	cases := []struct{ what, at, does, shows string }{
		// The pond in hand is changed and put beside two that were never worked out.
		{"three new ponds", "/?opt=length%3D46ft%26width%3D20ft&opt=length%3D30ft%26deep%3D7ft",
			`const f = document.getElementById("f-length"); f.value = "36 ft"; f.dispatchEvent(new Event("input", {bubbles: true})); document.getElementById("tab-compare").click();`, "36\u00a0ft"},
		// The same ponds are worded and drawn in other units.
		{"three ponds in other units", "/?view=compare" + threeBeside,
			`document.getElementById("f-units-metric").click();`, "13.41\u00a0m"},
	}
	for _, slower := range []float64{1, 4} {
		say := func(what string, ms []float64) {
			fmt.Printf("compare, processor %g× slower: %s, %d times, p50 %.1f ms, p98 %.1f ms\n", slower, what, len(ms), quantile(ms, 0.5), quantile(ms, 0.98))
		}
		for _, c := range cases {
			for _, looked := range []struct {
				how string
				ms  int
			}{{"touched at once", 0}, {"looked at first", 3000}} {
				var ms []float64
				for range pages {
					b := open(t, size{1280, 900}, scriptOn)
					b.run(chromedp.Navigate(s.url+c.at), waits(looked.ms))
					b.until("the widget took over", isLive)
					b.run(waits(400), emulation.SetCPUThrottlingRate(slower))
					ms = append(ms, evalAwait[float64](b, fmt.Sprintf(anew, c.does)))
					b.run(emulation.SetCPUThrottlingRate(1))
					if shown := eval[string](b, `document.querySelector(".cmp")?.innerText ?? ""`); strings.Count(shown, "Likely budget") < 4 || !strings.Contains(shown, c.shows) {
						t.Fatalf("%s: the time is of a page that shows something else: %.400q", c.what, shown)
					}
					b.quiet()
					b.shut()
				}
				say(c.what+" on a page "+looked.how, ms)
			}
		}
		b := live(t, s, size{1280, 900}, cases[1].at)
		b.run(waits(400), emulation.SetCPUThrottlingRate(slower))
		var ms []float64
		for i := range typed {
			ms = append(ms, evalAwait[float64](b, fmt.Sprintf(anew, fmt.Sprintf(`const f = document.getElementById("f-each"); f.value = "0.%d"; f.dispatchEvent(new Event("input", {bubbles: true}));`, 101+i))))
			b.run(waits(100))
		}
		say("three ponds at a price just typed", ms)
		b.run(waits(400))
		if at := eval[string](b, `new URL(location).searchParams.getAll("opt").join(" ") + location.search`); strings.Count(at, "power=0.4") != 3 {
			t.Fatalf("the times are of ponds at other prices: %s", at)
		}
		ms = nil
		for i := range again {
			ms = append(ms, evalAwait[float64](b, fmt.Sprintf(anew, `document.getElementById("f-units-`+[]string{"metric", "us"}[i%2]+`").click();`)))
			b.run(waits(300))
		}
		b.quiet()
		say("other units again and again", ms)
	}
}

// shut closes the page before the test ends: many open ones would be at work
// beside the one that is measured.
func (b *tab) shut() {
	b.t.Helper()
	b.run(chromedp.ActionFunc(func(ctx context.Context) error {
		c := chromedp.FromContext(ctx)
		return target.CloseTarget(c.Target.TargetID).Do(cdp.WithExecutor(ctx, c.Browser))
	}))
}

// waits lets the page lie for a while.
func waits(ms int) chromedp.Action {
	return chromedp.Evaluate(fmt.Sprintf(`new Promise(done => setTimeout(done, %d))`, ms), nil, awaitPromise)
}
