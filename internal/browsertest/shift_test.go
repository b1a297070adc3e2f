package browsertest_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// shifts lists every move of what a person sees that they did not ask for
// since the page was first painted, with what it was that moved. A frame whose
// styles are on their way may be laid out without them and thrown away
// unpainted; that counts as a move for the browser, but nobody has seen it.
const shifts = `new Promise(done => {
	const all = [], painted = performance.getEntriesByName("first-paint")[0]?.startTime ?? 0;
	new PerformanceObserver(l => l.getEntries().forEach(e => {
		const box = r => [r.x, r.y, r.width, r.height].map(Math.round).join();
		const name = n => n ? n.nodeName + "." + (n.getAttribute?.("class") ?? "") : "gone";
		if (!e.hadRecentInput && e.startTime >= painted) all.push({value: e.value, what: e.value.toFixed(4) + " at " + Math.round(e.startTime) + " ms: " +
			e.sources.map(s => name(s.node) + " " + box(s.previousRect) + " to " + box(s.currentRect)).join(" | ")});
	})).observe({type: "layout-shift", buffered: true});
	setTimeout(() => done(all), 100);
})`

// bareFor is for how many milliseconds the page stood painted without its
// styles.
const bareFor = `(() => {
	const styles = performance.getEntriesByType("resource").filter(e => e.renderBlockingStatus === "blocking").map(e => e.responseEnd);
	return Math.max(0, (styles.length ? Math.max(...styles) : Infinity) - performance.getEntriesByName("first-paint")[0].startTime);
})()`

type shift struct {
	Value float64
	What  string
}

// mostShift is what may move between opening and answering, in the browser's
// own measure; 0.1 is what counts as good.
const mostShift = 0.01

// TestShift_NothingMovesWhileThePageWakes adds up what moves from the first
// paint until the widget has taken over and come to rest, over a slow line. It
// runs before the tests that share the machine.
func TestShift_NothingMovesWhileThePageWakes(t *testing.T) {
	host, s := builders(t)
	for _, at := range []size{{412, 823}, {1280, 860}} {
		for _, on := range []struct{ name, address string }{
			{"draw", s.url + "/"}, {"compare", s.url + "/?view=compare"}, {"pump", s.url + "/?view=pump"}, {"send", s.url + "/?view=send"}, {"in a frame", host.url + "/"},
		} {
			t.Run(fmt.Sprintf("%s at %d", on.name, at.w), func(t *testing.T) {
				b := open(t, at, scriptOn)
				b.run(network.Enable(), slowly(), chromedp.Navigate(on.address), atOnce())
				seen := []*tab{b}
				if on.address == host.url+"/" {
					b.until("the frame has spoken", `document.querySelector("tarnwright-check a").style.display === "none"`)
					in := b.inside(s.url)
					in.until("the widget took over", isLive)
					b.fits(in)
					seen = append(seen, in)
				} else {
					b.until("the widget took over", isLive)
				}
				b.settles()
				for i, page := range seen {
					// The builder's page has no style sheet to wait for.
					if ours := len(seen) == 1 || i == 1; ours {
						if bare := eval[float64](page, bareFor); bare > 0 {
							t.Errorf("the page stood there without its styles for %.0f ms", bare)
						}
					}
					total, what := 0.0, ""
					for _, m := range evalAwait[[]shift](page, shifts) {
						total, what = total+m.Value, what+"\n"+m.What
					}
					t.Logf("%.4f%s", total, what)
					if total > mostShift {
						t.Errorf("what is seen moved by %.4f, more than %v:%s", total, mostShift, what)
					}
				}
			})
		}
	}
}

// slowly is a phone's line, on which a page comes in pieces; atOnce is none.
func slowly() chromedp.Action { return network.EmulateNetworkConditions(false, 150, 2e5, 1e5) }
func atOnce() chromedp.Action { return network.EmulateNetworkConditions(false, 0, -1, -1) }
