package post

import (
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

// Letter writes a lead for the office: who asks and how to reach them, the
// pond in the figures a first call needs, what to look at, and what the person
// agreed to. The sheet is the lead's own, or one worked out from its design. see
// is where all of the lead is found: an address, or a command.
func Letter(l lead.Lead, s *sheet.Sheet, w say.Words, t measure.Terms, see string) (subject, text string) {
	c := l.Contact
	var b strings.Builder
	line := func(parts ...string) { b.WriteString(strings.Join(parts, " ") + "\n") }
	opening := "letter.opening"
	if c.Email == "" {
		opening = "letter.call"
	}
	line(w.Say(opening, c.Name))
	line()
	for _, f := range [][2]string{{"name", c.Name}, {"email", c.Email}, {"phone", c.Phone}, {"town", c.Town}, {"start", start(c, w)}} {
		if f[1] != "" {
			line(w.Say("letter."+f[0])+":", f[1])
		}
	}
	if c.Note != "" {
		line()
		line(w.Say("letter.note"))
		line(indent(c.Note))
	}
	v := view.Of(s, w, t)
	line()
	line(w.Say("letter.pond"))
	for _, r := range v.Readings() {
		line("  "+r.Title+":", figures(r))
	}
	if notes := v.Notes(); len(notes) > 0 {
		line()
		line(w.Say("letter.notes"))
		first := notes[:min(len(notes), mostNotes)]
		for _, n := range first {
			line("  "+n.Number+".", n.Title)
		}
		if more := len(notes) - len(first); more > 0 {
			line("  " + w.Say("letter.more", strconv.Itoa(more)))
		}
	}
	line()
	line(w.Say("page.rough"))
	for _, remark := range remarks(l, s, w) {
		line()
		line(remark)
	}
	line()
	line(w.Say("letter.consent"))
	line(indent(l.Consent.Text))
	line()
	line(w.Say("letter.received", l.Received.UTC().Format("2006-01-02 15:04")))
	line(w.Say("letter.see", see))
	return w.Say("letter.subject", l.Reference, c.Name), b.String()
}

func start(c lead.Contact, w say.Words) string {
	if c.Start == "" {
		return ""
	}
	return w.Say("send.start." + c.Start)
}

// mostNotes is how many notes a letter lists: the page has them in the order
// in which they matter.
const mostNotes = 8

func figures(r view.Reading) string {
	var out []string
	for _, f := range r.Figures {
		out = append(out, f.String())
	}
	for _, b := range r.Bars {
		out = append(out, b.Label+" "+b.Amount.String())
	}
	join := ", "
	if r.Join != "" {
		join = " " + r.Join + " "
	}
	return strings.Join(out, join)
}

// remarks says where these figures are not what the person saw.
func remarks(l lead.Lead, s *sheet.Sheet, w say.Words) []string {
	var out []string
	if n := len(l.Differences); n > 0 {
		out = append(out, w.Say("letter.differs", strconv.Itoa(n)))
	}
	if l.Book != s.Book {
		out = append(out, w.Say("letter.other", l.Book, s.Book))
	}
	return out
}

// indent sets a text apart, so that nothing in it can pass for the letter's.
func indent(s string) string {
	return "  > " + strings.ReplaceAll(s, "\n", "\n  > ")
}
