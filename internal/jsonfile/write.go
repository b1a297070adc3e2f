package jsonfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
)

// ErrValue says that a value has no place in a file.
var ErrValue = errors.New("cannot be written to a file")

// lineWidth is the longest list or object that is kept on one line.
const lineWidth = 96

// Write is the canonical text of a value: keys in the order of the struct, the
// shortest number that reads back the same, two spaces of indent, short lists
// on one line, a line break at the end. Equal values give equal bytes, and an
// empty list is written as one, so that Read takes back what Write made.
func Write(value any) ([]byte, error) {
	var w writer
	if err := w.value(reflect.ValueOf(value), ""); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	layout(&out, w.buf.Bytes(), "")
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// Compact is Write on one line, for the wire.
func Compact(value any) ([]byte, error) {
	var w writer
	if err := w.value(reflect.ValueOf(value), ""); err != nil {
		return nil, err
	}
	return w.buf.Bytes(), nil
}

type writer struct{ buf bytes.Buffer }

func (w *writer) value(v reflect.Value, path string) error {
	if !v.IsValid() {
		w.buf.WriteString("null")
		return nil
	}
	if done, err := w.own(v, path); done {
		return err
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			w.buf.WriteString("null")
			return nil
		}
		return w.value(v.Elem(), path)
	case reflect.Struct:
		return w.object(v, path)
	case reflect.Map:
		return w.dictionary(v, path)
	case reflect.Slice, reflect.Array:
		w.buf.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				w.buf.WriteByte(',')
			}
			if err := w.value(v.Index(i), index(path, i)); err != nil {
				return err
			}
		}
		w.buf.WriteByte(']')
		return nil
	}
	return w.plain(v, path)
}

// own lets a type that writes itself do so.
func (w *writer) own(v reflect.Value, path string) (bool, error) {
	if !v.CanInterface() || (v.Kind() == reflect.Pointer && v.IsNil()) {
		return false, nil
	}
	switch t := v.Interface().(type) {
	case json.Marshaler:
		raw, err := t.MarshalJSON()
		if err != nil {
			return true, fmt.Errorf("%s: %w", path, err)
		}
		return true, json.Compact(&w.buf, raw)
	case encoding.TextMarshaler:
		text, err := t.MarshalText()
		if err != nil {
			return true, fmt.Errorf("%s: %w", path, err)
		}
		return true, w.text(string(text))
	}
	return false, nil
}

func (w *writer) text(s string) error {
	enc := json.NewEncoder(&w.buf)
	enc.SetEscapeHTML(true)
	if err := enc.Encode(s); err != nil {
		return err
	}
	w.buf.Truncate(w.buf.Len() - 1)
	return nil
}

func (w *writer) plain(v reflect.Value, path string) error {
	switch v.Kind() {
	case reflect.String:
		return w.text(v.String())
	case reflect.Bool:
		w.buf.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.buf.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Float32, reflect.Float64:
		x := v.Float()
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%s is %v: %w", path, x, ErrValue)
		}
		raw, err := json.Marshal(v.Interface())
		if err != nil {
			return err
		}
		w.buf.Write(raw)
	default:
		return fmt.Errorf("%s is a %s: %w", path, v.Type(), ErrValue)
	}
	return nil
}

func (w *writer) object(v reflect.Value, path string) error {
	w.buf.WriteByte('{')
	first := true
	for _, f := range fieldsOf(v.Type()) {
		fv := v.FieldByIndex(f.index)
		if f.optional && empty(fv) {
			continue
		}
		if !first {
			w.buf.WriteByte(',')
		}
		first = false
		if err := w.text(f.key); err != nil {
			return err
		}
		w.buf.WriteByte(':')
		if err := w.value(fv, join(path, f.key)); err != nil {
			return err
		}
	}
	w.buf.WriteByte('}')
	return nil
}

func empty(v reflect.Value) bool {
	if v.Kind() == reflect.Slice || v.Kind() == reflect.Map {
		return v.Len() == 0
	}
	return v.IsZero()
}

func (w *writer) dictionary(v reflect.Value, path string) error {
	if v.Type().Key().Kind() != reflect.String {
		return fmt.Errorf("%s is a %s: %w", path, v.Type(), ErrValue)
	}
	keys := v.MapKeys()
	sort.Slice(keys, func(i, j int) bool { return keys[i].String() < keys[j].String() })
	w.buf.WriteByte('{')
	for i, k := range keys {
		if i > 0 {
			w.buf.WriteByte(',')
		}
		if err := w.text(k.String()); err != nil {
			return err
		}
		w.buf.WriteByte(':')
		if err := w.value(v.MapIndex(k), join(path, k.String())); err != nil {
			return err
		}
	}
	w.buf.WriteByte('}')
	return nil
}
