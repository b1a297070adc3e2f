package desk

import (
	"errors"
	"net/http"
	"strconv"
	"strings"

	"tarnwright/internal/account"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/link"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
	"tarnwright/internal/ui/part"
	"tarnwright/internal/view"
	"tarnwright/internal/wire"
)

// file is all that is known of one enquiry.
type file struct {
	lead.Case
	remarks    []lead.Note
	deliveries []lead.Delivery
	people     []account.User
	typed      string // a note that could not be kept yet
}

// enquiry shows one enquiry.
func (d *Desk) enquiry(v *visit) error { return d.enquiryAs(v, http.StatusOK, "", "") }

// enquiryAs shows one enquiry with what went wrong and a note that was typed.
func (d *Desk) enquiryAs(v *visit, status int, fault, typed string) error {
	ctx, ref := v.r.Context(), v.r.PathValue("reference")
	c, err := d.cfg.Inbox.Case(ctx, ref)
	if err != nil {
		return err
	}
	f := file{Case: c, typed: typed}
	if f.remarks, err = d.cfg.Inbox.Notes(ctx, ref); err != nil {
		return err
	}
	if f.deliveries, err = d.cfg.Inbox.Deliveries(ctx, ref); err != nil {
		return err
	}
	if f.people, err = d.people(ctx); err != nil {
		return err
	}
	d.noted(v, "look", ref)
	d.showTitled(v, status, v.say("office.lead", ref),
		d.done(v), v.alert(fault), d.head(v, f), asideNotice(v, f),
		markup.E("div", markup.Class("of-case"), d.handlingSide(v, f), d.pondSide(v, f)))
	return nil
}

// head says who asks, and what can be done at once.
func (d *Desk) head(v *visit, f file) markup.Node {
	c := f.Contact
	var acts []markup.Node
	if c.Phone != "" {
		acts = append(acts, part.Button{Label: v.say("office.call", c.Phone), Href: "tel:" + dialled(c.Phone), ID: "call"}.Node())
	}
	if c.Email != "" {
		acts = append(acts, part.Button{Label: v.say("office.write"), Href: mailTo(v, f.Case), Ghost: c.Phone != "", ID: "write"}.Node())
	}
	acts = append(acts, part.Button{Label: v.say("office.open"), Href: "/office/leads/" + f.Reference + "/open", Ghost: true, ID: "open"}.Node())
	came := v.say("office.came_at", f.Received.UTC().Format("2006-01-02 15:04"), ago(v, d.cfg.Now().Sub(f.Received)))
	return markup.E("div", markup.Class("of-head"),
		markup.E("p", markup.Class("note"), markup.E("a", markup.A("href", "/office/"), v.say("office.list")), " / ", f.Reference),
		markup.E("h1", c.Name),
		markup.E("p", markup.Class("lede"), strings.Join(filled([]string{c.Town, f.Design.Name, startLine(v, c), came}), " · ")),
		markup.E("p", markup.Class("acts"), acts))
}

func startLine(v *visit, c lead.Contact) string {
	if c.Start == "" {
		return ""
	}
	return v.say("office.start_line", startWords(v, c))
}

// dialled is a phone number as a link takes it (RFC 3966), without an
// extension, which a person has to dial.
func dialled(phone string) string {
	if i := strings.IndexAny(strings.ToLower(phone), "ex#"); i > 0 {
		phone = phone[:i]
	}
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '+' {
			return r
		}
		return -1
	}, phone)
}

// mailTo opens a letter to who asks (RFC 6068).
func mailTo(v *visit, c lead.Case) string {
	return "mailto:" + escaped(c.Contact.Email) + "?subject=" + escaped(v.say("office.write.subject", c.Reference, c.Design.Name))
}

// escaped is a text as a part of a mail address's link: all but letters and
// digits as %XX.
func escaped(s string) string {
	const hex = "0123456789ABCDEF"
	var b strings.Builder
	for i := range len(s) {
		c := s[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("@.-_", c) >= 0 {
			b.WriteByte(c)
			continue
		}
		b.WriteString(string([]byte{'%', hex[c>>4], hex[c&15]}))
	}
	return b.String()
}

// asideNotice says why an enquiry was put aside, and lets it through.
func asideNotice(v *visit, f file) markup.Node {
	if f.Quarantine == "" {
		return markup.None()
	}
	var why []markup.Node
	for _, code := range strings.Split(f.Quarantine, ", ") {
		key := "office.aside." + code
		if !v.words.Has(key) {
			key = "office.aside.other"
		}
		why = append(why, markup.E("li", v.say(key)))
	}
	if !f.PutAside() {
		return markup.E("p", markup.Class("note"), v.say("office.released", f.Released.UTC().Format("2006-01-02 15:04")))
	}
	return markup.E("section", markup.Class("of-put-aside"), markup.A("aria-labelledby", "aside"),
		markup.E("h2", markup.A("id", "aside"), part.Icon(part.MarkCare), v.say("office.aside.this")),
		markup.E("ul", why),
		markup.E("form", markup.A("method", "post"), markup.A("action", at(f.Reference, "release")), proof(v.pass.Form), version(f.Case),
			markup.E("p", markup.Class("note"), v.say("office.release.what")), submit(v.say("office.release"))))
}

func at(reference, what string) string { return "/office/leads/" + reference + "/" + what }

func version(c lead.Case) markup.Node { return hidden("version", strconv.Itoa(c.Version)) }

// pondSide is the pond: its drawing, figures, takeoff, pump, budget and notes,
// worked out from the design as the page does.
func (d *Desk) pondSide(v *visit, f file) markup.Node {
	kit := v.own.Kit
	s := page.New(nil, v.own.Defaults)
	sh, plan := core.Answer(f.Design, v.own.Book, core.Sight{LevelsM: levels(f, s)})
	s = s.Seeing(page.Answered{Sheet: sh, Plan: plan})
	m, _ := page.Paint(s, page.Answered{Sheet: sh, Plan: plan}, kit, page.Easel{})
	w := view.Of(sh, v.words, v.terms())
	var readings []markup.Node
	for _, r := range m.Readings {
		readings = append(readings, r.Node())
	}
	pipes, pipeNotes := w.Schedule()
	return markup.E("div", markup.Class("of-pond"),
		block("of-drawing", v.say("office.drawing"), markup.E("div", markup.Class("sheet"), m.Drawing)),
		d.otherBook(v, f, sh),
		block("of-figures", v.say("office.figures"), markup.E("div", markup.Class("of-readings"), readings)),
		d.differences(v, f, sh),
		block("of-pump", v.say("office.pump"), markup.E("p", m.Plain), tableOf(pipes), lines(pipeNotes)),
		block("of-takeoff", v.say("office.takeoff"), tableOf(w.Takeoff())),
		block("of-items", v.say("office.items"), tableOf(w.Items())),
		block("of-safety", v.say("office.safety"), notes(v, w)),
		block("of-consent", v.say("office.consent"), consent(v, f)))
}

// levels are the depths of the contours of the enquiry's own pond.
func levels(f file, s page.State) []float64 {
	stepM := page.StepM(s.Form.System)
	var out []float64
	for i := 1; float64(i)*stepM < f.Design.Bowl.DeepM && i <= 40; i++ {
		out = append(out, float64(i)*stepM)
	}
	return out
}

// block is a part of the page under its heading; without anything in it, it is
// nothing.
func block(id, title string, kids ...markup.Node) markup.Node {
	var some []markup.Node
	for _, k := range kids {
		if !k.IsNone() {
			some = append(some, k)
		}
	}
	if len(some) == 0 {
		return markup.None()
	}
	return markup.E("section", markup.Class("of-block "+id), markup.A("aria-labelledby", id), markup.E("h2", markup.A("id", id), title), some)
}

// tableOf is a table that scrolls by itself where it is too wide.
func tableOf(t view.Table) markup.Node {
	if len(t.Rows) == 0 {
		return markup.None()
	}
	out := part.Table{Caption: t.Caption, Heads: t.Heads, Total: t.Total}
	for _, r := range t.Rows {
		var row []part.Cell
		for _, c := range r {
			row = append(row, part.Cell{Text: c})
		}
		out.Rows = append(out.Rows, row)
	}
	return markup.E("div", markup.Class("scroll"), markup.A("tabindex", "0"), markup.A("role", "group"), markup.A("aria-label", t.Caption), out.Node())
}

// lines are sentences below a table.
func lines(texts []string) markup.Node {
	if len(texts) == 0 {
		return markup.None()
	}
	var out []markup.Node
	for _, t := range texts {
		out = append(out, markup.E("p", markup.Class("note"), t))
	}
	return markup.E("div", out)
}

// notes are the safety notes and what else was found.
func notes(v *visit, w view.View) markup.Node {
	var items []markup.Node
	for _, n := range w.Notes() {
		judged := v.say("send.fine")
		if n.Care {
			judged = v.say("send.care")
		}
		items = append(items, markup.E("li", part.Pin(n.Care, n.Number),
			markup.E("div", markup.E("h3", markup.E("span", markup.Class(part.ClassHidden), judged+" "), n.Title),
				markup.E("p", strings.Join(filled([]string{n.Text, n.Defers}), " ")))))
	}
	if len(items) == 0 {
		return markup.None()
	}
	return markup.E("ol", markup.Class("notes"), items)
}

// otherBook says where these figures are not those that were stored.
func (d *Desk) otherBook(v *visit, f file, now *sheet.Sheet) markup.Node {
	if f.Book == now.Book && f.CoreVersion == now.CoreVersion {
		return markup.None()
	}
	then := stored(f.Lead)
	return markup.E("p", markup.Class("note of-then"), v.say("office.then", v.volume(then), v.budget(then)))
}

// differences are the figures that the sender's page showed otherwise.
func (d *Desk) differences(v *visit, f file, now *sheet.Sheet) markup.Node {
	if len(f.Differences) == 0 {
		return markup.None()
	}
	then := stored(f.Lead)
	t := part.Table{Caption: v.say("office.differs"), Heads: []string{v.say("office.figure"), v.say("office.theirs"), v.say("office.ours")}}
	for _, x := range f.Differences {
		id := sheet.ID(x.ID)
		known, ok := then.Find(id)
		if !ok {
			known, _ = now.Find(id)
		}
		known.ID = id
		t.Rows = append(t.Rows, []part.Cell{{Text: v.words.Name(id)}, {Text: v.told(known, x.Client)}, {Text: v.told(known, x.Server)}})
	}
	return block("of-differs", v.say("office.differs"), markup.E("p", v.say("office.differs.what")),
		markup.E("div", markup.Class("scroll"), markup.A("tabindex", "0"), markup.A("role", "group"), markup.A("aria-label", t.Caption), t.Node()))
}

func consent(v *visit, f file) markup.Node {
	made := f.MadeAt
	if made == "" {
		made = "–"
	}
	return markup.E("div", markup.E("blockquote", markup.Class("of-quote"), markup.E("p", f.Consent.Text)),
		markup.E("p", markup.Class("note"), v.say("office.consent.when", f.Received.UTC().Format("2006-01-02 15:04:05"), made, f.Consent.Language, f.Consent.Channel)))
}

// open goes to the page with this pond in it; where its questions cannot say
// all of the design, that is said first.
func (d *Desk) open(v *visit) error {
	c, err := d.cfg.Inbox.Case(v.r.Context(), v.r.PathValue("reference"))
	if err != nil {
		return err
	}
	wanted, err := leaves(c)
	if err != nil {
		return err
	}
	var trouble error
	s, same := form.Asked(v.own.Defaults, wanted, func(s form.State) form.Leaves {
		asked, _ := s.Design()
		asked.Name = ""
		out, err := wire.Leaves(asked)
		trouble = errors.Join(trouble, err)
		return out
	})
	if trouble != nil {
		return trouble
	}
	var pairs []link.Pair
	for _, p := range s.Answers() {
		pairs = append(pairs, link.Pair(p))
	}
	to := "/#" + link.Encode(pairs)
	if same {
		http.Redirect(v.w, v.r, to, http.StatusSeeOther)
		return nil
	}
	d.showTitled(v, http.StatusOK, v.say("office.lead", c.Reference), markup.E("section", markup.Class("of-door"),
		markup.E("h1", v.say("office.open.near")), markup.E("p", markup.Class("lede"), v.say("office.open.near.why")),
		markup.E("p", markup.Class("acts"), part.Button{Label: v.say("office.open.go"), Href: to}.Node(),
			part.Button{Label: v.say("office.back.lead"), Href: "/office/leads/" + c.Reference, Ghost: true}.Node())))
	return nil
}

func leaves(c lead.Case) (form.Leaves, error) {
	asked := c.Design
	asked.Name = ""
	return wire.Leaves(asked)
}
