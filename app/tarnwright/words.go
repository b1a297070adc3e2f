package main

import (
	"errors"
	"fmt"
	"os"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
)

// wordsOf is the builder's book in each language that the folder has words in.
// A fault in them stops the server before it starts.
func wordsOf(dir string, b core.Book) (map[string]book.Worded, error) {
	if dir == "" {
		return book.DemoWords(), nil
	}
	worded, faults := book.LoadWords(os.DirFS(dir), b)
	var all []error
	for _, f := range faults {
		all = append(all, errors.New(f.String()))
	}
	return worded, errors.Join(all...)
}

// booksOf are those books for the browser.
func booksOf(worded map[string]book.Worded) (map[string][]byte, error) {
	out := map[string][]byte{}
	for language, w := range worded {
		raw, err := book.Encode(w.Book)
		if err != nil {
			return nil, fmt.Errorf("write the book in %s for the page: %w", language, err)
		}
		out[language] = raw
	}
	return out, nil
}
