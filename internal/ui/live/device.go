package live

import (
	"encoding/json"
	"net/url"
	"strconv"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
)

// open reads the pond of the address: its fragment holds the whole of it, and
// the query stands in where there is none. What was typed before the widget
// was there comes on top.
func (p *Page) open(query url.Values) {
	changed := browser.Changed("design")
	for _, c := range changed {
		if !besides(c) {
			query.Set(c.Name, c.Value) // what is no question of the form is read here
		}
	}
	p.state = page.New(query, p.cfg.Defaults)
	p.state.Live, p.state.Tablet, p.state.Origin = true, browser.Tablet(), browser.Origin()
	p.state.Framed = browser.Framed()
	p.state = p.state.Opened(browser.Fragment())
	p.typed()
	if draft, err := url.ParseQuery(browser.Draft()); err == nil && p.state.Contact == page.ContactOf(url.Values{}) {
		p.state.Contact = page.ContactOf(draft)
	}
}

// besides tells of an answer that is not the pond in hand's alone: a name among
// several, a price for all.
func besides(a browser.Answer) bool { return a.Act == page.ActEach || a.Act == page.ActCalled }

// typed reads what was typed while the widget was not listening, and tells
// whether anything was.
func (p *Page) typed() bool {
	was, wrote := p.state.Address(), p.state.Contact
	for _, c := range browser.Changed("design") {
		if besides(c) {
			p.state = page.Update(p.state, page.Action{Name: c.Act, Arg: c.Arg, Value: c.Value})
			continue
		}
		p.state.Form = p.state.Form.SetField(c.Name, c.Value)
	}
	if contact, err := url.ParseQuery(browser.FormQuery(page.LeadForm)); err == nil {
		if now := page.ContactOf(contact); now != page.ContactOf(url.Values{}) {
			p.state.Contact = now
		}
	}
	return p.state.Address() != was || p.state.Contact != wrote
}

// attend listens to the device: to links that come in, and on a salesperson's
// tablet to the line, the queue, new versions, and whether anyone is there.
func (p *Page) attend(ctx app.Context) {
	act := func(a page.Action) {
		ctx.Dispatch(func(ctx app.Context) { p.guard(func() { p.act(ctx, a) }) })
	}
	browser.OnFragment(func() {
		if f := browser.Fragment(); p.another(f) {
			act(page.Action{Name: page.ActOpen, Arg: f})
		}
	})
	browser.OnReturn(func(ours bool) {
		a := page.Action{Name: page.ActReturn, Arg: browser.Query()}
		there := page.Update(p.state, a)
		if f := browser.Fragment(); !ours && f != "" && (!page.IsLink(f) || p.another(f)) {
			return // a place on the page, or a link that OnFragment opens
		}
		// The address has that step's pond, which may have changed since.
		p.stopAddress()
		p.placed = there.Place()
		browser.ReplaceAddress(p.placed)
		if ours || there.View != p.state.View || there.Part != p.state.Part || there.Ask != p.state.Ask {
			act(a)
		}
	})
	browser.OnLeave(func() {
		if p.moved {
			p.place()
		}
	})
	if !p.state.Tablet {
		return
	}
	line := func() {
		act(page.Action{Name: page.ActLine, Arg: map[bool]string{true: "on", false: "off"}[browser.Online()]})
	}
	browser.OnLine(line)
	if !browser.Online() {
		line()
	}
	if browser.CanKeep() {
		browser.ListenQueue(func(text string) {
			for _, a := range queueActs(text) {
				act(a)
			}
		})
	}
	browser.OnNewer(func() {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() {
				if p.state.Untouched() {
					browser.ApplyNewer()
				}
				p.act(ctx, page.Action{Name: page.ActNewer})
			})
		})
	})
	p.watch(act)
}

// another is whether a fragment holds another pond than this page.
func (p *Page) another(fragment string) bool {
	return page.IsLink(fragment) && fragment != "#"+p.state.Fragment()
}

// The tablet is cleared after a quarter of an hour without a touch, and says
// so a minute before. Common practice, no source.
const (
	idleMs  = 15 * 60 * 1000
	warnedS = 60
)

// watch clears the tablet when the person before has left it.
func (p *Page) watch(act func(page.Action)) {
	touchedMs, warnedMs := browser.NowMs(), 0.0
	browser.OnTouch(func() {
		touchedMs = browser.NowMs()
		if warnedMs > 0 {
			warnedMs = 0
			act(page.Action{Name: page.ActStay})
		}
	})
	browser.EverySecond(func() {
		now := browser.NowMs()
		switch {
		case p.state.Untouched() || p.state.Sending || now-touchedMs < idleMs:
			return
		case warnedMs == 0:
			warnedMs = now
		}
		left := warnedS - int((now-warnedMs)/1000)
		if left <= 0 {
			touchedMs, warnedMs = now, 0
			act(page.Action{Name: page.ActAnother})
			return
		}
		act(page.Action{Name: page.ActWipeIn, Arg: strconv.Itoa(left)})
	})
}

// queueActs are the page's acts for a change of what is kept.
func queueActs(text string) []page.Action {
	var q struct {
		Waiting []struct {
			ID, Initial, Made, Bad string
			Tries                  int
		} `json:"waiting"`
		Sent *struct{ ID, Reference string } `json:"sent"`
	}
	if json.Unmarshal([]byte(text), &q) != nil {
		return nil
	}
	var all []page.Waiting
	for _, w := range q.Waiting {
		all = append(all, page.Waiting{Key: w.ID, Initial: w.Initial, Since: browser.Clock(w.Made), Tried: w.Tries > 0, Bad: w.Bad})
	}
	acts := []page.Action{{Name: page.ActWaiting, Value: page.WaitingText(all)}}
	if q.Sent != nil {
		acts = append(acts, page.Action{Name: page.ActDelivered, Arg: q.Sent.ID, Value: q.Sent.Reference})
	}
	return acts
}

// pressed does what only the browser can do for an act of the device.
func (p *Page) pressed(ctx app.Context, e browser.Event) bool {
	switch e.Act {
	case page.ActCopy:
		browser.Copy(p.state.Share.Link, "share-link", func() {
			ctx.Dispatch(func(ctx app.Context) { p.guard(func() { p.act(ctx, page.Action{Name: page.ActCopied}) }) })
		})
	case page.ActSendNow:
		browser.SendNow()
	case page.ActDiscard:
		browser.Remove(e.Arg)
	case page.ActApply:
		browser.ApplyNewer()
	case page.ActChange:
		browser.TakeBack(p.state.Queued, func(ok bool) {
			ctx.Dispatch(func(ctx app.Context) {
				p.guard(func() {
					if ok {
						p.act(ctx, page.Action{Name: page.ActUnkept})
					}
				})
			})
		})
	default:
		return false
	}
	ctx.PreventUpdate()
	return true
}

// speak loads the page in another language. What was typed comes along in the
// tab's draft, what stood there before the widget did as well.
func (p *Page) speak(language string) {
	if p.state.View == page.SendView && p.state.Contact != page.ContactOf(url.Values{}) {
		browser.SaveDraft(page.ContactValues(p.state.Contact).Encode())
	}
	browser.Load(p.state.In(language).Place())
}

// after keeps the tab's draft in step, and lets a waiting version come when
// the page goes to somebody else.
func (p *Page) after(a page.Action) {
	switch a.Name {
	case page.ActContact, page.ActUnkept:
		browser.SaveDraft(page.ContactValues(p.state.Contact).Encode())
	case page.ActSent, page.ActDelivered, page.ActKept, page.ActKeptTried:
		browser.DropDraft()
	case page.ActAnother:
		browser.DropDraft()
		p.stopAddress()
		p.moved, p.placed = false, p.state.Bare()
		browser.ReplaceAddress(p.placed)
		if p.state.Newer {
			browser.ApplyNewer()
		}
	}
}

// keep stores an enquiry that cannot be sent; how says whether it was on its
// way already.
func (p *Page) keep(ctx app.Context, body, how string) {
	first, _ := utf8.DecodeRuneInString(p.state.Contact.Name)
	made := browser.Now()
	browser.Keep(p.state.Key, body, string(first), made, func(ok bool) {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() {
				p.posting = false
				if ok {
					p.act(ctx, page.Action{Name: how, Arg: p.state.Key, Value: browser.Clock(made)})
					return
				}
				p.act(ctx, page.Action{Name: page.ActFailed, Arg: "failed"})
			})
		})
	})
}
