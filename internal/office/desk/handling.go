package desk

import (
	"errors"
	"net/http"
	"strconv"
	"strings"
	"unicode/utf8"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
)

// told is a figure's decimal text as a person reads it.
func (v *visit) told(like sheet.Figure, text string) string {
	if text == "" {
		return "–"
	}
	if like.Unit == sheet.Money || like.Unit == sheet.MoneyPerKWh || like.Unit == sheet.MoneyPerM3 {
		a, err := money.Parse(text)
		if err != nil {
			return text
		}
		like.Amount = a
	} else {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil || like.Unit == "" {
			return text
		}
		like.Value = x
	}
	return v.words.Shown(say.Shown(like, v.terms())).String()
}

// handlingSide is who asks, and what the office does about it.
func (d *Desk) handlingSide(v *visit, f file) markup.Node {
	return markup.E("div", markup.Class("of-side"),
		block("of-contact", v.say("office.contact"), contact(v, f)),
		block("of-handling", v.say("office.handling"), handlingForm(v, f)),
		block("of-remarks", v.say("office.remarks"), d.remarks(v, f)),
		block("of-told", v.say("office.told"), deliveries(v, f)),
		block("of-keep", v.say("office.keep"),
			files(v, "office.files.one", func(ending string) string { return at(f.Reference, "files/enquiry."+ending) }),
			markup.E("p", markup.Class("note"), v.say("office.kept.this", months(v.own.Book.Builder.RetentionMonths), f.Received.AddDate(0, v.own.Book.Builder.RetentionMonths, 0).Format(dayForm))),
			markup.E("p", markup.E("a", markup.Class(part.ClassLink), markup.A("href", at(f.Reference, "delete")), v.say("office.delete")))))
}

func contact(v *visit, f file) markup.Node {
	c := f.Contact
	var rows []markup.Node
	row := func(key string, what ...markup.Node) {
		rows = append(rows, markup.E("div", markup.E("dt", v.say(key)), markup.E("dd", what)))
	}
	row("office.name", markup.T(c.Name))
	if c.Phone != "" {
		row("office.phone", markup.E("a", markup.A("href", "tel:"+dialled(c.Phone)), c.Phone))
	}
	if c.Email != "" {
		row("office.email", markup.E("a", markup.A("href", mailTo(v, f.Case)), c.Email))
	}
	if c.Town != "" {
		row("office.town", markup.T(c.Town))
	}
	row("office.start", markup.T(startWords(v, c)))
	note := markup.None()
	if c.Note != "" {
		note = markup.E("div", markup.E("p", markup.Class("note"), v.say("office.their_note")), markup.E("blockquote", markup.Class("of-quote"), paragraphs(c.Note)))
	}
	return markup.E("div", markup.E("dl", markup.Class("of-facts"), rows), note)
}

// paragraphs keeps the lines of what somebody typed.
func paragraphs(text string) []markup.Node {
	var out []markup.Node
	for _, l := range strings.Split(text, "\n") {
		if strings.TrimSpace(l) != "" {
			out = append(out, markup.E("p", l))
		}
	}
	return out
}

func handlingForm(v *visit, f file) markup.Node {
	const form = "handling"
	var statuses []part.Option
	for _, s := range lead.Statuses() {
		statuses = append(statuses, part.Option{Value: string(s), Label: v.say("office.status." + string(s))})
	}
	who, known := []part.Option{{Value: "", Label: v.say("office.nobody")}}, f.Assignee == ""
	for _, u := range f.people {
		who = append(who, part.Option{Value: u.Email, Label: u.Email})
		known = known || u.Email == f.Assignee
	}
	if !known { // has left since
		who = append(who, part.Option{Value: f.Assignee, Label: f.Assignee})
	}
	return markup.E("form", markup.A("method", "post"), markup.A("action", at(f.Reference, "handling")), markup.A("id", form), markup.Class("of-form"),
		proof(v.pass.Form), version(f.Case),
		part.Text{Label: part.Label{Field: "status", Name: v.say("office.status")}, Value: string(status(f.Case)), Options: statuses, Form: form}.Node(),
		part.Text{Label: part.Label{Field: "assignee", Name: v.say("office.assignee")}, Value: f.Assignee, Options: who, Form: form}.Node(),
		submit(v.say("office.save")))
}

func (d *Desk) remarks(v *visit, f file) markup.Node {
	var items []markup.Node
	for _, n := range f.remarks {
		items = append(items, markup.E("li", markup.E("p", markup.Class("note"), n.Author+" · "+n.At.UTC().Format("2006-01-02 15:04")+" UTC"), paragraphs(n.Text)))
	}
	list := markup.None()
	if len(items) > 0 {
		list = markup.E("ol", markup.Class("of-notes"), items)
	}
	return markup.E("div", list,
		markup.E("form", markup.A("method", "post"), markup.A("action", at(f.Reference, "note")), markup.A("id", "remark"), markup.Class("of-form"), proof(v.pass.Form),
			part.Text{Label: part.Label{Field: "text", Name: v.say("office.remark")}, Lines: 4, Value: f.typed, Form: "remark"}.Node(),
			ghost(v.say("office.remark.go"))))
}

// deliveries are what was and is to be told of this enquiry, and how it ended.
func deliveries(v *visit, f file) markup.Node {
	if f.PutAside() {
		return markup.E("p", markup.Class("note"), v.say("office.told.aside"))
	}
	if len(f.deliveries) == 0 {
		return markup.E("p", markup.Class("note"), v.say("office.told.none"))
	}
	var items []markup.Node
	for _, x := range f.deliveries {
		items = append(items, markup.E("li", delivery(v, x)))
	}
	return markup.E("div", markup.E("ul", markup.Class("of-list"), items), again(v, f.Reference))
}

// delivery is one delivery in words; one that nobody tries any more is marked.
func delivery(v *visit, x lead.Delivery) markup.Node {
	channel := x.Channel
	if v.words.Has("office.channel." + channel) {
		channel = v.say("office.channel." + channel)
	}
	parts := []string{v.say("office.told."+string(x.State), channel)}
	if x.State == lead.Sent && !x.Ended.IsZero() {
		parts = append(parts, x.Ended.UTC().Format("2006-01-02 15:04")+" UTC")
	}
	if x.State != lead.Sent && x.Attempts > 0 {
		parts = append(parts, count(v, "office.tried", x.Attempts))
	}
	if x.LastError != "" && x.State != lead.Sent {
		parts = append(parts, x.LastError)
	}
	text := strings.Join(parts, ", ")
	if x.State == lead.Dead {
		return part.Judgement(true, text)
	}
	if x.State == lead.Sent {
		return part.Judgement(false, text)
	}
	return markup.E("p", text)
}

func again(v *visit, reference string) markup.Node {
	return markup.E("form", markup.A("method", "post"), markup.A("action", at(reference, "resend")), proof(v.pass.Form),
		markup.E("button", markup.Class(part.ClassButton+" "+part.ClassGhost), markup.A("type", "submit"),
			v.say("office.resend"), markup.E("span", markup.Class(part.ClassHidden), " "+reference)))
}

// touch is the enquiry as the form saw it.
func (d *Desk) touch(v *visit) lead.Touch {
	n, _ := strconv.Atoi(v.r.PostForm.Get("version"))
	return lead.Touch{Reference: v.r.PathValue("reference"), Version: n, At: d.cfg.Now()}
}

// changed goes back to the enquiry, or shows it as somebody else left it.
func (d *Desk) changed(v *visit, err error, done string) error {
	switch {
	case errors.Is(err, lead.ErrStale):
		return d.enquiryAs(v, http.StatusConflict, "office.stale", "")
	case err != nil:
		return err
	}
	ref := v.r.PathValue("reference")
	d.noted(v, done, ref)
	http.Redirect(v.w, v.r, "/office/leads/"+ref+"?done="+done, http.StatusSeeOther)
	return nil
}

// handling keeps the status and who looks after an enquiry.
func (d *Desk) handling(v *visit) error {
	ctx, t := v.r.Context(), d.touch(v)
	c, err := d.cfg.Inbox.Case(ctx, t.Reference)
	if err != nil {
		return err
	}
	people, err := d.people(ctx)
	if err != nil {
		return err
	}
	s, who := lead.Status(v.r.PostForm.Get("status")), v.r.PostForm.Get("assignee")
	known := who == "" || who == c.Assignee
	for _, u := range people {
		known = known || u.Email == who
	}
	if !s.Known() || !known {
		return &refusal{http.StatusUnprocessableEntity, "office.old_form", nil}
	}
	if s != status(c) {
		if err := d.cfg.Inbox.SetStatus(ctx, t, s); err != nil {
			return d.changed(v, err, "")
		}
		t.Version++
	}
	if who != c.Assignee {
		if err := d.cfg.Inbox.Assign(ctx, t, who); err != nil {
			return d.changed(v, err, "")
		}
	}
	return d.changed(v, nil, "handling")
}

// note keeps a remark.
func (d *Desk) note(v *visit) error {
	ref := v.r.PathValue("reference")
	text := strings.TrimSpace(strings.ReplaceAll(v.r.PostForm.Get("text"), "\r\n", "\n"))
	switch {
	case text == "":
		return d.enquiryAs(v, http.StatusUnprocessableEntity, "office.remark.empty", "")
	case len(text) > lead.MaxRemark || !utf8.ValidString(text):
		return d.enquiryAs(v, http.StatusUnprocessableEntity, "office.remark.long", text)
	}
	err := d.cfg.Inbox.AddNote(v.r.Context(), ref, lead.Note{At: d.cfg.Now(), Author: v.pass.User.Email, Text: text})
	return d.changed(v, err, "note")
}

// release lets an enquiry through that was put aside.
func (d *Desk) release(v *visit) error {
	return d.changed(v, d.cfg.Inbox.Release(v.r.Context(), d.touch(v)), "release")
}

// resend makes everything about an enquiry due again.
func (d *Desk) resend(v *visit) error {
	ref := v.r.PathValue("reference")
	if _, err := d.cfg.Inbox.Case(v.r.Context(), ref); err != nil {
		return err
	}
	_, err := d.cfg.Outbox.Again(v.r.Context(), ref, d.cfg.Now())
	return d.changed(v, err, "resend")
}

// askDelete asks once more.
func (d *Desk) askDelete(v *visit) error {
	c, err := d.cfg.Inbox.Case(v.r.Context(), v.r.PathValue("reference"))
	if err != nil {
		return err
	}
	d.showTitled(v, http.StatusOK, v.say("office.lead", c.Reference), markup.E("section", markup.Class("of-door"), markup.A("aria-labelledby", "delete"),
		markup.E("h1", markup.A("id", "delete"), v.say("office.delete.ask", c.Reference)),
		markup.E("p", markup.Class("lede"), v.say("office.delete.what", c.Contact.Name)),
		markup.E("p", markup.Class("note"), v.say("office.delete.backup")),
		markup.E("form", markup.A("method", "post"), markup.A("action", at(c.Reference, "delete")), markup.Class("acts"), proof(v.pass.Form),
			submit(v.say("office.delete.go")),
			part.Button{Label: v.say("office.delete.keep"), Href: "/office/leads/" + c.Reference, Ghost: true}.Node())))
	return nil
}

// delete takes an enquiry away for good.
func (d *Desk) delete(v *visit) error {
	ref := v.r.PathValue("reference")
	if err := d.cfg.Inbox.Delete(v.r.Context(), ref); err != nil {
		return err
	}
	d.noted(v, "delete", ref)
	http.Redirect(v.w, v.r, "/office/?done=delete", http.StatusSeeOther)
	return nil
}

// untold lists what nobody has been told yet, dead letters first.
func (d *Desk) untold(v *visit) error {
	all, err := d.cfg.Outbox.Untold(v.r.Context())
	if err != nil {
		return err
	}
	d.noted(v, "untold", "")
	var dead, waiting []markup.Node
	for _, x := range all {
		item := markup.E("li", markup.Class("of-letter"), markup.E("div", markup.E("a", markup.A("href", "/office/leads/"+x.Reference), x.Reference), delivery(v, x)), again(v, x.Reference))
		if x.State == lead.Dead {
			dead = append(dead, item)
		} else {
			waiting = append(waiting, item)
		}
	}
	list := func(items []markup.Node) markup.Node {
		if len(items) == 0 {
			return markup.None()
		}
		return markup.E("ul", markup.Class("of-list"), items)
	}
	empty := markup.None()
	if len(all) == 0 {
		empty = markup.E("p", markup.Class("of-empty"), v.say("office.untold.none"))
	}
	d.show(v, http.StatusOK, "office.untold", markup.E("h1", v.say("office.untold")), markup.E("p", markup.Class("lede"), v.say("office.untold.what")), empty,
		block("of-dead", v.say("office.untold.dead"), list(dead)), block("of-waiting", v.say("office.untold.waiting"), list(waiting)))
	return nil
}
