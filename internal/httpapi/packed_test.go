package httpapi_test

import (
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// The packed widget has an address that may be kept for ever. A page that was
// built without one, and an exported page, whose host may not compress a file
// it does not know, take the widget as it is.
func TestPacked_IsServedWhereThePageSaysAndNotExported(t *testing.T) {
	t.Parallel()
	said := regexp.MustCompile(` data-packed="(/assets/app\.[0-9a-f]{12}\.pack)" data-unpack="(/assets/unpack\.[0-9a-f]{12}\.js)"`)
	r := setUp(t)
	at := said.FindStringSubmatch(r.get("/").Body.String())
	if at == nil {
		t.Fatalf("the page says %s", r.get("/").Body)
	}
	w := r.get(at[1], "Accept-Encoding", "br")
	if w.Code != http.StatusOK || w.Body.String() != "packed brotli" || w.Header().Get("Content-Type") != "application/octet-stream" || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") {
		t.Errorf("%s: %d %v %q", at[1], w.Code, w.Header(), w.Body)
	}
	if files, _ := kept(t, r); !slices.Contains(files, at[1]) || !slices.Contains(files, at[2]) || slices.Contains(files, "/web/app.wasm") {
		t.Errorf("a tablet keeps %v", files)
	}
	page := ""
	if err := r.Export(httpapi.Export{Intake: "https://leads.builder.example"}, func(path string, data []byte) error {
		if strings.HasSuffix(path, ".pack") {
			t.Errorf("%s was exported", path)
		}
		if path == "index.html" {
			page = string(data)
		}
		return nil
	}); err != nil || page == "" || strings.Contains(page, "data-packed") {
		t.Errorf("%v, the exported page is %s", err, page)
	}

	r = setUp(t, func(c *httpapi.Config) { f := files(); delete(f, "dist/app.pack"); c.Assets = f })
	if page := r.get("/").Body.String(); strings.Contains(page, "data-packed") || !strings.Contains(page, "data-rehearse") {
		t.Errorf("without one the page is %s", page)
	}
	if files, _ := kept(t, r); !slices.Contains(files, "/web/app.wasm") {
		t.Errorf("without one a tablet keeps %v", files)
	}
}
