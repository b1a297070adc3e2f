package book

import (
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"

	"tarnwright/internal/core"
	"tarnwright/internal/jsonfile"
)

//go:embed demo/*.json
var demoFiles embed.FS

// DemoFiles is the folder of an invented builder: a set to copy and change.
func DemoFiles() fs.FS {
	sub, err := fs.Sub(demoFiles, "demo")
	if err != nil {
		panic("book: the demo is not embedded")
	}
	return sub
}

// Demo is the book of an invented builder. Its files are tested, so that a
// fault in them is a programmer's mistake.
func Demo() core.Book {
	b, faults := Load(DemoFiles())
	if len(faults) > 0 {
		panic(fmt.Sprintf("book: the demo has %d faults, first %v", len(faults), faults[0]))
	}
	return b
}

// DemoWords is the demo's book in each language that it has words for.
func DemoWords() map[string]Worded {
	w, faults := LoadWords(DemoFiles(), Demo())
	if len(faults) > 0 {
		panic(fmt.Sprintf("book: the demo's words have %d faults, first %v", len(faults), faults[0]))
	}
	return w
}

// Encode is a whole book on one line, for the browser.
func Encode(b core.Book) ([]byte, error) { return jsonfile.Compact(b) }

// Decode reads what Encode wrote. It is for the browser's side, which takes
// the book from its own server: a builder's files go through Load.
func Decode(data []byte) (core.Book, error) {
	var b core.Book
	if err := json.Unmarshal(data, &b); err != nil {
		return core.Book{}, fmt.Errorf("read the book: %w", err)
	}
	return b, nil
}
