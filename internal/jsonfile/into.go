package jsonfile

import (
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// Into fills a value from the file and returns every fault in file order.
func (d *Doc) Into(into any) []Fault {
	v := reflect.ValueOf(into)
	d.more = nil
	if v.Kind() != reflect.Pointer || v.IsNil() {
		return []Fault{{File: d.name, Code: "unsupported", Text: "nothing was given to read the file into"}}
	}
	d.fill(d.root, v.Elem(), "")
	sortFaults(d.more)
	return d.more
}

func (d *Doc) wrong(n *node, path, want string) {
	got := shown(d.data[n.at:n.end])
	code := "wrong_type"
	if n.kind == isNaN {
		code = "not_a_number"
	}
	d.add(n.at, path, code, fmt.Sprintf("%s must be %s, and is %s", called(path), want, got))
}

func (d *Doc) fill(n *node, v reflect.Value, path string) {
	if d.own(n, v, path) {
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map:
		// The standard encoder writes nothing-at-all so.
		if n.kind == isNull {
			v.SetZero()
			return
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		d.fill(n, v.Elem(), path)
	case reflect.Struct:
		d.object(n, v, path)
	case reflect.Map:
		d.dictionary(n, v, path)
	case reflect.Slice, reflect.Array:
		d.list(n, v, path)
	default:
		d.plain(n, v, path)
	}
}

// own lets a type that reads itself do so, as encoding/json would.
func (d *Doc) own(n *node, v reflect.Value, path string) bool {
	if v.Kind() == reflect.Pointer || !v.CanAddr() {
		return false
	}
	switch t := v.Addr().Interface().(type) {
	case json.Unmarshaler:
		if n.kind == isNaN {
			d.wrong(n, path, "a value that JSON knows")
			return true
		}
		if err := t.UnmarshalJSON(d.data[n.at:n.end]); err != nil {
			d.add(n.at, path, "wrong_type", called(path)+": "+err.Error())
		}
		return true
	case encoding.TextUnmarshaler:
		if n.kind != isString {
			d.wrong(n, path, `text in quotes, like "12.50"`)
			return true
		}
		if err := t.UnmarshalText([]byte(n.text)); err != nil {
			d.add(n.at, path, "wrong_text", called(path)+": "+err.Error())
		}
		return true
	}
	return false
}

func (d *Doc) plain(n *node, v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.String:
		if n.kind != isString {
			d.wrong(n, path, `text in quotes, like "name"`)
			return
		}
		v.SetString(n.text)
	case reflect.Bool:
		if n.kind != isBool {
			d.wrong(n, path, "true or false")
			return
		}
		v.SetBool(n.text == "true")
	case reflect.Float32, reflect.Float64:
		d.number(n, v, path)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		d.whole(n, v, path)
	default:
		d.add(n.at, path, "unsupported", called(path)+" has a type that no file can hold: "+v.Type().String())
	}
}

func (d *Doc) number(n *node, v reflect.Value, path string) {
	const want = "a number, like 10.36"
	if n.kind != isNumber {
		d.wrong(n, path, want)
		return
	}
	x, err := strconv.ParseFloat(n.text, v.Type().Bits())
	if err != nil || math.IsInf(x, 0) {
		d.add(n.at, path, "not_a_number", fmt.Sprintf("%s must be %s, and %s is too large to be one", called(path), want, shown([]byte(n.text))))
		return
	}
	v.SetFloat(x)
}

func (d *Doc) whole(n *node, v reflect.Value, path string) {
	const want = "a whole number, like 4"
	if n.kind != isNumber {
		d.wrong(n, path, want)
		return
	}
	i, err := strconv.ParseInt(n.text, 10, v.Type().Bits())
	if err != nil {
		d.wrong(n, path, want)
		return
	}
	v.SetInt(i)
}

func (d *Doc) list(n *node, v reflect.Value, path string) {
	if n.kind != isList {
		d.wrong(n, path, "a list in square brackets")
		return
	}
	if v.Kind() == reflect.Array {
		if len(n.items) != v.Len() {
			d.add(n.at, path, "wrong_count", fmt.Sprintf("%s must hold %d values, and holds %d", called(path), v.Len(), len(n.items)))
			return
		}
	} else {
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	}
	for i, it := range n.items {
		d.fill(it, v.Index(i), index(path, i))
	}
}

func (d *Doc) dictionary(n *node, v reflect.Value, path string) {
	if n.kind != isObject || v.Type().Key().Kind() != reflect.String {
		d.wrong(n, path, "named values in curly brackets")
		return
	}
	v.Set(reflect.MakeMapWithSize(v.Type(), len(n.members)))
	seen := map[string]bool{}
	for _, m := range n.members {
		at := join(path, m.key)
		if seen[m.key] {
			d.add(m.at, at, "duplicate_key", at+" is given twice; keep one")
			continue
		}
		seen[m.key] = true
		item := reflect.New(v.Type().Elem()).Elem()
		d.fill(m.value, item, at)
		v.SetMapIndex(reflect.ValueOf(m.key).Convert(v.Type().Key()), item)
	}
}

func (d *Doc) object(n *node, v reflect.Value, path string) {
	if n.kind != isObject {
		d.wrong(n, path, "named values in curly brackets")
		return
	}
	fields := fieldsOf(v.Type())
	seen, misspelt := map[string]bool{}, map[string]bool{}
	for _, m := range n.members {
		at := join(path, m.key)
		f, known := lookup(fields, m.key)
		switch {
		case !known:
			text, near := meant(m.key, fields)
			misspelt[near] = true
			d.add(m.at, at, "unknown_key", at+" is not a key here; "+text)
		case seen[m.key]:
			d.add(m.at, at, "duplicate_key", at+" is given twice; keep one")
		default:
			d.fill(m.value, v.FieldByIndex(f.index), at)
		}
		seen[m.key] = true
	}
	for _, f := range fields {
		if !seen[f.key] && !misspelt[f.key] && !f.optional {
			d.add(n.at, join(path, f.key), "missing", fmt.Sprintf("%s is missing; it must be %s", join(path, f.key), f.like()))
		}
	}
}

// field is one key that a struct knows.
type field struct {
	key      string
	index    []int
	optional bool
	typ      reflect.Type
}

func lookup(fields []field, key string) (field, bool) {
	for _, f := range fields {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

// fieldsOf lists a struct's keys in order, with embedded structs opened.
func fieldsOf(t reflect.Type) []field {
	var fields []field
	for i := range t.NumField() {
		sf := t.Field(i)
		tag := sf.Tag.Get("json")
		if tag == "-" || (!sf.IsExported() && !sf.Anonymous) {
			continue
		}
		name, options, _ := strings.Cut(tag, ",")
		if sf.Anonymous && name == "" && sf.Type.Kind() == reflect.Struct {
			for _, f := range fieldsOf(sf.Type) {
				f.index = append([]int{i}, f.index...)
				fields = append(fields, f)
			}
			continue
		}
		if !sf.IsExported() {
			continue
		}
		if name == "" {
			name = sf.Name
		}
		optional := strings.Contains(","+options+",", ",omitempty,") || strings.Contains(","+options+",", ",omitzero,")
		fields = append(fields, field{name, []int{i}, optional, sf.Type})
	}
	return fields
}

// like says what a key must hold.
func (f field) like() string {
	p := reflect.New(f.typ).Interface()
	switch p.(type) {
	case json.Unmarshaler:
		return "a value"
	case encoding.TextUnmarshaler:
		return `text in quotes, like "12.50"`
	}
	switch f.typ.Kind() {
	case reflect.String:
		return "text in quotes"
	case reflect.Bool:
		return "true or false"
	case reflect.Float32, reflect.Float64:
		return "a number, like 10.36"
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return "a whole number, like 4"
	case reflect.Slice, reflect.Array:
		return "a list in square brackets"
	}
	return "named values in curly brackets"
}

// meant names the nearest key, or all of them.
func meant(key string, fields []field) (text, best string) {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.key
	}
	return Meant(key, names)
}

// Meant says which of the known names an unknown one may stand for: the
// nearest, or all of them.
func Meant(name string, known []string) (text, best string) {
	least := 3
	for _, k := range known {
		if n := distance(strings.ToLower(name), k); n < least {
			best, least = k, n
		}
	}
	if best != "" {
		return fmt.Sprintf("perhaps %q was meant", best), best
	}
	return "known are " + quoteAll(known), ""
}

// distance is how many letters must change to turn one key into the other
// (Levenshtein); long keys are not compared.
func distance(a, b string) int {
	const longest = 60
	if len(a) > longest || len(b) > longest {
		return longest
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			up := row[j]
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(up+1, row[j-1]+1, diagonal+cost)
			diagonal = up
		}
	}
	return row[len(b)]
}
