package archtest_test

import (
	"go/ast"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// unfuzzed are readers that need no fuzz test of their own, and why.
func unfuzzed() map[string]string {
	return map[string]string{
		"internal/ui/browser.Load":          "sends the browser to an address, reads nothing",
		"internal/store/sqlite.Open":        "opens the server's own file; the power cuts test it",
		"internal/store/sqlite.Restore":     "SQLite reads the backup and checks it; the drill tests a broken one",
		"internal/store/postgres.Open":      "the database's own library reads the address",
		"internal/store/powercut.Open":      "a disk for tests",
		"internal/store/powercut.ReadAt":    "a disk for tests",
		"internal/config.Read":              "reads a file through Check's reader, and what the machine's owner typed",
		"internal/core/money.UnmarshalText": "calls Parse, ParsePrice or ParseQuantity",
		"internal/jsonfile.Parse":           "FuzzRead_AgreesWithTheStandardDecoder goes through it",
		"internal/book.Load":                "FuzzLoad_NeverPanics changes each file of a folder",
	}
}

// mustFuzz are fuzz tests of readers that are no function to call from outside:
// what stands in requests, answers and files.
func mustFuzz() map[string][]string {
	return map[string][]string{
		"internal/httpapi": {"FuzzPostLead_NeverBreaks", "FuzzPostForm_NeverBreaksNorLetsMarkupThrough", "FuzzGetPage_NeverBreaks"},
		"internal/post":    {"FuzzRetryAfter", "FuzzWebhookAnswer", "FuzzNewMail", "FuzzKeys"},
		"internal/config":  {"FuzzCheck_NeverBreaks"},
		"internal/ui/page": {"FuzzNew", "FuzzWaiting"},
		"internal/toll":    {"FuzzPaid_NeverBreaks"},
		"internal/lead":    {"FuzzCheck_ClearsNothingThatBreaksALine"},
		"internal/link":    {"FuzzDecodeBody"},
		"internal/form":    {"FuzzRead"},

		"internal/office":        {"FuzzMatches"},
		"internal/office/desk":   {"FuzzOffice_NeverBreaks"},
		"internal/office/export": {"FuzzCSV_NoCellIsAFormula", "FuzzCard_NoTextBreaksOut"},
	}
}

var reader = regexp.MustCompile(`^(Read|Parse|Load|Decode|Open|Unseal|Unmarshal|Keys|Restore|Import)`)

// readsText tells a function that takes text or bytes from outside.
func readsText(f *ast.FuncDecl) bool {
	if !f.Name.IsExported() || !reader.MatchString(f.Name.Name) {
		return false
	}
	for _, p := range f.Type.Params.List {
		switch t := p.Type.(type) {
		case *ast.Ident:
			if t.Name == "string" {
				return true
			}
		case *ast.ArrayType:
			if e, ok := t.Elt.(*ast.Ident); ok && e.Name == "byte" {
				return true
			}
		case *ast.SelectorExpr:
			switch t.Sel.Name {
			case "FS", "Values", "Reader":
				return true
			}
		}
	}
	return false
}

// fuzzTests are the names that each folder's fuzz tests mention, by test.
func fuzzTests(t *testing.T) map[string]map[string]map[string]bool {
	t.Helper()
	out := map[string]map[string]map[string]bool{}
	for _, f := range goFiles(t, func(name string) bool { return strings.HasSuffix(name, "_test.go") }, "internal", "app") {
		dir := filepath.ToSlash(filepath.Dir(f.path))
		for _, d := range f.ast.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !strings.HasPrefix(fn.Name.Name, "Fuzz") {
				continue
			}
			names := map[string]bool{}
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					names[id.Name] = true
				}
				return true
			})
			if out[dir] == nil {
				out[dir] = map[string]map[string]bool{}
			}
			out[dir][fn.Name.Name] = names
		}
	}
	return out
}

// Every reader of text from outside is fuzzed, with its seeds run in each test.
func TestDecoders_EachIsFuzzed(t *testing.T) {
	t.Parallel()
	tests, excused, used, found := fuzzTests(t), unfuzzed(), map[string]bool{}, 0
	for _, f := range goFiles(t, notTest, "internal") {
		dir := filepath.ToSlash(filepath.Dir(f.path))
		for _, d := range f.ast.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !readsText(fn) {
				continue
			}
			found++
			name := dir + "." + fn.Name.Name
			fuzzed := false
			for _, names := range tests[dir] {
				fuzzed = fuzzed || names[fn.Name.Name]
			}
			if _, ok := excused[name]; ok {
				used[name] = true
				continue
			}
			if !fuzzed {
				t.Errorf("%s reads text from outside, and no fuzz test of its folder mentions it", name)
			}
		}
	}
	for _, name := range sortedKeys(excused) {
		if !used[name] {
			t.Errorf("%s is excused, and there is no such reader", name)
		}
	}
	const fewest = 20
	if found < fewest {
		t.Errorf("only %d readers were found: does the search still work?", found)
	}
	for dir, names := range mustFuzz() {
		for _, name := range names {
			if tests[dir][name] == nil {
				t.Errorf("%s lacks %s", dir, name)
			}
		}
	}
}
