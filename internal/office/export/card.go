package export

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"tarnwright/internal/measure"
)

// cards writes contacts as vCard 3.0 (RFC 2426): the version that old and new
// phones both read. Common practice, no source. Folding and escaping are the
// same as in 4.0 (RFC 6350 §3.2, §3.4).
type cards struct{ w io.Writer }

func newCards(w io.Writer, _ measure.Terms, _ bool) (Writer, error) { return cards{w}, nil }

// Write writes one contact. A name is not taken apart: which part of it is the
// family's cannot be known.
func (x cards) Write(i Item) error {
	c := i.Contact
	var b strings.Builder
	line := func(name, value string) { b.WriteString(folded(name + ":" + value)) }
	line("BEGIN", "VCARD")
	line("VERSION", "3.0")
	line("FN", escaped(c.Name))
	line("N", ";"+escaped(c.Name)+";;;")
	if c.Email != "" {
		line("EMAIL;TYPE=INTERNET", escaped(c.Email))
	}
	if c.Phone != "" {
		line("TEL;TYPE=VOICE", escaped(c.Phone))
	}
	if c.Town != "" {
		line("ADR;TYPE=HOME", ";;;"+escaped(c.Town)+";;;")
	}
	about := i.Reference + ", " + i.Design.Name
	if c.Note != "" {
		about += "\n" + c.Note
	}
	line("NOTE", escaped(about))
	line("UID", escaped(i.Reference)) // so that a second time changes the first
	line("REV", i.Received.UTC().Format(time.RFC3339))
	line("END", "VCARD")
	if _, err := io.WriteString(x.w, b.String()); err != nil {
		return fmt.Errorf("write a contact: %w", err)
	}
	return nil
}

// Close does nothing: each contact is whole.
func (cards) Close() error { return nil }

// escaped is a text as a value (RFC 6350 §3.4).
func escaped(s string) string {
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	s = strings.NewReplacer(`\`, `\\`, ",", `\,`, ";", `\;`, "\n", `\n`).Replace(s)
	return strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, s)
}

// folded is a line in pieces of at most 75 bytes, never within a character
// (RFC 6350 §3.2).
func folded(line string) string {
	const most = 75
	var b strings.Builder
	room := most
	for _, r := range line {
		n := utf8.RuneLen(r)
		if n < 0 {
			r, n = utf8.RuneError, 3
		}
		if n > room {
			b.WriteString("\r\n ")
			room = most - 1
		}
		b.WriteRune(r)
		room -= n
	}
	return b.String() + "\r\n"
}
