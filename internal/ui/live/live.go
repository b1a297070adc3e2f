// Package live is the page with script: it takes the server's page over, turns
// what a person does into actions, works the pond out at every keystroke, and
// keeps page, address, focus and status line in step.
package live

import (
	"fmt"
	"net/url"
	"runtime"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
)

// Config is what the page is opened with.
type Config struct {
	Book     core.Book
	Defaults form.Defaults
	Kit      page.Kit
}

// Page is the component. All of it is unexported: the framework copies
// exported fields from a fresh component over the live one.
type Page struct {
	app.Compo
	cfg    Config
	narrow bool // the page is laid out for a phone
	state  page.State
	model  page.Model
	easel  page.Easel
	answer page.Answered
	asked  Answers
	tree   markup.Node
	stands markup.Standing // the tree that the browser shows
	taken  bool            // and it shows that and nothing else

	shown  string // what the model was built for
	worked string // what the answer was worked out for

	grabX, grabY float64 // from the ring's middle to where it was gripped, in the drawing's space
	fromX, fromY float64 // where the finger came down
	grabDeg      float64 // likewise round the water
	dragging     bool
	typing       bool   // a number changes and has not come to rest
	inHand       string // the control that is being typed in or slid
	posting      bool   // an enquiry is on its way
	labour       labour // for the enquiry at hand
	waiting      bool   // a frame is asked for
	atOnce       bool   // and what is done now does not wait for it
	dirty        bool
	lastSaid     string
	placed       string // the address that the browser shows
	moved        bool   // and it may no longer be the page's own
	stopSay      func()
	stopRest     func()
	stopAddress  func()
	stopAhead    func()
	aheadOf      string // what was last worked out ahead
	untidy       int    // frames shown since the memory was cleared up
}

// New takes over the page as it stands, with what was typed since the server
// wrote it.
func New(cfg Config) *Page {
	p := &Page{cfg: cfg, narrow: browser.Narrow(page.RootID), asked: Answers{Book: cfg.Book}, stopSay: func() {}, stopRest: func() {}, stopAddress: func() {}, stopAhead: func() {}}
	query, err := url.ParseQuery(browser.Query())
	if err != nil {
		query = url.Values{}
	}
	p.open(query)
	p.placed = p.state.Place()
	// Each step is a task of its own: the page answers a finger in between.
	p.workOut()
	browser.Breathe()
	p.draw()
	browser.Breathe()
	p.lay()
	browser.Breathe()
	p.put("")
	browser.Breathe()
	p.lastSaid = p.model.Spoken
	return p
}

// OnMount starts listening.
func (p *Page) OnMount(ctx app.Context) {
	if p.typed() {
		p.work()
		p.put("")
	}
	browser.Listen(page.RootID, func(e browser.Event) {
		ctx.Dispatch(func(ctx app.Context) { p.guard(func() { p.hear(ctx, e) }) })
	})
	browser.OnNarrow(page.RootID, func(narrow bool) {
		if narrow != p.narrow {
			ctx.Dispatch(func(ctx app.Context) { p.guard(func() { p.narrow = narrow; p.redraw(ctx) }) })
		}
	})
	p.attend(ctx)
	p.pay(ctx)
	browser.Mark("live")
	browser.Flag("live")
	p.rest(ctx, briefRestMs)
}

// Render is nothing to see. The page itself stays the one that the server
// wrote, and put changes what has to change: the framework would put a new one
// in its place, and compare all of it at every frame.
func (p *Page) Render() app.UI { return app.Div().Hidden(true) }

// put makes the page show the tree that the last work made.
func (p *Page) put(inHand string) {
	if p.taken {
		steps := p.stands.Change(p.tree)
		if !p.dragging {
			steps += markup.Controls(p.tree, inHand)
		}
		if browser.Follow(steps) {
			return
		}
	}
	// What another program has changed in the page is put right as a whole.
	p.stands = markup.Stand(p.tree)
	p.taken = browser.Take(page.RootID, markup.HTML(p.tree)) == p.stands.Size()
	browser.Follow(markup.Controls(p.tree, inHand))
}

// guard keeps a mistake of ours from ending the page: the framework stops for
// good on a panic.
func (p *Page) guard(f func()) {
	defer func() {
		if r := recover(); r != nil {
			say := p.cfg.Kit.Words.Say
			browser.Complain(r)
			browser.Broken(say("live.reload.title"), say("live.reload.text"), say("live.reload"))
		}
	}()
	f()
}

// hear turns an event into an action.
func (p *Page) hear(ctx app.Context, e browser.Event) {
	p.inHand = e.ID
	p.atOnce = e.Fresh && single(e)
	defer func() { p.atOnce = false }()
	switch e.Kind {
	case browser.Grabbed:
		p.grab(ctx, e)
	case browser.Dragged:
		p.drag(ctx, e)
	case browser.Dropped:
		p.drop(ctx, e)
	case browser.Arrow, browser.Keyed, browser.Escaped, browser.Tapped, browser.Doubled, browser.Zoomed, browser.Panned:
		p.handle(ctx, e)
	case browser.Sent:
		if e.Act == page.ActSend {
			p.send(ctx)
		}
	case browser.Pressed, browser.Answered:
		switch e.Act {
		case "print":
			browser.Print()
			return
		case page.ActLang:
			p.speak(e.Arg)
			return
		}
		if p.pressed(ctx, e) {
			return
		}
		p.act(ctx, page.Action{Name: e.Act, Arg: e.Arg, Value: e.Value})
	}
}

// single tells of an event that comes by itself, like a key. A finger that moves
// is heard just before each frame as it is.
func single(e browser.Event) bool {
	switch e.Kind {
	case browser.Answered:
		return e.Act != page.ActSlide
	case browser.Pressed, browser.Arrow, browser.Keyed:
		return true
	}
	return false
}

// act changes the state and shows it. Several acts before the next frame are
// worked out once.
func (p *Page) act(ctx app.Context, a page.Action) {
	p.typing = page.Follows(a)
	was := p.state
	p.state = page.Update(p.state, a)
	if page.Leads(a) {
		p.leave(was)
	}
	p.after(a)
	p.redraw(ctx)
}

// redraw has the page shown in the next frame. What comes by itself, as the
// first since the last frame, is worked out while the browser still waits for
// that, which saves half a frame in the mean; what follows it waits.
func (p *Page) redraw(ctx app.Context) {
	p.dirty = true
	ctx.PreventUpdate()
	if p.waiting {
		return
	}
	p.waiting = true
	browser.NextFrame(func() {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() {
				p.waiting = false
				p.show(ctx)
			})
		})
	})
	if p.atOnce {
		p.show(ctx)
	}
}

// show works out what has changed and lets the framework draw it.
func (p *Page) show(ctx app.Context) {
	if !p.dirty {
		ctx.PreventUpdate()
		return
	}
	p.dirty = false
	ctx.PreventUpdate()
	caret := browser.Here()
	p.work()
	p.pay(ctx)
	p.put(p.inHand)
	if fix := p.inDrawing(p.state.Fix); fix != "" {
		browser.Focus(fix)
	} else {
		browser.Return(caret)
	}
	p.state.Fix = ""
	p.later(ctx)
}

// leave puts the step or view that the page goes on from into the browser's
// history, so that Back leads to it.
func (p *Page) leave(from page.State) {
	before, now := from.Place(), p.state.Place()
	if now == before {
		return
	}
	p.stopAddress()
	p.moved, p.placed = false, now
	browser.PushAddress(before, now)
}

// place makes the browser show the page's address.
func (p *Page) place() {
	p.moved = false
	if now := p.state.Place(); now != p.placed {
		p.placed = now
		browser.ReplaceAddress(now)
	}
}

// work makes the answer, the model and the tree of the state, each only when
// what it depends on has changed.
func (p *Page) work() {
	p.workOut()
	p.draw()
	p.lay()
}

func (p *Page) workOut() {
	p.asked.Quick = p.pace() != page.Settled
	pond := p.state.Address() + flag(p.asked.Quick)
	if pond != p.worked || p.answer.Sheet == nil {
		p.answer = p.asked.Of(p.state)
		p.state = p.state.Seeing(p.answer)
		p.worked = pond
	}
}

func (p *Page) draw() {
	width := page.Wide
	if p.narrow {
		width = page.Narrow
	}
	what := p.worked + string(p.state.View) + string(width) + itoa(p.state.Chosen) + p.state.Held + fmt.Sprint(p.state.Zoom) + itoa(int(p.pace())) + flag(p.state.CanUndo())
	if what != p.shown {
		p.easel.Width, p.easel.Pace = width, p.pace()
		p.model, p.easel = page.Paint(p.state, p.answer, p.cfg.Kit, p.easel)
		p.shown = what
	}
	if p.state.View == page.SendView {
		p.state = p.state.Linked()
	}
}

// pace is how much of the page follows at the moment.
func (p *Page) pace() page.Pace {
	switch {
	case p.dragging:
		return page.InHand
	case p.typing:
		return page.Typing
	}
	return page.Settled
}

func (p *Page) lay() { p.tree = page.Tree(p.state, p.model) }

// Pauses, in milliseconds: what follows fast input is drawn without all that
// takes long until it rests, a browser takes only so many address changes in a
// time, and a status line is read out whole each time it changes.
const (
	addressPauseMs = 250
	restPauseMs    = 250
	statusPauseMs  = 1000
	aheadPauseMs   = 400
	briefRestMs    = 30
)

// rest does, once nothing has happened for some milliseconds, what would take
// long under a finger: it works out what a person may look at next, a piece at
// a time, and clears the memory up.
func (p *Page) rest(ctx app.Context, pauseMs int) {
	p.stopAhead()
	pieces := append(p.ahead(), p.tidy)
	var next func()
	next = func() {
		piece := pieces[0]
		ctx.Dispatch(func(ctx app.Context) {
			ctx.PreventUpdate()
			p.guard(piece)
		})
		if pieces = pieces[1:]; len(pieces) > 0 {
			p.stopAhead = browser.Later(briefRestMs, next)
		}
	}
	p.stopAhead = browser.Later(pauseMs, next)
}

// untidyFrames are so many that a pause between two keys is worth clearing up in:
// a third of what the runtime would wait for.
const untidyFrames = 5

// tidy clears the memory up.
func (p *Page) tidy() {
	p.untidy = 0
	go runtime.GC()
}

// ahead is the work of putting the ponds of the address side by side, in pieces,
// while the page shows one of them.
func (p *Page) ahead() (pieces []func()) {
	if p.state.View == page.CompareView || len(p.state.Options()) < 2 {
		return nil
	}
	beside := page.Update(p.state, page.Action{Name: page.ActView, Arg: string(page.CompareView)})
	beside.Steps = false // dozens of ponds, and only words come of them
	if beside.Address() == p.aheadOf {
		return nil
	}
	for _, o := range beside.Options() {
		pieces = append(pieces, func() { p.asked.Beside(o.Form) })
	}
	return append(pieces, func() {
		p.easel = page.Ahead(beside, p.asked.Of(beside), p.cfg.Kit, p.easel)
		p.aheadOf = beside.Address()
	})
}

// later sets the address and the status line once things have settled.
func (p *Page) later(ctx app.Context) {
	if p.stopRest(); p.typing {
		p.stopRest = browser.Later(restPauseMs, func() {
			ctx.Dispatch(func(ctx app.Context) { p.guard(func() { p.typing = false; p.redraw(ctx) }) })
		})
	}
	p.stopAhead()
	p.untidy++
	switch {
	case p.pace() == page.Settled && p.state.View == page.CompareView && p.untidy >= untidyFrames:
		p.rest(ctx, briefRestMs)
	case p.pace() == page.Settled:
		p.rest(ctx, aheadPauseMs)
	case p.typing && p.untidy >= untidyFrames:
		p.stopAhead = browser.Later(briefRestMs, p.tidy)
	}
	p.stopAddress()
	p.moved = true
	p.stopAddress = browser.Later(addressPauseMs, p.place)
	p.stopSay()
	if p.model.Spoken == p.lastSaid || p.state.View == page.SendView || p.state.Blank {
		return
	}
	p.stopSay = browser.Later(statusPauseMs, func() {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() {
				p.lastSaid = p.model.Spoken
				p.act(ctx, page.Action{Name: page.ActStatus, Value: p.cfg.Kit.Words.Say("live.updated", p.lastSaid)})
			})
		})
	})
}
