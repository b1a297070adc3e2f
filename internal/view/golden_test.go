package view_test

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
	"tarnwright/internal/wire"
)

var update = flag.Bool("update", false, "rewrite the calc sheets of testdata/cases; read the diff before it is kept")

// cases lists the folders of testdata/cases.
func cases(t *testing.T) []string {
	t.Helper()
	entries, err := os.ReadDir("../../testdata/cases")
	if err != nil {
		t.Fatal(err)
	}
	var dirs []string
	for _, e := range entries {
		if e.IsDir() {
			dirs = append(dirs, filepath.Join("../../testdata/cases", e.Name()))
		}
	}
	if len(dirs) < 8 {
		t.Fatalf("only %d cases", len(dirs))
	}
	return dirs
}

func computed(t *testing.T, dir string) *sheet.Sheet {
	t.Helper()
	name := filepath.Join(dir, "design.json")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatalf("a case without a design: %v", err)
	}
	d, faults := wire.ReadDesign(name, data)
	if len(faults) > 0 {
		t.Fatalf("%s: %+v", name, faults)
	}
	return core.Compute(d, book.Demo())
}

// The calc sheets say whether any figure moved. They are never the only check
// of a figure.
func TestGolden_TheCalcSheetsHaveNotMoved(t *testing.T) {
	t.Parallel()
	for _, dir := range cases(t) {
		t.Run(filepath.Base(dir), func(t *testing.T) {
			t.Parallel()
			got := view.CalcSheet(computed(t, dir))
			name := filepath.Join(dir, "sheet.txt")
			if *update {
				if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(name)
			if err != nil {
				t.Fatalf("a case without a sheet: %v (make golden writes it)", err)
			}
			if got != string(want) {
				t.Errorf("%s moved:\n%s", name, difference(string(want), got))
				if strings.SplitN(got, " ", 3)[1] == strings.SplitN(string(want), " ", 3)[1] {
					t.Error("figures may not move quietly: raise core.Version with its reason in DEVELOPERS.md, then make golden")
				}
			}
		})
	}
}

// difference lists the lines that differ, at most twenty.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	var b strings.Builder
	shown := 0
	for i := 0; i < max(len(w), len(g)) && shown < 20; i++ {
		var a, c string
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			c = g[i]
		}
		if a != c {
			b.WriteString("- " + a + "\n+ " + c + "\n")
			shown++
		}
	}
	return b.String()
}

// broken matches what nobody should read: a brace, a bare key, no number.
func broken() *regexp.Regexp {
	return regexp.MustCompile(`[{}]|NaN|Inf\b|\b(view|finding|figure|page|month|row|item|driver)\.[a-z_]`)
}

// Whatever the pond, everything a person reads is whole: no brace, no key, no
// number that is none.
func TestCases_ReadWhole(t *testing.T) {
	t.Parallel()
	w := say.English()
	for _, dir := range cases(t) {
		for _, sys := range measure.Systems() {
			s := computed(t, dir)
			v := view.Of(s, w, measure.Terms{System: sys, Currency: "USD"})
			texts := []string{v.Plain(), v.Spoken(), v.Head().Title, v.Head().Friction}
			for _, r := range v.Readings() {
				texts = append(texts, r.Title, r.Note)
				texts = append(texts, r.How...)
				texts = append(texts, r.Cited...)
				for _, f := range r.Figures {
					texts = append(texts, f.String())
				}
			}
			for _, n := range v.Notes() {
				texts = append(texts, n.Title, n.Text, n.Defers, n.Cited)
				if n.Title == "" || n.Text == "" || n.Cited == "" {
					t.Errorf("%s: the note %s lacks a title, a sentence or a source: %+v", dir, n.Code, n)
				}
			}
			for _, tab := range []view.Table{v.Powers(), v.Months().Table, v.Items(), v.Head().Table} {
				for _, r := range tab.Rows {
					texts = append(texts, r...)
					if len(r) != len(tab.Heads) {
						t.Errorf("%s: a row of %q has %d cells under %d heads", dir, tab.Caption, len(r), len(tab.Heads))
					}
				}
			}
			for _, text := range texts {
				if broken().MatchString(text) {
					t.Errorf("%s, %s: a person would read %q", dir, sys, text)
				}
			}
		}
	}
}

// Every figure has a name and a sentence on how it comes about.
func TestCases_EveryFigureHasItsWords(t *testing.T) {
	t.Parallel()
	w := say.English()
	told := map[sheet.ID]bool{}
	for _, dir := range cases(t) {
		for _, f := range computed(t, dir).Figures {
			if told[f.ID] {
				continue
			}
			told[f.ID] = true
			if w.Name(f.ID) == string(f.ID) {
				t.Errorf("%s has no name", f.ID)
			}
			if w.How(f.ID) == "" {
				t.Errorf("%s does not say how it is worked out", f.ID)
			}
		}
	}
}

// Typed in feet or in metres, one pond is one sheet.
func TestForm_FeetAndMetresGiveOneSheet(t *testing.T) {
	t.Parallel()
	us := form.New(form.Demo()).With(form.Length, "40 ft").With(form.Deep, "7 ft").With(form.Lip, "4 ft 6 in")
	metric := form.New(form.Demo()).With(form.Units, "metric").With(form.Length, "12.192").With(form.Deep, "2,1336 m").With(form.Lip, "137.16 cm")
	d1, faults1 := us.Design()
	d2, faults2 := metric.Design()
	if len(faults1)+len(faults2) > 0 {
		t.Fatalf("faults: %v %v", faults1, faults2)
	}
	a, b := view.CalcSheet(core.Compute(d1, book.Demo())), view.CalcSheet(core.Compute(d2, book.Demo()))
	if a != b {
		t.Errorf("the sheets differ:\n%s", difference(a, b))
	}
}
