package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/book"
)

// folder writes the demo's files, one of them changed.
func folder(t *testing.T, file, text string) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range book.Files() {
		raw, err := fs.ReadFile(book.DemoFiles(), name)
		if err != nil {
			t.Fatal(err)
		}
		if name == file {
			raw = []byte(text)
		}
		if err := os.WriteFile(filepath.Join(dir, name), raw, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// slip is one mistake in one file: a text put in another's place. The fault
// must be on the line where that text stands, or up lines before it, where the
// mistake is that something is missing from what begins there.
type slip struct {
	file, from, to string
	up             int
	want           string
}

func slips() []slip {
	return []slip{
		{"builder.json", `"file_version": 1`, `"file_version": 3`, 0, "file_version must be 1"},
		{"builder.json", `"invented": true,`, `"invented": "yes",`, 0, "invented must be true or false"},
		{"builder.json", `"currency": "USD"`, `"currency": "dollars"`, 0, `three capital letters, like "USD"`},
		{"builder.json", `"currency": "USD"`, `"currencie": "USD"`, 0, `perhaps "currency" was meant`},
		{"builder.json", `"currency": "USD"`, `"currency": USD`, 0, "text stands in double quotes"},
		{"builder.json", `"USD",`, `"USD"`, -1, "a comma or"},
		{"builder.json", `"hello@fernhollow.example"`, `"by phone"`, 0, "an email address, like"},
		{"builder.json", `"https://fernhollow.example/privacy"`, `"http://fernhollow.example"`, 0, "starts with https://"},
		{"builder.json", `"retention_months": 24`, `"retention_months": 600`, 0, "between 1 and 60, and is 600"},
		{"builder.json", `"name": "Fernhollow Ponds",`, ``, 1, "builder.name is missing; it must be text in quotes"},
		{"builder.json", `"town": "Lower Alder",`, `"town": "Lower Alder", "town": "Upper Alder",`, 0, "given twice; keep one"},
		{"prices.json", `"regional_index": "1"`, `"regional_index": 1`, 0, `text in quotes, like "12.50"`},
		{"prices.json", `"regional_index": "1"`, `"regional_index": "-1"`, 0, "must be above zero"},
		{"prices.json", `"crew_count": 2`, `"crew_count": 0`, 0, "between 1 and 50, and is 0"},
		{"prices.json", `"crew_count": 2`, `"crew_count": 2.5`, 0, "a whole number, like 4"},
		{"prices.json", `"workdays_per_week": 5`, `"workdays_per_week": 8`, 0, "between 1 and 7"},
		{"prices.json", `"phase": "dig", "quantity": "fixed"`, `"phase": "digging", "quantity": "fixed"`, 0, "the id of a phase under works"},
		{"prices.json", `"feature": "deck"`, `"feature": "decks"`, 0, "the id of a feature under features"},
		{"prices.json", `"quantity": "takeoff.dig_pond"`, `"quantity": "takeoff.dig_pondd"`, 0, "the id of a figure on the sheet"},
		{"prices.json", `"quantity": "takeoff.dig_pond"`, `"quantity": "the dig"`, 0, `like "takeoff.liner_area", or "fixed"`},
		{"prices.json", `"quantity": "takeoff.liner_area", "unit": "m2"`, `"quantity": "takeoff.liner_area", "unit": "m3"`, 0, `must be "m2", the unit of takeoff.liner_area`},
		{"prices.json", `"quantity": "takeoff.liner_area", "unit": "m2"`, `"quantity": "takeoff.liner_area", "unit": "sq ft"`, 0, `must be one of "count", "m", "m2"`},
		{"prices.json", `"low": "2400", "likely": "3500"`, `"low": "2400", "likely": "350"`, 0, "must not fall from one to the next"},
		{"prices.json", `"low": "2400"`, `"low": "-2400"`, 0, "must not be less than nothing"},
		{"prices.json", `"low": "2400"`, `"low": "$2,400"`, 0, "a plain decimal number, such as 12.50"},
		{"prices.json", `"id": "permits"`, `"id": "design"`, 0, "each needs a name of its own"},
		{"prices.json", `{"figure": "beach.width", "above": 0}`, `{"figure": "beach.width"}`, 0, `needs a bound, like "above": 1.5`},
		{"rates.json", `"overlap_m": 1.2192`, `"overlap_m": 121.92`, 0, "between 0 and 5, and is 121.92"},
		{"rates.json", `"overlap_m": 1.2192`, `"overlap_m": "4 ft"`, 0, "a number, like 10.36"},
		{"rates.json", `"overlap_m": 1.2192`, `"overlap_ft": 4`, 0, "is not a key here"},
		{"rates.json", `"id": "loam"`, `"id": "common_earth"`, 0, "each needs a name of its own"},
		{"rates.json", `"bulk_kg_per_m3": 1600`, `"bulk_kg_per_m3": 1.6`, 0, "between 500 and 3000"},
		{"rules.json", `"severity": "care"`, `"severity": "danger"`, 0, `must be one of "care", "fine"`},
		{"rules.json", `"id": "alder_deep_permit"`, `"id": "ice"`, 0, "choose another"},
		{"rules.json", `{"figure": "pond.max_depth", "above": 1.8288}`, `{"figure": "pond.depth", "above": 1.8288}`, 0, `"pond.max_depth"`},
		{"rules.json", `"text": "With {pond.area} of water`, `"text": "With {pond.area of water`, 0, "write it like {pond.area}"},
		{"rules.json", `"defers": "The town office decides."`, `"defers": " "`, 0, "must hold something"},
		{"rules.json", `"defers": "The town office decides.",`, `"defers": "The town office decides.", "place": "roof",`, 0, `must be one of "", "deep_end"`},
		{"pumps.json", `"class": "flooded"`, `"class": "magic"`, 0, `"self_priming", "flooded", "submersible"`},
		{"pumps.json", `"drive": "single_speed"`, `"drive": "single"`, 0, `"single_speed", "variable_speed"`},
		{"pumps.json", `"id": "P-40"`, `"id": "P-25"`, 0, `used twice: "P-25"`},
		{"pumps.json", `"suction_diameter_m": 0.0409`, `"suction_diameter_m": 40.9`, 0, "between 0.01 and 0.4"},
		{"pipes.json", `"inside_diameter_m": 0.04089`, `"inside_diameter_m": 1.61`, 0, "between 0.01 and 0.4, and is 1.61"},
		{"pipes.json", `"price_per_m": "9.20"`, `"price_per_m": "-9.20"`, 0, "must not be less than nothing"},
		{"tariff.json", `"rest_per_kwh": "0.16"`, `"rest_per_kwh": "16c"`, 0, "such as 12.50"},
		{"tariff.json", `"mode": "half_up"`, `"mode": "up"`, 0, `"half_up", "half_even"`},
		{"tariff.json", `"rest_name": "all hours",`, `"rest_name": "all hours", "holidays": ["4 July"],`, 0, `a date, like "2026-07-04"`},
		{"tariff.json", `"rest_name": "all hours",`, `"rest_name": "all hours", "tax_share": "5",`, 0, `between 0 and 1, like "0.05"`},
		{"water.json", `{"name": "all", "per_m3": "1.637867"}`, `{"name": "all", "per_m3": "1.637867", "up_to_m3": "20"}`, 0, "left out of the last step"},
		{"water.json", `"name": "Alder Reach town water`, `"names": "Alder Reach town water`, 0, `perhaps "name" was meant`},
		{"climate.json", `"latitude_deg": 40.6`, `"latitude_deg": 406`, 0, "between -66 and 66"},
		{"climate.json", `"t_max_deg_c": 3,`, `"t_max_deg_c": NaN,`, 0, "a number, like 10.36"},
		{"climate.json", `"rh_max_ratio": 0.84`, `"rh_max_ratio": 84`, 0, "between 0 and 1, and is 84"},
		{"grid.json", `"kg_per_kwh": 0.3734`, `"kg_per_kwh": 373.4`, 0, "between 0 and 3"},
		{"grid.json", `"year": 2022`, `"year": "2022"`, 0, "a whole number, like 4"},
	}
}

// Every mistake of the list is named with its file, its line and what to write.
func TestCheck_NamesEachSlipWithItsLineAndWhatToWrite(t *testing.T) {
	t.Parallel()
	for _, s := range slips() {
		raw, err := fs.ReadFile(book.DemoFiles(), s.file)
		if err != nil {
			t.Fatal(err)
		}
		at := strings.Index(string(raw), s.from)
		if at < 0 {
			t.Errorf("%s does not hold %s", s.file, s.from)
			continue
		}
		line := 1 + strings.Count(string(raw[:at]), "\n") - s.up
		dir := folder(t, s.file, strings.Replace(string(raw), s.from, s.to, 1))
		code, out, errs := call("check", dir)
		want := fmt.Sprintf("%s:%d:", filepath.Join(dir, s.file), line)
		if code != 1 || strings.Contains(out, "ok") || !strings.HasPrefix(errs, want) || !strings.Contains(strings.SplitN(errs, "\n", 2)[0], s.want) {
			t.Errorf("%s for %s:\ncode %d, said %s\nwant %s … %s", s.to, s.from, code, errs, want, s.want)
		}
	}
	if n := len(slips()); n < 40 {
		t.Errorf("%d slips, want 40 or more", n)
	}
}

// One file is checked by its name, with what the folder's others have to do
// with it; words that are left out are told and are no fault.
func TestCheck_TakesOneFileAndWords(t *testing.T) {
	t.Parallel()
	words, err := fs.ReadFile(book.DemoFiles(), book.WordsName("es"))
	if err != nil {
		t.Fatal(err)
	}
	prices, err := fs.ReadFile(book.DemoFiles(), "prices.json")
	if err != nil {
		t.Fatal(err)
	}
	dir := folder(t, "prices.json", strings.Replace(string(prices), "takeoff.dig_pond", "takeoff.dig_pnd", 1))
	before, _, _ := strings.Cut(string(prices), "takeoff.dig_pond")
	at := fmt.Sprintf("prices.json:%d:", 1+strings.Count(before, "\n"))
	if code, _, errs := call("check", filepath.Join(dir, "prices.json")); code != 1 || !strings.Contains(errs, at) {
		t.Errorf("a wrong file: code %d, %s", code, errs)
	}
	if code, out, errs := call("check", filepath.Join(dir, "rates.json")); code != 0 || !strings.Contains(out, "rates.json: ok") {
		t.Errorf("a right file beside a wrong one: code %d, %s%s", code, out, errs)
	}
	dir = folder(t, "", "")
	for _, c := range []struct {
		from, to string
		code     int
		want     string
	}{
		{"", "", 0, ": ok"}, {`"deck": "Terraza de madera",`, "", 0, "words.es.json leaves 1 to the words of the other files: items.deck"},
		{`"deck": "Terraza de madera"`, `"dekc": "Terraza de madera"`, 1, `perhaps "deck" was meant`},
	} {
		if err := os.WriteFile(filepath.Join(dir, book.WordsName("es")), []byte(strings.Replace(string(words), c.from, c.to, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		if code, out, errs := call("check", dir); code != c.code || !strings.Contains(out+errs, c.want) {
			t.Errorf("%s for %s: code %d, %s%s", c.to, c.from, code, out, errs)
		}
	}
}

func TestSchema_IsPrintedForEveryFile(t *testing.T) {
	t.Parallel()
	code, list, errs := call("schema")
	if code != 0 || errs != "" {
		t.Fatalf("code %d, %s", code, errs)
	}
	names := strings.Fields(list)
	if len(names) != len(book.Files())+3 {
		t.Errorf("%d names, want %d", len(names), len(book.Files())+3)
	}
	for _, name := range names {
		code, out, errs := call("schema", name)
		if code != 0 || !json.Valid([]byte(out)) || !regexp.MustCompile(`"additionalProperties": false`).MatchString(out) {
			t.Errorf("%s: code %d, %s\n%.200s", name, code, errs, out)
		}
	}
	if code, _, errs := call("schema", "price.json"); code != 2 || !strings.Contains(errs, "tarnwright schema lists them") {
		t.Errorf("an unknown file: code %d, %s", code, errs)
	}
}
