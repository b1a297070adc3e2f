package live

import (
	"strconv"

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

func (p *Page) grab(ctx app.Context, e browser.Event) {
	i, err := strconv.Atoi(e.Arg)
	pic := p.easel.Picture()
	if err != nil || pic == nil || i < 0 || i >= len(p.state.Rings) {
		return
	}
	x, y := pic.View.At(p.state.Rings[i])
	p.grabX, p.grabY = e.XPx-x, e.YPx-y
	p.dragging = true
	p.act(ctx, page.Action{Name: page.ActChoose, Arg: e.Arg})
}

// drag puts the ring under the finger, one to one.
func (p *Page) drag(ctx app.Context, e browser.Event) {
	pic := p.easel.Picture()
	if !p.dragging || pic == nil {
		return
	}
	to := pic.View.PlanPoint(e.XPx-p.grabX, e.YPx-p.grabY)
	p.act(ctx, page.Action{Name: page.ActRing, Arg: e.Arg, Value: pair(to.X, to.Y)})
}

// drop settles the drawing: stones and planting are laid out anew.
func (p *Page) drop(ctx app.Context, _ browser.Event) {
	p.dragging = false
	p.redraw(ctx)
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
