package browsertest_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// shifts lists every move of what a person sees that they did not ask for
// since the page was opened, with what it was that moved.
const shifts = `new Promise(done => {
	const all = [];
	new PerformanceObserver(l => l.getEntries().forEach(e => {
		const box = r => [r.x, r.y, r.width, r.height].map(Math.round).join();
		const name = n => n ? n.nodeName + "." + (n.getAttribute?.("class") ?? "") : "gone";
		if (!e.hadRecentInput) all.push({value: e.value, what: e.value.toFixed(4) + " at " + Math.round(e.startTime) + " ms: " +
			e.sources.map(s => name(s.node) + " " + box(s.previousRect) + " to " + box(s.currentRect)).join(" | ")});
	})).observe({type: "layout-shift", buffered: true});
	setTimeout(() => done(all), 100);
})`

type shift struct {
	Value float64
	What  string
}

// mostShift is what may move between opening and answering, in the browser's
// own measure; 0.1 is what counts as good.
const mostShift = 0.01

// TestShift_NothingMovesWhileThePageWakes adds up what moves from the first
// paint until the widget has taken over and come to rest, over a slow line.
//
// It runs before the tests that share the machine: among them a frame was laid
// out once in a while before its styles had come.
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
					// A tool that looks into a frame while it loads makes the browser lay it
					// out before its styles are there. What has moved since is kept for it.
					b.until("the frame has spoken", `document.querySelector("tarnwright-check a").style.display === "none"`)
					in := b.inside(s.url)
					in.until("the widget took over", isLive)
					b.fits(in)
					seen = append(seen, in)
				} else {
					b.until("the widget took over", isLive)
				}
				b.settles()
				for _, page := range seen {
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
