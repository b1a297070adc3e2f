package jsonfile_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"tarnwright/internal/jsonfile"
)

type inner struct {
	LengthM float64 `json:"length_m"`
	Kind    string  `json:"kind,omitempty"`
}

type price struct{ text string }

func (p *price) UnmarshalText(b []byte) error {
	if strings.ContainsAny(string(b), "$,") {
		return fmt.Errorf("%q is not a plain decimal number, such as 12.50", b)
	}
	p.text = string(b)
	return nil
}

func (p price) MarshalText() ([]byte, error) { return []byte(p.text), nil }

type file struct {
	Version int              `json:"version"`
	Name    string           `json:"name"`
	On      bool             `json:"on,omitempty"`
	Outline inner            `json:"outline"`
	Parts   []inner          `json:"parts"`
	Beach   *inner           `json:"beach,omitempty"`
	Pair    [2]float64       `json:"pair"`
	Prices  map[string]price `json:"prices,omitempty"`
	Each    price            `json:"each,omitempty"`
	Skipped string           `json:"-"`
}

const good = `{
  "version": 1, "name": "Alder \u0052each",
  "outline": {"length_m": 10.36},
  "parts": [{"length_m": 1e1, "kind": "a"}, {"length_m": -0.5}],
  "beach": null, "pair": [1, 2], "on": true,
  "prices": {"liner": "12.50"}, "each": "3"
}`

func TestRead_TakesAGoodFile(t *testing.T) {
	t.Parallel()
	var f file
	if faults := jsonfile.Read("good.json", []byte(good), &f); len(faults) > 0 {
		t.Fatalf("faults = %v, want none", faults)
	}
	want := file{Version: 1, Name: "Alder Reach", On: true, Outline: inner{LengthM: 10.36},
		Parts: []inner{{10, "a"}, {LengthM: -0.5}}, Pair: [2]float64{1, 2},
		Prices: map[string]price{"liner": {"12.50"}}, Each: price{"3"}}
	var g file
	nothing := strings.Replace(good, `[{"length_m": 1e1, "kind": "a"}, {"length_m": -0.5}]`, "null", 1)
	if faults := jsonfile.Read("good.json", []byte(nothing), &g); len(faults) > 0 || g.Parts != nil {
		t.Errorf("nothing for a list: %v, %v", faults, g.Parts)
	}
	if !reflect.DeepEqual(f, want) {
		t.Errorf("read %+v, want %+v", f, want)
	}
}

// Each slip alone, with the place and the words a builder would see.
func TestRead_NamesEachSlip(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, from, to, want string }{
		{"text for a number", `10.36`, `"10.36"`, `f.json:3:27: outline.length_m must be a number, like 10.36, and is "10.36"`},
		{"not a number", `10.36`, `NaN`, `f.json:3:27: outline.length_m must be a number, like 10.36, and is NaN`},
		{"endless", `10.36`, `-Infinity`, `f.json:3:27: outline.length_m must be a number, like 10.36, and is -Infinity`},
		{"too large", `10.36`, `1e999`, `f.json:3:27: outline.length_m must be a number, like 10.36, and 1e999 is too large to be one`},
		{"null for a number", `10.36`, `null`, `f.json:3:27: outline.length_m must be a number, like 10.36, and is null`},
		{"a fraction for a count", `"version": 1`, `"version": 1.5`, `f.json:2:14: version must be a whole number, like 4, and is 1.5`},
		{"a number for text", `"kind": "a"`, `"kind": 7`, `f.json:4:39: parts[0].kind must be text in quotes, like "name", and is 7`},
		{"text for yes", `"on": true`, `"on": "yes"`, `f.json:5:40: on must be true or false, and is "yes"`},
		{"a slip of the pen", `"length_m": -0.5`, `"lenght_m": -0.5`, `f.json:4:46: parts[1].lenght_m is not a key here; perhaps "length_m" was meant`},
		{"another key", `"on": true`, `"on": true, "colour": 1`, `f.json:5:46: colour is not a key here; known are "version", "name", "on", "outline", "parts", "beach", "pair", "prices", "each"`},
		{"the right letters in the wrong case", `"on": true`, `"On": true`, `f.json:5:34: On is not a key here; perhaps "on" was meant`},
		{"a hidden field", `"on": true`, `"Skipped": "x"`, `Skipped is not a key here; known are`},
		{"given twice", `"on": true`, `"on": true, "on": true`, `f.json:5:46: on is given twice; keep one`},
		{"a name given twice", `{"liner": "12.50"}`, `{"liner": "12.50", "liner": "1"}`, `prices.liner is given twice; keep one`},
		{"missing", `"version": 1, `, ``, `f.json:1:1: version is missing; it must be a whole number, like 4`},
		{"missing deeper", `"length_m": 10.36`, ``, `f.json:3:14: outline.length_m is missing; it must be a number, like 10.36`},
		{"a list for an object", `{"length_m": 10.36}`, `[]`, `outline must be named values in curly brackets, and is []`},
		{"too few", `[1, 2]`, `[1]`, `pair must hold 2 values, and holds 1`},
		{"money as a number", `"liner": "12.50"`, `"liner": 12.50`, `prices.liner must be text in quotes, like "12.50", and is 12.50`},
		{"money with a sign", `"liner": "12.50"`, `"liner": "$12.50"`, `prices.liner: "$12.50" is not a plain decimal number, such as 12.50`},
		{"something after the end", "\"3\"\n}", "\"3\"\n} x", `f.json:7:3: nothing may follow the closing bracket of the file`},
		{"two files in one", "\"3\"\n}", "\"3\"\n}{}", `f.json:7:2: nothing may follow the closing bracket of the file`},
		{"a comma at the end", `"each": "3"`, `"each": "3",`, `f.json:6:44: no comma may stand before "}"`},
		{"no comma", `true,`, `true`, `f.json:6:3: a comma or "}" should stand here`},
		{"a bare word", `10.36`, `ten`, `f.json:3:27: "ten" is not a JSON value; text stands in double quotes, a number like 10.36`},
		{"a leading zero", `10.36`, `010.36`, `"010.36" is not a JSON value`},
		{"a decimal comma", `10.36`, `10,36`, `f.json:3:30: a key in double quotes should stand here`},
		{"single quotes", `"on"`, `'on'`, `f.json:5:34: a key in double quotes should stand here`},
		{"no closing quote", `"each": "3"`, `"each": "3`, `a text may not hold a line break`},
		{"a wrong escape", `\u0052`, `\x52`, `this text has an escape that JSON does not know`},
	} {
		data := strings.Replace(good, c.from, c.to, 1)
		if data == good {
			t.Fatalf("%s: nothing was replaced", c.why)
		}
		var f file
		faults := jsonfile.Read("f.json", []byte(data), &f)
		if len(faults) != 1 || !strings.Contains(faults[0].String(), c.want) {
			t.Errorf("%s:\n got %v\nwant %s", c.why, faults, c.want)
		}
	}
}

func TestRead_ReportsEveryFaultAtOnceInFileOrder(t *testing.T) {
	t.Parallel()
	data := "{\n\"version\": \"1\",\n\"title\": \"x\",\n\"outline\": {\"length_m\": Infinity, \"kind\": 3},\n\"parts\": [{}, 4],\n\"pair\": [1, true],\n\"version\": 2\n}"
	var f file
	var got []string
	for _, x := range jsonfile.Read("f.json", []byte(data), &f) {
		got = append(got, fmt.Sprintf("%d %s %s", x.Line, x.Path, x.Code))
	}
	want := []string{
		"1 name missing", "2 version wrong_type", "3 title unknown_key", "4 outline.length_m not_a_number", "4 outline.kind wrong_type",
		"5 parts[0].length_m missing", "5 parts[1] wrong_type", "6 pair[1] wrong_type", "7 version duplicate_key",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestRead_RefusesWhatIsNotAFile(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, data, want string }{
		{"empty", "", "the file is empty"},
		{"blank", " \n", "the file is empty"},
		{"a bad byte", "{\"name\": \"\xff\"}", "must be UTF-8"},
		{"cut short", `{"version": 1, "parts": [`, "the file ends where a value should stand"},
		{"a well of brackets", strings.Repeat("[", 1_000_000), "brackets are nested deeper than 64"},
	} {
		var f file
		faults := jsonfile.Read("f.json", []byte(c.data), &f)
		if len(faults) != 1 || !strings.Contains(faults[0].Text, c.want) {
			t.Errorf("%s: %v, want %q", c.why, faults, c.want)
		}
	}
	var f file
	many := `{"parts": [` + strings.Repeat("{},", 100_000) + `{}]}`
	if n := len(jsonfile.Read("f.json", []byte(many), &f)); n != 200 {
		t.Errorf("%d faults, want the first 200", n)
	}
	if faults := jsonfile.Read("f.json", []byte(good), f); len(faults) != 1 || faults[0].Code != "unsupported" {
		t.Errorf("reading into a value = %v", faults)
	}
}

func TestFaultAt_FindsTheLineOfAPath(t *testing.T) {
	t.Parallel()
	d, faults := jsonfile.Parse("f.json", []byte("\xef\xbb\xbf"+good))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, c := range []struct {
		path      string
		line, col int
	}{{"outline.length_m", 3, 27}, {"parts[1].length_m", 4, 58}, {"parts[7].length_m", 4, 12}, {"nowhere.at.all", 1, 4}, {"", 1, 4}, {"parts[x]", 4, 12}} {
		f := d.FaultAt(c.path, "out_of_range", "x")
		if f.Line != c.line || f.Column != c.col {
			t.Errorf("%s stands at %d:%d, want %d:%d", c.path, f.Line, f.Column, c.line, c.col)
		}
	}
}

func TestWrite_IsStableAndReadsBack(t *testing.T) {
	t.Parallel()
	f := file{Version: 1, Name: "A <b> & “c”", Outline: inner{LengthM: 0.1}, Pair: [2]float64{1e21, -2.5e-9}, Each: price{"0.10"}, Prices: map[string]price{"b": {"2"}, "a,\"{": {"1"}}}
	for range 40 {
		f.Parts = append(f.Parts, inner{LengthM: math.Pi, Kind: "x, y: z"})
	}
	first, err := jsonfile.Write(f)
	if err != nil {
		t.Fatal(err)
	}
	var back, standard file
	if faults := jsonfile.Read("w.json", first, &back); len(faults) > 0 {
		t.Fatalf("%v in\n%s", faults, first)
	}
	if err := json.Unmarshal(first, &standard); err != nil || !reflect.DeepEqual(back, standard) || !reflect.DeepEqual(back, f) {
		t.Errorf("read back %+v, the standard decoder %+v, %v; want %+v", back, standard, err, f)
	}
	if again, _ := jsonfile.Write(back); string(again) != string(first) {
		t.Error("writing twice gives two texts")
	}
	for _, line := range strings.Split(string(first), "\n") {
		if len(line) > 100 {
			t.Errorf("a line of %d characters", len(line))
		}
	}
	if _, err := jsonfile.Write(inner{LengthM: math.NaN()}); err == nil {
		t.Error("NaN was written")
	}
}

func TestWrite_LaysOutForReaders(t *testing.T) {
	t.Parallel()
	got, err := jsonfile.Write(file{Version: 1, Name: "n"})
	want := "{\n  \"version\": 1,\n  \"name\": \"n\",\n  \"outline\": {\"length_m\": 0},\n  \"parts\": [],\n  \"pair\": [0, 0]\n}\n"
	if err != nil || string(got) != want {
		t.Errorf("wrote\n%s%v, want\n%s", got, err, want)
	}
}

// The standard decoder is the reference: what it calls JSON, this package
// calls JSON, and the values are the same.
func FuzzRead_AgreesWithTheStandardDecoder(f *testing.F) {
	for _, s := range []string{good, "", "{}", "[]", `{"version":1,"version":2}`, "{\"a\":\"\xff\"}", `{"parts":[{"length_m":NaN}]}`, `"\ud800"`, "[1,]", "{\"name\":\"\\u0000\"}", "nan", "\xef\xbb\xbf{}", "-0", "1e400"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var ours file
		faults := jsonfile.Read("x", data, &ours)
		for _, x := range faults {
			if x.Line < 1 || x.Column < 1 || x.Text == "" || x.Code == "" {
				t.Fatalf("a fault without place or words: %+v", x)
			}
		}
		if len(faults) > 0 {
			return
		}
		var std file
		data = []byte(strings.TrimPrefix(string(data), "\xef\xbb\xbf"))
		if err := json.Unmarshal(data, &std); err != nil {
			t.Fatalf("read what the standard decoder refuses: %v", err)
		}
		if !reflect.DeepEqual(ours, std) {
			t.Fatalf("read %+v, the standard decoder %+v", ours, std)
		}
		out, err := jsonfile.Write(ours)
		if err != nil || !json.Valid(out) {
			t.Fatalf("wrote %q, %v", out, err)
		}
		var again file
		if faults := jsonfile.Read("y", out, &again); len(faults) > 0 || !same(ours, again) {
			t.Fatalf("read back %+v with %v, want %+v", again, faults, ours)
		}
	})
}

// same compares as files do: a list given as nothing and an empty one are one.
func same(a, b file) bool {
	x, _ := json.Marshal(a)
	y, _ := json.Marshal(b)
	return strings.ReplaceAll(string(x), "null", "[]") == strings.ReplaceAll(string(y), "null", "[]")
}

// Whether a text is JSON at all, against the standard scanner.
func FuzzParse_KnowsWhatIsJSON(f *testing.F) {
	for _, s := range []string{good, "[1 2]", "{\"a\" 1}", "[\"\t\"]", "01", "1.", "tru", "[[[[]]]]", "{,}", "\"\\", "-"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		_, faults := jsonfile.Parse("x", data)
		text := string(data)
		if strings.HasPrefix(text, "\xef\xbb\xbf") || strings.ContainsAny(strings.ToLower(text), "ni") || strings.ToValidUTF8(text, "") != text || strings.Count(text, "[")+strings.Count(text, "{") > 60 {
			return // what this package reads more widely or more strictly on purpose
		}
		if want := json.Valid(data); (len(faults) == 0) != want {
			t.Fatalf("%q: faults %v, the standard scanner says valid %v", data, faults, want)
		}
	})
}
