package say_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/say"
)

// Every part of the catalogue must be in it: a file that was forgotten is
// words nobody reads.
func TestEnglish_GathersEveryPart(t *testing.T) {
	t.Parallel()
	src, err := os.ReadFile("english.go")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob("en_*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("no parts: %v", err)
	}
	for _, name := range files {
		part, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`func (\w+English)\(\)`).FindAllSubmatch(part, -1) {
			if !strings.Contains(string(src), string(m[1])+"()") {
				t.Errorf("%s has %s, which the catalogue leaves out", name, m[1])
			}
		}
	}
}

func TestEnglish_NoBannedWords(t *testing.T) {
	t.Parallel()
	w := say.English()
	banned := regexp.MustCompile(`(?i)\b(please|invalid|oops|required|forbidden|illegal)\b|[≈~]`)
	for _, key := range w.Keys() {
		if m := banned.FindString(w.Say(key)); m != "" {
			t.Errorf("%s says %q: %s", key, m, w.Say(key))
		}
	}
}
