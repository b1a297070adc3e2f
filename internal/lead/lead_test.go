package lead_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
)

func person() lead.Contact {
	return lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Town: "Lower Alder", Start: "next_spring", Consent: true}
}

func TestCheck_FindsEachFault(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why    string
		change func(*lead.Contact)
		want   []lead.Fault
	}{
		{"nothing wrong", func(*lead.Contact) {}, nil},
		{"only a phone", func(c *lead.Contact) { c.Email, c.Phone = "", "(555) 010-0199 ext. 4" }, nil},
		{"no name", func(c *lead.Contact) { c.Name = "" }, []lead.Fault{{"name", "missing"}}},
		{"a name of a whole book", func(c *lead.Contact) { c.Name = strings.Repeat("é", 121) }, []lead.Fault{{"name", "too_long"}}},
		{"a long name in letters of two bytes", func(c *lead.Contact) { c.Name = strings.Repeat("é", 120) }, nil},
		{"neither email nor phone", func(c *lead.Contact) { c.Email = "" }, []lead.Fault{{"email", "no_way"}}},
		{"the ending is missing", func(c *lead.Contact) { c.Email = "maren@oakesmail" }, []lead.Fault{{"email", "no_ending"}}},
		{"ends in a dot", func(c *lead.Contact) { c.Email = "maren@oakesmail." }, []lead.Fault{{"email", "no_ending"}}},
		{"one letter for an ending", func(c *lead.Contact) { c.Email = "maren@oakesmail.c" }, []lead.Fault{{"email", "no_ending"}}},
		{"no at", func(c *lead.Contact) { c.Email = "maren.oakesmail.example" }, []lead.Fault{{"email", "no_at"}}},
		{"two ats", func(c *lead.Contact) { c.Email = "a@b@c.example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"nothing before the at", func(c *lead.Contact) { c.Email = "@c.example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"a space", func(c *lead.Contact) { c.Email = "a b@c.example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"a second address", func(c *lead.Contact) { c.Email = "a@c.example,b@c.example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"two dots", func(c *lead.Contact) { c.Email = "a@c..example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"an address of a machine", func(c *lead.Contact) { c.Email = "a@10.0.0.12" }, []lead.Fault{{"email", "not_an_email"}}},
		{"a header in the address", func(c *lead.Contact) { c.Email = "a@c.example\nBcc: x@y.example" }, []lead.Fault{{"email", "not_an_email"}}},
		{"letters of another script", func(c *lead.Contact) { c.Email = "ürün@örnek.рф" }, nil},
		{"a plus and dots", func(c *lead.Contact) { c.Email = "o'hara.m+pond@sub.mail.example" }, nil},
		{"five digits", func(c *lead.Contact) { c.Phone = "55501" }, []lead.Fault{{"phone", "too_few_digits"}}},
		{"words for a phone", func(c *lead.Contact) { c.Phone = "call me at 5550100" }, []lead.Fault{{"phone", "not_a_phone"}}},
		{"sixteen digits", func(c *lead.Contact) { c.Phone = "1234567890123456" }, []lead.Fault{{"phone", "not_a_phone"}}},
		{"a start we do not offer", func(c *lead.Contact) { c.Start = "yesterday" }, []lead.Fault{{"start", "unknown_choice"}}},
		{"a long note", func(c *lead.Contact) { c.Note = strings.Repeat("x", 2001) }, []lead.Fault{{"note", "too_long"}}},
		{"a bell in the note", func(c *lead.Contact) { c.Note = "ding\a" }, []lead.Fault{{"note", "unreadable"}}},
		{"lines and tabs in the note", func(c *lead.Contact) { c.Note = "one\n\ttwo" }, nil},
		{"not agreed", func(c *lead.Contact) { c.Consent = false }, []lead.Fault{{"consent", "not_agreed"}}},
		{"everything at once", func(c *lead.Contact) { *c = lead.Contact{Phone: "1", Start: "x"} },
			[]lead.Fault{{"name", "missing"}, {"phone", "too_few_digits"}, {"start", "unknown_choice"}, {"consent", "not_agreed"}}},
	} {
		p := person()
		c.change(&p)
		if got := lead.Check(p); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", c.why, got, c.want)
		}
	}
}

func TestClean_TakesOffSpacesOnly(t *testing.T) {
	t.Parallel()
	got := lead.Clean(lead.Contact{Name: "  Maren\u00a0 Oakes\n", Email: " m@o.example\t", Note: "\r\n one\r\ntwo \n"})
	want := lead.Contact{Name: "Maren Oakes", Email: "m@o.example", Note: "one\ntwo"}
	if got != want {
		t.Errorf("cleaned %+v, want %+v", got, want)
	}
}

func FuzzCheck_ClearsNothingThatBreaksALine(f *testing.F) {
	f.Add("Maren", "m@o.example", "555 0100")
	f.Add("A\nB", "m@o.example\r\nBcc: x", "555\n0100")
	f.Fuzz(func(t *testing.T, name, email, phone string) {
		c := lead.Clean(lead.Contact{Name: name, Email: email, Phone: phone, Consent: true})
		if len(lead.Check(c)) == 0 && strings.ContainsAny(c.Name+c.Email+c.Phone, "\r\n\x00\v\f") {
			t.Fatalf("%+v passed", c)
		}
	})
}

// Every single wrong symbol and every swap of two, over 400 references: the
// check symbol must catch them all.
func TestReference_CatchesEverySlip(t *testing.T) {
	t.Parallel()
	const letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	for n := uint32(0); n < 1<<25; n += 83_891 {
		ref := lead.Reference("AR", n)
		if got, err := lead.ReadReference("AR", ref); err != nil || got != ref {
			t.Fatalf("%s reads as %q, %v", ref, got, err)
		}
		body := []byte(ref[3:])
		for i := range body {
			for j := range letters {
				if letters[j] == body[i] {
					continue
				}
				bad := append([]byte{}, body...)
				bad[i] = letters[j]
				if _, err := lead.ReadReference("AR", "AR-"+string(bad)); err == nil {
					t.Fatalf("%s passed for %s", bad, body)
				}
			}
			for k := range i {
				if body[i] == body[k] {
					continue
				}
				bad := append([]byte{}, body...)
				bad[i], bad[k] = bad[k], bad[i]
				if _, err := lead.ReadReference("AR", "AR-"+string(bad)); err == nil {
					t.Fatalf("%s passed for %s", bad, body)
				}
			}
		}
	}
}

func TestReadReference_TakesItAsPeopleWriteIt(t *testing.T) {
	t.Parallel()
	ref := lead.Reference("OL", 1) // holds 0 and 1, and letters that the code lacks in front
	for _, typed := range []string{ref, strings.ToLower(ref), " " + strings.ReplaceAll(ref, "-", " "), ref[3:],
		strings.ReplaceAll(strings.ReplaceAll(ref, "0", "o"), "1", "l")} {
		if got, err := lead.ReadReference("OL", typed); err != nil || got != ref {
			t.Errorf("%q reads as %q, %v; want %s", typed, got, err, ref)
		}
	}
	for _, typed := range []string{"", "OL-", "OL-00000", "OL-0000000", "OL-0000U0", "XX-" + ref[3:], "OL-ééé"} {
		if got, err := lead.ReadReference("OL", typed); err == nil {
			t.Errorf("%q reads as %q", typed, got)
		}
	}
}

// memory is the least that can be called a store.
type memory struct {
	byKey map[string]lead.Lead
	taken map[string]bool
	err   error
}

func (m *memory) Put(_ context.Context, l lead.Lead) (lead.Lead, bool, error) {
	if m.err != nil {
		return lead.Lead{}, false, m.err
	}
	if old, ok := m.byKey[l.Key]; ok {
		return old, false, nil
	}
	if m.taken[l.Reference] {
		return lead.Lead{}, false, lead.ErrReferenceTaken
	}
	m.byKey[l.Key], m.taken[l.Reference] = l, true
	return l, true, nil
}
func (m *memory) Find(context.Context, string) (lead.Lead, error) {
	return lead.Lead{}, lead.ErrNotFound
}
func (m *memory) List(context.Context, string, int) ([]lead.Lead, error) { return nil, nil }
func (m *memory) Ready(context.Context) error                            { return nil }

func desk(m *memory) lead.Desk {
	n := 0
	return lead.Desk{
		Store: m,
		Now:   func() time.Time { n++; return time.Date(2026, 11, 25, 9, 0, n, 0, time.UTC) },
		NewReference: func() string {
			return fmt.Sprintf("AR-%06d", len(m.byKey))
		},
	}
}

func newMemory() *memory { return &memory{byKey: map[string]lead.Lead{}, taken: map[string]bool{}} }

const key = "6c6f7665-6c79-706f-6e64"

func TestAccept_AnswersARepeatWithTheFirstAnswer(t *testing.T) {
	t.Parallel()
	d := desk(newMemory())
	r := lead.Request{Key: key, Contact: person(), Design: design.Design{Name: "Alder Reach"}, CoreVersion: 1}
	first, err := d.Accept(context.Background(), r)
	if err != nil || !first.Fresh || first.Reference != "AR-000000" {
		t.Fatalf("first = %+v, %v", first, err)
	}
	r.CoreVersion, r.SheetJSON = 2, []byte("{}") // the server was updated in between
	r.Contact.Name += " "                        // and the repeat differs by a space only
	again, err := d.Accept(context.Background(), r)
	if err != nil || again.Fresh || again.Reference != first.Reference || !again.Received.Equal(first.Received) {
		t.Errorf("repeat = %+v, %v; want the first answer %+v", again, err, first)
	}
	r.Contact.Note = "something else"
	if a, err := d.Accept(context.Background(), r); !errors.Is(err, lead.ErrKeyReused) {
		t.Errorf("other content under the key = %+v, %v", a, err)
	}
}

func TestAccept_TriesAnotherReferenceWhenOneIsTaken(t *testing.T) {
	t.Parallel()
	m := newMemory()
	m.taken["AR-000000"] = true
	d := desk(m)
	tries := 0
	d.NewReference = func() string { tries++; return fmt.Sprintf("AR-%06d", tries-1) }
	a, err := d.Accept(context.Background(), lead.Request{Key: key, Contact: person()})
	if err != nil || a.Reference != "AR-000001" || tries != 2 {
		t.Errorf("answer %+v, %v after %d tries", a, err, tries)
	}
	d.NewReference = func() string { return "AR-000000" }
	if _, err := d.Accept(context.Background(), lead.Request{Key: key + "x", Contact: person()}); !errors.Is(err, lead.ErrReferenceTaken) {
		t.Errorf("err = %v, want the taken reference", err)
	}
}

func TestAccept_RefusesBeforeItStores(t *testing.T) {
	t.Parallel()
	m := newMemory()
	d := desk(m)
	for _, k := range []string{"", "short", strings.Repeat("k", 129), "has a space in the middle", "tab\tin-the-middle-of", "ünïcode-key-of-length"} {
		if _, err := d.Accept(context.Background(), lead.Request{Key: k, Contact: person()}); !errors.Is(err, lead.ErrKey) {
			t.Errorf("key %q: %v", k, err)
		}
	}
	_, err := d.Accept(context.Background(), lead.Request{Key: key})
	var faults *lead.FaultsError
	if !errors.As(err, &faults) || len(faults.Faults) != 3 {
		t.Errorf("err = %v, want three faults", err)
	}
	m.err = lead.ErrBusy
	if _, err := d.Accept(context.Background(), lead.Request{Key: key, Contact: person()}); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("err = %v, want busy", err)
	}
	if len(m.byKey) > 0 {
		t.Errorf("%d leads were stored", len(m.byKey))
	}
}

func TestCompare_ListsWhereTheFiguresDiffer(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "a", Value: 100, Unit: sheet.Metre})
	s.Add(sheet.Figure{ID: "b", Value: 2, Unit: sheet.Metre})
	s.Add(sheet.Figure{ID: "cost", Unit: sheet.Money})
	same := lead.FiguresOf(s)
	if got := lead.Compare(s, same); len(got) > 0 {
		t.Errorf("the sheet differs from itself: %v", got)
	}
	if got := lead.Compare(s, nil); got != nil {
		t.Errorf("no figures were sent: %v", got)
	}
	got := lead.Compare(s, []lead.Figure{{"a", "100.00001"}, {"b", "2.1"}, {"z", "1"}, {"y", "x"}})
	want := []lead.Difference{{"b", "2.1", "2"}, {ID: "cost", Server: "0"}, {ID: "y", Client: "x"}, {ID: "z", Client: "1"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("differences %v, want %v", got, want)
	}
}

func TestPrefix_IsTwoLettersWhateverTheName(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{"Fernhollow Ponds": "FP", "the alder reach company": "TA", "Teich": "TE", "7 Ponds": "PO", "X": "XP", "": "PD", "池塘": "PD", "O'Hara & Sons": "OS"} {
		if got := lead.Prefix(name); got != want {
			t.Errorf("%q gives %s, want %s", name, got, want)
		}
	}
}
