package archtest_test

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// imported are the files outside tests that import a package.
func imported(t *testing.T, paths ...string) []string {
	t.Helper()
	var out []string
	for _, f := range goFiles(t, notTest, "internal", "app", "web") {
		if strings.HasPrefix(filepath.ToSlash(f.path), "internal/store/cluster/") {
			continue // a database server for tests
		}
		for _, i := range f.ast.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range paths {
				if name == p {
					out = append(out, f.path+" imports "+p)
				}
			}
		}
	}
	return out
}

// No text of anybody's can become a command: the program starts no other.
func TestWalk_StartsNoOtherProgram(t *testing.T) {
	t.Parallel()
	if found := imported(t, "os/exec", "plugin"); len(found) > 0 {
		t.Error(strings.Join(found, "\n"))
	}
	for _, p := range strings.Fields(run(t, nil, "go", "list", "-deps", "./app/tarnwright")) {
		if p == module+"internal/store/cluster" {
			t.Error("the program links a database server for tests")
		}
	}
}

// Hashes that are broken, old ciphers and guessable numbers are used nowhere.
func TestWalk_UsesNoWeakHash(t *testing.T) {
	t.Parallel()
	if found := imported(t, "crypto/md5", "crypto/sha1", "crypto/des", "crypto/rc4", "crypto/dsa", "math/rand"); len(found) > 0 {
		t.Error(strings.Join(found, "\n"))
	}
	if len(imported(t, "crypto/sha256")) == 0 {
		t.Error("the search finds nothing at all")
	}
}
