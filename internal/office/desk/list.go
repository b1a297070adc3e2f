package desk

import (
	"net/http"
	"strconv"
	"strings"
	"time"

	"tarnwright/internal/account"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/wire"
)

// list shows the enquiries, newest first.
func (d *Desk) list(v *visit) error {
	q := v.query()
	people, err := d.people(v.r.Context())
	if err != nil {
		return err
	}
	found, err := d.cfg.Inbox.Search(v.r.Context(), q.filter(people))
	if err != nil {
		return err
	}
	counts, err := d.cfg.Inbox.Counts(v.r.Context())
	if err != nil {
		return err
	}
	d.noted(v, "list", "")
	title := "office.list"
	if q.Aside {
		title = "office.aside"
	}
	d.show(v, http.StatusOK, title, d.done(v),
		markup.E("div", markup.Class("of-top"), markup.E("h1", v.say(title)), d.stages(v, q, counts)),
		d.deadLine(v, counts), d.finder(v, q, people),
		asideWords(v, q), d.rows(v, q, found), pager(v, q, found), d.takeaway(v, q, found))
	return nil
}

// done says that what was asked for has been done.
func (d *Desk) done(v *visit) markup.Node {
	key := "office.done." + v.r.URL.Query().Get("done")
	if !v.words.Has(key) {
		return markup.None()
	}
	return markup.E("p", markup.Class("of-done fine"), markup.A("role", "status"), part.Icon(part.MarkFine), markup.E("span", v.say(key)))
}

func months(n int) string { return strconv.Itoa(n) }

// stages are the statuses with how many enquiries are in each.
func (d *Desk) stages(v *visit, q query, c lead.Counts) markup.Node {
	all := 0
	for _, n := range c.ByStatus {
		all += n
	}
	var links []markup.Node
	add := func(label string, n int, to query) {
		here := markup.Attr{}
		if to.Status == q.Status && to.Aside == q.Aside {
			here = markup.A("aria-current", "page")
		}
		links = append(links, markup.E("li", markup.E("a", markup.A("href", to.address("/office/")), here, label, " ", markup.E("span", markup.Class("of-n num"), strconv.Itoa(n)))))
	}
	add(v.say("office.all"), all, query{Page: 1})
	for _, s := range lead.Statuses() {
		add(v.say("office.status."+string(s)), c.ByStatus[s], query{Status: s, Page: 1})
	}
	add(v.say("office.aside.short"), c.PutAside, query{Aside: true, Page: 1})
	return markup.E("nav", markup.Class("of-stages"), markup.A("aria-label", v.say("office.stages")), markup.E("ul", links))
}

// deadLine says that something could not be told, where that is so.
func (d *Desk) deadLine(v *visit, c lead.Counts) markup.Node {
	if c.Dead == 0 {
		return markup.None()
	}
	key := "office.dead.many"
	if c.Dead == 1 {
		key = "office.dead.one"
	}
	return markup.E("p", markup.Class(part.ClassCare), part.Icon(part.MarkCare), markup.E("span", v.say(key, strconv.Itoa(c.Dead)), " ",
		markup.E("a", markup.A("href", "/office/untold"), v.say("office.dead.see"))))
}

// finder is the form to look for words and to narrow the list.
func (d *Desk) finder(v *visit, q query, people []account.User) markup.Node {
	const form = "finder"
	statuses := []part.Option{{Value: "", Label: v.say("office.any")}}
	for _, s := range lead.Statuses() {
		statuses = append(statuses, part.Option{Value: string(s), Label: v.say("office.status." + string(s))})
	}
	who := []part.Option{{Value: "", Label: v.say("office.any")}, {Value: lead.Nobody, Label: v.say("office.nobody")}}
	for _, u := range people {
		who = append(who, part.Option{Value: strconv.FormatInt(u.ID, 10), Label: u.Email})
	}
	aside := markup.None()
	if q.Aside {
		aside = hidden("aside", "1")
	}
	text := func(field, key, kind, value string, opts []part.Option) markup.Node {
		return part.Text{Label: part.Label{Field: field, Name: v.say(key)}, Kind: kind, Value: value, Options: opts, Form: form, Fill: "off"}.Node()
	}
	more := markup.E("details", markup.Class("fold of-more"), markup.Flag("open", q.Status != "" || q.Who != "" || q.From != "" || q.Until != ""),
		markup.E("summary", v.say("office.find.more")),
		markup.E("div", markup.Class("of-filters"),
			text("status", "office.status", "", string(q.Status), statuses), text("who", "office.assignee", "", q.Who, who),
			text("from", "office.from", "date", q.From, nil), text("until", "office.until", "date", q.Until, nil)))
	clear := markup.None()
	if q.narrowed() && (q.Words != "" || q.Who != "" || q.From != "" || q.Until != "") {
		clear = markup.E("a", markup.Class(part.ClassLink), markup.A("href", query{Page: 1, Aside: q.Aside}.address("/office/")), v.say("office.find.clear"))
	}
	return markup.E("form", markup.A("method", "post"), markup.A("action", "/office/find"), markup.A("id", form), markup.A("role", "search"), markup.Class("of-find"),
		proof(v.pass.Form), aside,
		markup.E("div", markup.Class("of-find-line"),
			markup.E("div", markup.Class("fld"), markup.E("label", markup.A("for", "f-words"), v.say("office.find")),
				markup.E("input", markup.A("type", "search"), markup.A("id", "f-words"), markup.A("name", "words"), markup.A("value", q.Words), markup.A("autocomplete", "off"), markup.A("spellcheck", "false"))),
			ghost(v.say("office.find.go")), clear),
		more)
}

func asideWords(v *visit, q query) markup.Node {
	if !q.Aside {
		return markup.None()
	}
	return markup.E("p", markup.Class("lede"), v.say("office.aside.what"))
}

// rows are the enquiries of a page.
func (d *Desk) rows(v *visit, q query, f lead.Found) markup.Node {
	if len(f.Cases) == 0 {
		key := "office.empty"
		switch {
		case q.Aside && q.Words == "":
			key = "office.empty.aside"
		case q.narrowed() || q.Page > 1:
			key = "office.empty.found"
		}
		return markup.E("p", markup.Class("of-empty"), v.say(key))
	}
	var items []markup.Node
	for _, c := range f.Cases {
		items = append(items, d.row(v, c))
	}
	total := "office.total.many"
	if f.Total == 1 {
		total = "office.total.one"
	}
	heads := markup.E("div", markup.Class("of-heads note"), markup.A("aria-hidden", "true"))
	for _, h := range []string{"office.who", "office.water", "office.budget", "office.start", "office.came"} {
		heads.Kids = append(heads.Kids, markup.E("span", v.say(h)))
	}
	return markup.E("section", markup.A("aria-label", v.say("office.list")), markup.E("p", markup.Class("note"), v.say(total, strconv.Itoa(f.Total))), heads, markup.E("ol", markup.Class("of-rows"), items))
}

// row is one enquiry: who, where, how much water and money, and when.
func (d *Desk) row(v *visit, c lead.Case) markup.Node {
	s := stored(c.Lead)
	name := c.Contact.Name
	about := []string{c.Contact.Town, c.Reference}
	if c.Assignee != "" {
		about = append(about, c.Assignee)
	}
	if c.Notes > 0 {
		about = append(about, count(v, "office.notes", c.Notes))
	}
	cell := func(class, key, text string) markup.Node {
		return markup.E("p", markup.Class(class), markup.E("span", markup.Class(part.ClassHidden), v.say(key)+": "), text)
	}
	return markup.E("li", markup.Class("of-row s-"+string(status(c))),
		markup.E("div", markup.Class("of-name"), markup.E("p", markup.E("span", markup.Class("of-status"), v.say("office.status."+string(status(c)))), " ",
			markup.E("a", markup.A("href", "/office/leads/"+c.Reference), name)),
			markup.E("p", markup.Class("note"), strings.Join(filled(about), " · "))),
		cell("num of-water", "office.water", v.volume(s)),
		cell("num of-budget", "office.budget", v.budget(s)),
		cell("of-start", "office.start", startWords(v, c.Contact)),
		cell("of-came", "office.came", ago(v, d.cfg.Now().Sub(c.Received))))
}

func filled(texts []string) []string {
	var out []string
	for _, t := range texts {
		if t != "" {
			out = append(out, t)
		}
	}
	return out
}

func status(c lead.Case) lead.Status {
	if c.Status == "" {
		return lead.StatusNew
	}
	return c.Status
}

func startWords(v *visit, c lead.Contact) string {
	if c.Start == "" {
		return "–"
	}
	return v.say("send.start." + c.Start)
}

// count is so many of something in words, one of it apart.
func count(v *visit, key string, n int) string {
	if n == 1 {
		return v.say(key + ".one")
	}
	return v.say(key+".many", strconv.Itoa(n))
}

// ago is how long something is past, in the largest unit that fits.
func ago(v *visit, d time.Duration) string {
	const day = 24 * time.Hour
	switch {
	case d < time.Minute:
		return v.say("office.ago.now")
	case d < time.Hour:
		return count(v, "office.ago.minute", int(d/time.Minute))
	case d < day:
		return count(v, "office.ago.hour", int(d/time.Hour))
	case d < 14*day:
		return count(v, "office.ago.day", int(d/day))
	case d < 60*day:
		return count(v, "office.ago.week", int(d/(7*day)))
	}
	return count(v, "office.ago.month", int(d/(30*day)))
}

func (v *visit) terms() measure.Terms {
	return measure.Terms{System: v.own.Defaults.System, Currency: v.own.Book.Currency}
}

// stored are the figures as they were when the enquiry came; a sheet that
// cannot be read has none.
func stored(l lead.Lead) *sheet.Sheet {
	s, err := wire.ReadStoredSheet(l.SheetJSON)
	if err != nil {
		return &sheet.Sheet{}
	}
	return s
}

func (v *visit) volume(s *sheet.Sheet) string {
	f, ok := s.Find("water.net_volume")
	if !ok {
		return "–"
	}
	return v.words.Shown(say.Shown(f, v.terms())).String()
}

func (v *visit) budget(s *sheet.Sheet) string {
	if _, ok := s.Find("budget.low"); !ok {
		return "–"
	}
	return v.terms().BudgetRange(s.Amount("budget.low"), s.Amount("budget.high")).String()
}

// pager goes to the newer and the older pages.
func pager(v *visit, q query, f lead.Found) markup.Node {
	last := (f.Total + aPage - 1) / aPage
	if last <= 1 {
		return markup.None()
	}
	link := func(page int, key, rel string) markup.Node {
		if page < 1 || page > last {
			return markup.None()
		}
		q.Page = page
		return markup.E("a", markup.Class(part.ClassButton+" "+part.ClassGhost), markup.A("href", q.address("/office/")), markup.A("rel", rel), v.say(key))
	}
	here := q.Page
	return markup.E("nav", markup.Class("of-pages acts"), markup.A("aria-label", v.say("office.pages")),
		link(here-1, "office.newer", "prev"), link(here+1, "office.older", "next"),
		markup.E("span", markup.Class("note"), v.say("office.page", strconv.Itoa(here), strconv.Itoa(last))))
}

// takeaway offers the list as files.
func (d *Desk) takeaway(v *visit, q query, f lead.Found) markup.Node {
	if f.Total == 0 {
		return markup.None()
	}
	q.Page = 1
	return files(v, "office.files.list", func(ending string) string { return q.address("/office/files/enquiries." + ending) })
}
