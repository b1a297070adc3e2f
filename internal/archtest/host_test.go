package archtest_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A length that depends on the window's height makes a frame that is as high
// as its page grow without end.
func TestHost_NoLengthDependsOnTheWindowsHeight(t *testing.T) {
	t.Parallel()
	entries, err := os.ReadDir(filepath.Join(root(t), "web/css"))
	if err != nil || len(entries) == 0 {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.Name() == "print.css" || e.IsDir() {
			continue // a sheet of paper is as high as it is; the office stands in no frame
		}
		for _, at := range tall(read(t, "web/css/"+e.Name())) {
			t.Errorf("%s: %s", e.Name(), at)
		}
	}
	if got := tall("a { min-height: 100vh; } /* 5vh */ .vh { height: 3px } b { height: calc(100dvh - 2px); max-height:100%; line-height: 100% }\n@media (min-height: 40vh) {}\nhtml:not(.framed) c { height: 50vh; }"); len(got) != 3 {
		t.Errorf("the check finds %q in a sheet with three slips", got)
	}
}

func tall(css string) []string {
	css = regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(css, "")
	css = regexp.MustCompile(`html:not\(\.framed\)[^{]*\{[^}]*\}`).ReplaceAllString(css, "") // where there is no frame
	css = regexp.MustCompile(`@media[^{]*`).ReplaceAllString(css, "")
	found := regexp.MustCompile(`\d(vh|dvh|svh|lvh|vb|vmin|vmax)\b`).FindAllString(css, -1)
	// A whole height matters on the page and its columns, not inside a box of
	// a height of its own.
	return append(found, regexp.MustCompile(`(?m)(^|[\s;{])(min-|max-)height: ?100%`).FindAllString(css, -1)...)
}

// What a builder's own page has to fetch stays a trifle.
func TestHost_TheEmbedScriptStaysUnderAKilobyte(t *testing.T) {
	t.Parallel()
	const most = 1000
	dir := filepath.Join(root(t), ".build/embed")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, l := range strings.Split(read(t, "web/host/embed.js"), "\n") {
		if l = strings.TrimSpace(l); l != "" && !strings.HasPrefix(l, "//") {
			lines = append(lines, l) // as the server sends it
		}
	}
	out := filepath.Join(dir, "embed.js")
	if err := os.WriteFile(out, []byte(strings.Join(lines, "\n")), 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, nil, "node", ".ci/press.mjs", out)
	if n := fileSize(t, out+".br"); n > most {
		t.Errorf("embed.js is %d bytes with brotli, more than %d", n, most)
	} else {
		t.Logf("embed.js: %d bytes with brotli", n)
	}
}
