// Package archtest keeps the house in order: who may import whom, how things
// are named, what has a source and a check, and what the papers say.
package archtest_test

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

const module = "tarnwright/"

// room states the place of a package: which of our own packages and which
// outside ones it may import, and why no more. The most exact entry wins; a
// package without one fails, and so does an entry without a package.
type room struct {
	path    string
	may     string // own packages, space separated; "x/..." takes all below x
	outside string // modules and std packages beyond the pure list
	why     string
}

// pure is the part of the standard library that can neither do I/O nor keep
// state nor tell the time.
const pure = "cmp errors fmt iter maps math math/bits math/rand/v2 slices sort strconv strings time unicode unicode/utf8"

const decimal = "github.com/shopspring/decimal"
const goApp = "github.com/maxence-charriere/go-app/v10/pkg/app"

// rooms is read top to bottom as a policy: change it to change the house,
// never to make a build pass.
func rooms() []room {
	return []room{
		{"internal/core/num", "", "", "numerics know no pond words"},
		{"internal/core/source", "", "", "the register names sources and nothing else"},
		{"internal/core/money", "", decimal, "nobody else sees the decimal library"},
		{"internal/core/design", "internal/core/money", "", "what may be asked for stands before any formula; prices in it are decimal text"},
		{"internal/core/sheet", "internal/core/money internal/core/source", "", "a sheet calculates nothing"},
		{"internal/core/water", "internal/core/num internal/core/source", "", "properties of water need no design"},
		{"internal/core/geom", "internal/core/num internal/core/design", "", "shape knows no money and no pumps"},
		{"internal/core/layout", "internal/core/num internal/core/design internal/core/geom internal/core/sheet", "", "where things stand comes from the shape alone"},
		{"internal/core/takeoff", "internal/core/num internal/core/design", "", "quantities come from plain measures, so any shape will do"},
		{"internal/core/hydraulics", "internal/core/num internal/core/money internal/core/water internal/core/source internal/core/design", "", "pipes know no pumps' makers and no bills; a pipe size carries its price"},
		{"internal/core/pump", "internal/core/num internal/core/money internal/core/water internal/core/hydraulics internal/core/design", "", "a pump knows pipes, not hours"},
		{"internal/core/power", "internal/core/num internal/core/money internal/core/design internal/core/pump", "", "hours and kilowatt-hours, no prices"},
		{"internal/core/tariff", "internal/core/num internal/core/money internal/core/design internal/core/power", "", "bills know hours, not pipes"},
		{"internal/core/waterbill", "internal/core/num internal/core/money internal/core/design internal/core/water internal/core/tariff", "", "water lost and its price"},
		{"internal/core/budget", "internal/core/num internal/core/money internal/core/sheet internal/core/takeoff", "", "prices times takeoff, nothing of how they came about"},
		{"internal/core/safety", "internal/core/sheet internal/core/source", "", "rules read the sheet and nothing behind it"},
		{"internal/core", "internal/core/...", "reflect", "the façade: one call, no I/O"},

		{"internal/markup", "", "html", "a tree of elements knows no pond"},
		{"internal/measure", "internal/core/sheet internal/core/money", "", "the only package that has heard of feet"},
		{"internal/say", "internal/core/sheet internal/core/design internal/core/source internal/measure", "", "words for people live here"},
		{"internal/form", "internal/core/design internal/core/money internal/core/num internal/core/sheet internal/measure", "net/url", "what was typed and the design it means"},
		{"internal/theme", "", "", "colours and fonts know no file and no page"},
		{"internal/link", "", "encoding/base64", "a table of codes that outlives the form's own changes"},
		{"internal/qr", "", "rsc.io/qr/coding", "a text becomes a picture, whatever it says"},
		{"internal/jsonfile", "", "bytes encoding encoding/json reflect regexp io", "strict files, any struct"},
		{"internal/book", "internal/core/... internal/jsonfile internal/theme", "bytes embed io/fs encoding/json path", "the builder's files become core types"},
		{"internal/lead", "internal/core/design internal/core/sheet", "context crypto/sha256 encoding/hex encoding/json io net/mail", "page and server check a lead with the same code"},
		{"internal/toll", "", "encoding/binary", "page and server reckon one small work"},
		{"internal/sieve", "internal/lead", "", "signs of a machine, weighed; knows no request"},
		{"internal/wire", "internal/core/... internal/lead internal/jsonfile", "bytes encoding/base64 encoding/json", "shapes used by both ends"},
		{"internal/view", "internal/core/sheet internal/core/design internal/core/source internal/core/money internal/measure internal/say", "", "strings for screens; no browser and no framework"},
		{"internal/drawing", "internal/core/sheet internal/markup", "", "pictures come from the plan and the sheet"},

		{"internal/ui/part", "internal/markup internal/drawing", "", "controls with no domain knowledge"},
		{"internal/ui/gallery", "internal/markup internal/drawing internal/ui/part", "", "parts in every state, for developers; nothing shipped links it"},
		{"internal/ui/page", "internal/core/sheet internal/core/design internal/core/source internal/drawing internal/form internal/lead internal/link internal/markup internal/measure internal/qr internal/say internal/view internal/ui/part internal/toll", "net/url", "screens arrange parts; no framework"},
		{"internal/ui/browser", "", goApp + " syscall/js encoding/json", "the only package that touches the browser"},
		{"internal/ui/live", "internal/core internal/core/num internal/core/sheet internal/core/design internal/form internal/lead internal/markup internal/measure internal/wire internal/ui/page internal/ui/browser internal/say internal/view internal/book internal/toll", goApp + " net/url encoding/json runtime", "mounts the page's tree with the framework"},

		{"internal/account", "", "context", "who may sign in; knows no pages and no database"},
		{"internal/store/ledger", "internal/lead", "encoding/json io/fs", "what two databases keep alike; it opens neither"},
		{"internal/store/sqlite", "internal/account internal/lead internal/store/ledger", "context database/sql embed encoding/json io io/fs github.com/ncruces/go-sqlite3 github.com/ncruces/go-sqlite3/driver github.com/ncruces/go-sqlite3/embed sync sync/atomic os path path/filepath net/url", "one database, behind lead.Store"},
		{"internal/store/postgres", "internal/account internal/lead internal/store/ledger", "context embed github.com/jackc/pgx/v5 github.com/jackc/pgx/v5/pgconn github.com/jackc/pgx/v5/pgxpool", "the other database, behind the same interfaces"},
		{"internal/store/cluster", "", "context net/url os os/exec os/user path/filepath runtime sync/atomic syscall github.com/jackc/pgx/v5", "a database server of its own, for tests"},
		{"internal/store/powercut", "", "github.com/ncruces/go-sqlite3 github.com/ncruces/go-sqlite3/vfs github.com/ncruces/go-sqlite3/util/vfsutil io sync", "a disk that loses what was not synced, for tests"},
		{"internal/store/storetest", "internal/account internal/lead internal/core/design", "context reflect testing sync", "the contract every store keeps"},
		{"internal/post", "internal/lead internal/core/design internal/core/sheet internal/measure internal/say internal/view", "std github.com/wneessen/go-mail", "tells the office, and knows neither the database nor the server"},
		{"internal/office", "internal/account", "bufio context crypto/rand crypto/sha256 crypto/subtle embed encoding/base64 encoding/hex net/mail golang.org/x/crypto/argon2", "lets people in; knows no pages and no database"},
		{"internal/office/export", "internal/core/sheet internal/jsonfile internal/lead internal/measure internal/say internal/wire", "encoding/csv io", "files for other programs, and nothing of HTTP"},
		{"internal/office/desk", "internal/account internal/core internal/core/money internal/core/sheet internal/form internal/lead internal/link internal/markup internal/measure internal/office internal/office/export internal/say internal/ui/page internal/ui/part internal/view internal/wire", "std", "the office's pages; a store is passed in, and no database is known"},
		{"internal/httpapi", "internal/core internal/core/sheet internal/core/design internal/book internal/lead internal/wire internal/jsonfile internal/markup internal/say internal/sieve internal/toll", "std golang.org/x/time/rate", "HTTP, and neither SQL nor screens"},
		{"internal/tally", "", "context io net/http runtime runtime/debug sync", "counts, and knows neither requests nor people"},
		{"internal/seal", "", "crypto/ecdh crypto/ecdsa crypto/elliptic crypto/hkdf crypto/hpke crypto/rand crypto/sha256 crypto/x509 encoding/base64 encoding/pem io/fs os path/filepath", "the one holder of the private key"},
		{"internal/config", "internal/jsonfile", "bytes flag os io net net/netip net/url path/filepath github.com/pelletier/go-toml/v2 github.com/pelletier/go-toml/v2/unstable", "the only reader of flags, environment and settings file"},
		{"web", "", "embed io/fs", "the files the browser takes"},

		{"app/tarnwright", "internal/... web", "std " + goApp, "wires parts; no logic"},
		{"app/gallery", "internal/markup internal/ui/gallery web", "std", "writes the gallery; shipped to nobody"},
		{"app/widget", "internal/...", "std " + goApp, "wires parts; no logic"},
		{"internal/archtest", "internal/...", "std", "looks at everything"},
		{"internal/browsertest", "internal/... web", "std github.com/chromedp/chromedp github.com/chromedp/cdproto", "drives the real page"},
	}
}

type listed struct {
	ImportPath string
	Imports    []string
}

func list(t *testing.T, goos, goarch string) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Imports", "./...")
	cmd.Dir = root(t)
	cmd.Env = append(os.Environ(), "GOOS="+goos, "GOARCH="+goarch)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list for %s/%s: %v", goos, goarch, err)
	}
	var all []listed
	dec := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func root(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func find(path string) (room, bool) {
	for _, r := range rooms() {
		if r.path == path {
			return r, true
		}
	}
	return room{}, false
}

func TestImports_RunOneWay(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, target := range [][2]string{{"linux", "amd64"}, {"js", "wasm"}} {
		for _, p := range list(t, target[0], target[1]) {
			path := strings.TrimPrefix(p.ImportPath, module)
			seen[path] = true
			r, ok := find(path)
			if !ok {
				t.Errorf("%s has no place in the table: state what it may import and why", path)
				continue
			}
			for _, imp := range p.Imports {
				if !allowed(r, imp) {
					t.Errorf("%s must not import %s: %s", path, imp, r.why)
				}
			}
		}
	}
	for _, r := range rooms() {
		if !seen[r.path] {
			t.Errorf("the table has a place for %s, which does not exist", r.path)
		}
		if r.why == "" {
			t.Errorf("%s has a place without a reason", r.path)
		}
	}
}

func allowed(r room, imp string) bool {
	if own, ok := strings.CutPrefix(imp, module); ok {
		for _, m := range strings.Fields(r.may) {
			if own == m || (strings.HasSuffix(m, "/...") && strings.HasPrefix(own+"/", strings.TrimSuffix(m, "..."))) {
				return true
			}
		}
		return false
	}
	for _, m := range strings.Fields(pure + " " + r.outside) {
		if imp == m || (m == "std" && !strings.Contains(strings.Split(imp, "/")[0], ".")) ||
			(strings.HasPrefix(m, "github.com/chromedp/") && strings.HasPrefix(imp, m)) {
			return true
		}
	}
	return false
}

// The policy is worth nothing if it cannot say no.
func TestImports_ThePolicyRefusesWhatItShould(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ from, imp string }{
		{"internal/core/geom", "os"},
		{"internal/core/geom", module + "internal/core/money"},
		{"internal/core/pump", decimal},
		{"internal/view", goApp},
		{"internal/ui/page", module + "internal/httpapi"},
		{"internal/httpapi", module + "internal/ui/page"},
		{"internal/httpapi", module + "internal/store/sqlite"},
		{"internal/post", module + "internal/store/sqlite"},
		{"internal/office/desk", module + "internal/store/sqlite"},
		{"internal/office", "net/http"},
		{"internal/store/postgres", module + "internal/store/sqlite"},
		{"internal/core", "time/tzdata"},
		{"internal/core", "net/http"},
	} {
		r, ok := find(c.from)
		if !ok {
			t.Fatalf("no room %s", c.from)
		}
		if allowed(r, c.imp) {
			t.Errorf("%s may import %s, and must not", c.from, c.imp)
		}
	}
}

// sortedKeys makes failures come in the same order each run.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
