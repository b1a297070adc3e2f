package main

import (
	"encoding/json"
	"net/url"
	"strings"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// pages draws the page on the server, from the same parts as the widget, in
// each language.
type pages struct {
	cfg   live.Config // for who asks for a language there is not
	in    map[string]live.Config
	words map[string]say.Words
}

// newPages are the pages of a builder's book, and of the book in the words of
// the languages that they have words in.
func newPages(b core.Book, worded map[string]book.Worded) pages {
	p := pages{cfg: live.FromBook(b, say.English()), in: map[string]live.Config{}, words: map[string]say.Words{"en": say.English(), "es": say.Spanish()}}
	for language, w := range p.words {
		own := b
		if in, ok := worded[language]; ok {
			own = in.Book
		}
		p.in[language] = live.FromBook(own, w)
	}
	return p
}

// texts are what a page may say in each language, as JSON; what only letters,
// the command line and the server's errors say stays here.
func (p pages) texts() map[string][]byte {
	out := map[string][]byte{}
	for language, w := range p.words {
		all := w.All()
		for key := range all {
			for _, apart := range []string{"letter.", "office.", "server.", "sheet."} {
				if strings.HasPrefix(key, apart) {
					delete(all, key)
				}
			}
		}
		raw, err := json.Marshal(all)
		if err != nil {
			panic("tarnwright: texts cannot be written: " + err.Error()) // a map of text can
		}
		out[language] = raw
	}
	return out
}

// kit is what the page is drawn with in a language.
func (p pages) kit(language string) page.Kit {
	return p.config(language).Kit
}

func (p pages) config(language string) live.Config {
	if cfg, ok := p.in[language]; ok {
		return cfg
	}
	return p.cfg
}

// say gives the sentence of a key in a language.
func (p pages) say(language, key string) string { return p.kit(language).Words.Say(key) }

// design is what a posted form asks for.
func (p pages) design(v url.Values) (design.Design, []design.Fault) {
	return form.Read(v, p.cfg.Defaults).Design()
}

// consent is what a person agreed to with the form.
func (p pages) consent(language string, _ design.Design) lead.Consent {
	k := p.kit(language)
	m := page.Model{Say: k.Words.Say, Builder: k.Builder, Project: k.Project}
	return lead.Consent{Text: page.ConsentText(m), Language: k.Words.Language(), Channel: "form"}
}

// page is the whole page for what was asked.
func (p pages) page(ask httpapi.Ask) httpapi.Shown {
	cfg := p.config(ask.Language)
	k := cfg.Kit
	s := page.New(ask.Values, cfg.Defaults)
	s.Key, s.Origin = ask.Key, ask.Origin
	if ask.Posted {
		s.View, s.Contact, s.Checked, s.Faults, s.Trouble = page.SendView, ask.Contact, true, ask.Faults, ask.Trouble
	}
	if ask.Sent != nil {
		s.Sent = ask.Sent.Reference
	}
	asked := live.Answers{Book: cfg.Book}
	a := asked.Of(s)
	easel := page.Easel{Width: page.Wide}
	k.Builder.Logo = ask.Logo
	if ask.Narrow {
		easel.Width = page.Narrow
	}
	m, _ := page.Paint(s.Seeing(a), a, k, easel)
	return httpapi.Shown{
		Title:       k.Words.Say("page.title", k.Project, cfg.Book.Builder.Name),
		Description: k.Words.Say("server.description", cfg.Book.Builder.Name),
		Language:    k.Words.Language(),
		Tree:        page.Tree(s, m),
	}
}
