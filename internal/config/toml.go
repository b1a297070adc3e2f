package config

import (
	"cmp"
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"tarnwright/internal/jsonfile"
)

// maxFileBytes bounds a settings file; a hundred sites fit many times.
const maxFileBytes = 1 << 20

// place is where a key stands in a file.
type place struct{ line, column int }

// reading is one settings file on its way into the settings.
type reading struct {
	name   string
	places map[string]place
	faults []jsonfile.Fault
}

// fromTOML sets what a file says and returns every fault of it.
func (s *Settings) fromTOML(name string, data []byte) []jsonfile.Fault {
	r := reading{name: name}
	doc := map[string]any{}
	if len(data) > maxFileBytes {
		return []jsonfile.Fault{{File: name, Code: "too_big", Text: "the file is larger than 1 MiB"}}
	}
	if err := toml.Unmarshal(data, &doc); err != nil {
		f := jsonfile.Fault{File: name, Code: "not_toml", Text: "this is not TOML: " + strings.TrimPrefix(err.Error(), "toml: ")}
		var at *toml.DecodeError
		if errors.As(err, &at) {
			f.Line, f.Column = at.Position()
		}
		return []jsonfile.Fault{f}
	}
	r.places = placesOf(data)
	for key, value := range doc {
		if key == "site" {
			r.sites(s, value)
			continue
		}
		take(&r, s, serverOptions(), "", key, value)
	}
	slices.SortFunc(r.faults, func(a, b jsonfile.Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), strings.Compare(a.Path, b.Path))
	})
	return r.faults
}

func (r *reading) fault(path, code, text string) {
	p := r.places[path]
	r.faults = append(r.faults, jsonfile.Fault{File: r.name, Line: p.line, Column: p.column, Path: path, Code: code, Text: path + " " + text})
}

// sites reads every [site.NAME], in the order of the file. The one called main
// comes first, or else the first of the file.
func (r *reading) sites(s *Settings, value any) {
	tables, ok := value.(map[string]any)
	if !ok {
		r.fault("site", "not_a_table", "must be a table with a name, like [site.main]")
		return
	}
	var all []Site
	for _, id := range r.inOrder(tables) {
		path := "site." + id
		table, ok := tables[id].(map[string]any)
		switch {
		case !usableID(id):
			r.fault(path, "not_a_name", "must be named in small letters, digits and hyphens, at most 30 of them, like [site.oak-hill]")
			continue
		case !ok:
			r.fault(path, "not_a_table", "must be a table, like [site.main]; its keys stand below it")
			continue
		}
		site := newSite(id)
		for key, v := range table {
			take(r, &site, siteOptions(), path+".", key, v)
		}
		all = append(all, site)
	}
	if len(all) == 0 {
		return
	}
	slices.SortStableFunc(all, func(a, b Site) int { return rank(a) - rank(b) })
	s.Site, s.More = all[0], all[1:]
}

func rank(s Site) int {
	if s.ID == MainSite {
		return 0
	}
	return 1
}

func (r *reading) inOrder(tables map[string]any) []string {
	ids := make([]string, 0, len(tables))
	for id := range tables {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(a, b string) int {
		return cmp.Or(cmp.Compare(r.places["site."+a].line, r.places["site."+b].line), strings.Compare(a, b))
	})
	return ids
}

func usableID(id string) bool {
	const most = 30
	if id == "" || len(id) > most || strings.HasPrefix(id, "-") {
		return false
	}
	return strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

// take sets one key of a table.
func take[T any](r *reading, into *T, known []option[T], above, key string, value any) {
	path := above + key
	names := make([]string, len(known))
	for i, o := range known {
		names[i] = o.key()
		if names[i] != key {
			continue
		}
		text, want := textOf(o.list, value)
		if want != "" {
			r.fault(path, "wrong_type", "must be "+want)
			return
		}
		if isPath(o.name) && text != "" && !filepath.IsAbs(text) {
			text = filepath.Join(filepath.Dir(r.name), text)
		}
		if err := o.set(into, text); err != nil {
			r.fault(path, "wrong_value", "is not right: "+err.Error())
		}
		return
	}
	meant, _ := jsonfile.Meant(key, names)
	if above == "" && slices.ContainsFunc(siteOptions(), func(o option[Site]) bool { return o.key() == key }) {
		meant = "it belongs below [site.main]"
	}
	r.fault(path, "unknown_key", "is not a key here; "+meant)
}

// textOf is a value as flags and variables have it, or what it must be.
func textOf(isList bool, value any) (text, want string) {
	if !isList {
		if text, ok := value.(string); ok {
			return text, ""
		}
		return "", `text in quotes, like "127.0.0.1:8080"`
	}
	const list = `a list of texts without commas, like ["one", "two"]`
	items, ok := value.([]any)
	if !ok {
		return "", list
	}
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i], ok = item.(string)
		if !ok || strings.Contains(texts[i], ",") {
			return "", list
		}
	}
	return strings.Join(texts, ","), ""
}

// placesOf finds where each key and table stands. It is asked of a file that
// has been read already, so it meets no error.
func placesOf(data []byte) map[string]place {
	out := map[string]place{}
	var p unstable.Parser
	p.Reset(data)
	table := ""
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			table = note(&p, out, "", e)
		case unstable.KeyValue:
			noteValue(&p, out, table, e)
		default:
		}
	}
	return out
}

// note keeps the place of every part of a key, and returns its whole path.
func note(p *unstable.Parser, out map[string]place, above string, e *unstable.Node) string {
	path := above
	for it := e.Key(); it.Next(); {
		part := it.Node()
		if path != "" {
			path += "."
		}
		path += string(part.Data)
		if _, known := out[path]; !known {
			at := p.Shape(part.Raw).Start
			out[path] = place{at.Line, at.Column}
		}
	}
	return path
}

func noteValue(p *unstable.Parser, out map[string]place, above string, e *unstable.Node) {
	path := note(p, out, above, e)
	if v := e.Value(); v.Kind == unstable.InlineTable {
		for it := v.Children(); it.Next(); {
			noteValue(p, out, path, it.Node())
		}
	}
}
