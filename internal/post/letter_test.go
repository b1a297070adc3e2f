package post_test

import (
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/post"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

func TestLetter_HoldsWhatAFirstCallNeeds(t *testing.T) {
	t.Parallel()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s := core.Compute(d, book.Demo())
	terms := measure.Terms{System: measure.US, Currency: "USD"}
	l := maren()
	l.Contact.Town, l.Contact.Start, l.Contact.Note = "Lower Alder", "next_spring", "Slopes south.\nName: somebody else"
	l.Design, l.Book, l.Differences = d, s.Book, []lead.Difference{{ID: "pond.area"}}
	const command = "tarnwright leads AR-7F3K2Q"
	subject, text := post.Letter(l, s, say.English(), terms, command)
	if subject != "Pond enquiry AR-7F3K2Q: Maren Oakes" {
		t.Errorf("subject %q", subject)
	}
	wants := []string{"Name: Maren Oakes\n", "Email: maren@oakesmail.example\n", "Phone: 555 010 0199\n", "Town: Lower Alder\n", "Hopes to start: Next spring\n",
		"  > Slopes south.\n  > Name: somebody else\n", "figures than these: 1.", "  > Fernhollow Ponds may reply to me.\n", say.English().Say("page.rough") + "\n", "2026-11-25 12:00", "every figure: tarnwright leads AR-7F3K2Q\n"}
	for _, r := range view.Readings(s, terms) {
		wants = append(wants, "  "+r.Title+": ")
		for _, f := range r.Figures {
			wants = append(wants, f.String())
		}
		for _, b := range r.Bars {
			wants = append(wants, b.Label+" "+b.Amount.String())
		}
	}
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("the letter lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "letter.") || strings.Contains(text, "{") || strings.Contains(text, "Worked out again") {
		t.Errorf("the letter has a slip:\n%s", text)
	}
	l.Book, l.Contact.Email = "older/1", ""
	if _, text = post.Letter(l, s, say.English(), terms, command); !strings.Contains(text, "older/1") || strings.Contains(text, "Email:") || !strings.Contains(text, "by phone") {
		t.Errorf("by phone, with another book:\n%s", text)
	}
}
