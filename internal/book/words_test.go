package book_test

import (
	"encoding/json"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"tarnwright/internal/book"
)

const spanish = "words.es.json"

// worded is the demo's folder with its Spanish words, changed once.
func worded(t *testing.T, from, to string) fstest.MapFS {
	t.Helper()
	dir := folder(t)
	raw, err := fs.ReadFile(book.DemoFiles(), spanish)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(string(raw), from, to, 1)
	if changed == string(raw) && from != "" {
		t.Fatalf("%s does not hold %s", spanish, from)
	}
	dir[spanish] = &fstest.MapFile{Data: []byte(changed)}
	return dir
}

// The demo has Spanish for all it says, and nothing but words differs.
func TestDemoWords_SayAllInSpanish(t *testing.T) {
	t.Parallel()
	b, es := book.Demo(), book.DemoWords()["es"]
	if len(es.Left) > 0 {
		t.Errorf("no Spanish for %v", es.Left)
	}
	if got := es.Book.Prices.Items[3].Name; got != "Excavación del estanque" {
		t.Errorf("digging is called %q", got)
	}
	if b.Prices.Items[3].Name != "Digging the pond" || b.Rules[0].Title != "This town asks for a permit" {
		t.Error("the book itself has changed")
	}
	back := es.Book
	for i := range back.Prices.Items {
		back.Prices.Items[i].Name = b.Prices.Items[i].Name
	}
	for i := range back.Prices.Features {
		back.Prices.Features[i].Name = b.Prices.Features[i].Name
	}
	for i := range back.Prices.Works.Phases {
		back.Prices.Works.Phases[i].Name = b.Prices.Works.Phases[i].Name
	}
	for i := range back.Pumps {
		back.Pumps[i].Name = b.Pumps[i].Name
	}
	for i := range back.Climates {
		back.Climates[i].Name = b.Climates[i].Name
	}
	for i := range back.Rules {
		back.Rules[i].Title, back.Rules[i].Text, back.Rules[i].Defers = b.Rules[i].Title, b.Rules[i].Text, b.Rules[i].Defers
	}
	back.Tariff.Name, back.WaterTariff.Name = b.Tariff.Name, b.WaterTariff.Name
	if !reflect.DeepEqual(back, b) {
		t.Error("more than words differs")
	}
}

func TestLoadWords_NamesEachSlipAtItsLine(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, from, to, want string }{
		{"a misspelt id", `"deck": "Terraza de madera"`, `"dekc": "Terraza de madera"`, `words.es.json:32:13: items.dekc is nothing in the builder's other files; perhaps "deck" was meant`},
		{"an empty name", `"Aireación"`, `" "`, "items.aeration must hold something, or be left out"},
		{"a figure lost", `{pond.area} de agua`, `mucha agua`, "rules.alder_deep_permit.text must name the figures that the rule names, {pond.area} and {pond.max_depth}, and names {pond.max_depth}"},
		{"a figure more", `"Esta ciudad pide un permiso"`, `"Con {pond.area}, un permiso"`, "rules.alder_deep_permit.title must name the figures that the rule names, none, and names {pond.area}"},
		{"half a rule", `"Esta ciudad pide un permiso"`, `""`, "rules.alder_deep_permit.title must hold something"},
		{"a rule of the core", `"alder_dry_summer"`, `"ice"`, "rules.ice is nothing in the builder's other files"},
		{"a part there is not", `"features"`, `"featurs"`, `featurs is not a key here; perhaps "features" was meant`},
		{"another version", `"file_version": 1`, `"file_version": 2`, "file_version must be 1, and is 2"},
	} {
		_, faults := book.LoadWords(worded(t, c.from, c.to), book.Demo())
		if len(faults) == 0 || !strings.Contains(faults[0].String(), c.want) {
			t.Errorf("%s: %v, want %s", c.why, faults, c.want)
		}
	}
}

// What a file of words leaves out is said as the builder's files have it, and
// told.
func TestLoadWords_FallsBackToTheBuildersOwnWords(t *testing.T) {
	t.Parallel()
	words, faults := book.LoadWords(worded(t, `"deck": "Terraza de madera",`, ``), book.Demo())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	es := words["es"]
	if strings.Join(es.Left, " ") != "items.deck" {
		t.Errorf("left %v, want items.deck alone", es.Left)
	}
	for _, it := range es.Book.Prices.Items {
		if it.ID == "deck" && it.Name != "Timber deck" {
			t.Errorf("the deck is called %q", it.Name)
		}
	}
	if none, faults := book.LoadWords(folder(t), book.Demo()); len(none)+len(faults) > 0 {
		t.Errorf("a folder without words gives %v %v", none, faults)
	}
}

func TestLoad_KnowsFilesOfWordsByTheirLanguage(t *testing.T) {
	t.Parallel()
	dir := worded(t, "", "")
	if _, faults := book.Load(dir); len(faults) > 0 {
		t.Errorf("%v", faults)
	}
	dir["words.xx.json"] = dir[spanish]
	if _, faults := book.Load(dir); len(faults) != 1 || !strings.Contains(faults[0].Text, `perhaps "words.e`) {
		t.Errorf("words in no language: %v", faults)
	}
}

func TestSchema_OfWords(t *testing.T) {
	t.Parallel()
	raw, err := fs.ReadFile(book.DemoFiles(), spanish)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from, to string
		fit      bool
	}{{"", "", true}, {`"Aireación"`, `7`, false}, {`"file_version": 1`, `"file_version": 2`, false}, {`"phases"`, `"stages"`, false}, {`"title"`, `"name"`, false}} {
		var value any
		if err := json.Unmarshal([]byte(strings.Replace(string(raw), c.from, c.to, 1)), &value); err != nil {
			t.Fatal(err)
		}
		if got := fits(schemaOf(t, spanish), value, spanish); (len(got) == 0) != c.fit {
			t.Errorf("%s for %s: %v", c.to, c.from, got)
		}
	}
}
