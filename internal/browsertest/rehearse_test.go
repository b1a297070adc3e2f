package browsertest_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
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
		{"a packed widget that is not there", packedAt("/nowhere"), true},
		{"a packed widget that is another file", packedAt("/robots.txt"), true},
		{"no packed widget", packedAt(""), false},
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

// packedAt is what tells the thread that the packed widget is somewhere else.
func packedAt(address string) string {
	return fmt.Sprintf(`const tell = Worker.prototype.postMessage; Worker.prototype.postMessage = function (what) {
		if (what.book) what.packed = %q;
		return tell.call(this, what);
	};`, address)
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

// A program that ends while a timer of its own is set: the framework's part
// would ask for it over and over, and never stop. This plays such a program to
// the rehearsal, with the framework's own part.
func TestRehearsal_LeavesNoTimerBehind(t *testing.T) {
	t.Parallel()
	rehearse, err := os.ReadFile("../../web/js/rehearse.js")
	if err != nil {
		t.Fatal(err)
	}
	exec := fetched(t, serve(t).url+"/wasm_exec.js")
	b := open(t, size{412, 823}, scriptOn) // a page of its own, where text may be run
	b.run(chromedp.Evaluate(fmt.Sprintf("window.exec = %s; window.rehearse = %s; 0", quoted(t, exec), quoted(t, rehearse)), nil))
	got := evalAwait[string](b, `(async () => {
		let warned = 0;
		const say = {log() {}, error() {}, warn() { if (++warned > 50) throw new Error("it never stops"); }};
		const stage = {};
		new Function("globalThis", "console", exec)(Object.assign(stage, {setTimeout, clearTimeout, performance, crypto, TextEncoder, TextDecoder}), say);
		let ended;
		const over = new Promise(done => ended = done);
		class Played extends stage.Go {
			run() {
				this.mem = new DataView(new ArrayBuffer(64));
				this.importObject.gojs["runtime.scheduleTimeoutEvent"](0);
				this.importObject.gojs["runtime.wasmExit"](0);
				ended();
				return Promise.resolve();
			}
		}
		const self = {};
		new Function("self", "WebAssembly", "fetch", "importScripts", "postMessage", "Go", rehearse)(
			self, {compileStreaming: async () => ({}), instantiate: async () => ({})}, async () => ({text: async () => ""}), () => {}, () => {}, Played);
		self.onmessage({data: {book: "/book", words: "/words", query: "", narrow: true}});
		await over;
		await new Promise(done => setTimeout(done, 200));
		return warned + " warnings";
	})()`)
	if got != "0 warnings" {
		t.Errorf("a timer that was set at the end gave %s", got)
	}
}

// quoted is a text as a script writes it.
func quoted(t *testing.T, text []byte) string {
	t.Helper()
	out, err := json.Marshal(string(text))
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}
