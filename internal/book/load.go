// Package book reads the builder's own files: who they are, prices, takeoff
// rates, safety rules, pumps, pipes, tariffs, climates. It reads them
// strictly and reports every fault of every file at once, because what stands
// in them ends up in front of customers.
package book

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"tarnwright/internal/core"
	"tarnwright/internal/jsonfile"
)

// Fault is one thing wrong with a file, with its line.
type Fault = jsonfile.Fault

// Files lists the names that a builder's folder must hold, no more and no less.
func Files() []string {
	var names []string
	for _, p := range parts() {
		names = append(names, p.name)
	}
	return names
}

// IsFile tells whether a builder's folder may hold a file of this name.
func IsFile(name string) bool {
	return name == ThemeName || slices.Contains(Files(), name) || slices.Contains(ids(Languages(), WordsName), name)
}

// Load reads a builder's folder. The book is only to be used when there is no
// fault.
func Load(dir fs.FS) (core.Book, []Fault) {
	var b core.Book
	var faults []Fault
	docs := map[string]*jsonfile.Doc{}
	for _, p := range parts() {
		data, err := fs.ReadFile(dir, p.name)
		if err != nil {
			faults = append(faults, missing(p.name, err))
			continue
		}
		faults = append(faults, p.read(source{p.name, data, p.limits(), docs}, &b)...)
	}
	faults = append(faults, strangers(dir)...)
	if len(faults) == 0 {
		faults = together(b, docs)
	}
	return b, faults
}

func missing(name string, err error) Fault {
	text := "this file is missing from the builder's folder"
	if !errors.Is(err, fs.ErrNotExist) {
		text = "this file cannot be read: " + err.Error()
	}
	return Fault{File: name, Code: "missing", Text: text}
}

// strangers finds files whose name is a slip: they would be passed over in
// silence.
func strangers(dir fs.FS) []Fault {
	names, err := fs.Glob(dir, "*.json")
	if err != nil {
		return nil
	}
	known := slices.Concat(Files(), []string{ThemeName}, ids(Languages(), WordsName))
	var faults []Fault
	for _, n := range names {
		if !IsFile(n) {
			text, _ := jsonfile.Meant(n, known)
			faults = append(faults, Fault{File: n, Code: "unknown_file", Text: "no file of this name is read; " + text})
		}
	}
	return faults
}

// source is one file as it was found.
type source struct {
	name   string
	data   []byte
	limits []jsonfile.Limit
	docs   map[string]*jsonfile.Doc // every file that could be taken apart
}

// reader reads one file into the book.
type reader func(source, *core.Book) []Fault

// into reads the file strictly, holds it against its limits, and then asks
// what else is wrong with what it says. A value is faulted once.
func (s source) into(v any, more func(*jsonfile.Doc) []Fault) []Fault {
	doc, faults := jsonfile.Parse(s.name, s.data)
	if len(faults) > 0 {
		return faults
	}
	s.docs[s.name] = doc
	if faults = doc.Into(v); len(faults) > 0 {
		return faults
	}
	faults = doc.Meet(s.limits)
	for _, f := range more(doc) {
		if !within(faults, f.Path) {
			faults = append(faults, f)
		}
	}
	return faults
}

// within tells whether a path, or a value under it, is faulted already.
func within(faults []Fault, path string) bool {
	for _, f := range faults {
		if f.Path == path || strings.HasPrefix(f.Path, path+".") {
			return true
		}
	}
	return false
}
