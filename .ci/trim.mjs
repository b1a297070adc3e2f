// Copies the page framework without what this page never uses: the HTTP
// handler, the static site generator and the file server need net/http, which
// weighs a third of a megabyte in the browser and does nothing there; encrypted
// browser storage brings a cipher suite, and the browser can make its own ids.
// A framework that has changed so that a cut no longer fits
// fails the build, and a call to what was cut fails.
import { cpSync, readFileSync, rmSync, writeFileSync, chmodSync, readdirSync } from "node:fs";
import { join } from "node:path";

const [from, to] = process.argv.slice(2);
rmSync(to, { recursive: true, force: true });
cpSync(from, to, { recursive: true, filter: (p) => !p.endsWith("_test.go") });
open(to);

const app = join(to, "pkg/app");
for (const file of ["http.go", "static.go", "wasm.go"]) writeFileSync(join(app, file), "package app\n");
cut("resource.go", 'import (\n\t"net/http"\n\t"strings"\n)', 'import "strings"');
cut("resource.go", "\t\tHandler:   http.FileServer(http.Dir(directory)),\n", "");
cut("resource.go", "\thttp.Handler\n", "");

writeFileSync(join(app, "crypto.go"), `package app

import "github.com/maxence-charriere/go-app/v10/pkg/errors"

func encrypt(string, []byte) ([]byte, error) { return nil, errors.New("this build has no encrypted storage") }

func decrypt(string, []byte) ([]byte, error) { return nil, errors.New("this build has no encrypted storage") }
`);
for (const file of ["context.go", "state.go"]) {
  cut(file, '\t"github.com/google/uuid"\n', "");
  cut(file, "uuid.NewString()", "newID()");
}
writeFileSync(join(app, "id.go"), `package app

func newID() string { return Window().Get("crypto").Call("randomUUID").String() }
`);

// Routes by pattern keep a regular expression engine alive.
cut("route.go", 'import (\n\t"regexp"\n\t"sync"\n)', 'import "sync"');
cut("route.go", "regexp.MustCompile(pattern)", "noPattern(pattern)");
cut("route.go", "*regexp.Regexp", "pattern");
writeFileSync(join(app, "pattern.go"), `package app

type pattern struct{}

func noPattern(string) pattern { panic("this build has no routes by pattern") }

func (pattern) MatchString(string) bool { return false }
`);

function cut(file, old, now) {
  const path = join(app, file);
  const text = readFileSync(path, "utf8");
  if (!text.includes(old)) throw new Error(`${file} is not as it was when this cut was made: ${JSON.stringify(old)}`);
  writeFileSync(path, text.replace(old, now));
}

// The module cache is read-only, and so would be the copy.
function open(dir) {
  chmodSync(dir, 0o755);
  for (const e of readdirSync(dir, { withFileTypes: true })) {
    const p = join(dir, e.name);
    if (e.isDirectory()) open(p);
    else chmodSync(p, 0o644);
  }
}
