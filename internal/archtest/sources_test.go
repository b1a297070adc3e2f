package archtest_test

import (
	"go/ast"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/core/source"
)

// formulas lists the packages whose exported functions return figures and so
// must say where the formula comes from.
func formulas(path string) bool {
	for _, p := range []string{"water", "hydraulics", "pump", "takeoff", "waterbill", "geom"} {
		if strings.HasPrefix(path, "internal/core/"+p+"/") {
			return notTest(path)
		}
	}
	return false
}

func sourceLine() *regexp.Regexp { return regexp.MustCompile(`Source: ([a-z0-9_-]+)`) }

func TestSources_EveryFormulaNamesOne(t *testing.T) {
	t.Parallel()
	for _, f := range goFiles(t, formulas, "internal/core") {
		for _, decl := range f.ast.Decls {
			d, ok := decl.(*ast.FuncDecl)
			if !ok || !d.Name.IsExported() || !exportedReceiver(d) || !returnsFloat(d) {
				continue
			}
			if !strings.Contains(d.Doc.Text(), "Source: ") {
				t.Errorf("%s: %s returns a figure and its comment has no “Source: key”", f.path, d.Name.Name)
			}
		}
	}
}

func returnsFloat(d *ast.FuncDecl) bool {
	if d.Type.Results == nil {
		return false
	}
	for _, r := range d.Type.Results.List {
		if isFloat(r.Type) {
			return true
		}
	}
	return false
}

func TestSources_KeysInCommentsAreInTheRegister(t *testing.T) {
	t.Parallel()
	for _, f := range goFiles(t, func(p string) bool { return strings.HasPrefix(p, "internal/core/") }, "internal/core") {
		for _, group := range f.ast.Comments {
			for _, m := range sourceLine().FindAllStringSubmatch(group.Text(), -1) {
				if _, ok := source.Find(source.Key(m[1])); !ok {
					t.Errorf("%s names the source %q, which the register does not have", f.path, m[1])
				}
			}
		}
	}
}

func TestSources_TheRegisterIsSound(t *testing.T) {
	t.Parallel()
	seen := map[source.Key]bool{}
	for _, e := range source.All() {
		if seen[e.Key] {
			t.Errorf("%s is in the register twice", e.Key)
		}
		seen[e.Key] = true
		if e.Title == "" || e.Known == "" {
			t.Errorf("%s lacks a title or how we know it", e.Key)
		}
	}
}
