package browsertest_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// toggled asks for the other units, which works three ponds out, draws and
// words them anew, and waits until the page shows them.
const toggled = `(async () => {
	const page = document.querySelector(".cmp"), start = performance.now();
	const changed = new Promise(done => new MutationObserver((_, seen) => { seen.disconnect(); done(); }).observe(page, {subtree: true, attributes: true, childList: true, characterData: true}));
	document.getElementById("f-units-metric").click();
	await changed;
	await new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
	return performance.now() - start;
})()`

// BenchmarkCompare prints how long three ponds side by side take to be worked
// out and painted anew, at full speed and with the processor slowed four times.
// What was worked out once is kept, so that each time is of a page of its own.
func BenchmarkCompare(t *testing.B) {
	s := serve(t)
	const pages = 20
	for _, slower := range []float64{1, 4} {
		var ms []float64
		for range pages {
			b := live(t, s, size{1280, 900}, "/?view=compare"+threeMore[:len(threeMore)-len("&steps=1")])
			b.run(chromedp.Evaluate(`new Promise(done => setTimeout(done, 400))`, nil, awaitPromise), emulation.SetCPUThrottlingRate(slower))
			ms = append(ms, evalAwait[float64](b, toggled))
			b.run(emulation.SetCPUThrottlingRate(1), chromedp.Navigate("about:blank"))
			b.quiet()
		}
		fmt.Printf("compare, processor %g× slower: three ponds anew on %d pages, p50 %.1f ms, p98 %.1f ms\n", slower, len(ms), quantile(ms, 0.5), quantile(ms, 0.98))
	}
}
