package browser

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Kind names what happened.
type Kind string

// The kinds of event the page listens to.
const (
	Answered Kind = "answered" // a control has a new value
	Pressed  Kind = "pressed"  // a button or a link with an act
	Sent     Kind = "sent"     // the form with an act was sent
	Arrow    Kind = "arrow"    // an arrow key on a ring or a grip: XPx, YPx are -1, 0 or 1
	Keyed    Kind = "keyed"    // another key there: Value is "choose", "add" or "remove"
	Escaped  Kind = "escaped"  // the Escape key
	Grabbed  Kind = "grabbed"  // a ring or a grip was taken in hand
	Dragged  Kind = "dragged"  // and moved: XPx, YPx in the drawing's own space
	Dropped  Kind = "dropped"
	Tapped   Kind = "tapped"  // the drawing was tapped beside rings and grips
	Doubled  Kind = "doubled" // it was pressed twice; Arg is the ring, if on one
	Zoomed   Kind = "zoomed"  // it should be nearer by Times about XPx, YPx
	Panned   Kind = "panned"  // it was pushed by XPx, YPx of its own space
)

// Event is something a person did, as plain values.
type Event struct {
	Kind     Kind
	ID       string // of the control that was answered
	Act, Arg string
	Value    string
	Shift    bool
	XPx, YPx float64
	Times    float64
	// Fresh tells that it is of this moment: nothing kept the page from hearing
	// it at once, so nothing else is likely to be waiting.
	Fresh bool
}

// freshMs is how old an event may be that is of this moment.
const freshMs = 8

// Listen hears everything that happens in the element with an id and hands on
// what concerns the page. What the page takes care of itself is kept from the
// browser and from the framework. It listens until the page is closed.
func Listen(id string, hear func(Event)) {
	root := byID(id)
	if !root.Truthy() {
		return
	}
	clock, fresh := app.Window().Get("performance"), false
	l := &listener{hear: func(e Event) {
		e.Fresh = fresh
		hear(e)
	}}
	for name, f := range map[string]func(app.Value){
		"input": l.input, "change": l.change, "click": l.click, "submit": l.submit, "keydown": l.key,
		"pointerdown": l.down, "pointermove": l.move, "pointerup": l.up, "pointercancel": l.cancel, "dblclick": l.double,
	} {
		root.Call("addEventListener", name, app.FuncOf(func(_ app.Value, args []app.Value) any {
			if len(args) > 0 {
				fresh = clock.Call("now").Float()-args[0].Get("timeStamp").Float() < freshMs
				f(args[0])
			}
			return nil
		}))
	}
	// A listener for wheels that may keep one from the browser has to say so.
	root.Call("addEventListener", "wheel", app.FuncOf(func(_ app.Value, args []app.Value) any {
		if len(args) > 0 {
			l.wheel(args[0])
		}
		return nil
	}), map[string]any{"passive": false})
}

func text(v app.Value) string {
	if !v.Truthy() {
		return ""
	}
	return v.String()
}

func attr(e app.Value, name string) string {
	v := e.Call("getAttribute", name)
	return text(v)
}

func closest(ev app.Value, selector string) app.Value {
	t := ev.Get("target")
	if !t.Truthy() || !t.Get("closest").Truthy() {
		return t.Get("never")
	}
	return t.Call("closest", selector)
}

func keep(ev app.Value) {
	ev.Call("preventDefault")
	ev.Call("stopPropagation")
}

func isBox(e app.Value) bool {
	kind := text(e.Get("type"))
	return kind == "checkbox" || kind == "radio"
}

// input hears text and sliders as they change.
func (l *listener) input(ev app.Value) {
	e := ev.Get("target")
	act := attr(e, "data-act")
	if act == "" || isBox(e) || e.Get("tagName").String() == "SELECT" {
		return
	}
	l.hear(Event{Kind: Answered, ID: text(e.Get("id")), Act: act, Arg: attr(e, "data-arg"), Value: e.Get("value").String()})
}

// change hears boxes and lists.
func (l *listener) change(ev app.Value) {
	e := ev.Get("target")
	act := attr(e, "data-act")
	switch {
	case act == "":
	case isBox(e):
		value := e.Get("value").String()
		if e.Get("type").String() == "checkbox" && !e.Get("checked").Bool() {
			value = "off"
		}
		l.hear(Event{Kind: Answered, ID: text(e.Get("id")), Act: act, Arg: attr(e, "data-arg"), Value: value})
	case e.Get("tagName").String() == "SELECT":
		l.hear(Event{Kind: Answered, ID: text(e.Get("id")), Act: act, Arg: attr(e, "data-arg"), Value: strings.TrimSpace(e.Get("value").String())})
	}
}

func (l *listener) click(ev app.Value) {
	e := closest(ev, "a, button")
	if !e.Truthy() {
		return
	}
	modified := ev.Get("ctrlKey").Truthy() || ev.Get("metaKey").Truthy() || ev.Get("shiftKey").Truthy()
	link := e.Get("tagName").String() == "A"
	act := attr(e, "data-act")
	if attr(e, "aria-disabled") == "true" {
		keep(ev)
		return
	}
	if link && (act == "" || modified) {
		// The framework would take links to other files, tel: and the like for
		// its own; the browser knows better.
		ev.Call("stopPropagation")
		return
	}
	if act == "" {
		return
	}
	keep(ev)
	l.hear(Event{Kind: Pressed, Act: act, Arg: attr(e, "data-arg")})
}

func (l *listener) submit(ev app.Value) {
	keep(ev)
	form := ev.Get("target")
	if act := attr(form, "data-act"); act != "" {
		l.hear(Event{Kind: Sent, Act: act})
	}
}

func (l *listener) key(ev app.Value) {
	key := text(ev.Get("key"))
	if ev.Get("isComposing").Truthy() || ev.Get("altKey").Truthy() {
		return
	}
	if ev.Get("ctrlKey").Truthy() || ev.Get("metaKey").Truthy() {
		l.undoKey(ev, strings.ToLower(key))
		return
	}
	if key == "Escape" {
		l.hear(Event{Kind: Escaped})
		return
	}
	x, y, arrow := arrowOf(key)
	if grip := closest(ev, gripped); grip.Truthy() {
		e := Event{Kind: Keyed, Act: attr(grip, "data-act"), Arg: attr(grip, "data-arg"), Value: keyed(key), Shift: ev.Get("shiftKey").Truthy()}
		if arrow {
			e.Kind, e.XPx, e.YPx = Arrow, x, y
		}
		if arrow || e.Value != "" {
			keep(ev)
			l.hear(e)
		}
		return
	}
	if !arrow {
		return
	}
	// Up and down step a number with buttons, as people expect of one.
	e := ev.Get("target")
	if y != 0 && attr(e, "inputmode") == "decimal" && attr(e, "data-act") == "field" {
		keep(ev)
		way := "+"
		if y < 0 {
			way = "-"
		}
		l.hear(Event{Kind: Pressed, Act: "step", Arg: attr(e, "data-arg") + way})
	}
}

// undoKey takes the usual keys outside text, where the browser has its own.
func (l *listener) undoKey(ev app.Value, key string) {
	if isText(ev.Get("target")) {
		return
	}
	switch {
	case key == "z" && !ev.Get("shiftKey").Truthy():
		keep(ev)
		l.hear(Event{Kind: Pressed, Act: "undo"})
	case key == "y" || key == "z":
		keep(ev)
		l.hear(Event{Kind: Pressed, Act: "redo"})
	}
}

// keyed is what a key asks of a ring or a grip.
func keyed(key string) string {
	switch key {
	case "Enter", " ":
		return "choose"
	case "+", "=", "Insert":
		return "add"
	case "Delete", "Backspace":
		return "remove"
	}
	return ""
}

// arrowOf is the way an arrow key points; up is positive.
func arrowOf(key string) (x, y float64, ok bool) {
	switch key {
	case "ArrowLeft":
		return -1, 0, true
	case "ArrowRight":
		return 1, 0, true
	case "ArrowUp":
		return 0, 1, true
	case "ArrowDown":
		return 0, -1, true
	}
	return 0, 0, false
}
