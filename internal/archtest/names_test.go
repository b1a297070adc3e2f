package archtest_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode"
)

// units is the closed list of endings a float64 may carry in the core, as in
// Go and as in JSON. A new one is a reviewed line.
func units() map[string]string {
	return map[string]string{
		"M": "m", "M2": "m2", "M3": "m3", "M3PerS": "m3_per_s", "MPerS": "m_per_s", "MPerH": "m_per_h", "MPerDay": "m_per_day",
		"MPerS2": "m_per_s2", "M2PerS": "m2_per_s", "M3PerH": "m3_per_h", "M2PerS2": "m2_per_s2", "SPerM5": "s2_per_m5", "PerM": "per_m",
		"S": "s", "H": "h", "HPerDay": "h_per_day", "Days": "days", "Months": "months", "Years": "years", "HPerYear": "h_per_year",
		"Pa": "pa", "KPa": "kpa", "KPaPerDegC": "kpa_per_deg_c", "PaS": "pa_s", "W": "w", "KW": "kw", "KWh": "kwh", "KWhPerMonth": "kwh_per_month",
		"DegC": "deg_c", "DegF": "deg_f", "K": "k", "Rad": "rad", "Deg": "deg", "Kg": "kg", "T": "t", "KgPerM3": "kg_per_m3", "TPerM3": "t_per_m3",
		"KgPerKWh": "kg_per_kwh", "KgPerS": "kg_per_s", "KgPerM2": "kg_per_m2", "TPerM": "t_per_m",
		"Ratio": "ratio", "Share": "share", "Coef": "coef", "Count": "count", "Exponent": "exponent", "Index": "index",
		"Mm": "mm", "MmPerDay": "mm_per_day", "MmPerMonth": "mm_per_month", "MmPerYear": "mm_per_year",
		"MJPerM2": "mj_per_m2", "MJPerM2Day": "mj_per_m2_day", "MJPerKg": "mj_per_kg", "WPerM2": "w_per_m2", "M3PerSPerM": "m3_per_s_per_m", "RevPerMin": "rev_per_min", "M3PerM2": "m3_per_m2", "M2PerM": "m2_per_m", "M3PerM": "m3_per_m", "PerDay": "per_day", "PerYear": "per_year", "PerM2": "per_m2", "PerM3": "per_m3",
	}
}

// plain lists the packages whose floats have no unit of their own: numerics,
// the sheet's columns (each names its unit beside it), faults' arguments.
func plain(path string) bool {
	for _, p := range []string{"internal/core/num", "internal/core/sheet", "internal/core/money", "internal/core/design/fault.go"} {
		if strings.HasPrefix(path, p) {
			return true
		}
	}
	return false
}

func endsInUnit(name string) bool {
	for u := range units() {
		if strings.EqualFold(name, u) {
			return true
		}
		if head, ok := strings.CutSuffix(name, u); ok && head != "" {
			last := rune(head[len(head)-1])
			// A quantity named by one letter, such as the C of Hazen and
			// Williams, stands before its unit as it is.
			if len(head) == 1 || unicode.IsLower(last) || unicode.IsDigit(last) || last == 'X' || last == 'Y' {
				return true
			}
		}
	}
	return false
}

type goFile struct {
	path string
	ast  *ast.File
	fset *token.FileSet
}

// goFiles parses every Go file below dirs that keep says to.
func goFiles(t *testing.T, keep func(path string) bool, dirs ...string) []goFile {
	t.Helper()
	var files []goFile
	for _, dir := range dirs {
		err := filepath.WalkDir(filepath.Join(root(t), dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
				return err
			}
			rel, _ := filepath.Rel(root(t), path)
			if !keep(rel) {
				return nil
			}
			fset := token.NewFileSet()
			f, err := parser.ParseFile(fset, path, nil, parser.ParseComments)
			if err != nil {
				return err
			}
			files = append(files, goFile{rel, f, fset})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return files
}

func notTest(path string) bool { return !strings.HasSuffix(path, "_test.go") }

func TestNames_EveryFloatOfTheCoreSaysItsUnit(t *testing.T) {
	t.Parallel()
	files := goFiles(t, func(p string) bool { return notTest(p) && !plain(p) }, "internal/core")
	if len(files) == 0 {
		t.Fatal("no files were read")
	}
	for _, f := range files {
		for _, why := range unitFaults(f.ast) {
			t.Errorf("%s: %s", f.path, why)
		}
	}
}

func TestNames_TheCheckSeesAPlantedSlip(t *testing.T) {
	t.Parallel()
	src := "package p\ntype T struct { Diameter float64 `json:\"diameter_m\"`; WidthM float64 `json:\"width_ft\"` }\nfunc Head(q float64) (h float64) { return q }\n"
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", src, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got := unitFaults(f); len(got) != 4 {
		t.Errorf("faults = %q, want four", got)
	}
}

func isFloat(e ast.Expr) bool {
	switch v := e.(type) {
	case *ast.Ident:
		return v.Name == "float64"
	case *ast.ArrayType:
		return isFloat(v.Elt)
	case *ast.Ellipsis:
		return isFloat(v.Elt)
	}
	return false
}

func unitFaults(f *ast.File) []string {
	var faults []string
	for _, decl := range f.Decls {
		switch d := decl.(type) {
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				ts, ok := spec.(*ast.TypeSpec)
				if !ok || !ts.Name.IsExported() {
					continue
				}
				if st, ok := ts.Type.(*ast.StructType); ok {
					faults = append(faults, fieldFaults(ts.Name.Name, st)...)
				}
			}
		case *ast.FuncDecl:
			if d.Name.IsExported() && exportedReceiver(d) {
				faults = append(faults, funcFaults(d)...)
			}
		}
	}
	return faults
}

func exportedReceiver(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return true
	}
	e := d.Recv.List[0].Type
	if s, ok := e.(*ast.StarExpr); ok {
		e = s.X
	}
	id, ok := e.(*ast.Ident)
	return ok && id.IsExported()
}

func fieldFaults(typ string, st *ast.StructType) []string {
	var faults []string
	for _, fl := range st.Fields.List {
		if !isFloat(fl.Type) {
			continue
		}
		for _, n := range fl.Names {
			if !n.IsExported() {
				continue
			}
			if !endsInUnit(n.Name) {
				faults = append(faults, typ+"."+n.Name+" does not end in a unit")
			}
			if fl.Tag == nil {
				continue
			}
			tag, _, _ := strings.Cut(reflect.StructTag(strings.Trim(fl.Tag.Value, "`")).Get("json"), ",")
			if !sameEnding(n.Name, tag) {
				faults = append(faults, typ+"."+n.Name+" is "+tag+" in the file, another unit")
			}
		}
	}
	return faults
}

func sameEnding(name, tag string) bool {
	for u, j := range units() {
		if strings.HasSuffix(name, u) && (tag == j || strings.HasSuffix(tag, "_"+j)) {
			return true
		}
	}
	return tag == ""
}

func funcFaults(d *ast.FuncDecl) []string {
	var faults []string
	for _, p := range d.Type.Params.List {
		if !isFloat(p.Type) {
			continue
		}
		for _, n := range p.Names {
			if !endsInUnit(n.Name) {
				faults = append(faults, d.Name.Name+": parameter "+n.Name+" does not end in a unit")
			}
		}
	}
	if d.Type.Results == nil || endsInUnit(d.Name.Name) {
		return faults
	}
	for _, r := range d.Type.Results.List {
		if !isFloat(r.Type) {
			continue
		}
		if len(r.Names) == 0 {
			faults = append(faults, d.Name.Name+": a result has no name, so no unit")
		}
		for _, n := range r.Names {
			if !endsInUnit(n.Name) {
				faults = append(faults, d.Name.Name+": result "+n.Name+" does not end in a unit")
			}
		}
	}
	return faults
}
