// Package browser is the only place that touches the browser: it reads what
// stands in the page before the widget takes over, turns events into plain
// values, and does the few things a page cannot say in markup. Outside a
// browser every call does nothing.
package browser

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

func document() app.Value { return app.Window().Get("document") }

func byID(id string) app.Value { return document().Call("getElementById", id) }

// Data is what the page's own element says under a name, or nothing.
func Data(name string) string {
	return text(document().Get("documentElement").Get("dataset").Get(name))
}

// Announce tells whatever listens to the document.
func Announce(event, detail string) {
	e := app.Window().Get("CustomEvent").New(event, map[string]any{"detail": detail})
	document().Call("dispatchEvent", e)
}

// FormQuery is what a form would send, as a query: the controls that name it
// anywhere on the page, as they are now.
func FormQuery(id string) string {
	form := byID(id)
	if !form.Truthy() {
		return ""
	}
	data := app.Window().Get("FormData").New(form)
	return app.Window().Get("URLSearchParams").New(data).Call("toString").String()
}

// Caret is where a person is on the page: the element with the focus, and what
// is selected in it. Where the page is scrolled to is not asked: the browser
// would lay the page out to tell.
type Caret struct {
	ID         string
	From, To   int
	Selectable bool
	element    app.Value
}

// Here reads the caret.
func Here() Caret {
	c := Caret{}
	e := document().Get("activeElement")
	if !e.Truthy() {
		return c
	}
	c.ID, c.element = e.Get("id").String(), e
	// Only text fields have a selection; reading it from others throws.
	if c.Selectable = isText(e); c.Selectable {
		c.From, c.To = e.Get("selectionStart").Int(), e.Get("selectionEnd").Int()
	}
	return c
}

func isText(e app.Value) bool {
	switch e.Get("tagName").String() {
	case "TEXTAREA":
		return true
	case "INPUT":
		switch e.Get("type").String() {
		case "text", "tel", "search", "url", "password":
			return true
		}
	}
	return false
}

// Return puts the caret back, if it is no longer there.
func Return(c Caret) {
	e := byID(c.ID)
	if c.ID == "" || !e.Truthy() {
		return
	}
	now := document().Get("activeElement")
	switch {
	case now.Equal(e):
		return // typing may have gone on since
	case !now.Truthy(), now.Equal(document().Get("body")):
	case c.element == nil || !now.Equal(c.element):
		return // the person has gone elsewhere since
	}
	e.Call("focus", map[string]any{"preventScroll": true})
	if c.Selectable && isText(e) {
		e.Call("setSelectionRange", c.From, c.To)
	}
}

// Focus moves the focus to an element and brings it into sight.
func Focus(id string) {
	if e := byID(id); e.Truthy() {
		e.Call("focus")
	}
}

// ReplaceAddress changes the page's address without a new entry in the history.
func ReplaceAddress(path string) {
	app.Window().Get("history").Call("replaceState", app.Window().Get("history").Get("state"), "", path)
}

// SetTitle names the page.
func SetTitle(title string) { document().Set("title", title) }

// Print opens the print dialog.
func Print() { app.Window().Call("print") }

// Load leaves the page for another address of this site.
func Load(address string) { app.Window().Get("location").Call("assign", address) }

// Reload loads the page again from its address.
func Reload() { app.Window().Get("location").Call("reload") }

// Now is the time by the device's clock, as RFC 3339.
func Now() string { return app.Window().Get("Date").New().Call("toISOString").String() }

// Token is an id that nobody can guess.
func Token() string {
	crypto := app.Window().Get("crypto")
	if crypto.Get("randomUUID").Truthy() {
		return crypto.Call("randomUUID").String()
	}
	// Only a secure page has randomUUID; a plain one has random numbers.
	const hex = "0123456789abcdef"
	bytes := app.Window().Get("Uint8Array").New(16)
	crypto.Call("getRandomValues", bytes)
	out := make([]byte, 0, 32)
	for i := range 16 {
		b := bytes.Index(i).Int()
		out = append(out, hex[b>>4&15], hex[b&15])
	}
	return string(out)
}

// Later calls f once after some milliseconds; the result stops it.
func Later(ms int, f func()) (stop func()) {
	var call app.Func
	done := false
	call = app.FuncOf(func(app.Value, []app.Value) any {
		if !done {
			done = true
			call.Release()
			f()
		}
		return nil
	})
	timer := app.Window().Call("setTimeout", call, ms)
	return func() {
		if !done {
			done = true
			app.Window().Call("clearTimeout", timer)
			call.Release()
		}
	}
}

// Breathe lets the browser do what has come up since, such as answer a finger,
// before the widget goes on. It is for the time before the page is live.
func Breathe() {
	if app.IsServer {
		return
	}
	done := make(chan struct{})
	Later(0, func() { close(done) })
	<-done
}

// NextFrame calls f before the browser next draws.
func NextFrame(f func()) {
	var call app.Func
	call = app.FuncOf(func(app.Value, []app.Value) any {
		call.Release()
		f()
		return nil
	})
	app.Window().Call("requestAnimationFrame", call)
}

// Mark leaves a mark on the page's timeline.
func Mark(name string) { app.Window().Get("performance").Call("mark", name) }

// Broken shows what to do when the widget cannot go on; the page below stays.
func Broken(title, text, again string) {
	doc := document()
	if byID("broken").Truthy() {
		return
	}
	box := doc.Call("createElement", "div")
	box.Set("id", "broken")
	box.Set("className", "broken")
	box.Call("setAttribute", "role", "alert")
	head := doc.Call("createElement", "strong")
	head.Set("textContent", title)
	words := doc.Call("createElement", "p")
	words.Set("textContent", text)
	link := doc.Call("createElement", "a")
	link.Set("textContent", again)
	link.Set("href", app.Window().Get("location").Get("href").String())
	link.Set("className", "btn")
	for _, e := range []app.Value{head, words, link} {
		box.Call("appendChild", e)
	}
	doc.Get("body").Call("appendChild", box)
}

// Query is the query of the page's address.
func Query() string {
	return trimQuestion(app.Window().Get("location").Get("search").String())
}

func trimQuestion(s string) string {
	if len(s) > 0 && s[0] == '?' {
		return s[1:]
	}
	return s
}

// narrowPx is the width below which the style sheet lays the page out for a
// phone.
const narrowPx = 600

// Narrow tells whether the element with an id is laid out for a phone; the
// page may stand in a frame, so the window does not say.
func Narrow(id string) bool {
	e := byID(id)
	if !e.Truthy() {
		e = document().Get("body")
	}
	w := e.Get("clientWidth")
	return w.Truthy() && w.Float() < narrowPx
}

// OnNarrow calls f with what Narrow tells, once the page is laid out and each
// time it has another size. To ask at other times can make the browser lay the
// page out an extra time.
func OnNarrow(id string, f func(narrow bool)) {
	watch := app.Window().Get("ResizeObserver").New(app.FuncOf(func(app.Value, []app.Value) any {
		f(Narrow(id))
		return nil
	}))
	watch.Call("observe", byID(id))
}

// Flag marks the document, so that a test can wait for it.
func Flag(name string) { document().Get("documentElement").Call("setAttribute", "data-"+name, "1") }

// Complain writes what went wrong to the browser's console.
func Complain(what any) {
	app.Window().Get("console").Call("error", "tarnwright:", printed(what))
}

func printed(what any) string {
	switch v := what.(type) {
	case error:
		return v.Error()
	case string:
		return v
	}
	return "unknown"
}
