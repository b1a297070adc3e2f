package httpapi_test

import (
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// kept lists what the worker of a server keeps, and its version.
func kept(t *testing.T, r *rig) (files []string, version string) {
	t.Helper()
	m := regexp.MustCompile(`^const version = "([0-9a-f]{12})", files = (\[.*\]);\n$`).FindStringSubmatch(r.get("/app-worker.js").Body.String())
	if m == nil {
		t.Fatalf("the worker is %s", r.get("/app-worker.js").Body)
	}
	if err := json.Unmarshal([]byte(m[2]), &files); err != nil {
		t.Fatal(err)
	}
	return files, m[1]
}

// One file that is missing would keep the tablet from ever working offline.
func TestWorker_KeepsFilesThatAreAllThere(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	files, _ := kept(t, r)
	if len(files) < 9 || files[0] != "/shell?lang=en" || files[1] != "/shell?lang=es" {
		t.Errorf("kept are %v", files)
	}
	for _, f := range files {
		if w := r.get(f); w.Code != http.StatusOK || w.Body.Len() == 0 {
			t.Errorf("%s: %d with %d bytes", f, w.Code, w.Body.Len())
		}
	}
	page := r.get("/?mode=tablet").Body.String()
	for _, m := range regexp.MustCompile(`(?:src|href|data-queue|data-patch|data-rehearse|data-packed|data-unpack)="(/[^"]+)"`).FindAllStringSubmatch(page, -1) {
		if m[1] != "/" && !strings.Contains(strings.Join(files, " ")+" ", m[1]+" ") {
			t.Errorf("the page needs %s, which is not kept", m[1])
		}
	}
}

func TestWorker_HasAnotherVersionWhenAnythingChanges(t *testing.T) {
	t.Parallel()
	_, first := kept(t, setUp(t))
	if _, same := kept(t, setUp(t)); same != first {
		t.Error("the same files have two versions")
	}
	for why, change := range map[string]func(*httpapi.Config){
		"another book":   func(c *httpapi.Config) { c.Book = []byte(`{"prices":"dearer"}`) },
		"another widget": func(c *httpapi.Config) { f := files(); f["dist/app.pack"].Data = []byte("packed new"); c.Assets = f },
		"none packed":    func(c *httpapi.Config) { f := files(); delete(f, "dist/app.pack"); c.Assets = f },
		"another style":  func(c *httpapi.Config) { f := files(); f["css/app.css"].Data = []byte("body{}"); c.Assets = f },
		"another name":   func(c *httpapi.Config) { c.AppName = "Other" },
		"another worker": func(c *httpapi.Config) {
			f := files()
			f["worker/worker.js"].Data = []byte("const version = \"VERSION\", files = [\"FILES\"];\n//\n")
			c.Assets = f
		},
	} {
		r := setUp(t, change)
		if text := r.get("/app-worker.js").Body.String(); strings.Contains(text, first) {
			t.Errorf("%s: the version is still %s", why, first)
		}
	}
}

// The page that a tablet keeps is shown to many people; a key in it would make
// their enquiries one.
func TestShell_HoldsNoKeyAndIsTheTabletsPage(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	shell := r.get("/shell").Body.String()
	if !strings.Contains(shell, `<input name="key" value="">`) || shell != r.get("/shell").Body.String() {
		t.Error("the kept page holds a key or changes by itself")
	}
	const link = `<link rel="manifest" href="/manifest.webmanifest">`
	for path, want := range map[string]bool{"/shell": true, "/?mode=tablet": true, "/": false, "/?mode=else": false} {
		if got := strings.Contains(r.get(path).Body.String(), link); got != want {
			t.Errorf("%s: has the manifest %v, want %v", path, got, want)
		}
	}
}

func TestManifest_OpensTheTabletsPage(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) { c.AppName, c.AppShort = `Fernhollow "Ponds"`, "Fernhollow" })
	w := r.get("/manifest.webmanifest")
	var m struct {
		Name      string `json:"name"`
		ShortName string `json:"short_name"`
		StartURL  string `json:"start_url"`
		Scope     string `json:"scope"`
		Display   string `json:"display"`
		Icons     []struct{ Src, Sizes, Type string }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &m); err != nil || w.Header().Get("Content-Type") != "application/manifest+json" {
		t.Fatalf("%v %s: %s", err, w.Header().Get("Content-Type"), w.Body)
	}
	if m.Name != `Fernhollow "Ponds"` || m.ShortName != "Fernhollow" || m.StartURL != "/?mode=tablet" || m.Scope != "/" || m.Display != "fullscreen" {
		t.Errorf("manifest %+v", m)
	}
	for _, i := range m.Icons {
		if got := r.get(i.Src); got.Code != http.StatusOK || got.Header().Get("Content-Type") != i.Type {
			t.Errorf("icon %s: %d %s", i.Src, got.Code, got.Header().Get("Content-Type"))
		}
	}
	if len(m.Icons) == 0 {
		t.Error("no icon")
	}
}

// toSelf stands in for the seal: what is sealed under a key is the text after it.
func toSelf(c *httpapi.Config) {
	c.SealKey = "public"
	c.Unseal = func(sender, box, beside []byte) ([]byte, error) {
		text, ok := strings.CutPrefix(string(box), string(beside))
		if !ok || string(sender) != "sender" {
			return nil, errors.New("not sealed to this key")
		}
		return []byte(text), nil
	}
}

func sealed(sender, box string) string {
	b64 := base64.StdEncoding.EncodeToString
	return fmt.Sprintf(`{"schema_version":1,"enc":%q,"box":%q}`, b64([]byte(sender)), b64([]byte(box)))
}

func TestPostSealed_GoesTheSameWayAsAnyEnquiry(t *testing.T) {
	t.Parallel()
	r := setUp(t, toSelf)
	send := func(data string) (int, string) {
		req := post(data)
		req.URL.Path = "/api/v1/sealed"
		w := r.do(req)
		return w.Code, w.Body.String()
	}
	code, first := send(sealed("sender", key+body(t, enquiry())))
	if code != http.StatusCreated {
		t.Fatalf("%d %s", code, first)
	}
	if code, again := send(sealed("sender", key+body(t, enquiry()))); code != http.StatusOK || again != first {
		t.Errorf("the repeat: %d %s, want %s", code, again, first)
	}
	// The first try may have got through in the open before the line broke.
	w := r.do(post(body(t, enquiry())))
	if w.Code != http.StatusOK || w.Body.String() != first {
		t.Errorf("the same in the open: %d %s, want %s", w.Code, w.Body, first)
	}
	if n := len(stored(t, r.store)); n != 1 {
		t.Errorf("%d stored, want 1", n)
	}
	bad := enquiry()
	bad.Contact.Name = ""
	for _, c := range []struct {
		why, data, problem string
		status             int
	}{
		{"sealed for another key", sealed("sender", "another key"+body(t, enquiry())), "sealed", 422},
		{"by another sender", sealed("else", key+body(t, enquiry())), "sealed", 422},
		{"a contact with a fault", sealed("sender", key+body(t, bad)), "faults", 422},
		{"no base64", `{"schema_version":1,"enc":"***","box":""}`, "faults", 422},
		{"another version", `{"schema_version":2,"enc":"","box":""}`, "faults", 422},
		{"no JSON", `nothing`, "faults", 400},
	} {
		if code, text := send(c.data); code != c.status || !strings.Contains(text, ":problem:"+c.problem) {
			t.Errorf("%s: %d %s", c.why, code, text)
		}
	}
	if n := len(stored(t, r.store)); n != 1 {
		t.Errorf("%d stored, want 1", n)
	}
	if strings.Contains(r.log.String(), "Maren") {
		t.Error("the log names the person")
	}
}

func TestPostSealed_IsNotThereWithoutAKey(t *testing.T) {
	t.Parallel()
	req := post(sealed("sender", "x"))
	req.URL.Path = "/api/v1/sealed"
	if w := setUp(t).do(req); w.Code != http.StatusNotFound && w.Code != http.StatusMethodNotAllowed {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}
