package page

import (
	"strconv"
	"strings"

	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/toll"
	"tarnwright/internal/ui/part"
)

func sendView(s State, m Model) []markup.Node {
	return []markup.Node{notes(m), markup.E("section", markup.Class("lead"), markup.A("aria-labelledby", "send-title"), leadPart(s, m), share(s, m), onPaper(s, m))}
}

// pinnedNotes is how many notes have their number on the plan.
const pinnedNotes = 9

// notes are the first few with their places on the plan, then every other
// caution in the open, and at last what is as it should be, to be opened.
func notes(m Model) markup.Node {
	var first, care, fine []markup.Node
	for i, note := range m.Notes {
		switch {
		case i < pinnedNotes:
			first = append(first, noteItem(m, note))
		case note.Care:
			care = append(care, noteItem(m, note))
		default:
			fine = append(fine, noteItem(m, note))
		}
	}
	more, rest := markup.E("div"), markup.E("div")
	if len(care) > 0 {
		more = markup.E("div", markup.E("h2", markup.Class("more"), m.Say("send.notes_care")), markup.E("ul", markup.Class("notes"), care))
	}
	if len(fine) > 0 {
		rest = markup.E("details", markup.Class("fold"), markup.E("summary", m.Say("send.notes_more", strconv.Itoa(len(fine)))),
			markup.E("ul", markup.Class("notes"), fine))
	}
	return markup.E("section", markup.Class("know"), markup.A("id", "figures"), markup.A("tabindex", "-1"), markup.A("aria-labelledby", "know-title"),
		markup.E("h1", markup.A("id", "know-title"), m.Say("send.notes."+strconv.Itoa(len(first)))), markup.E("p", markup.Class("lede"), m.Say("send.notes_from")),
		markup.E("p", markup.Class("to-form"), markup.E("a", markup.Class(part.ClassLink), markup.A("href", "#send-title"), m.Say("send.to_form"))),
		markup.E("div", markup.Class("pinned"), m.Pinned),
		depthMarks(m),
		markup.E("ol", markup.Class("notes"), first), more, rest, moves(m), m.Paper)
}

func noteItem(m Model, note Note) markup.Node {
	judged := m.Say("send.fine")
	if note.Care {
		judged = m.Say("send.care")
	}
	source := markup.None()
	if note.Source != "" {
		source = markup.E("details", markup.Class("cited"), markup.E("summary", m.Say("send.source"), markup.E("span", markup.Class(part.ClassHidden), ": "+note.Title)),
			markup.E("p", markup.Class(part.ClassSource), note.Source))
	}
	return markup.E("li", part.Pin(note.Care, note.Number),
		markup.E("div", markup.E("h2", markup.E("span", markup.Class(part.ClassHidden), judged+" "), note.Title), markup.E("p", note.Text), mends(note), source))
}

func leadPart(s State, m Model) []markup.Node {
	if s.Sent != "" {
		return sent(s, m)
	}
	if s.Queued != "" {
		return queued(s, m)
	}
	return []markup.Node{
		markup.E("h1", markup.A("id", "send-title"), markup.A("tabindex", "-1"), m.Say("send.title", m.Builder.Short)),
		markup.E("p", markup.Class("lede"), m.Say("send.what")),
		markup.E("div", markup.A("id", "summary"), markup.A("tabindex", "-1"), markup.Class("sum-slot"), summary(s, m)),
		markup.E("div", markup.Class("trouble"), trouble(s, m)),
		leadForm(s, m),
	}
}

func sent(s State, m Model) []markup.Node {
	return []markup.Node{markup.E("div", markup.Class("sent"), markup.A("id", "sent"), markup.A("data-sent", s.Sent), markup.A("tabindex", "-1"), markup.A("role", "status"),
		part.Icon(part.MarkFine),
		markup.E("div", markup.E("h1", markup.A("id", "send-title"), m.Say("send.sent", m.Builder.Short)),
			markup.E("p", m.Say("send.sent_text", s.Sent)),
			markup.E("p", m.Say("send.sent_kept")),
			markup.E("p", markup.Class("acts"), another(m))))}
}

// summary names every fault once more, with a link to its field.
func summary(s State, m Model) markup.Node {
	if len(s.Faults) == 0 {
		return markup.None()
	}
	title := m.Say("send.faults.1")
	if len(s.Faults) > 1 {
		title = m.Say("send.faults", strconv.Itoa(len(s.Faults)))
	}
	var links []markup.Node
	for _, f := range s.Faults {
		links = append(links, markup.E("li", markup.E("a", markup.A("href", "#"+part.ID(f.Field)),
			markup.A("data-act", "focus"), markup.A("data-arg", part.ID(f.Field)), m.faultText(f))))
	}
	return markup.E("div", markup.Class(part.ClassSummary), markup.A("role", "alert"), part.Icon(part.MarkCare),
		markup.E("div", markup.E("h2", title), markup.E("ul", links)))
}

func trouble(s State, m Model) markup.Node {
	if s.Trouble == "" {
		return markup.None()
	}
	return part.Notice{Mark: part.MarkOffline, Title: m.Say("send." + s.Trouble), Text: []string{m.Say("send." + s.Trouble + "_why")}, Status: true}.Node()
}

func (m Model) faultText(f lead.Fault) string { return m.Say("contact." + f.Field + "." + f.Code) }

func (s State) fault(m Model, field string) string {
	for _, f := range s.Faults {
		if f.Field == field {
			return m.faultText(f)
		}
	}
	return ""
}

func leadForm(s State, m Model) markup.Node {
	c := s.Contact
	text := func(field, value, kind, fill, say string) part.Text {
		if s.Tablet && fill != "" {
			fill = "off" // what one person typed is not offered to the next
		}
		return part.Text{Label: part.Label{Field: field, Name: m.Say("send." + say)}, Value: value, Kind: kind, Fill: fill, Form: LeadForm, Fault: s.fault(m, field)}
	}
	name := text(lead.FieldName, c.Name, "text", "name", "name")
	phone := text(lead.FieldPhone, c.Phone, "tel", "tel", "phone")
	name.Half, phone.Half = true, true
	email := text(lead.FieldEmail, c.Email, "email", "email", "email")
	email.Note = m.Say("send.reach")
	town := text(lead.FieldTown, c.Town, "text", "postal-code", "town")
	start := text(lead.FieldStart, c.Start, "", "", "start")
	town.Half, start.Half = true, true
	town.Optional, start.Optional = m.Say("send.optional"), m.Say("send.optional")
	for _, v := range lead.Starts() {
		o := part.Option{Value: v, Label: m.Say("send.start." + v)}
		if v == "" {
			o.Value = " " // an empty value would send the label; the space is cleaned off
		}
		start.Options = append(start.Options, o)
	}
	if start.Value == "" {
		start.Value = " "
	}
	note := text(lead.FieldNote, c.Note, "", "", "note")
	note.Lines, note.Optional = 5, m.Say("send.optional")
	return markup.E("form", markup.A("id", LeadForm), markup.A("method", "post"), markup.A("action", "/lead"), markup.Flag("novalidate", true),
		markup.A("data-act", "send"), markup.Class("fields"),
		name.Node(), phone.Node(), email.Node(), town.Node(), start.Node(), note.Node(),
		trap(m),
		part.Check{Field: lead.FieldConsent, Form: LeadForm, On: c.Consent, Fault: s.fault(m, lead.FieldConsent), Text: consentWords(m)}.Node(),
		markup.E("div", markup.Class("go"), sendButton(s, m),
			markup.E("p", markup.Class(part.ClassNote), m.Say("send.free"), markup.E("br"), m.Say("send.site"))),
		markup.E("div", markup.Class("hold"), carried(s, m)))
}

// trap is the field that only programs fill in.
func trap(m Model) markup.Node {
	return markup.E("div", markup.Class(part.ClassHidden), markup.A("aria-hidden", "true"),
		markup.E("label", m.Say("send.trap"),
			markup.E("input", markup.A("type", "text"), markup.A("name", toll.TrapField), markup.A("form", LeadForm), markup.A("value", ""),
				markup.A("tabindex", "-1"), markup.A("autocomplete", "off"))))
}

func sendButton(s State, m Model) markup.Node {
	words := m.Say("send.go")
	if s.Sending {
		words = m.Say("send.going")
	}
	return part.Button{Label: words, Form: LeadForm, ID: "send", Off: s.Sending}.Node()
}

// ConsentText is the sentence that is agreed to.
func ConsentText(m Model) string {
	return m.Say("send.consent", m.Builder.Name, m.Project, m.Builder.RetentionMonths)
}

func consentWords(m Model) []markup.Node {
	words := []markup.Node{markup.T(ConsentText(m))}
	if m.Builder.PrivacyURL != "" && !strings.Contains(m.Builder.PrivacyURL, " ") {
		words = append(words, markup.T(" "), markup.E("a", markup.A("href", m.Builder.PrivacyURL), m.Say("send.privacy")))
	}
	return words
}

// carried is the pond and the key, as hidden fields of the form without script.
func carried(s State, m Model) []markup.Node {
	pairs := append([]Pair{{"key", s.Key}}, m.Hidden...)
	var out []markup.Node
	for _, p := range pairs {
		out = append(out, markup.E("input", markup.A("type", "hidden"), markup.A("name", p.Name), markup.A("value", p.Value)))
	}
	return out
}
