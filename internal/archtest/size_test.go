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
	const most = 1.25
	ours := fileSize(t, filepath.Join(root(t), "web/dist/app.wasm.br"))
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
	t.Logf("widget %d B, hello world %d B, both brotli: %.3f times", ours, theirs, ratio)
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
