package browser

import (
	"math"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// gripped finds what is dragged in a drawing, and drawn the drawing itself.
const (
	gripped = `[data-act="ring"],[data-act="grip"]`
	drawn   = `.sheet svg.dr`
)

// tapPx is how far a finger may slip in a tap.
const tapPx = 8.0

// listener remembers what fingers are doing on a drawing.
type listener struct {
	hear     func(Event)
	svg      app.Value
	act, arg string
	held     bool // a ring or a grip is in hand

	fingers []finger // on the drawing beside rings and grips
	tapping bool
	pushed  bool // the drawing was pushed or pinched
}

// finger is a pointer that is down, where it came down and where it is, in px
// of the window.
type finger struct {
	id                   int
	fromX, fromY, xx, yy float64
	mouse                bool
}

func fingerOf(ev app.Value) finger {
	x, y := ev.Get("clientX").Float(), ev.Get("clientY").Float()
	if !ev.Get("pointerId").Truthy() {
		return finger{xx: x, yy: y} // a double click has none
	}
	return finger{ev.Get("pointerId").Int(), x, y, x, y, text(ev.Get("pointerType")) == "mouse"}
}

func (l *listener) down(ev app.Value) {
	if ev.Get("button").Int() != 0 || l.held {
		return
	}
	if grip := closest(ev, gripped); grip.Truthy() {
		l.grab(ev, grip)
		return
	}
	svg := closest(ev, drawn)
	if !svg.Truthy() {
		return
	}
	l.svg, l.act, l.arg = svg, "", ""
	l.fingers = append(l.fingers, fingerOf(ev))
	l.tapping, l.pushed = len(l.fingers) == 1, len(l.fingers) > 1
}

func (l *listener) grab(ev, grip app.Value) {
	svg := grip.Get("ownerSVGElement")
	if !svg.Truthy() {
		return
	}
	ev.Call("preventDefault")
	grip.Call("focus", map[string]any{"preventScroll": true})
	svg.Call("setPointerCapture", ev.Get("pointerId"))
	l.svg, l.act, l.arg, l.held = svg, attr(grip, "data-act"), attr(grip, "data-arg"), true
	l.fingers, l.tapping = nil, false
	x, y, _ := l.point(fingerOf(ev))
	l.hear(Event{Kind: Grabbed, Act: l.act, Arg: l.arg, XPx: x, YPx: y})
}

func (l *listener) move(ev app.Value) {
	if l.held {
		if x, y, ok := l.point(fingerOf(ev)); ok {
			l.hear(Event{Kind: Dragged, Act: l.act, Arg: l.arg, XPx: x, YPx: y})
		}
		return
	}
	now := fingerOf(ev)
	for i := range l.fingers {
		if l.fingers[i].id == now.id {
			l.slide(i, now)
			return
		}
	}
}

// slide moves a finger on the drawing: two pinch it, and a mouse pushes it.
func (l *listener) slide(i int, now finger) {
	was := append([]finger(nil), l.fingers...)
	l.fingers[i].xx, l.fingers[i].yy = now.xx, now.yy
	if math.Hypot(now.xx-l.fingers[i].fromX, now.yy-l.fingers[i].fromY) > tapPx {
		l.tapping = false
	}
	before, after := middle(was), middle(l.fingers)
	switch {
	case len(l.fingers) == 2:
		if a, b := spread(was), spread(l.fingers); a > 1 && b > 1 {
			x, y, _ := l.point(after)
			l.hear(Event{Kind: Zoomed, Times: b / a, XPx: x, YPx: y})
		}
	case !now.mouse || l.tapping:
		return
	}
	x0, y0, ok0 := l.point(before)
	x1, y1, ok1 := l.point(after)
	if l.pushed = true; ok0 && ok1 {
		l.hear(Event{Kind: Panned, XPx: x0 - x1, YPx: y0 - y1})
	}
}

func middle(fs []finger) finger {
	var m finger
	for _, f := range fs {
		m.xx += f.xx / float64(len(fs))
		m.yy += f.yy / float64(len(fs))
	}
	return m
}

func spread(fs []finger) float64 { return math.Hypot(fs[0].xx-fs[1].xx, fs[0].yy-fs[1].yy) }

func (l *listener) up(ev app.Value) {
	at := fingerOf(ev)
	x, y, ok := 0.0, 0.0, false
	if l.svg != nil {
		x, y, ok = l.point(at)
	}
	if l.held {
		l.held = false
		l.hear(Event{Kind: Dropped, Act: l.act, Arg: l.arg, XPx: x, YPx: y})
		return
	}
	known, pushed := len(l.fingers) > 0, l.pushed
	tapped := l.tapping && len(l.fingers) == 1 && l.fingers[0].id == at.id
	l.lift(at.id)
	switch {
	case tapped && ok:
		l.hear(Event{Kind: Tapped, XPx: x, YPx: y})
	case known && pushed && len(l.fingers) == 0:
		l.hear(Event{Kind: Dropped})
	}
}

func (l *listener) cancel(ev app.Value) {
	if l.held {
		l.up(ev)
		return
	}
	l.lift(ev.Get("pointerId").Int())
}

func (l *listener) lift(id int) {
	l.tapping = false
	for i, f := range l.fingers {
		if f.id == id {
			l.fingers = append(l.fingers[:i], l.fingers[i+1:]...)
			return
		}
	}
}

// double hears two presses: on a ring, or on the drawing.
func (l *listener) double(ev app.Value) {
	svg := closest(ev, drawn)
	if !svg.Truthy() {
		return
	}
	l.svg = svg
	arg := ""
	switch l.act { // the drawing has the pointer, so it is no good asking what is under it
	case "ring":
		arg = l.arg
	case "grip":
		return
	}
	if x, y, ok := l.point(fingerOf(ev)); ok {
		keep(ev)
		l.hear(Event{Kind: Doubled, Arg: arg, XPx: x, YPx: y})
	}
}

// wheel takes a wheel with Ctrl on a drawing, which is also what a pinch on a
// touch pad sends; a plain one scrolls the page.
func (l *listener) wheel(ev app.Value) {
	svg := closest(ev, drawn)
	if !svg.Truthy() || !ev.Get("ctrlKey").Truthy() {
		return
	}
	keep(ev)
	l.svg = svg
	if x, y, ok := l.point(wheelAt(ev)); ok {
		const perTurn = 0.002
		l.hear(Event{Kind: Zoomed, Times: math.Exp(-perTurn * math.Min(math.Max(ev.Get("deltaY").Float(), -200), 200)), XPx: x, YPx: y})
	}
}

// wheelAt is where a wheel turns; it has no pointer.
func wheelAt(ev app.Value) finger {
	return finger{xx: ev.Get("clientX").Float(), yy: ev.Get("clientY").Float()}
}

// point is where a finger is in the drawing's own space.
func (l *listener) point(f finger) (xPx, yPx float64, ok bool) {
	m := l.svg.Call("getScreenCTM")
	if !m.Truthy() {
		return 0, 0, false
	}
	m = m.Call("inverse")
	at := func(n string) float64 { return m.Get(n).Float() }
	xPx = at("a")*f.xx + at("c")*f.yy + at("e")
	yPx = at("b")*f.xx + at("d")*f.yy + at("f")
	return xPx, yPx, !math.IsNaN(xPx) && !math.IsNaN(yPx)
}
