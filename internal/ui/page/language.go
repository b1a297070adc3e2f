package page

import (
	"strings"

	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/part"
)

// LangName is the language in the address, where a person has chosen one.
const LangName = "lang"

// ActLang asks for the page in another language; it is loaded anew, because
// the words come with it.
const ActLang = "lang"

// Languages are the languages that the page is written in; the first is for
// those who ask for none of them.
func Languages() []string { return []string{"en", "es"} }

func langOf(name string) string {
	for _, l := range Languages() {
		if l == name {
			return l
		}
	}
	return ""
}

// In is the state with a language chosen.
func (s State) In(lang string) State {
	s.Lang = langOf(lang)
	return s
}

// inWords is an answer as a person of this language writes it: a slope of 1 in
// 5 is 1 en 5 and 158 sq ft are 158 ft², which the form reads as well.
func inWords(w say.Words, text string) string {
	if number, ok := strings.CutSuffix(text, " sq ft"); ok {
		return number + " " + w.Say("unit.sq ft")
	}
	if rest, ok := strings.CutPrefix(text, "1 in "); ok {
		return w.Say("unit.one_in", rest)
	}
	return text
}

// fresh is the address of a new start.
func (s State) fresh() string {
	if s.Lang == "" {
		return "/"
	}
	return "/?" + LangName + "=" + s.Lang
}

// langPairs carry the language through a form.
func (s State) langPairs() []Pair {
	if s.Lang == "" {
		return nil
	}
	return []Pair{{LangName, s.Lang}}
}

// SpeakName is the button of the enquiry's form that asks for the page in
// another language where no script runs.
const SpeakName = "speak"

// language leads to the page in the other language. What is typed beside the
// pond comes along: in the tab's own draft where script runs, and else by
// sending the form. A frame keeps no draft, so with script it is not offered
// there.
func language(s State, m Model) markup.Node {
	if s.View == SendView && s.Live && s.Framed {
		return markup.E("span", markup.Class("lang"))
	}
	other := m.Say("page.other")
	if s.View == SendView && !s.Live && s.Sent == "" {
		return markup.E("span", markup.Class("lang"),
			// The form's first button is what the Enter key presses.
			markup.E("button", markup.A("type", "submit"), markup.A("form", LeadForm), markup.Class(part.ClassHidden), markup.A("tabindex", "-1"), m.Say("send.go")),
			markup.E("button", markup.A("type", "submit"), markup.A("form", LeadForm), markup.Class(part.ClassLink), markup.A("name", SpeakName), markup.A("value", other),
				markup.A("lang", other), m.Say("page.other.name")))
	}
	return markup.E("span", markup.Class("lang"), markup.E("a", markup.Class(part.ClassLink), markup.A("href", s.In(other).Address()),
		markup.A("lang", other), markup.A("hreflang", other), markup.A("data-act", ActLang), markup.A("data-arg", other), m.Say("page.other.name")))
}
