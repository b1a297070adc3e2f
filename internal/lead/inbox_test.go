package lead_test

import (
	"reflect"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
)

func TestSearch_FindsWhatPeopleType(t *testing.T) {
	t.Parallel()
	text := lead.SearchText(lead.Lead{Reference: "AR-7F3K2Q", Design: design.Design{Name: "Ålder Reach"},
		Contact: lead.Contact{Name: "Inés NÚÑEZ Groß-Æbel", Email: "ines@pondmail.example", Phone: "(555) 010-0147", Town: "Châlons", Note: "Cœur de l'étang 池塘"}})
	for _, typed := range []string{"nunez", "Núñez", "INES", "gross", "groß", "aebel", "chalons", "coeur", "étang", "池塘", "5550100147", "555-0100147", "(555)0100147",
		"010-0147", "0147", "ines@pondmail", "ar-7f3k2q", "7F3K", "alder reach"} {
		for _, w := range lead.SearchWords(typed) {
			if !strings.Contains(text, w) {
				t.Errorf("%q asks for %q, which is not in %q", typed, w, text)
			}
		}
	}
	for typed, want := range map[string][]string{"": nil, "  \t ": nil, "Maren  oakes": {"maren", "oakes"}, "+1 555": {"+1", "555"}, "7": {"7"}} {
		if got := lead.SearchWords(typed); !reflect.DeepEqual(got, want) {
			t.Errorf("%q asks for %q, want %q", typed, got, want)
		}
	}
}

func FuzzSearchWords_FindTheTextTheyCameFrom(f *testing.F) {
	f.Add("Inés Núñez")
	f.Add("ǅ İ \xff")
	f.Fuzz(func(t *testing.T, name string) {
		text := lead.SearchText(lead.Lead{Contact: lead.Contact{Name: name, Phone: name}})
		for _, w := range lead.SearchWords(name) {
			if !strings.Contains(text, w) {
				t.Fatalf("%q asks for %q, which is not in %q", name, w, text)
			}
		}
	})
}

func TestStatus_KnowsItsOwn(t *testing.T) {
	t.Parallel()
	for _, s := range lead.Statuses() {
		if !s.Known() {
			t.Errorf("%s is not known", s)
		}
	}
	if lead.Status("").Known() || lead.Status("New").Known() {
		t.Error("others are known")
	}
}
