package archtest_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/config"
)

func read(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root(t), name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// The code map has a line for each package, worded as the package says itself.
func TestPapers_TheCodeMapIsTheTree(t *testing.T) {
	t.Parallel()
	text := read(t, "DEVELOPERS.md")
	_, after, _ := strings.Cut(text, "## Code map")
	section, _, _ := strings.Cut(after, "\n## ")
	on := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^- `([^`]+)`: .{10,}$").FindAllStringSubmatch(section, -1) {
		on[m[1]] = true
	}
	for _, p := range list(t, "linux", "amd64") {
		path := strings.TrimPrefix(p.ImportPath, module)
		if !on[path] {
			t.Errorf("the code map of DEVELOPERS.md has no line for %s", path)
		}
		delete(on, path)
	}
	for _, path := range sortedKeys(on) {
		t.Errorf("the code map names %s, which is not in the tree", path)
	}
}

// Every command the papers show is one that make or the binary has.
func TestPapers_TheCommandsTheyShowExist(t *testing.T) {
	t.Parallel()
	makefile := read(t, "Makefile")
	for _, paper := range []string{"README.md", "DEVELOPERS.md"} {
		blocks := regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllStringSubmatch(read(t, paper), -1)
		if len(blocks) == 0 {
			t.Errorf("%s shows no command", paper)
		}
		for _, b := range blocks {
			check := exec.Command("sh", "-n")
			check.Stdin = strings.NewReader(b[1])
			if out, err := check.CombinedOutput(); err != nil {
				t.Errorf("%s: the shell refuses a block: %v %s", paper, err, out)
			}
			for _, m := range regexp.MustCompile(`(?m)^make ([a-z]+)`).FindAllStringSubmatch(b[1], -1) {
				if !regexp.MustCompile(`(?m)^` + m[1] + `:`).MatchString(makefile) {
					t.Errorf("%s shows “make %s”, which the Makefile does not have", paper, m[1])
				}
			}
		}
	}
}

// The README's first two commands are what a newcomer and CI run.
func TestPapers_TheReadmeOpensWithTheJobAndItsTwoCommands(t *testing.T) {
	t.Parallel()
	text := read(t, "README.md")
	run, test := strings.Index(text, "make run"), strings.Index(text, "make test")
	if run < 0 || test < run {
		t.Error("the README must show make run first and make test second")
	}
	for _, want := range []string{"not a quotation", "local code", ".png"} {
		if !strings.Contains(text, want) {
			t.Errorf("the README lacks %q", want)
		}
	}
	for _, m := range regexp.MustCompile(`!\[[^\]]+\]\(([^)]+)\)`).FindAllStringSubmatch(text, -1) {
		if _, err := os.Stat(filepath.Join(root(t), m[1])); err != nil {
			t.Errorf("the README's picture is missing: %v", err)
		}
	}
}

// The README's table of settings is the settings.
func TestPapers_TheReadmeShowsEverySetting(t *testing.T) {
	t.Parallel()
	text := read(t, "README.md")
	for _, s := range config.Describe() {
		value := ""
		if s.Default != "" {
			value = "`" + s.Default + "` "
		}
		flag := "none"
		if s.Flag != "" {
			flag = "`-" + s.Flag + "`"
		}
		row := "| " + flag + " | `" + s.Variable + "` | " + s.Help + " | " + value + "|"
		if !strings.Contains(text, row+"\n") {
			t.Errorf("the README lacks the row\n%s", row)
		}
	}
}
