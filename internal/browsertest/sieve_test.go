package browsertest_test

import (
	"context"
	"path/filepath"
	"testing"

	"tarnwright/internal/store/sqlite"
)

// The page does its small work while the person writes, so that what they send
// goes on; a program that fills in every field is answered the same and put
// aside. No person sees that field or comes to it.
func TestSieve_ThePageWorksAndAProgramGivesItselfAway(t *testing.T) {
	t.Parallel()
	s := serve(t)
	sent := func(name string, program bool) {
		b := live(t, s, size{1280, 860}, "/?view=send")
		b.until("the work is done", `performance.getEntriesByName("paid").length === 1`)
		took := eval[float64](b, `performance.getEntriesByName("paid")[0].startTime - performance.getEntriesByName("live")[0].startTime`)
		t.Logf("the work took %.0f ms from when the page was live", took)
		if hidden := eval[bool](b, `(() => {
			const f = document.querySelector("[name=topic]"), r = f.closest("[aria-hidden=true]").getBoundingClientRect();
			return f.tabIndex === -1 && f.autocomplete === "off" && r.width <= 1 && r.height <= 1;
		})()`); !hidden {
			t.Error("a person may meet the field for programs")
		}
		b.fill("f-name", name)
		b.fill("f-email", "maren@oakesmail.example")
		b.click("f-consent")
		if program {
			eval[bool](b, `(() => { document.querySelector("[name=topic]").value = "Best prices"; return true; })()`)
		}
		b.click("send")
		b.until("it was sent", `document.getElementById("sent") !== null`)
		b.quiet()
	}
	sent("Maren Oakes", false)
	sent("A Program", true)

	store, err := sqlite.Open(context.Background(), filepath.Join(s.data, "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	leads, err := store.List(context.Background(), "", 10)
	if err != nil || len(leads) != 2 {
		t.Fatalf("%d enquiries, %v", len(leads), err)
	}
	for _, l := range leads {
		if want := map[string]string{"Maren Oakes": "", "A Program": "trap"}[l.Contact.Name]; l.Quarantine != want {
			t.Errorf("%s is put aside for %q, want %q", l.Contact.Name, l.Quarantine, want)
		}
	}
}
