package main

import (
	"net/url"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// pages draws the page on the server, from the same parts as the widget.
type pages struct{ cfg live.Config }

func newPages(b core.Book) pages { return pages{live.FromBook(b)} }

// design is what a posted form asks for.
func (p pages) design(v url.Values) (design.Design, []design.Fault) {
	return form.Read(v, p.cfg.Defaults).Design()
}

// consent is what a person agreed to with the form.
func (p pages) consent(design.Design) lead.Consent {
	m := page.Model{Say: p.cfg.Kit.Words.Say, Builder: p.cfg.Kit.Builder, Project: p.cfg.Kit.Project}
	return lead.Consent{Text: page.ConsentText(m), Language: "en", Channel: "form"}
}

// page is the whole page for what was asked.
func (p pages) page(ask httpapi.Ask) httpapi.Shown {
	s := page.New(ask.Values, p.cfg.Defaults)
	s.Key = ask.Key
	if ask.Posted {
		s.View, s.Contact, s.Checked, s.Faults, s.Trouble = page.SendView, ask.Contact, true, ask.Faults, ask.Trouble
	}
	if ask.Sent != nil {
		s.Sent = ask.Sent.Reference
	}
	asked := live.Answers{Book: p.cfg.Book}
	a := asked.Of(s)
	kit, easel := p.cfg.Kit, page.Easel{Width: page.Wide}
	kit.Builder.Logo = ask.Logo
	if ask.Narrow {
		easel.Width = page.Narrow
	}
	m, _ := page.Paint(s.Seeing(a), a, kit, easel)
	return httpapi.Shown{
		Title:    p.cfg.Kit.Words.Say("page.title", p.cfg.Kit.Project, p.cfg.Book.Builder.Name),
		Language: "en",
		Tree:     page.Tree(s, m),
	}
}
