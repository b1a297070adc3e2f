package book_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"tarnwright/internal/book"
)

// A look is read whole or refused; what is read makes a style sheet that ends
// no rule early and starts no other.
func FuzzLoadLook(f *testing.F) {
	f.Add([]byte(`{"file_version": 1, "colours": {"ink": "#112233"}, "fonts": {"text": "Georgia, serif"}}`), []byte("<svg xmlns='http://www.w3.org/2000/svg'/>"))
	f.Add([]byte(`{"file_version": 1, "logo": "logo.svg"}`), []byte("<svg><SCRIPT>"))
	f.Add([]byte(`{"file_version": 1, "fonts": {"text": "x;}body{display:none"}}`), []byte{})
	f.Fuzz(func(t *testing.T, theme, logo []byte) {
		look, faults := book.LoadLook(fstest.MapFS{book.ThemeName: {Data: theme}, "logo.svg": {Data: logo}})
		if len(faults) > 0 {
			return
		}
		css := look.Theme.CSS()
		if bytes.Count(css, []byte("{")) != bytes.Count(css, []byte("}")) || bytes.Contains(css, []byte("</")) || bytes.Contains(css, []byte("@import")) || bytes.Contains(css, []byte("url(")) {
			t.Errorf("the style sheet is %s", css)
		}
		if bytes.Contains(bytes.ToLower(look.Logo), []byte("<script")) {
			t.Errorf("the logo is %s", look.Logo)
		}
	})
}

// The browser's side reads what its own server wrote, and breaks on nothing.
func FuzzDecode(f *testing.F) {
	raw, err := book.Encode(book.Demo())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(raw)
	f.Add([]byte(`{"Pumps":[{"Curve":null}]}`))
	f.Add([]byte("{"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := book.Decode(data)
		if err != nil {
			return
		}
		again, err := book.Encode(b)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := book.Decode(again); err != nil {
			t.Errorf("decoded, encoded and not decoded again: %v", err)
		}
	})
}

// Words are read or refused, and change nothing of the book they are for.
func FuzzLoadWords(f *testing.F) {
	f.Add([]byte(`{"file_version": 1, "invented": true, "items": {"design": "Diseño"}}`))
	f.Add([]byte(`{"file_version": 1, "invented": true, "rules": {"x": {"title": ""}}}`))
	b := book.Demo()
	before, err := book.Encode(b)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		book.LoadWords(fstest.MapFS{"words.es.json": {Data: data}}, b)
		if after, err := book.Encode(b); err != nil || !bytes.Equal(before, after) {
			t.Errorf("the book was changed: %v", err)
		}
	})
}
