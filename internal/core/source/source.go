// Package source is the register of published sources: doc comments, sheets,
// safety rules and tests name a source by its key, so one edit corrects a
// citation everywhere.
package source

import "sort"

// Key names a source.
type Key string

// How we know the number.
type Known string

// The ways of knowing, strongest first.
const (
	Defined    Known = "by definition"
	Read       Known = "read in the source"
	Quoted     Known = "read as quoted by another text"
	FromMemory Known = "from memory"
	Practice   Known = "common practice, no source"
	Builder    Known = "the builder's own figure"
)

// Entry is one source.
type Entry struct {
	Key    Key
	Author string
	Title  string
	When   string // edition or year
	Where  string // section, page, equation
	Known  Known
}

// Find returns the entry of a key.
func Find(k Key) (Entry, bool) {
	e, ok := ByKey()[k]
	return e, ok
}

// ByKey returns every entry by its key, for whoever looks up many: Find makes
// the register anew each time.
func ByKey() map[Key]Entry {
	all := map[Key]Entry{}
	for _, e := range All() {
		all[e.Key] = e
	}
	return all
}

// All returns every entry in key order.
func All() []Entry {
	var all []Entry
	for _, part := range register() {
		all = append(all, part()...)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Key < all[j].Key })
	return all
}

// register gathers the parts; each subject keeps its own file.
func register() []func() []Entry {
	return []func() []Entry{general, shape, circulation, running, building, safety}
}
