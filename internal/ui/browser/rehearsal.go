package browser

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Part is what a rehearsal plays: the address and the width of the page that
// the widget will be started for, and whom to tell when the page may have it.
type Part struct {
	Query  string
	Narrow bool
	Done   func()
}

// Rehearsal tells whether the widget runs without a page, only to be compiled
// (web/js/rehearse.js), and what it is to play then.
func Rehearsal() (Part, bool) {
	r := app.Window().Get("tarnwrightRehearsal")
	if !r.Truthy() {
		return Part{}, false
	}
	return Part{
		Query:  trimQuestion(text(r.Get("query"))),
		Narrow: r.Get("narrow").Truthy(),
		Done:   func() { r.Call("done") },
	}, true
}
