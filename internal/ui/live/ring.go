package live

import (
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/core/num"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
)

func itoa(n int) string { return strconv.Itoa(n) }

func flag(on bool) string {
	if on {
		return "+"
	}
	return "-"
}

// grab takes a ring or a grip in hand, and remembers where it was gripped.
func (p *Page) grab(ctx app.Context, e browser.Event) {
	pic := p.easel.Picture()
	if pic == nil {
		return
	}
	if e.Act == page.ActGrip {
		at, _ := p.state.GripDeg(e.Arg)
		p.grabDeg = at - p.state.BearingOf(pic.View.PlanPoint(e.XPx, e.YPx))
		p.dragging = true
		p.act(ctx, page.Action{Name: page.ActHold, Arg: e.Arg})
		return
	}
	i, err := strconv.Atoi(e.Arg)
	if err != nil || i < 0 || i >= len(p.state.Rings) {
		return
	}
	x, y := pic.View.At(p.state.Rings[i])
	p.grabX, p.grabY, p.fromX, p.fromY = e.XPx-x, e.YPx-y, e.XPx, e.YPx
	p.dragging = true
	p.act(ctx, page.Action{Name: page.ActChoose, Arg: e.Arg})
}

// slipPx is how far a finger that only chooses a ring may slip.
const slipPx = 3.0

// drag puts the ring or the thing under the finger, one to one.
func (p *Page) drag(ctx app.Context, e browser.Event) {
	pic := p.easel.Picture()
	if !p.dragging || pic == nil {
		return
	}
	if e.Act == page.ActGrip {
		deg := p.state.BearingOf(pic.View.PlanPoint(e.XPx, e.YPx)) + p.grabDeg
		p.act(ctx, page.Action{Name: page.ActGrip, Arg: e.Arg, Value: num.Decimal(deg, 2)})
		return
	}
	if dx, dy := e.XPx-p.fromX, e.YPx-p.fromY; dx*dx+dy*dy < slipPx*slipPx {
		return
	}
	p.fromX, p.fromY = -1e9, -1e9 // past the slip
	to := pic.View.PlanPoint(e.XPx-p.grabX, e.YPx-p.grabY)
	p.act(ctx, page.Action{Name: page.ActRing, Arg: e.Arg, Value: pair(to.X, to.Y)})
}

// drop settles the drawing: stones and planting are laid out anew.
func (p *Page) drop(ctx app.Context, _ browser.Event) {
	p.dragging = false
	p.redraw(ctx)
}

// handle turns keys, taps and pinches on the drawing into actions.
func (p *Page) handle(ctx app.Context, e browser.Event) {
	pic := p.easel.Picture()
	switch {
	case e.Kind == browser.Escaped:
		p.act(ctx, page.Action{Name: page.ActChoose})
	case e.Kind == browser.Arrow && e.Act == page.ActGrip:
		p.act(ctx, page.Action{Name: page.ActTurn, Arg: e.Arg + "=" + turn(e)})
	case e.Kind == browser.Arrow:
		p.act(ctx, page.Action{Name: page.ActNudge, Arg: e.Arg, Value: nudge(p.state, e)})
	case e.Kind == browser.Keyed && e.Act == page.ActGrip:
		p.act(ctx, page.Action{Name: page.ActHold, Arg: e.Arg})
	case e.Kind == browser.Keyed:
		name := map[string]string{"choose": page.ActChoose, "add": page.ActAdd, "remove": page.ActRemove}[e.Value]
		p.act(ctx, page.Action{Name: name, Arg: e.Arg, Value: "key"})
	case pic == nil:
	case e.Kind == browser.Tapped:
		to := pic.View.PlanPoint(e.XPx, e.YPx)
		p.act(ctx, page.Action{Name: page.ActPlace, Value: pair(to.X, to.Y)})
	case e.Kind == browser.Doubled && e.Arg != "":
		p.act(ctx, page.Action{Name: page.ActRemove, Arg: e.Arg, Value: "key"})
	case e.Kind == browser.Doubled:
		to := pic.View.PlanPoint(e.XPx, e.YPx)
		p.act(ctx, page.Action{Name: page.ActSplit, Value: pair(to.X, to.Y)})
	case e.Kind == browser.Zoomed:
		p.act(ctx, page.Action{Name: page.ActZoom, Value: num.Decimal(e.Times, 5) + "," + share(e, pic.View.WidthPx, pic.View.HeightPx)})
	case e.Kind == browser.Panned:
		p.act(ctx, page.Action{Name: page.ActPan, Value: share(e, pic.View.WidthPx, pic.View.HeightPx)})
	}
}

func share(e browser.Event, widePx, highPx float64) string {
	return num.Decimal(e.XPx/widePx, 6) + "," + num.Decimal(e.YPx/highPx, 6)
}

// turn is how far an arrow key turns a thing along the edge, in degrees.
func turn(e browser.Event) string {
	by := 5.0
	if e.Shift {
		by = 15
	}
	return num.Decimal((e.XPx+e.YPx)*by, 0)
}

// inDrawing is the id of what should have the focus: rings have the id of the
// drawing that is shown before their own.
func (p *Page) inDrawing(id string) string {
	n, ok := strings.CutPrefix(id, "ring-")
	if _, err := strconv.Atoi(n); !ok || err != nil {
		return id
	}
	if p.easel.Width == page.Narrow {
		return page.NarrowID + "-" + id
	}
	return page.WideID + "-" + id
}

// nudge is how far an arrow key moves a ring: half a contour's step, or a
// whole one with Shift.
func nudge(s page.State, e browser.Event) string {
	by := page.StepM(s.Form.System) / 2
	if e.Shift {
		by *= 2
	}
	return pair(e.XPx*by, e.YPx*by)
}

func pair(xM, yM float64) string { return num.Decimal(xM, 4) + "," + num.Decimal(yM, 4) }
