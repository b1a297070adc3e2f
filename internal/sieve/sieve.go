// Package sieve tells enquiries that a machine made from those of people, as
// far as that can be told. What it finds is put aside for the office to look
// at, and never thrown away: a lost enquiry costs more than a look.
package sieve

import (
	"strings"
	"time"

	"tarnwright/internal/lead"
)

// Why an enquiry was put aside.
const (
	Trap       = "trap"         // a field that people do not see was filled in
	NoWork     = "no_work"      // a program sent it and did not do the page's work
	TooFast    = "too_fast"     // the form came back sooner than anyone can type
	NotOurForm = "not_our_form" // the form did not come from this server
	Links      = "links"        // it is full of links or markup
)

// Reasons lists every code, in the order they are told.
func Reasons() []string { return []string{Trap, NoWork, TooFast, NotOurForm, Links} }

// Enquiry is what is known of how an enquiry came.
type Enquiry struct {
	Contact lead.Contact
	Trap    string // what stands in the field that people do not see
	// Scripted says that the page's script or another program sent it; Paid
	// that it did the work. A form without script cannot, and is timed instead.
	Scripted, Paid bool
	// Dated says that forms carry the time they were made; Ours that this one
	// does, and Age is how long ago that was.
	Dated, Ours bool
	Age         time.Duration
}

// limit is from where an enquiry is put aside; each sign below has its points.
// Common practice, no source.
const limit = 100

// fastest is the least time in which a person can fill in the form, with the
// browser's help. Common practice, no source.
const fastest = 3 * time.Second

// PutAside is why an enquiry is put aside, as codes with ", " between, or empty
// when it goes on.
func PutAside(e Enquiry) string {
	points, why := 0, []string{}
	add := func(code string, n int) {
		if n > 0 {
			points += n
			why = append(why, code)
		}
	}
	if strings.TrimSpace(e.Trap) != "" {
		add(Trap, limit)
	}
	switch {
	case e.Scripted && !e.Paid:
		add(NoWork, limit)
	case e.Scripted || !e.Dated:
	case !e.Ours:
		add(NotOurForm, limit)
	case e.Age < fastest:
		add(TooFast, limit)
	}
	add(Links, linked(e.Contact))
	if points < limit {
		return ""
	}
	return strings.Join(why, ", ")
}

// linked weighs links and markup. A link or two to a pond that somebody likes
// is nothing unusual; one in a name is.
func linked(c lead.Contact) int {
	const few, some, many = 2, 20, 60
	if links(c.Name)+links(c.Town)+links(c.Phone) > 0 {
		return limit
	}
	points := 0
	switch n := links(c.Note); {
	case n > few:
		points = many
	case n > 0:
		points = some
	}
	if lower := strings.ToLower(c.Note); strings.Contains(lower, "<a ") || strings.Contains(lower, "[url") || strings.Contains(lower, "[link") {
		points += many
	}
	return points
}

func links(text string) int {
	text = strings.ToLower(text)
	return strings.Count(text, "://") + strings.Count(text, "www.") - strings.Count(text, "://www.")
}
