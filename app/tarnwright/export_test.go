package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestExport_WritesAllThatThePageNames(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	code, out, errs := call("export", "-intake", "https://leads.fernhollow.example", "-hosts", "https://www.fernhollow.example", dir)
	if code != 0 || !strings.Contains(out, "files") {
		t.Fatalf("%d, %s%s", code, out, errs)
	}
	page, err := os.ReadFile(filepath.Join(dir, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile(`(?:href|src|data-book|data-words|data-queue)="(/[a-z][^"#?]*)"`).FindAllSubmatch(page, -1)
	if len(named) < 4 {
		t.Errorf("the page names %d files", len(named))
	}
	for _, m := range append(named, [][]byte{nil, []byte("/app.js")}, [][]byte{nil, []byte("/wasm_exec.js")}, [][]byte{nil, []byte("/embed.js")}) {
		if st, err := os.Stat(filepath.Join(dir, string(m[1]))); err != nil || st.Size() == 0 {
			t.Errorf("%s: %v", m[1], err)
		}
	}
	for _, want := range []string{`data-intake="https://leads.fernhollow.example/api/v1/leads"`, `data-hosts="https://www.fernhollow.example"`,
		"connect-src &#39;self&#39; https://leads.fernhollow.example", "<noscript>"} {
		if !bytes.Contains(page, []byte(want)) {
			t.Errorf("the page lacks %s", want)
		}
	}
}

func TestExport_SaysWhatIsMissing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"export"}, "name one folder"}, {[]string{"export", "there"}, "with -intake"},
		{[]string{"export", "-intake", "leads.example", "there"}, "must be a site's origin"},
		{[]string{"export", "-intake", "https://a.example", "-hosts", "*", "there"}, "must be a site's origin"},
	} {
		if code, _, errs := call(c.args...); code != 2 || !strings.Contains(errs, c.want) {
			t.Errorf("%v: %d, %s", c.args, code, errs)
		}
	}
}
