package browsertest_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// anew does something to three ponds side by side and waits until the page
// shows what came of it.
const anew = `(async () => {
	const page = document.querySelector(".cmp"), start = performance.now();
	const changed = new Promise(done => new MutationObserver((_, seen) => { seen.disconnect(); done(); }).observe(page, {subtree: true, attributes: true, childList: true, characterData: true}));
	%s
	await changed;
	await new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
	return performance.now() - start;
})()`

// otherUnits words and draws the same ponds in other units; otherPonds goes to
// three that were never seen, which are worked out as well.
const (
	otherUnits = `document.getElementById("f-units-metric").click();`
	otherPonds = `history.pushState({}, "", "/?view=compare&length=36ft&opt=length%3D46ft%26width%3D20ft&opt=length%3D30ft%26deep%3D7ft"); dispatchEvent(new PopStateEvent("popstate", {state: {}}));`
)

// BenchmarkCompare prints how long three ponds side by side take to be painted
// anew, at full speed and with the processor slowed four times. What was worked
// out once is kept, so that each time is of a page of its own.
func BenchmarkCompare(t *testing.B) {
	s := serve(t)
	const pages = 20
	for _, slower := range []float64{1, 4} {
		for _, c := range []struct{ what, does string }{{"three other ponds", otherPonds}, {"three ponds in other units", otherUnits}} {
			var ms []float64
			for range pages {
				b := live(t, s, size{1280, 900}, "/?view=compare"+threeMore[:len(threeMore)-len("&steps=1")])
				b.run(chromedp.Evaluate(`new Promise(done => setTimeout(done, 400))`, nil, awaitPromise), emulation.SetCPUThrottlingRate(slower))
				ms = append(ms, evalAwait[float64](b, fmt.Sprintf(anew, c.does)))
				b.run(emulation.SetCPUThrottlingRate(1), chromedp.Navigate("about:blank"))
				b.quiet()
			}
			fmt.Printf("compare, processor %g× slower: %s on %d pages, p50 %.1f ms, p98 %.1f ms\n", slower, c.what, len(ms), quantile(ms, 0.5), quantile(ms, 0.98))
		}
	}
}
