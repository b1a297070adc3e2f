package archtest_test

import (
	"encoding/csv"
	"go/ast"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/wire"
)

// evidence is the ledger: for each figure, what outside the project says it is
// right, and the test that asks. Kinds: handbook (a printed value), independent
// (another method or library), definition (true by definition), builder (the
// builder's own number carried over).
type evidence struct{ figure, kind, test, against string }

func ledger(t *testing.T) []evidence {
	t.Helper()
	f, err := os.Open(filepath.Join(root(t), "testdata/evidence.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []evidence
	for _, row := range rows[1:] {
		all = append(all, evidence{row[0], row[1], row[2], row[3]})
	}
	return all
}

func demoSheet(t *testing.T) *sheet.Sheet { t.Helper(); return caseSheet(t, "demo") }

// caseFigures lists the figures of all cases, each once.
func caseFigures(t *testing.T) []sheet.ID {
	t.Helper()
	dirs, err := os.ReadDir(filepath.Join(root(t), "testdata/cases"))
	if err != nil {
		t.Fatal(err)
	}
	var all []sheet.ID
	seen := map[sheet.ID]bool{}
	for _, dir := range dirs {
		if !dir.IsDir() {
			continue
		}
		for _, f := range caseSheet(t, dir.Name()).Figures {
			if !seen[f.ID] {
				all = append(all, f.ID)
			}
			seen[f.ID] = true
		}
	}
	return all
}

func caseSheet(t *testing.T, dir string) *sheet.Sheet {
	t.Helper()
	name := filepath.Join(root(t), "testdata/cases", dir, "design.json")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	d, faults := wire.ReadDesign(name, data)
	if len(faults) > 0 {
		t.Fatalf("%s design: %v", dir, faults)
	}
	return core.Compute(d, book.Demo())
}

// tests lists the test functions of the tree as dir:Name.
func tests(t *testing.T) map[string]bool {
	t.Helper()
	found := map[string]bool{}
	for _, f := range goFiles(t, func(p string) bool { return !notTest(p) }, "internal") {
		for _, d := range f.ast.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && (strings.HasPrefix(fn.Name.Name, "Test") || strings.HasPrefix(fn.Name.Name, "Fuzz")) {
				found[strings.TrimPrefix(filepath.Dir(f.path), "internal/")+":"+fn.Name.Name] = true
			}
		}
	}
	return found
}

func TestEvidence_EveryFigureHasACheckOutsideTheProject(t *testing.T) {
	t.Parallel()
	known := tests(t)
	has := map[string]bool{}
	for _, e := range ledger(t) {
		has[e.figure] = true
		if !known[e.test] {
			t.Errorf("%s: the ledger names the test %s, which does not exist", e.figure, e.test)
		}
		switch e.kind {
		case "handbook", "independent", "definition", "builder":
		default:
			t.Errorf("%s: the ledger has no kind %q", e.figure, e.kind)
		}
		if e.against == "" {
			t.Errorf("%s: the ledger does not say what the figure is held against", e.figure)
		}
	}
	for _, id := range caseFigures(t) {
		if !has[string(id)] {
			t.Errorf("%s has no row in testdata/evidence.csv", id)
		}
		delete(has, string(id))
	}
	for _, id := range sortedKeys(has) {
		t.Errorf("the ledger has a row for %s, which no case shows", id)
	}
}

func TestEvidence_EveryFigureOfTheDemoNamesItsSourceAndWorking(t *testing.T) {
	t.Parallel()
	for _, f := range demoSheet(t).Figures {
		e, ok := source.Find(f.Source)
		if !ok {
			t.Errorf("%s names the source %q, which the register does not have", f.ID, f.Source)
		}
		if e.Known == source.FromMemory {
			t.Logf("%s rests on %s, which is from memory", f.ID, e.Key)
		}
		if f.Working == "" {
			t.Errorf("%s has no working", f.ID)
		}
	}
}
