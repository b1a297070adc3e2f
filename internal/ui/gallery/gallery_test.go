package gallery_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"strings"
	"testing"

	"tarnwright/internal/ui/gallery"
)

// parts reads the names of all parts out of their package: exported functions
// and types that give a node. What names itself a mark is told apart.
func parts(t *testing.T) (names, marks map[string]bool) {
	t.Helper()
	names, marks = map[string]bool{}, map[string]bool{}
	all, err := parser.ParseDir(token.NewFileSet(), "../part", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(all["part"], func(n ast.Node) bool {
		switch d := n.(type) {
		case *ast.FuncDecl:
			if !givesNode(d.Type) || !d.Name.IsExported() {
				return true
			}
			if d.Recv == nil {
				names[d.Name.Name] = true
			} else if of, ok := d.Recv.List[0].Type.(*ast.Ident); ok && d.Name.Name == "Node" {
				names[of.Name] = true
			}
		case *ast.ValueSpec:
			if of, ok := d.Type.(*ast.Ident); ok && of.Name == "Mark" && len(d.Values) == 1 {
				if v, ok := d.Values[0].(*ast.BasicLit); ok && v.Value != `""` {
					marks[strings.Trim(v.Value, `"`)] = true
				}
			}
		}
		return true
	})
	return names, marks
}

func givesNode(f *ast.FuncType) bool {
	if f.Results == nil || len(f.Results.List) != 1 {
		return false
	}
	of, ok := f.Results.List[0].Type.(*ast.SelectorExpr)
	return ok && of.Sel.Name == "Node"
}

func TestPieces_ShowEveryPart(t *testing.T) {
	t.Parallel()
	names, marks := parts(t)
	if len(names) < 12 || len(marks) < 10 {
		t.Fatalf("only %d parts and %d marks were found", len(names), len(marks))
	}
	seen := map[string]bool{}
	for _, p := range gallery.Pieces() {
		if !names[p.Part] {
			t.Errorf("the gallery shows %s, which is no part", p.Part)
		}
		if p.Node.IsNone() || seen[p.Part+p.State] {
			t.Errorf("%s, %s is empty or stands there twice", p.Part, p.State)
		}
		seen[p.Part], seen[p.Part+p.State] = true, true
		if p.Part == "Icon" {
			delete(marks, p.State)
		}
	}
	for name := range names {
		if !seen[name] {
			t.Errorf("the gallery lacks the part %s", name)
		}
	}
	for mark := range marks {
		t.Errorf("the gallery lacks the mark %s", mark)
	}
}
