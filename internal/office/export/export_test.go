package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/office/export"
	"tarnwright/internal/wire"
)

func item(t testing.TB, change ...func(*lead.Contact)) export.Item {
	t.Helper()
	s := &sheet.Sheet{CoreVersion: 1, Book: "demo/1"}
	low, err := money.Parse("41250.37")
	if err != nil {
		t.Fatal(err)
	}
	s.Add(sheet.Figure{ID: "water.net_volume", Value: 67.7588, Unit: sheet.CubicMetre})
	s.Add(sheet.Figure{ID: "budget.low", Amount: low, Unit: sheet.Money})
	raw, err := wire.SheetJSON(s, "", nil)
	if err != nil {
		t.Fatal(err)
	}
	i := export.Item{}
	i.Reference, i.Received = "FP-7F3K2Q", time.Date(2026, 11, 25, 16, 4, 5, 0, time.UTC)
	i.Contact = lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Phone: "+1 555 0100", Town: "Lower Alder", Start: "next_spring",
		Note: "Slopes, to the south;\nwith \"big\" oaks \\ rocks.", Consent: true}
	i.Design.Name, i.SheetJSON, i.Status, i.Assignee = "Alder Reach", raw, lead.StatusCalled, "anna@fernhollow.example"
	i.Remarks = []lead.Note{{At: i.Received, Author: "anna@fernhollow.example", Text: "=SUM(A1) she said"}}
	for _, c := range change {
		c(&i.Contact)
	}
	return i
}

func file(t testing.TB, ending string, one bool, items ...export.Item) string {
	t.Helper()
	k, ok := export.KindOf(ending)
	if !ok {
		t.Fatal("no such kind: " + ending)
	}
	var b bytes.Buffer
	w, err := k.New(&b, measure.Terms{System: measure.US, Currency: "USD"}, one)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range items {
		if err := w.Write(i); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The standard library's reader, which is not the one that wrote, finds every
// cell in its place.
func TestCSV_IsReadBack(t *testing.T) {
	t.Parallel()
	text := file(t, "csv", false, item(t), item(t))
	rest, marked := strings.CutPrefix(text, "\ufeff")
	if !marked {
		t.Error("nothing says that it is UTF-8")
	}
	if strings.Count(text, "\r\n") < 3 {
		t.Error("lines do not end in CRLF")
	}
	rows, err := csv.NewReader(strings.NewReader(rest)).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	at := map[string]string{}
	for n, name := range rows[0] {
		at[name] = rows[1][n]
	}
	for name, want := range map[string]string{
		"reference": "FP-7F3K2Q", "received_utc": "2026-11-25 16:04:05", "status": "called", "name": "Maren Oakes", "phone": "'+1 555 0100",
		"their_note": "Slopes, to the south;\nwith \"big\" oaks \\ rocks.", "water_volume": "17900", "water_volume_unit": "gal",
		"budget_low": "41250.37", "budget_high": "", "currency": "USD", "office_notes": "2026-11-25 16:04 anna@fernhollow.example: =SUM(A1) she said",
	} {
		if at[name] != want {
			t.Errorf("%s is %q, want %q", name, at[name], want)
		}
	}
}

// No cell of a text may be taken for a formula, whatever a stranger typed.
func FuzzCSV_NoCellIsAFormula(f *testing.F) {
	for _, s := range []string{"=1+1", "+1 555", "-2", "@SUM(A1)", "\t=1", "\r=1", "  =1", "a\n=1", "\u00a0=1", "＝1", "'=1", "\"=1\"", "\x00=1", "a\r=1", "x,=1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		i := item(t, func(c *lead.Contact) { c.Name, c.Town, c.Note = text, text, text })
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(file(t, "csv", false, i), "\ufeff"))).ReadAll()
		if err != nil || len(rows) != 2 || len(rows[1]) != len(rows[0]) {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		for n, cell := range rows[1] {
			for _, l := range strings.FieldsFunc(cell, func(r rune) bool { return r == '\n' || r == '\r' }) {
				if bare := strings.TrimLeft(l, " \u00a0"); bare != "" && strings.ContainsAny(bare[:1], "=+-@\t") {
					t.Errorf("%s is %q", rows[0][n], cell)
				}
			}
		}
	})
}

func TestJSON_IsReadBack(t *testing.T) {
	t.Parallel()
	type enquiry struct {
		Reference string `json:"reference"`
		Contact   struct{ Name string }
		Sheet     struct{ Figures []struct{ ID string } }
		Handling  struct {
			Status, Assignee string
			Notes            []struct{ At, Author, Text string }
		}
	}
	var one enquiry
	if err := json.Unmarshal([]byte(file(t, "json", true, item(t))), &one); err != nil {
		t.Fatal(err)
	}
	if one.Reference != "FP-7F3K2Q" || one.Contact.Name != "Maren Oakes" || len(one.Sheet.Figures) != 2 || one.Handling.Status != "called" ||
		len(one.Handling.Notes) != 1 || one.Handling.Notes[0].At != "2026-11-25T16:04:05Z" {
		t.Errorf("%+v", one)
	}
	for n := range 3 {
		var all struct{ Enquiries []enquiry }
		items := make([]export.Item, n)
		for k := range items {
			items[k] = item(t)
		}
		if err := json.Unmarshal([]byte(file(t, "json", false, items...)), &all); err != nil || len(all.Enquiries) != n {
			t.Errorf("%d of %d enquiries, %v", len(all.Enquiries), n, err)
		}
	}
}

// cardOf reads a contact by RFC 2426 and RFC 6350 §3.2–3.4: lines unfolded,
// values unescaped.
func cardOf(t *testing.T, text string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, l := range strings.Split(text, "\r\n") {
		if len(l) > 75 {
			t.Errorf("a line of %d bytes: %q", len(l), l)
		}
	}
	for _, l := range strings.Split(strings.ReplaceAll(text, "\r\n ", ""), "\r\n") {
		name, value, ok := strings.Cut(l, ":")
		if l == "" {
			continue
		}
		if !ok || strings.ContainsAny(l, "\r\n") {
			t.Errorf("%q is no line of a card", l)
		}
		if _, twice := out[name]; twice {
			t.Errorf("%s stands twice", name)
		}
		var b strings.Builder
		bare := 0
		for n := 0; n < len(value); n++ {
			if value[n] == '\\' && n+1 < len(value) {
				n++
				if value[n] == 'n' {
					b.WriteByte('\n')
					continue
				}
			} else if value[n] == ',' {
				t.Errorf("%s has a bare comma", name)
			} else if value[n] == ';' {
				bare++
			}
			b.WriteByte(value[n])
		}
		if want := map[string]int{"N": 4, "ADR;TYPE=HOME": 6}[name]; bare != want {
			t.Errorf("%s has %d parts, want %d", name, bare+1, want+1)
		}
		out[name] = b.String()
	}
	return out
}

func TestCard_IsReadBack(t *testing.T) {
	t.Parallel()
	long := "José Ñúñez de la Órbita, y familia; " + strings.Repeat("水のある庭が好き", 8)
	i := item(t, func(c *lead.Contact) { c.Name = long })
	card := cardOf(t, file(t, "vcf", true, i))
	for name, want := range map[string]string{
		"BEGIN": "VCARD", "VERSION": "3.0", "FN": long, "N": ";" + long + ";;;", "EMAIL;TYPE=INTERNET": "maren@oakesmail.example",
		"TEL;TYPE=VOICE": "+1 555 0100", "ADR;TYPE=HOME": ";;;Lower Alder;;;", "UID": "FP-7F3K2Q", "REV": "2026-11-25T16:04:05Z", "END": "VCARD",
		"NOTE": "FP-7F3K2Q, Alder Reach\nSlopes, to the south;\nwith \"big\" oaks \\ rocks.",
	} {
		if card[name] != want {
			t.Errorf("%s is %q, want %q", name, card[name], want)
		}
	}
	if n := strings.Count(file(t, "vcf", false, i, i), "BEGIN:VCARD\r\n"); n != 2 {
		t.Errorf("%d cards of two", n)
	}
}

// Nothing that a stranger typed starts a line of its own.
func FuzzCard_NoTextBreaksOut(f *testing.F) {
	f.Add("Oakes\r\nEND:VCARD")
	f.Add("a\rb\nc\x00\x85")
	f.Add("\xff\xfe" + strings.Repeat("é", 60))
	f.Fuzz(func(t *testing.T, text string) {
		out := file(t, "vcf", true, item(t, func(c *lead.Contact) { c.Name, c.Town, c.Note, c.Email, c.Phone = text, text, text, text, text }))
		for n, l := range strings.Split(strings.TrimSuffix(out, "\r\n"), "\r\n") {
			if len(l) > 75 || strings.ContainsAny(l, "\r\n") {
				t.Fatalf("line %d: %q", n, l)
			}
			name, _, _ := strings.Cut(l, ":")
			if !strings.HasPrefix(l, " ") && !strings.Contains(" BEGIN VERSION FN N EMAIL;TYPE=INTERNET TEL;TYPE=VOICE ADR;TYPE=HOME NOTE UID REV END ", " "+name+" ") {
				t.Fatalf("a text began the line %q", l)
			}
		}
	})
}
