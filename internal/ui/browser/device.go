package browser

import "github.com/maxence-charriere/go-app/v10/pkg/app"

func dataset() app.Value { return document().Get("documentElement").Get("dataset") }

// Tablet tells whether this is a salesperson's page; the starting script knows.
func Tablet() bool { return dataset().Get("tablet").Truthy() }

// Framed tells whether the page stands in another one; nothing is stored then.
func Framed() bool { return !app.Window().Get("top").Equal(app.Window().Get("self")) }

// Origin is scheme and host of the page's address.
func Origin() string { return app.Window().Get("location").Get("origin").String() }

// Fragment is what follows the # of the page's address.
func Fragment() string { return app.Window().Get("location").Get("hash").String() }

// Answer is the name of a control, what it holds, and the act that it is for.
type Answer struct{ Name, Value, Act, Arg string }

// Changed lists the controls of a form that no longer hold what was written
// into the page: what a person has typed before the widget was there.
func Changed(id string) []Answer {
	form := byID(id)
	if !form.Truthy() {
		return nil
	}
	var out []Answer
	all := form.Get("elements")
	for i := range all.Length() {
		e := all.Index(i)
		name := text(e.Get("name"))
		holds := func(value string) {
			out = append(out, Answer{name, value, attr(e, "data-act"), attr(e, "data-arg")})
		}
		switch {
		case name == "" || text(e.Get("type")) == "hidden":
		case isBox(e):
			on := e.Get("checked").Truthy()
			if on != e.Get("defaultChecked").Truthy() && (on || text(e.Get("type")) == "checkbox") {
				holds(map[bool]string{true: text(e.Get("value")), false: "off"}[on])
			}
		case e.Get("tagName").String() == "SELECT":
			i := e.Get("selectedIndex").Int()
			o := e.Get("options").Index(i)
			if o.Truthy() && !o.Get("defaultSelected").Truthy() && (i > 0 || e.Call("querySelector", "[selected]").Truthy()) {
				holds(text(e.Get("value")))
			}
		case e.Get("defaultValue").Type() == app.TypeString && e.Get("value").String() != e.Get("defaultValue").String():
			holds(e.Get("value").String())
		}
	}
	return out
}

func on(target app.Value, event string, f func()) {
	target.Call("addEventListener", event, app.FuncOf(func(app.Value, []app.Value) any {
		f()
		return nil
	}))
}

// OnFragment calls f when another fragment has come into the address: typed,
// pasted, or by the back button.
func OnFragment(f func()) { on(app.Window(), "hashchange", f) }

// historyMark tells an entry of the browser's history that this page made from
// one that came with a link.
const historyMark = "tarnwright"

// PushAddress puts a new entry into the browser's history; the one before it
// becomes this page's as well, so that Back leads there without a load.
func PushAddress(from, to string) {
	history, ours := app.Window().Get("history"), map[string]any{historyMark: 1}
	history.Call("replaceState", ours, "", from)
	history.Call("pushState", ours, "", to)
}

// OnReturn calls f when Back or Forward came to another entry, and says whether
// this page made it. Nobody else hears of it: the framework would make a second
// page over the one that is there.
func OnReturn(f func(ours bool)) {
	app.Window().Call("addEventListener", "popstate", app.FuncOf(func(_ app.Value, args []app.Value) any {
		args[0].Call("stopImmediatePropagation")
		state := args[0].Get("state")
		f(state.Truthy() && state.Get(historyMark).Truthy())
		return nil
	}), true)
}

// OnLeave calls f when the page may be about to go.
func OnLeave(f func()) { on(app.Window(), "pagehide", f) }

// draftName is where what is being typed is kept until the tab is closed.
const draftName = "tarnwright.draft"

func session() app.Value { return app.Window().Get("sessionStorage") }

// SaveDraft keeps a text for the case that this tab is loaded again.
func SaveDraft(text string) {
	if !Framed() {
		session().Call("setItem", draftName, text)
	}
}

// Draft is the text kept, or nothing.
func Draft() string {
	if Framed() {
		return ""
	}
	return text(session().Call("getItem", draftName))
}

// DropDraft forgets it.
func DropDraft() {
	if !Framed() {
		session().Call("removeItem", draftName)
	}
}

// Copy puts a text into the clipboard and calls done when it is there. Where
// that is not allowed, the element with an id is selected, ready to be copied.
func Copy(text, id string, done func()) {
	fallback := func() {
		if e := byID(id); e.Truthy() {
			e.Call("focus")
			e.Call("select")
		}
	}
	clipboard := app.Window().Get("navigator").Get("clipboard")
	if !clipboard.Truthy() {
		fallback()
		return
	}
	settle(clipboard.Call("writeText", text), func(app.Value) { done() }, fallback)
}

// Online is what the browser believes of the line; true means little.
func Online() bool { return app.Window().Get("navigator").Get("onLine").Truthy() }

// OnLine calls f when the browser's belief changes.
func OnLine(f func()) {
	on(app.Window(), "online", f)
	on(app.Window(), "offline", f)
}

func keeper() app.Value { return app.Window().Get("tarnwrightQueue") }

// CanKeep tells whether an enquiry that cannot be sent can be kept, sealed.
func CanKeep() bool { return Tablet() && keeper().Truthy() }

// Keep seals an enquiry and stores it on this device; done hears whether it is
// safe there.
func Keep(key, body, initial, made string, done func(ok bool)) {
	settle(keeper().Call("keep", dataset().Get("seal"), key, body, initial, made),
		func(app.Value) { done(true) }, func() { done(false) })
}

// TakeBack removes a kept enquiry, if it was never on its way.
func TakeBack(key string, done func(ok bool)) {
	settle(keeper().Call("takeBack", key), func(v app.Value) { done(v.Truthy()) }, func() { done(false) })
}

// Remove removes an enquiry that was refused for good.
func Remove(key string) { keeper().Call("remove", key) }

// SendNow tries to send what is kept.
func SendNow() { keeper().Call("send") }

// ListenQueue hears what is kept, as JSON, now and at every change.
func ListenQueue(f func(text string)) {
	keeper().Call("listen", app.FuncOf(func(_ app.Value, args []app.Value) any {
		if len(args) > 0 {
			f(args[0].String())
		}
		return nil
	}))
}

// Clock is a time as people here write it: "2:40 PM".
func Clock(rfc3339 string) string {
	lang := text(document().Get("documentElement").Get("lang"))
	return app.Window().Get("Date").New(rfc3339).Call("toLocaleTimeString", lang, map[string]any{"hour": "numeric", "minute": "2-digit"}).String()
}

func updater() app.Value { return app.Window().Get("tarnwrightUpdate") }

// OnNewer calls f when a new version waits.
func OnNewer(f func()) {
	if u := updater(); u.Truthy() {
		u.Call("listen", app.FuncOf(func(app.Value, []app.Value) any {
			f()
			return nil
		}))
	}
}

// ApplyNewer loads the new version.
func ApplyNewer() {
	if u := updater(); u.Truthy() {
		u.Call("apply")
	}
}

// NowMs is the device's clock in milliseconds.
func NowMs() float64 { return app.Window().Get("Date").Call("now").Float() }

// OnTouch calls f when a person does anything on the page.
func OnTouch(f func()) {
	for _, event := range []string{"pointerdown", "keydown", "input", "wheel"} {
		on(app.Window(), event, f)
	}
}

// EverySecond calls f about once a second until the page is closed.
func EverySecond(f func()) {
	const everyMs = 1000
	app.Window().Call("setInterval", app.FuncOf(func(app.Value, []app.Value) any {
		f()
		return nil
	}), everyMs)
}
