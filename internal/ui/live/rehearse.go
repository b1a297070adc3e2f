package live

import (
	"net/url"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/browser"
	"tarnwright/internal/ui/page"
)

// Rehearse does without a page what a page does: works the pond of the address
// out, draws and writes it, then types and pulls at it. A browser compiles a
// function when it is first called, so what is called here need not be
// compiled while a person waits. The page may start after the first drawing;
// the rest makes its first moves swift.
func Rehearse(cfg Config, part browser.Part) {
	query, err := url.ParseQuery(part.Query)
	if err != nil {
		query = url.Values{}
	}
	p := &Page{cfg: cfg, narrow: part.Narrow, asked: Answers{Book: cfg.Book}, state: page.New(query, cfg.Defaults)}
	p.state.Live = true
	p.work()
	p.stands = markup.Stand(p.tree)
	markup.HTML(p.tree)
	markup.Controls(p.tree, "")
	part.Done()

	// A browser makes its better code of what has run some dozens of times; moved
	// less often, the page would have to do so under the finger.
	const typed, pulled, compared = 4, 40, 6
	p.typing = true
	for range typed {
		browser.Breathe() // the page may ask for the widget meanwhile
		p.play(page.Action{Name: page.ActStep, Arg: string(form.Length) + "+"})
	}
	p.typing, p.dragging = false, true
	for i := 0; i < pulled && len(p.state.Rings) > 0; i++ {
		browser.Breathe()
		at := p.state.Rings[0]
		p.play(page.Action{Name: page.ActRing, Arg: "0", Value: pair(at.X-0.1*float64(i%2), at.Y+0.05)})
	}
	p.dragging = false
	for i := range compared {
		browser.Breathe()
		p.play(page.Action{Name: page.ActReturn, Arg: beside})
		browser.Breathe()
		p.play(page.Action{Name: page.ActField, Arg: string(form.Units), Value: []string{"metric", "us"}[i%2]})
	}
	for _, v := range []page.View{page.DrawView, page.SendView} {
		browser.Breathe()
		p.play(page.Action{Name: page.ActView, Arg: string(v)})
	}
}

// beside is the address of three ponds side by side.
const beside = "view=compare&opt=length%3D44ft%26width%3D19ft&opt=length%3D28ft%26width%3D18ft&opt="

// play does what an action does, up to what a browser would be told.
func (p *Page) play(a page.Action) {
	p.state = page.Update(p.state, a)
	p.work()
	p.stands.Change(p.tree)
}
