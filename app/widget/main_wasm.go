//go:build wasm

// Command widget is the page in the browser. The builder's book stands in the
// page, so nothing is fetched.
package main

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/book"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/live"
)

func main() {
	b, err := book.Decode([]byte(browser.Text("book")))
	if err != nil {
		// The page stays what it is, a form that the server answers.
		browser.Complain(err)
		return
	}
	// What was typed is read before the framework replaces the controls.
	first := live.New(live.FromBook(b))
	app.Route("/", func() app.Composer {
		if p := first; p != nil {
			first = nil
			return p
		}
		return live.New(live.FromBook(b))
	})
	app.RunWhenOnBrowser()
}
