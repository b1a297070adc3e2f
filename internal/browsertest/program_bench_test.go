package browsertest_test

import (
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

var (
	program = flag.String("program", "", "a package's tests as WASM, for BenchmarkProgram")
	these   = flag.String("these", ".", "which of its benchmarks")
	runs    = flag.Int("runs", 60, "how many runs a look is long")
	looks   = flag.Int("looks", 60, "how many looks")
)

// BenchmarkProgram runs another package's benchmarks in the browser, as the
// engine that pages run in is not the one of Node, and prints what they print.
func BenchmarkProgram(b *testing.B) {
	if *program == "" {
		b.Fatal("say which -program")
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		b.Fatal(err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/program.wasm", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/wasm")
		http.ServeFile(w, r, *program)
	})
	mux.HandleFunc("/wasm_exec.js", func(w http.ResponseWriter, r *http.Request) {
		http.ServeFile(w, r, filepath.Join(strings.TrimSpace(string(root)), "lib/wasm/wasm_exec.js"))
	})
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, `<!doctype html><title>Program</title><script src="/wasm_exec.js"></script>`)
	})
	s := httptest.NewServer(mux)
	defer s.Close()
	t := open(b, size{412, 823}, scriptOn)
	t.run(chromedp.Navigate(s.URL))
	for range b.N {
		fmt.Println(evalAwait[string](t, fmt.Sprintf(`(async () => {
			const go = new Go(), text = new TextDecoder();
			let said = "";
			globalThis.fs.writeSync = (to, bytes) => { said += text.decode(bytes, {stream: true}); return bytes.length; };
			go.argv = ["program", "-test.run", "^$", "-test.bench", %q, "-test.benchtime", "%dx", "-test.count", "%d"];
			const it = await WebAssembly.instantiateStreaming(fetch("/program.wasm"), go.importObject);
			await go.run(it.instance);
			return said;
		})()`, *these, *runs, *looks)))
	}
}
