package archtest_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"go/ast"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
	"tarnwright/internal/office"
	"tarnwright/internal/toll"
)

var update = flag.Bool("update", false, "write the table of the security walk anew")

// level1 are the requirements of level 1, and chosen are those beyond it that
// this program holds itself to.
//
// Source: OWASP Application Security Verification Standard 5.0.0, read; the
// words in the table are our own.
func level1() []string {
	return strings.Fields(`1.2.1 1.2.2 1.2.3 1.2.4 1.2.5 1.3.1 1.3.2 1.5.1 2.1.1 2.2.1 2.2.2 2.3.1 3.2.1 3.2.2 3.3.1 3.4.1 3.4.2
		3.5.1 3.5.2 3.5.3 4.1.1 4.4.1 5.2.1 5.2.2 5.3.1 5.3.2 6.1.1 6.2.1 6.2.2 6.2.3 6.2.4 6.2.5 6.2.6 6.2.7 6.2.8 6.3.1 6.3.2
		6.4.1 6.4.2 7.2.1 7.2.2 7.2.3 7.2.4 7.4.1 7.4.2 8.1.1 8.2.1 8.2.2 8.3.1 9.1.1 9.1.2 9.1.3 9.2.1 10.4.1 10.4.2 10.4.3
		10.4.4 10.4.5 11.3.1 11.3.2 11.4.1 12.1.1 12.2.1 12.2.2 13.4.1 14.2.1 14.3.1 15.1.1 15.2.1 15.3.1`)
}

func chosen() []string {
	return strings.Fields(`1.2.10 1.3.6 2.3.3 2.4.1 2.4.2 3.4.3 3.4.4 3.4.5 3.4.6 3.5.4 3.5.5 3.6.1 11.5.1 13.1.3 13.3.1 13.4.4
		14.2.7 14.3.3 15.1.2 15.3.4 15.4.2 16.2.5 16.5.1 16.5.2 16.5.3`)
}

// requirement is a row of the walk: the tests that show that it holds, or else
// why there are none.
type requirement struct {
	id, level, about string
	tests            []string
	note             string
}

func walk(t *testing.T) []requirement {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(read(t, "testdata/asvs.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []requirement
	for _, r := range rows[1:] {
		out = append(out, requirement{r[0], r[1], r[2], strings.Fields(r[3]), r[4]})
	}
	return out
}

// testsOf are the names of all tests, with their folder.
func testsOf(t *testing.T) map[string]bool {
	t.Helper()
	all := map[string]bool{}
	for _, f := range goFiles(t, func(p string) bool { return strings.HasSuffix(p, "_test.go") }, "internal", "app") {
		for _, d := range f.ast.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && regexp.MustCompile(`^(Test|Fuzz)`).MatchString(fn.Name.Name) {
				all[filepath.ToSlash(filepath.Dir(f.path))+":"+fn.Name.Name] = true
			}
		}
	}
	return all
}

// Every requirement of level 1 and of the chosen ones is in the walk once, with
// tests that exist or a reason why there is none.
func TestASVS_EveryRequirementHasATestOrAReason(t *testing.T) {
	t.Parallel()
	tests, left, bare := testsOf(t), append(level1(), chosen()...), 0
	for _, r := range walk(t) {
		at := slices.Index(left, r.id)
		if at < 0 {
			t.Errorf("%s is in the walk twice, or nobody asked for it", r.id)
			continue
		}
		left = slices.Delete(left, at, at+1)
		if (r.level == "1") != slices.Contains(level1(), r.id) {
			t.Errorf("%s is not of level %s", r.id, r.level)
		}
		const fewest = 10
		if len(r.tests) == 0 && len(r.note) < fewest {
			t.Errorf("%s has neither a test nor a reason", r.id)
		}
		if len(r.tests) == 0 {
			bare++
		}
		for _, name := range r.tests {
			if !tests[name] {
				t.Errorf("%s names %s, which does not exist", r.id, name)
			}
		}
	}
	for _, id := range left {
		t.Errorf("%s is not in the walk", id)
	}
	t.Logf("%d requirements, %d with tests", len(walk(t)), len(walk(t))-bare)
}

// The table for people is made from the walk.
func TestASVS_TheTableIsTheWalk(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	b.WriteString("# Security walk\n\nOWASP Application Security Verification Standard 5.0.0: all of level 1, and what was chosen from levels 2 and 3.\n" +
		"The numbers are the standard's, the words our own. Made from asvs.csv by `go test ./internal/archtest -run ASVS -update`.\n\n" +
		"| requirement | level | what it asks | shown by |\n| --- | --- | --- | --- |\n")
	for _, r := range walk(t) {
		var by []string
		for _, name := range r.tests {
			by = append(by, "`"+name+"`")
		}
		text := strings.Join(by, ", ")
		if r.note != "" && text != "" {
			text += ". "
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", r.id, r.level, r.about, text+r.note)
	}
	if *update {
		if err := os.WriteFile(filepath.Join(root(t), "testdata/asvs.md"), []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if read(t, "testdata/asvs.md") != b.String() {
		t.Error("testdata/asvs.md is not what testdata/asvs.csv says; go test ./internal/archtest -run ASVS -update writes it")
	}
}

// What must be written down is, with the values that the program has.
func TestASVS_ThePapersSayWhatTheyMust(t *testing.T) {
	t.Parallel()
	_, after, _ := strings.Cut(read(t, "DEVELOPERS.md"), "## Security\n")
	text, _, _ := strings.Cut(after, "\n## ")
	limits := httpapi.DefaultLimits()
	for _, want := range []string{
		"testdata/asvs.md",
		fmt.Sprintf("%g enquiries a minute", limits.LeadsPerMinute), fmt.Sprintf("%g pages a minute", limits.ChecksPerMinute),
		fmt.Sprintf("%g tries to sign in a minute", limits.SignInsPerMinute),
		fmt.Sprintf("%d zero bits", toll.Bits), fmt.Sprintf("%d letters", office.ShortestPassword),
		fmt.Sprintf("%d days", int(office.InviteTime.Hours()/24)), fmt.Sprintf("%g hours", office.IdleTime.Hours()), fmt.Sprintf("%g hours", office.SessionTime.Hours()),
		"within 7 days", "within 30 days", "govulncheck", "Who may do what", "time-outs", "retries",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the part on security of DEVELOPERS.md does not say %q", want)
		}
	}
}

// Every library that go.mod asks for directly has its line and its reason.
func TestASVS_EveryDependencyIsListed(t *testing.T) {
	t.Parallel()
	_, after, _ := strings.Cut(read(t, "DEVELOPERS.md"), "## Dependencies\n")
	table, _, _ := strings.Cut(after, "\n## ")
	found := 0
	for _, m := range regexp.MustCompile(`(?m)^\t(\S+) v\S+$`).FindAllStringSubmatch(read(t, "go.mod"), -1) {
		found++
		parts := strings.Split(strings.TrimSuffix(m[1], "/v5"), "/")
		for regexp.MustCompile(`^v\d+$`).MatchString(parts[len(parts)-1]) {
			parts = parts[:len(parts)-1]
		}
		if name := parts[len(parts)-1]; !strings.Contains(table, name) {
			t.Errorf("go.mod asks for %s, and the table of dependencies does not name it", m[1])
		}
	}
	const fewest = 8
	if found < fewest {
		t.Errorf("only %d dependencies were found in go.mod", found)
	}
}
