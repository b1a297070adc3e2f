package sieve_test

import (
	"strings"
	"testing"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/sieve"
)

func person() lead.Contact {
	return lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Town: "Lower Alder", Note: "Slopes to the south.", Consent: true}
}

func typed(note string) lead.Contact { c := person(); c.Note = note; return c }

func TestPutAside_TellsMachinesFromPeople(t *testing.T) {
	t.Parallel()
	page := sieve.Enquiry{Contact: person(), Scripted: true, Paid: true}
	form := sieve.Enquiry{Contact: person(), Dated: true, Ours: true, Age: 40 * time.Second}
	with := func(e sieve.Enquiry, change func(*sieve.Enquiry)) sieve.Enquiry { change(&e); return e }
	named := person()
	named.Name = "Cheap pumps www.pumps.example"
	for _, c := range []struct {
		why  string
		e    sieve.Enquiry
		want string
	}{
		{"a person at the page", page, ""},
		{"a person without script", form, ""},
		{"a person who takes a day", with(form, func(e *sieve.Enquiry) { e.Age = 24 * time.Hour }), ""},
		{"a person whose server tells no time", with(form, func(e *sieve.Enquiry) { e.Dated, e.Ours, e.Age = false, false, 0 }), ""},
		{"a person with two links", with(page, func(e *sieve.Enquiry) {
			e.Contact = typed("like https://www.ponds.example/a and http://ponds.example/b")
		}), ""},
		{"a person with five links", with(page, func(e *sieve.Enquiry) { e.Contact = typed(strings.Repeat("https://ponds.example ", 5)) }), ""},
		{"a space in the trap", with(page, func(e *sieve.Enquiry) { e.Trap = " " }), ""},
		{"exactly the least time", with(form, func(e *sieve.Enquiry) { e.Age = 3 * time.Second }), ""},
		{"the trap, with script", with(page, func(e *sieve.Enquiry) { e.Trap = "hello" }), "trap"},
		{"the trap, without", with(form, func(e *sieve.Enquiry) { e.Trap = "hello" }), "trap"},
		{"no work", with(page, func(e *sieve.Enquiry) { e.Paid = false }), "no_work"},
		{"a script with a form's time", with(form, func(e *sieve.Enquiry) { e.Scripted = true }), "no_work"},
		{"too fast", with(form, func(e *sieve.Enquiry) { e.Age = 2 * time.Second }), "too_fast"},
		{"another form", with(form, func(e *sieve.Enquiry) { e.Ours = false }), "not_our_form"},
		{"links in markup", with(page, func(e *sieve.Enquiry) {
			e.Contact = typed(`<a href="https://x.example">x</a> https://y.example https://z.example`)
		}), "links"},
		{"a link for a name", with(page, func(e *sieve.Enquiry) { e.Contact = named }), "links"},
		{"all at once", sieve.Enquiry{Contact: named, Trap: "x", Scripted: true}, "trap, no_work, links"},
	} {
		if got := sieve.PutAside(c.e); got != c.want {
			t.Errorf("%s: %q, want %q", c.why, got, c.want)
		}
	}
}

// Every code that can be given is in the list, once.
func TestReasons_AreAll(t *testing.T) {
	t.Parallel()
	all := strings.Join(sieve.Reasons(), ", ")
	for _, e := range []sieve.Enquiry{{Trap: "x", Scripted: true}, {Dated: true, Ours: true}, {Dated: true}, {Contact: lead.Contact{Name: "https://x.example"}}} {
		for _, code := range strings.Split(sieve.PutAside(e), ", ") {
			if strings.Count(all, code) != 1 {
				t.Errorf("%q is not in %q", code, all)
			}
		}
	}
}
