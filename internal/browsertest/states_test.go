package browsertest_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// situation is a state of the page that a person can meet, and how to get
// there.
type situation struct {
	name string
	// address is opened, and the widget has taken over unless still.
	address string
	still   bool
	tablet  bool
	do      func(b *tab)
}

// situations is every state of the page; a new one goes here.
func situations() []situation {
	press := func(ids ...string) func(*tab) {
		return func(b *tab) {
			for _, id := range ids {
				b.until(id+" is there", `document.getElementById("`+id+`") !== null`)
				b.click(id)
			}
		}
	}
	enquire := func(b *tab) { b.enquire("Maren") }
	return []situation{
		{name: "before the widget", address: "/", still: true},
		{name: "open", address: "/?ask=all"},
		{name: "led", address: "/?ask=steps&part=features"},
		{name: "as the width says", address: "/?part=site"},
		{name: "answers that cannot be read", address: "/?length=900+ft&power=lots"},
		{name: "an outline that is no pond", address: "/?shape=free&handles=-400,-300%3B400,300%3B400,-300%3B-400,300&length=8m&width=6m"},
		{name: "a ring in hand", address: "/", do: func(b *tab) {
			b.run(chromedp.Focus("[data-act=ring]", chromedp.ByQuery), chromedp.KeyEvent("\r"))
			b.until("the ring is in hand", `document.querySelector(".in-hand") !== null`)
		}},
		{name: "all folds open", address: "/", do: unfold},
		{name: "pump", address: "/?view=pump", do: unfold},
		{name: "one pond to compare", address: "/?view=compare"},
		{name: "three ponds and their steps", address: threeOptions + "&steps=1", do: unfold},
		{name: "safety and the form", address: "/?view=send&sheets=2", do: unfold},
		{name: "on paper", address: "/?view=send&sheets=2", do: func(b *tab) { b.run(emulation.SetEmulatedMedia().WithMedia("print")) }},
		{name: "a form with mistakes", address: "/?view=send", do: press("send")},
		{name: "a form that has gone", address: "/", do: func(b *tab) {
			enquire(b)
			b.until("it went", `document.getElementById("sent") !== null`)
		}},
		{name: "an enquiry on its way", address: "/", do: func(b *tab) {
			b.run(chromedp.Evaluate(answerLeads(`new Promise(() => {})`), nil))
			enquire(b)
			b.until("it is on its way", `document.querySelector("#send[aria-disabled=true]") !== null`)
		}},
		{name: "an enquiry that was not taken", address: "/", do: func(b *tab) {
			b.run(chromedp.Evaluate(answerLeads(`Promise.resolve(new Response("{}", {status: 503}))`), nil))
			enquire(b)
			b.until("it says so", `document.querySelector(".trouble .notice") !== null`)
		}},
		{name: "a code to scan", address: "/?view=send", do: press("show-qr")},
		{name: "a link that was cut off", address: "/#d=1.AAA"},
		{name: "another language", address: "/?lang=es&view=send"},
		{name: "a tablet without a line", tablet: true, do: off},
		{name: "an enquiry that waits", tablet: true, do: func(b *tab) {
			off(b)
			enquire(b)
			b.until("it waits", `document.getElementById("queued") !== null`)
		}},
		{name: "a queue, one refused for good", tablet: true, do: func(b *tab) {
			b.run(chromedp.Evaluate(answerLeads(`Promise.resolve(new Response("{}", {status: 400}))`), nil))
			evalAwait[bool](b, `tarnwrightQueue.keep(document.querySelector("script[data-seal]").dataset.seal, "refused-for-good-0000000000000000", "{}", "X", new Date().toISOString()).then(() => true)`)
			b.until("it is marked", `document.getElementById("bad-0") !== null`)
		}},
		{name: "nothing chosen yet", tablet: true, do: func(b *tab) {
			off(b)
			enquire(b)
			press("another")(b)
			b.until("a shape is asked for", `document.getElementById("begin") !== null`)
		}},
		{name: "a tablet that nobody touches", tablet: true, do: func(b *tab) {
			before := b.reading("volume")
			b.fill("f-length", "41 ft")
			b.changes("volume", before, "a longer pond")
			b.run(chromedp.Evaluate(`const ahead = Date.now() + 15 * 60000 + 5000; Date.now = () => ahead; 0`, nil))
			b.until("it warns", `document.getElementById("wipe") !== null`)
		}},
	}
}

// answerLeads is a script that answers the page's enquiries with something.
func answerLeads(with string) string {
	return `const fine = fetch; window.fetch = (a, o) => String(a).includes("/api/v1/") ? ` + with + ` : fine(a, o); 0`
}

func unfold(b *tab) {
	b.run(chromedp.Evaluate(`document.querySelectorAll("details").forEach(d => d.open = true); 0`, nil))
}

func off(b *tab) {
	b.run(network.Enable(), network.EmulateNetworkConditions(true, 0, 0, 0))
	b.until("the page says that the line is down", `document.getElementById("line") !== null`)
}

// enter opens a browser on a situation.
func (x situation) enter(t *testing.T, s *server) *tab {
	t.Helper()
	b := open(t, size{1280, 860}, scriptOn)
	address := x.address
	if x.tablet {
		address = "/?mode=tablet"
	}
	if x.still {
		b.run(network.Enable(), network.SetBlockedURLs([]string{"*app.wasm*"}))
	}
	b.run(chromedp.Navigate(s.url + address))
	if !x.still {
		b.until("the widget took over", isLive)
	}
	if x.do != nil {
		x.do(b)
	}
	return b
}

// scheme is what a person's device asks for. The page's ground stays light,
// as its figures stand on the colours of depth, so a device that asks for a
// dark one must be as well served.
type scheme struct{ name, feature, value string }

func schemes() []scheme {
	return []scheme{{"light", "prefers-color-scheme", "light"}, {"dark", "prefers-color-scheme", "dark"}, {"chosen colours", "forced-colors", "active"}}
}

// colourRules are those of the rules that look at colours.
func colourRules() []string { return []string{"color-contrast", "link-in-text-block"} }

// TestAxe_FindsNothing runs the accessibility rules over every state of the
// page, at three widths and in three schemes of colour: all of them in the
// first, and those that look at colours in the others, where nothing else is
// different.
func TestAxe_FindsNothing(t *testing.T) {
	t.Parallel()
	s := serve(t)
	rules := axe(t)
	all := situations()
	if len(all) != 25 {
		t.Errorf("%d states, want 25", len(all))
	}
	runs := make(chan int, 9*len(all))
	t.Cleanup(func() {
		if want := 9 * len(all); len(runs) != want && !t.Failed() {
			t.Errorf("the rules ran %d times, want %d", len(runs), want)
		}
	})
	for _, x := range all {
		t.Run(x.name, func(t *testing.T) {
			t.Parallel()
			b := x.enter(t, s)
			b.run(chromedp.Evaluate(rules, nil))
			// The bar at the bottom covers whatever is scrolled under it, which the
			// rules take for a target too small; TestFocus looks at that.
			b.run(chromedp.Evaluate(`(() => { const still = new CSSStyleSheet(); still.replaceSync(".dock { position: static !important; }"); document.adoptedStyleSheets = [still]; })()`, nil))
			media := ""
			if x.name == "on paper" {
				media = "print"
			}
			for _, wide := range []int64{1280, 768, 320} {
				b.run(emulation.SetDeviceMetricsOverride(wide, 860, 1, wide < 600))
				b.settles()
				if media == "" {
					for _, wrong := range b.misfits() {
						t.Errorf("%d px: %s", wide, wrong)
					}
				}
				for _, c := range schemes() {
					b.run(emulation.SetEmulatedMedia().WithMedia(media).WithFeatures([]*emulation.MediaFeature{{Name: c.feature, Value: c.value}}))
					var only []string
					if c.name != "light" {
						only = colourRules()
					}
					for _, v := range b.axe(only...) {
						t.Errorf("%d px, %s: %s", wide, c.name, v)
					}
					runs <- 1
				}
				if wide != 768 {
					b.shot(fmt.Sprintf("state-%s-%d", strings.ReplaceAll(x.name, " ", "-"), wide))
				}
			}
		})
	}
}

// settles waits until the page was drawn for its width.
func (b *tab) settles() {
	b.t.Helper()
	evalAwait[bool](b, `new Promise(r => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(() => r(true)))))`)
}
