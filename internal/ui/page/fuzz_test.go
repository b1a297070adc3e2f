package page_test

import (
	"net/url"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/ui/page"
)

// Whatever an address says, in its query or in its fragment, the page opens on
// a pond, and its own address opens the same one.
func FuzzNew(f *testing.F) {
	f.Add("length=36+ft&view=send&opt=length%3D20ft", "#d=1.AAAA")
	f.Add("view=compare&opt=%25&opt=&opt=&opt=", "d=2.")
	f.Add("mode=tablet&steps=1&lang=xx&step=length%3A%2B1", "#send-title")
	f.Fuzz(func(t *testing.T, query, fragment string) {
		v, err := url.ParseQuery(query)
		if err != nil {
			return
		}
		s := page.New(v, form.Demo()).Opened(fragment)
		u, err := url.Parse(s.Address())
		if err != nil {
			t.Fatalf("the address %q: %v", s.Address(), err)
		}
		if again := page.New(u.Query(), form.Demo()); again.Form.Values().Encode() != s.Form.Values().Encode() {
			t.Errorf("%q and %q open %q, and its address opens %q", query, fragment, s.Form.Values().Encode(), again.Form.Values().Encode())
		}
	})
}

// What the queue of a tablet tells is a list, however it is broken.
func FuzzWaiting(f *testing.F) {
	f.Add("a\tM\t9:00\t1\t\n")
	f.Add("\n\t\t\n\xff")
	f.Fuzz(func(_ *testing.T, text string) {
		s := page.New(url.Values{}, form.Demo())
		page.Update(s, page.Action{Name: page.ActWaiting, Value: text})
	})
}
