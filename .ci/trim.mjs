// Copies the page framework without its server half: the HTTP handler, the
// static site generator and the file server need net/http, which weighs a
// third of a megabyte in the browser and does nothing there. A framework that
// has changed so that the cut no longer fits fails the build.
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
