package archtest_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// hello is the framework's smallest program: what the page may be weighed
// against.
const hello = `//go:build wasm

// Command hello is the framework's smallest page.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type page struct{ app.Compo }

func (p *page) Render() app.UI { return app.H1().Text("Hello") }

func main() {
	app.Route("/", func() app.Composer { return &page{} })
	app.RunWhenOnBrowser()
}
`

// TestSize_TheWidgetStaysNearTheFrameworksOwnWeight builds the smallest page
// beside the shipped widget, with the same flags and the same compressor.
func TestSize_TheWidgetStaysNearTheFrameworksOwnWeight(t *testing.T) {
	t.Parallel()
	const most, mostPacked = 1.25, 1.0 // a page that unpacks the widget brings less
	ours := fileSize(t, filepath.Join(root(t), "web/dist/app.wasm.br"))
	packed := fileSize(t, filepath.Join(root(t), "web/dist/app.pack.br"))
	dir := filepath.Join(root(t), ".build/hello")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "main.go"), []byte(hello), 0o600); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "app.wasm")
	run(t, []string{"GOOS=js", "GOARCH=wasm"}, "go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "./.build/hello")
	run(t, nil, "node", ".ci/press.mjs", out)
	theirs := fileSize(t, out+".br")
	ratio := float64(ours) / float64(theirs)
	packedRatio := float64(packed) / float64(theirs)
	t.Logf("widget %d B, packed %d B, hello world %d B, all brotli: %.3f and %.3f times", ours, packed, theirs, ratio, packedRatio)
	if packedRatio > mostPacked {
		t.Errorf("packed, the widget is %.3f times hello world, more than %.2f", packedRatio, mostPacked)
	}
	if ratio > most {
		t.Errorf("the widget is %.3f times hello world, more than %.2f; newest dependencies:\n%s", ratio, most,
			run(t, []string{"GOOS=js", "GOARCH=wasm"}, "go", "list", "-deps", "./app/widget"))
	}
}

// The browser's half must not pull in what only a server needs.
func TestSize_HeavyPackagesStayOutOfTheWidget(t *testing.T) {
	t.Parallel()
	deps := " " + strings.Join(strings.Fields(run(t, []string{"GOOS=js", "GOARCH=wasm"}, "go", "list", "-deps", "./app/widget")), " ") + " "
	for _, heavy := range []string{"html/template", "text/template", "database/sql", "log/slog", "golang.org/x/text/language",
		"github.com/ncruces/go-sqlite3", "github.com/wneessen/go-mail", module + "internal/post", module + "internal/httpapi", module + "internal/office", module + "internal/office/desk", module + "internal/store/sqlite", module + "internal/config"} {
		if strings.Contains(deps, " "+heavy+" ") {
			t.Errorf("the widget links %s", heavy)
		}
	}
}

// One hash of the library brings 40 kB of ciphers and their self-tests. The
// framework's own are cut out when the widget is built.
func TestSize_NoPackageOfOursBringsCiphers(t *testing.T) {
	t.Parallel()
	deps := " " + strings.Join(strings.Fields(run(t, []string{"GOOS=js", "GOARCH=wasm"}, "go", "list", "-deps", "./app/widget")), " ") + " "
	seen := 0
	for _, p := range list(t, "js", "wasm") {
		if !strings.Contains(deps, " "+p.ImportPath+" ") {
			continue
		}
		seen++
		for _, imp := range p.Imports {
			if imp == "crypto" || strings.HasPrefix(imp, "crypto/") {
				t.Errorf("%s imports %s in the browser", p.ImportPath, imp)
			}
		}
	}
	const fewest = 20
	if seen < fewest {
		t.Errorf("only %d packages of ours are in the widget", seen)
	}
}

func fileSize(t *testing.T, path string) int64 {
	t.Helper()
	st, err := os.Stat(path)
	if err != nil {
		t.Fatalf("%v: run make dist first", err)
	}
	return st.Size()
}

func run(t *testing.T, env []string, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Dir = root(t)
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

// lost is a program that goes deep, collects, tells where it is, and recovers.
const lost = `//go:build wasm

package main

import (
	"fmt"
	"runtime"
)

func deep(n int) int {
	var pad [256]byte
	if n == 0 {
		runtime.GC()
		return 0
	}
	return deep(n-1) + int(pad[n%256])
}

func where() {
	pc := make([]uintptr, 8)
	frames := runtime.CallersFrames(pc[:runtime.Callers(1, pc)])
	for more := true; more; {
		var f runtime.Frame
		f, more = frames.Next()
		fmt.Println(f.Function, f.File != "", f.Line)
	}
}

func main() {
	defer func() { fmt.Println("recovered:", recover()) }()
	deep(20000)
	where()
	var none map[string]int
	none["x"] = 1
}
`

// What is taken out of the widget is what a trace says of lines, and nothing
// that a program runs by.
func TestSize_ASlimProgramRunsAndNamesItsFunctions(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(root(t), ".build/lost")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "main.go"), []byte(lost), 0o600); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "lost.wasm") // a build leaves alone what it made before
	run(t, []string{"GOOS=js", "GOARCH=wasm"}, "go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "./.build/lost")
	exec := filepath.Join(strings.TrimSpace(run(t, nil, "go", "env", "GOROOT")), "lib/wasm/wasm_exec_node.js")
	whole := run(t, nil, "node", exec, out)
	if !strings.Contains(whole, "main.where true 21\n") {
		t.Errorf("whole, it says:\n%s", whole)
	}
	if said := run(t, nil, "node", ".ci/slim.mjs", out); said != "" {
		t.Error(said)
	}
	slim := run(t, nil, "node", exec, out)
	if want := "main.where true 0\nmain.main true 0\n"; !strings.Contains(slim, want) || !strings.Contains(slim, "recovered: assignment to entry in nil map\n") {
		t.Errorf("slim, it says:\n%s\nwant in it:\n%s", slim, want)
	}
	// A file that is no such program stays as it is.
	other := filepath.Join(dir, "other.wasm")
	if err := os.WriteFile(other, []byte("\x00asm\x01\x00\x00\x00\x0b\x06\x01\x00\x41\x00\x0b\x00"), 0o600); err != nil {
		t.Fatal(err)
	}
	if said := run(t, nil, "node", ".ci/slim.mjs", other); !strings.Contains(said, "keeps its line tables") || fileSize(t, other) != 16 {
		t.Errorf("of another file it says %q", said)
	}
}
