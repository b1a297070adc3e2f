//go:build wasm

// Command widget is the page in the browser. The builder's book and the words
// of the page's language come beside it, from the addresses that the page
// names.
package main

import (
	"encoding/json"
	"runtime/debug"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/book"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/live"
)

func main() {
	// A page makes thousands of small things at every frame and lets them go.
	// Cleared up every few frames that is quick each time; the longer it waits,
	// the longer a finger does when it comes, and the more memory it takes.
	debug.SetGCPercent(600)
	debug.SetMemoryLimit(128 << 20)
	cfg, err := brought()
	if err != nil {
		// The page stays what it is, a form that the server answers.
		browser.Complain(err)
		return
	}
	if part, ok := browser.Rehearsal(); ok {
		live.Rehearse(cfg, part)
		return
	}
	// Set out, the page waits here until what it is about to call is compiled.
	// Without another thread there is nothing to wait for.
	_, _ = browser.Awaited("tarnwrightPlayed")
	browser.Breathe()
	// What was typed is read before the framework replaces the controls.
	cfg.Kit.Builder.Logo = browser.Data("logo")
	first := live.New(cfg)
	app.Route("/", func() app.Composer {
		if p := first; p != nil {
			first = nil
			return p
		}
		return live.New(cfg)
	})
	app.RunWhenOnBrowser()
}

// brought is what the page is opened with: the book and the words that were
// fetched while the widget was on its way.
func brought() (live.Config, error) {
	var cfg live.Config
	text, err := browser.Awaited("tarnwrightBook")
	if err != nil {
		return cfg, err
	}
	b, err := book.Decode([]byte(text))
	if err != nil {
		return cfg, err
	}
	browser.Breathe()
	if text, err = browser.Awaited("tarnwrightWords"); err != nil {
		return cfg, err
	}
	var words map[string]string
	if err := json.Unmarshal([]byte(text), &words); err != nil {
		return cfg, err
	}
	return live.FromBook(b, say.Of(words)), nil
}
