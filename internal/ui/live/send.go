package live

import (
	"encoding/json"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/core"
	"tarnwright/internal/lead"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
	"tarnwright/internal/wire"
)

// send checks the contact and sends the enquiry as soon as its small work is
// done. Whatever happens, what was
// typed stays until the server has confirmed.
func (p *Page) send(ctx app.Context) {
	p.act(ctx, page.Action{Name: page.ActSend, Value: browser.Token()})
	if !p.state.Sending || p.posting {
		return
	}
	p.posting = true
	p.whenPaid(ctx, mostWaits)
}

// post sends the enquiry as it stands now.
func (p *Page) post(ctx app.Context) {
	d, _ := p.state.Form.Design()
	body, err := json.Marshal(wire.LeadRequest{
		Schema: wire.Schema, Contact: lead.Clean(p.state.Contact), Design: d, CoreVersion: core.Version,
		Consent: lead.Consent{Text: page.ConsentText(p.model), Language: p.cfg.Kit.Words.Language(), Channel: "page"},
		Figures: lead.FiguresOf(p.answer.Sheet), MadeAt: browser.Now(),
		Work: p.labour.proof, Trap: trapped(),
	})
	if err != nil {
		p.posting = false
		p.act(ctx, page.Action{Name: page.ActFailed, Arg: "failed"})
		return
	}
	if browser.CanKeep() && !browser.Online() {
		p.keep(ctx, string(body), page.ActKept)
		return
	}
	browser.Post(intake(), p.state.Key, string(body), func(r browser.Reply) {
		ctx.Dispatch(func(ctx app.Context) {
			p.guard(func() {
				if out := outcome(r); !browser.CanKeep() || !temporary(r) {
					p.posting = false
					p.act(ctx, out)
					if out.Name == page.ActSent {
						browser.Announce("tarnwright-sent", out.Arg)
					}
					return
				}
				p.keep(ctx, string(body), page.ActKeptTried)
			})
		})
	})
}

// intake is where enquiries go: to the page's own server, unless the page was
// exported and says otherwise.
func intake() string {
	if elsewhere := browser.Data("intake"); elsewhere != "" {
		return elsewhere
	}
	return "/api/v1/leads"
}

// temporary tells an answer after which the same enquiry may still be taken.
func temporary(r browser.Reply) bool {
	return r.Status == 0 || r.Status == 409 || r.Status == 429 || r.Status >= 500
}

// outcome reads the server's answer.
func outcome(r browser.Reply) page.Action {
	failed := page.Action{Name: page.ActFailed, Arg: "failed"}
	switch {
	case r.Status == 200 || r.Status == 201:
		var a wire.LeadAnswer
		if json.Unmarshal([]byte(r.Body), &a) != nil || a.Reference == "" {
			return failed
		}
		return page.Action{Name: page.ActSent, Arg: a.Reference}
	case r.Status == 422 || r.Status == 400:
		return refused(r)
	case r.Status == 429 || r.Status == 409:
		return page.Action{Name: page.ActFailed, Arg: "too_many"}
	case r.Status >= 500:
		return page.Action{Name: page.ActFailed, Arg: "busy"}
	}
	return failed
}

// refused turns a problem's faults of the contact into the page's own; a
// problem with anything else is not one the person can mend in the form.
func refused(r browser.Reply) page.Action {
	var prob wire.Problem
	if json.Unmarshal([]byte(r.Body), &prob) != nil {
		return page.Action{Name: page.ActFailed, Arg: "failed"}
	}
	var faults []string
	for _, e := range prob.Errors {
		if field, ok := strings.CutPrefix(e.Pointer, "/contact/"); ok {
			faults = append(faults, field+":"+e.Code)
		}
	}
	switch {
	case len(faults) > 0:
		return page.Action{Name: page.ActFaults, Value: strings.Join(faults, " ")}
	case strings.Contains(prob.Type, "key"):
		return page.Action{Name: page.ActFailed, Arg: "already_sent"}
	}
	return page.Action{Name: page.ActFailed, Arg: "design"}
}
