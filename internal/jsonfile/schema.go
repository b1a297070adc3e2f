package jsonfile

import (
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// Limit is what a schema says of one value beyond its type. Path is that of
// faults, with [] for every member of a list: "climates[].months[].rain_mm".
type Limit struct {
	Path string
	// Words are the texts that may stand there.
	Words []string
	// Least and Most bound a number; both nil leave it open.
	Least, Most *float64
	// Pattern is what a text must match.
	Pattern string
	// Filled says that a text or a list must hold something.
	Filled bool
	// About says what it is, for whoever fills the file in.
	About string
}

// Draft is the dialect of the schemas.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// decimalPattern is a plain decimal number in quotes, as package money reads
// it.
const decimalPattern = `^[+-]?[0-9]+(\.[0-9]+)?$`

// Schema is the JSON Schema of what Read takes into a value of this kind: the
// same keys, the same types, nothing else let through. A limit whose path is
// not in the value is an error, so that a slip does not pass unseen.
func Schema(title string, into any, limits []Limit) ([]byte, error) {
	s := schemer{limits: limits, used: make([]bool, len(limits))}
	root := s.of(reflect.TypeOf(into), "")
	for i, u := range s.used {
		if !u {
			return nil, fmt.Errorf("%s: no value stands at %s: %w", title, limits[i].Path, ErrValue)
		}
	}
	head := pairs{{"$schema", Draft}, {"title", title}}
	raw, err := json.MarshalIndent(append(head, root...), "", "  ")
	if err != nil {
		return nil, fmt.Errorf("write the schema: %w", err)
	}
	return append(raw, '\n'), nil
}

// pairs is an object that keeps the order of its keys.
type pairs []pair

type pair struct {
	key   string
	value any
}

// MarshalJSON writes the pairs in order.
func (p pairs) MarshalJSON() ([]byte, error) {
	var b strings.Builder
	b.WriteByte('{')
	for i, kv := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(kv.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(kv.value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return []byte(b.String()), nil
}

type schemer struct {
	limits []Limit
	used   []bool
}

func (s *schemer) of(t reflect.Type, path string) pairs {
	return append(s.typed(t, path), s.limited(t, path)...)
}

func (s *schemer) typed(t reflect.Type, path string) pairs {
	if _, ok := reflect.New(t).Interface().(encoding.TextUnmarshaler); ok {
		return pairs{{"type", "string"}, {"pattern", decimalPattern}}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.typed(t.Elem(), path)
	case reflect.Struct:
		return s.object(t, path)
	case reflect.Map:
		return pairs{{"type", "object"}, {"additionalProperties", s.of(t.Elem(), path+".*")}}
	case reflect.Array:
		return pairs{{"type", "array"}, {"items", s.of(t.Elem(), path+"[]")}, {"minItems", t.Len()}, {"maxItems", t.Len()}}
	case reflect.Slice:
		return pairs{{"type", "array"}, {"items", s.of(t.Elem(), path+"[]")}}
	case reflect.String:
		return pairs{{"type", "string"}}
	case reflect.Bool:
		return pairs{{"type", "boolean"}}
	case reflect.Float32, reflect.Float64:
		return pairs{{"type", "number"}}
	}
	return pairs{{"type", "integer"}}
}

func (s *schemer) object(t reflect.Type, path string) pairs {
	props, required := pairs{}, []string{}
	for _, f := range fieldsOf(t) {
		props = append(props, pair{f.key, s.of(f.typ, join(path, f.key))})
		if !f.optional {
			required = append(required, f.key)
		}
	}
	return pairs{{"type", "object"}, {"properties", props}, {"required", required}, {"additionalProperties", false}}
}

// limited is what the limits of a path add.
func (s *schemer) limited(t reflect.Type, path string) pairs {
	var out pairs
	for i, l := range s.limits {
		if l.Path != path {
			continue
		}
		s.used[i] = true
		if l.About != "" {
			out = append(out, pair{"description", l.About})
		}
		if len(l.Words) > 0 {
			out = append(out, pair{"enum", l.Words})
		}
		if l.Least != nil {
			out = append(out, pair{"minimum", *l.Least})
		}
		if l.Most != nil {
			out = append(out, pair{"maximum", *l.Most})
		}
		if l.Pattern != "" {
			out = append(out, pair{"pattern", l.Pattern})
		}
		switch {
		case l.Filled && t.Kind() == reflect.Slice:
			out = append(out, pair{"minItems", 1})
		case l.Filled:
			out = append(out, pair{"minLength", 1})
		}
	}
	return out
}
