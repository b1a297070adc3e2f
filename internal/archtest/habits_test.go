package archtest_test

import (
	"bytes"
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Package variables and init functions are state nobody passed in; errors,
// compile-time guards and embedded files are the exceptions.
func TestHabits_NoGlobalsAndNoInit(t *testing.T) {
	t.Parallel()
	for _, f := range goFiles(t, notTest, "internal", "app", "web") {
		for _, decl := range f.ast.Decls {
			switch d := decl.(type) {
			case *ast.FuncDecl:
				if d.Name.Name == "init" && d.Recv == nil {
					t.Errorf("%s has an init", f.path)
				}
			case *ast.GenDecl:
				if d.Tok == token.VAR {
					for _, s := range d.Specs {
						varFault(t, f.path, d, s.(*ast.ValueSpec))
					}
				}
			}
		}
	}
}

func varFault(t *testing.T, path string, d *ast.GenDecl, s *ast.ValueSpec) {
	t.Helper()
	for _, n := range s.Names {
		embedded := strings.Contains(d.Doc.Text(), "go:embed") || hasEmbed(d, s)
		if n.Name == "_" || strings.HasPrefix(n.Name, "Err") || strings.HasPrefix(n.Name, "err") || embedded {
			continue
		}
		t.Errorf("%s has the package variable %s", path, n.Name)
	}
}

func hasEmbed(d *ast.GenDecl, s *ast.ValueSpec) bool {
	for _, g := range []*ast.CommentGroup{d.Doc, s.Doc} {
		if g == nil {
			continue
		}
		for _, c := range g.List {
			if strings.HasPrefix(c.Text, "//go:embed") {
				return true
			}
		}
	}
	return false
}

func TestHabits_FilesStaySmall(t *testing.T) {
	t.Parallel()
	const most = 450
	for _, f := range goFiles(t, notTest, "internal", "app", "web") {
		if n := f.fset.File(f.ast.Pos()).LineCount(); n > most {
			t.Errorf("%s has %d lines, more than %d: perhaps two rooms in one", f.path, n, most)
		}
	}
}

func TestHabits_NoPackageIsALumberRoom(t *testing.T) {
	t.Parallel()
	for _, f := range goFiles(t, notTest, "internal", "app", "web") {
		switch f.ast.Name.Name {
		case "util", "utils", "common", "helpers", "types", "misc", "shared", "base", "lib":
			t.Errorf("%s: package %s is named for nothing in the trade", f.path, f.ast.Name.Name)
		}
	}
}

func TestHabits_EveryPackageSaysWhatItIs(t *testing.T) {
	t.Parallel()
	said := map[string]bool{}
	for _, f := range goFiles(t, notTest, "internal", "app", "web") {
		dir := filepath.Dir(f.path)
		said[dir] = said[dir] || f.ast.Doc.Text() != ""
	}
	for _, dir := range sortedKeys(said) {
		if !said[dir] {
			t.Errorf("%s has no package comment", dir)
		}
	}
}

// The top level is fixed.
func TestHabits_TheTopLevelHoldsNothingElse(t *testing.T) {
	t.Parallel()
	entries, err := os.ReadDir(root(t))
	if err != nil {
		t.Fatal(err)
	}
	allowed := " app internal web testdata go.mod go.sum README.md DEVELOPERS.md Makefile data "
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !strings.Contains(allowed, " "+e.Name()+" ") {
			t.Errorf("%s stands at the top level", e.Name())
		}
	}
}

// The browser's strict policy forbids style attributes and inline handlers, so
// no file of the page may hold one.
func TestHabits_NoInlineStyleOrHandler(t *testing.T) {
	t.Parallel()
	for _, f := range goFiles(t, notTest, "internal/ui", "internal/drawing", "internal/httpapi") {
		src, err := os.ReadFile(filepath.Join(root(t), f.path))
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{`"style"`, ` style=`, `"onclick"`, `javascript:`} {
			if bytes.Contains(src, []byte(bad)) {
				t.Errorf("%s holds %s", f.path, bad)
			}
		}
	}
}
