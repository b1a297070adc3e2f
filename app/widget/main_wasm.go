//go:build wasm

// Command widget is the page in the browser. The builder's book comes beside
// it, from the address that the page names.
package main

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/book"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/live"
)

func main() {
	text, err := browser.Awaited("tarnwrightBook")
	if err != nil {
		browser.Complain(err)
		return
	}
	b, err := book.Decode([]byte(text))
	if err != nil {
		// The page stays what it is, a form that the server answers.
		browser.Complain(err)
		return
	}
	cfg := live.FromBook(b)
	// A page in another language brings its words.
	if text := browser.Text("words"); text != "" {
		var words map[string]string
		if err := json.Unmarshal([]byte(text), &words); err != nil {
			browser.Complain(err)
			return
		}
		cfg.Kit.Words = say.Of(words)
	}
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
