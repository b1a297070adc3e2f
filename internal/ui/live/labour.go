package live

import (
	"net/url"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/toll"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
)

// labour is the small work for the enquiry at hand, which makes sending
// thousands dear. It is done while the person writes, in slices that no finger
// notices.
type labour struct {
	key, proof string // what is worked for, and what was found
	work       *toll.Work
}

// One slice, and the pause after it, in milliseconds. Few tries are made
// between two looks at the clock, so that a slow phone stays within 8 ms.
const (
	sliceMs   = 4
	pauseMs   = 4
	oneGo     = 256
	waitMs    = 100
	mostWaits = 20 // an enquiry waits two seconds at most, and then goes without
)

// pay starts the work once the form for sending is open.
func (p *Page) pay(ctx app.Context) {
	if p.state.View != page.SendView || p.state.Sent != "" || p.state.Queued != "" {
		return
	}
	if p.state.Key == "" {
		p.state.Key = browser.Token()
	}
	if p.labour.key == p.state.Key {
		return
	}
	idle := p.labour.work == nil
	p.labour = labour{key: p.state.Key, work: toll.For(p.state.Key)}
	if idle {
		p.toil(ctx)
	}
}

// toil does one slice after a pause, and goes on until the work is done.
func (p *Page) toil(ctx app.Context) {
	browser.Later(pauseMs, func() {
		ctx.Dispatch(func(ctx app.Context) {
			ctx.PreventUpdate()
			p.guard(func() {
				if p.slice(); p.labour.work != nil {
					p.toil(ctx)
				}
			})
		})
	})
}

func (p *Page) slice() {
	for end := browser.NowMs() + sliceMs; browser.NowMs() < end; {
		if proof, found := p.labour.work.Try(oneGo); found {
			p.labour.proof, p.labour.work = proof, nil
			browser.Mark("paid")
			return
		}
	}
}

// whenPaid posts the enquiry when the work for it is done, or when it has
// waited long enough.
func (p *Page) whenPaid(ctx app.Context, waits int) {
	p.pay(ctx)
	if (p.labour.key == p.state.Key && p.labour.proof != "") || waits == 0 {
		p.post(ctx)
		return
	}
	browser.Later(waitMs, func() {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() { p.whenPaid(ctx, waits-1) })
		})
	})
}

// trapped is what stands in the field that people do not see.
func trapped() string {
	v, err := url.ParseQuery(browser.FormQuery(page.LeadForm))
	if err != nil {
		return ""
	}
	return v.Get(toll.TrapField)
}
