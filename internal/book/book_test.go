package book_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"tarnwright/internal/book"
)

// folder is a copy of the demo's files that a test may change.
func folder(t testing.TB) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for _, name := range book.Files() {
		raw, err := fs.ReadFile(book.DemoFiles(), name)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = &fstest.MapFile{Data: raw}
	}
	return out
}

func TestLoad_TakesTheDemo(t *testing.T) {
	t.Parallel()
	b, faults := book.Load(book.DemoFiles())
	for _, f := range faults {
		t.Error(f)
	}
	if !b.Builder.Invented || b.Builder.Name != "Fernhollow Ponds" || b.Currency != "USD" || len(b.Pumps) < 6 || len(b.Pipes) < 4 || len(b.Climates) < 1 || len(b.Rules) < 1 || len(b.Prices.Items) < 10 {
		t.Errorf("builder %+v, %d pumps, %d pipes, %d climates, %d rules, %d items", b.Builder, len(b.Pumps), len(b.Pipes), len(b.Climates), len(b.Rules), len(b.Prices.Items))
	}
	entries, err := fs.ReadDir(book.DemoFiles(), ".")
	if err != nil || len(entries) != len(book.Files())+1 {
		t.Errorf("the demo holds %d files, %d and its words are read, %v", len(entries), len(book.Files()), err)
	}
}

// Every file of the demo says that it is made up, but for the grid's carbon,
// which is a published number and names where it is from.
func TestDemo_SaysThatItIsInvented(t *testing.T) {
	t.Parallel()
	for name, f := range folder(t) {
		want := `"invented": true`
		if name == "grid.json" {
			want = `"source": "US EPA, eGRID2022`
		}
		if !strings.Contains(string(f.Data), want) {
			t.Errorf("%s does not say so", name)
		}
	}
}

func TestLoad_NamesEachSlipAtItsLine(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, file, from, to, want string }{
		{"another version", "builder.json", `"file_version": 1`, `"file_version": 2`, "builder.json:2:19: file_version must be 1, and is 2; this program reads no other"},
		{"a currency in words", "builder.json", `"USD"`, `"dollars"`, `currency must be three capital letters, like "USD"`},
		{"no privacy page", "builder.json", `"https://fernhollow.example/privacy"`, `""`, "builder.privacy_url must be a web address"},
		{"a script for a privacy page", "builder.json", `"https://fernhollow.example/privacy"`, `"javascript:alert(1)"`, "builder.privacy_url must be a web address"},
		{"details kept for ever", "builder.json", `"retention_months": 24`, `"retention_months": 240`, "builder.retention_months must lie between 1 and 60, and is 240"},
		{"details kept for no time", "builder.json", `"retention_months": 24`, `"retention_months": 0`, "builder.retention_months must lie between 1 and 60, and is 0"},
		{"no email", "builder.json", `"hello@fernhollow.example"`, `"call us"`, "builder.email must be an email address"},
		{"a price as a number", "prices.json", `"regional_index": "1"`, `"regional_index": 1`, `regional_index must be text in quotes, like "12.50", and is 1`},
		{"a falling spread", "prices.json", `"market": {"low": "0.80"`, `"market": {"low": "1.80"`, "market: low, likely and high must not fall from one to the next, and are 1.80, 1.00 and 1.83"},
		{"an overlap of a mile", "rates.json", `"overlap_m": 1.2192`, `"overlap_m": 1609`, "liner.overlap_m must lie between 0 and 5"},
		{"a rule on a figure that is not there", "rules.json", `"figure": "pond.max_depth"`, `"figure": "pond.max_dept"`, `rules[0].when[0].figure must be the id of a figure on the sheet, and is "pond.max_dept"; perhaps "pond.max_depth" was meant`},
		{"a figure in a rule's words", "rules.json", `{pond.max_depth}`, `{pond.max_dept}`, `rules[0].text names {pond.max_dept}, which is no figure on the sheet; perhaps "pond.max_depth" was meant`},
		{"a rule known by hearsay", "rules.json", `"known": "read"`, `"known": "hearsay"`, `rules[0].source.known must be one of "read", "quoted", "from memory", "common practice", and is "hearsay"`},
		{"a core rule's name", "rules.json", `"id": "alder_deep_permit"`, `"id": "ice"`, "rules[0].id is the name of a rule that every pond has; choose another"},
		{"a price for a figure in another unit", "prices.json", `"quantity": "takeoff.dig_pond", "unit": "m3"`, `"quantity": "takeoff.dig_pond", "unit": "m2"`, `items[3].unit must be "m3", the unit of takeoff.dig_pond, and is "m2"`},
		{"a price for nothing on the sheet", "prices.json", `"quantity": "takeoff.dig_pond"`, `"quantity": "takeoff.dig_pnd"`, `and is "takeoff.dig_pnd"; perhaps "takeoff.dig_pond" was meant`},
		{"a price that falls", "prices.json", `"low": "2400"`, `"low": "4400"`, "items[0]: low, likely and high must not fall from one to the next, and are 4400, 3500 and 5600"},
		{"a phase that is not there", "prices.json", `"phase": "wood", "feature": "deck"`, `"phase": "woood", "feature": "deck"`, `must be the id of a phase under works, and is "woood"; perhaps "wood" was meant`},
		{"a feature that is not there", "prices.json", `"feature": "deck"`, `"feature": "dek"`, `or be left out, and is "dek"; perhaps "deck" was meant`},
		{"a rule without a last word", "rules.json", `"defers": "The town office decides."`, `"defers": ""`, "rules[0].defers must hold something"},
		{"two pumps of one name", "pumps.json", `"id": "P-40"`, `"id": "P-25"`, `pumps[1].id is used twice: "P-25"`},
		{"a pump of no class", "pumps.json", `"class": "flooded"`, `"class": "magic"`, `pumps[0].class must be one of "self_priming", "flooded", "submersible", and is "magic"`},
		{"a misspelt key", "pipes.json", `"inside_diameter_m": 0.04089`, `"inside_diamater_m": 0.04089`, `pipes[0].inside_diamater_m is not a key here; perhaps "inside_diameter_m" was meant`},
		{"a pipe in millimetres", "pipes.json", `0.04089`, `40.89`, "pipes[0].inside_diameter_m must lie between 0.01 and 0.4, and is 40.89"},
		{"a pipe that pays", "pipes.json", `"9.20"`, `"-9.20"`, "pipes[0].price_per_m must not be less than nothing"},
		{"a tariff that pays", "tariff.json", `"rest_per_kwh": "0.16"`, `"rest_per_kwh": "-0.16"`, "rest_per_kwh must not be less than nothing"},
		{"a price in cents", "tariff.json", `"0.16"`, `"16c"`, `rest_per_kwh: "16c": not a plain decimal number, such as 12.50`},
		{"water without a price", "water.json", `{"name": "all", "per_m3": "1.637867"}`, ``, "tiers must hold at least one member"},
		{"a month missing", "climate.json", `{"t_max_deg_c": 3, "t_min_deg_c": -7, "rh_max_ratio": 0.84, "rh_min_ratio": 0.58, "wind_m_per_s": 2.8, "sun_h_per_day": 4.9, "rain_mm": 26},`, ``, "climates[0].months must hold 12 values, and holds 11"},
		{"degrees of the wrong kind", "climate.json", `"t_max_deg_c": 3`, `"t_max_deg_c": 370`, "climates[0].months[0]"},
		{"a grid in grams", "grid.json", `0.3734`, `373.4`, "kg_per_kwh must lie between 0 and 3, and is 373.4"},
		{"not JSON", "rates.json", `{`, ``, "rates.json:"},
	} {
		dir := folder(t)
		text := string(dir[c.file].Data)
		changed := strings.Replace(text, c.from, c.to, 1)
		if changed == text {
			t.Errorf("%s: %s does not hold %s", c.why, c.file, c.from)
			continue
		}
		dir[c.file] = &fstest.MapFile{Data: []byte(changed)}
		_, faults := book.Load(dir)
		if len(faults) == 0 || !strings.HasPrefix(faults[0].String(), c.file) || !strings.Contains(faults[0].String(), c.want) {
			t.Errorf("%s: %v, want %s", c.why, faults, c.want)
		}
	}
}

func TestLoad_FindsMissingAndUnknownFilesTogether(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	delete(dir, "pumps.json")
	delete(dir, "grid.json")
	dir["price.json"] = &fstest.MapFile{Data: []byte("{}")}
	dir["notes.txt"] = &fstest.MapFile{Data: []byte("anything")}
	_, faults := book.Load(dir)
	var got []string
	for _, f := range faults {
		got = append(got, f.File+" "+f.Code)
	}
	if want := "[pumps.json missing grid.json missing price.json unknown_file]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
}

func FuzzLoad_NeverPanics(f *testing.F) {
	for i, name := range book.Files() {
		raw, err := fs.ReadFile(book.DemoFiles(), name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(i, raw)
	}
	dir := folder(f)
	f.Fuzz(func(t *testing.T, i int, data []byte) {
		names := book.Files()
		name := names[((i%len(names))+len(names))%len(names)]
		changed := fstest.MapFS{}
		for n, file := range dir {
			changed[n] = file
		}
		changed[name] = &fstest.MapFile{Data: data}
		book.Load(changed)
	})
}
