package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarnwright/internal/book"
)

// A look that people could not read is refused before the server starts, and
// by the check of files, with the pair and its line.
func TestLook_ThatCannotBeReadIsRefused(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "book")
	if err := os.CopyFS(dir, book.DemoFiles()); err != nil {
		t.Fatal(err)
	}
	pale := "{\"file_version\": 1,\n\"colours\": {\"ink_faint\": \"#98A8A4\"}}"
	if err := os.WriteFile(filepath.Join(dir, book.ThemeName), []byte(pale), 0o600); err != nil {
		t.Fatal(err)
	}
	const want = "theme.json:2:26: ink_faint (#98A8A4) on paper (#FBF7EF) has a contrast of 2."
	if code, _, errs := call("serve", "-addr", "127.0.0.1:0", "-data", t.TempDir(), "-book", dir); code != 1 || !strings.Contains(errs, want) {
		t.Errorf("serve: %d, %s", code, errs)
	}
	if code, _, errs := call("check", dir); code != 1 || !strings.Contains(errs, want) {
		t.Errorf("check: %d, %s", code, errs)
	}
}
