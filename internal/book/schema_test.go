package book_test

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/book"
)

// fits holds a value against a schema, by the words of JSON Schema 2020-12 that
// the schemas use; an unknown word fails, so that none is passed over.
func fits(schema map[string]any, value any, at string) (faults []string) {
	bad := func(format string, args ...any) { faults = append(faults, at+": "+fmt.Sprintf(format, args...)) }
	for word, want := range schema {
		switch word {
		case "$schema", "title", "description":
		case "type":
			if !isType(want.(string), value) {
				bad("%v is no %s", value, want)
			}
		case "enum":
			if !slices.Contains(want.([]any), value) {
				bad("%v is none of %v", value, want)
			}
		case "pattern":
			if text, ok := value.(string); ok && !regexp.MustCompile(want.(string)).MatchString(text) {
				bad("%q does not match %s", text, want)
			}
		case "minimum", "maximum":
			if x, ok := value.(float64); ok && (word == "minimum" && x < want.(float64) || word == "maximum" && x > want.(float64)) {
				bad("%g against the %s %g", x, word, want)
			}
		case "minLength":
			if text, ok := value.(string); ok && float64(len(text)) < want.(float64) {
				bad("too short")
			}
		case "minItems", "maxItems":
			if list, ok := value.([]any); ok && (word == "minItems" && float64(len(list)) < want.(float64) || word == "maxItems" && float64(len(list)) > want.(float64)) {
				bad("%d members against %s %g", len(list), word, want)
			}
		case "items":
			list, _ := value.([]any)
			for i, x := range list {
				faults = append(faults, fits(want.(map[string]any), x, fmt.Sprintf("%s[%d]", at, i))...)
			}
		case "required":
			members, _ := value.(map[string]any)
			for _, key := range want.([]any) {
				if _, ok := members[key.(string)]; members != nil && !ok {
					bad("%s is missing", key)
				}
			}
		case "properties":
			members, _ := value.(map[string]any)
			for key, sub := range want.(map[string]any) {
				if x, ok := members[key]; ok {
					faults = append(faults, fits(sub.(map[string]any), x, at+"."+key)...)
				}
			}
		case "additionalProperties":
			members, _ := value.(map[string]any)
			if sub, ok := want.(map[string]any); ok {
				for key, x := range members {
					faults = append(faults, fits(sub, x, at+"."+key)...)
				}
				continue
			}
			for key := range members {
				if _, ok := schema["properties"].(map[string]any)[key]; !ok {
					bad("%s is not a key here", key)
				}
			}
		default:
			bad("the schema has the word %s, which this test does not know", word)
		}
	}
	return faults
}

func isType(name string, value any) bool {
	switch v := value.(type) {
	case map[string]any:
		return name == "object"
	case []any:
		return name == "array"
	case string:
		return name == "string"
	case bool:
		return name == "boolean"
	case float64:
		return name == "number" || name == "integer" && v == math.Trunc(v)
	}
	return false
}

func schemaOf(t *testing.T, name string) map[string]any {
	t.Helper()
	raw, ok, err := book.Schema(name)
	if err != nil || !ok {
		t.Fatalf("%s: %v, known %v", name, err, ok)
	}
	var schema map[string]any
	if err := json.Unmarshal(raw, &schema); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return schema
}

func TestSchema_TheDemoFits(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	for _, name := range book.Files() {
		schema := schemaOf(t, name)
		if schema["$schema"] != "https://json-schema.org/draft/2020-12/schema" || schema["additionalProperties"] != false {
			t.Errorf("%s: schema %v, other keys %v", name, schema["$schema"], schema["additionalProperties"])
		}
		var value any
		if err := json.Unmarshal(dir[name].Data, &value); err != nil {
			t.Fatal(err)
		}
		for _, f := range fits(schema, value, name) {
			t.Error(f)
		}
	}
	if _, ok, _ := book.Schema("price.json"); ok {
		t.Error("a file that there is not has a schema")
	}
}

// What the reader refuses for its shape, its words or its span, the schema
// refuses too.
func TestSchema_RefusesWhatTheReaderRefuses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, file, from, to string }{
		{"a misspelt key", "builder.json", `"currency"`, `"currencie"`},
		{"a currency in words", "builder.json", `"USD"`, `"dollars"`},
		{"another version", "builder.json", `"file_version": 1`, `"file_version": 2`},
		{"no privacy page", "builder.json", `"https://fernhollow.example/privacy"`, `""`},
		{"details kept for ever", "builder.json", `"retention_months": 24`, `"retention_months": 240`},
		{"half a month", "builder.json", `"retention_months": 24`, `"retention_months": 1.5`},
		{"a price as a number", "prices.json", `"regional_index": "1"`, `"regional_index": 1`},
		{"a price in words", "prices.json", `"likely": "33"`, `"likely": "33 dollars"`},
		{"an overlap of a mile", "rates.json", `"overlap_m": 1.2192`, `"overlap_m": 1609`},
		{"a length as text", "rates.json", `"overlap_m": 1.2192`, `"overlap_m": "1.2192"`},
		{"a severity of its own", "rules.json", `"severity": "care"`, `"severity": "danger"`},
		{"no last word", "rules.json", `"defers": "The town office decides."`, `"defers": ""`},
		{"a pump of no class", "pumps.json", `"class": "flooded"`, `"class": "magic"`},
		{"a pipe in millimetres", "pipes.json", `0.04089`, `40.89`},
		{"a rounding of its own", "tariff.json", `"half_up"`, `"up"`},
		{"no steps", "water.json", `{"name": "all", "per_m3": "1.637867"}`, ``},
		{"degrees of the wrong kind", "climate.json", `"t_max_deg_c": 3`, `"t_max_deg_c": 370`},
		{"eleven months", "climate.json", `{"t_max_deg_c": 3, "t_min_deg_c": -7, "rh_max_ratio": 0.84, "rh_min_ratio": 0.58, "wind_m_per_s": 2.8, "sun_h_per_day": 4.9, "rain_mm": 26},`, ``},
		{"a grid in grams", "grid.json", `0.3734`, `373.4`},
	} {
		text := string(folder(t)[c.file].Data)
		changed := strings.Replace(text, c.from, c.to, 1)
		var value any
		if err := json.Unmarshal([]byte(changed), &value); err != nil || changed == text {
			t.Errorf("%s: %v, changed %v", c.why, err, changed != text)
			continue
		}
		if len(fits(schemaOf(t, c.file), value, c.file)) == 0 {
			t.Errorf("%s: the schema lets it through", c.why)
		}
	}
}
