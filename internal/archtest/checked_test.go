package archtest_test

import (
	"strings"
	"testing"
)

// The README's table of what figures are held against has every kind of figure
// that the ledger has, and none that it has not.
func TestPapers_TheReadmeSaysHowEveryKindOfFigureIsChecked(t *testing.T) {
	t.Parallel()
	_, after, _ := strings.Cut(read(t, "README.md"), "## How the figures are checked")
	section, _, _ := strings.Cut(after, "\n## ")
	said := map[string]bool{}
	for _, line := range strings.Split(section, "\n") {
		if cells := strings.Split(line, "|"); len(cells) == 4 {
			for i, name := range strings.Split(cells[1], "`") {
				if i%2 == 1 {
					said[name] = true
				}
			}
		}
	}
	for _, e := range ledger(t) {
		kind, _, _ := strings.Cut(e.figure, ".")
		if _, ok := said[kind]; !ok {
			t.Errorf("the README does not say what %s figures, like %s, are held against", kind, e.figure)
		}
		said[kind] = false
	}
	for kind, unused := range said {
		if unused {
			t.Errorf("the README tells of %s figures, and the ledger has none", kind)
		}
	}
}
