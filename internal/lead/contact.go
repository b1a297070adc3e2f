// Package lead is an enquiry: who asks, how to reach them, what they agreed
// to, and the design with the sheet the server worked out. Page and server
// check a contact with the same code. A lead is accepted once: a repeat under
// the same key gets the first answer.
package lead

import (
	"strings"
	"unicode/utf8"
)

// Contact is what a person types to be reached.
type Contact struct {
	Name    string `json:"name"`
	Email   string `json:"email,omitempty"`
	Phone   string `json:"phone,omitempty"`
	Town    string `json:"town,omitempty"`
	Start   string `json:"start,omitempty"` // when they hope to start, one of Starts
	Note    string `json:"note,omitempty"`
	Consent bool   `json:"consent"`
}

// Fault is something wrong with a contact; package say words it.
type Fault struct{ Field, Code string }

// The fields a fault may name; they are the names in the form and the file.
const (
	FieldName    = "name"
	FieldEmail   = "email"
	FieldPhone   = "phone"
	FieldTown    = "town"
	FieldStart   = "start"
	FieldNote    = "note"
	FieldConsent = "consent"
)

// The codes of a fault.
const (
	Missing       = "missing"        // nothing was typed
	NoWayToReach  = "no_way"         // neither email nor phone
	NoAt          = "no_at"          // an email without @
	NoEnding      = "no_ending"      // an email whose end, such as .com, is missing
	NotAnEmail    = "not_an_email"   // anything else that cannot be an address
	TooFewDigits  = "too_few_digits" // a phone number that cannot be dialled
	NotAPhone     = "not_a_phone"
	TooLong       = "too_long"
	UnknownChoice = "unknown_choice"
	NotAgreed     = "not_agreed"
	Unreadable    = "unreadable" // control characters
)

// The most a field may hold, in characters. An address is bounded by RFC 5321,
// the rest is common practice, no source.
const (
	MaxName  = 120
	MaxEmail = 254
	MaxPhone = 40
	MaxTown  = 120
	MaxNote  = 2000
)

// Starts lists the answers to when they hope to start, in the order shown;
// the empty one is not saying.
func Starts() []string {
	return []string{"", "soon", "this_season", "next_spring", "next_year", "looking"}
}

// Clean takes off the spaces around what was typed and keeps the rest as it
// is. A line break in a one-line field becomes a space.
func Clean(c Contact) Contact {
	for _, f := range []*string{&c.Name, &c.Email, &c.Phone, &c.Town, &c.Start} {
		*f = strings.Join(strings.Fields(*f), " ")
	}
	c.Note = strings.TrimSpace(strings.ReplaceAll(c.Note, "\r\n", "\n"))
	return c
}

// Check returns every fault of a cleaned contact, in the order of the form.
func Check(c Contact) []Fault {
	var faults []Fault
	add := func(field, code string) {
		if code != "" {
			faults = append(faults, Fault{field, code})
		}
	}
	add(FieldName, text(c.Name, MaxName))
	if c.Name == "" {
		add(FieldName, Missing)
	}
	add(FieldPhone, phone(c.Phone))
	switch {
	case c.Email == "" && c.Phone == "":
		add(FieldEmail, NoWayToReach)
	default:
		add(FieldEmail, email(c.Email))
	}
	add(FieldTown, text(c.Town, MaxTown))
	add(FieldStart, oneOf(c.Start, Starts()))
	add(FieldNote, text(c.Note, MaxNote))
	if !c.Consent {
		add(FieldConsent, NotAgreed)
	}
	return faults
}

func oneOf(s string, choices []string) string {
	for _, c := range choices {
		if s == c {
			return ""
		}
	}
	return UnknownChoice
}

// text checks a free text: bounded, valid, and without control characters but
// the line break and the tab.
func text(s string, most int) string {
	if utf8.RuneCountInString(s) > most {
		return TooLong
	}
	if !utf8.ValidString(s) {
		return Unreadable
	}
	for _, r := range s {
		if (r < 0x20 && r != '\n' && r != '\t') || r == 0x7f || (r >= 0x80 && r < 0xa0) {
			return Unreadable
		}
	}
	return ""
}

// email finds the slips people make. Whether mail arrives is only known once
// it is sent, so the check is wide: one @, something before it, a dot inside
// what follows, no spaces. The ending must be letters, or xn-- for others.
func email(s string) string {
	if s == "" {
		return ""
	}
	if len(s) > MaxEmail {
		return TooLong
	}
	if code := text(s, MaxEmail); code != "" {
		return code
	}
	at := strings.LastIndexByte(s, '@')
	switch {
	case at < 0:
		return NoAt
	case at == 0 || strings.ContainsAny(s, " \t\n,;<>()\"\\") || strings.IndexByte(s, '@') != at:
		return NotAnEmail
	}
	return domain(s[at+1:])
}

func domain(d string) string {
	if d == "" {
		return NoEnding
	}
	labels := strings.Split(d, ".")
	for i, l := range labels {
		last := i == len(labels)-1
		switch {
		case l == "" && last:
			return NoEnding
		case l == "" || strings.HasPrefix(l, "-") || strings.HasSuffix(l, "-") || len(l) > 63:
			return NotAnEmail
		}
	}
	ending := labels[len(labels)-1]
	if len(labels) < 2 || utf8.RuneCountInString(ending) < 2 {
		return NoEnding
	}
	if !strings.HasPrefix(ending, "xn--") && strings.ContainsAny(ending, "0123456789_-") {
		return NotAnEmail
	}
	return ""
}

// phone takes whatever can be dialled: seven digits or more (a local number;
// at most the 15 of ITU-T E.164), and the marks people put between them.
func phone(s string) string {
	if s == "" {
		return ""
	}
	if code := text(s, MaxPhone); code != "" {
		return code
	}
	digits := 0
	body, _, _ := cutExtension(s)
	for _, r := range body {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case !strings.ContainsRune(" +-–.()/\u00a0", r):
			return NotAPhone
		}
	}
	const fewest, most = 7, 15
	if digits < fewest {
		return TooFewDigits
	}
	if digits > most {
		return NotAPhone
	}
	return ""
}

// cutExtension parts "555 0100 ext. 12" at the extension.
func cutExtension(s string) (body, ext string, found bool) {
	lower := strings.ToLower(s)
	for _, mark := range []string{"ext", "x", "#"} {
		if i := strings.Index(lower, mark); i > 0 && len(lower) == len(s) {
			return s[:i], s[i+len(mark):], true
		}
	}
	return s, "", false
}
