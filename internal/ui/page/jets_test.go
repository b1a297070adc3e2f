package page_test

import (
	"strings"
	"testing"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

// Who cannot see the jets on the plan finds them in its description and among
// the places in the table; without jets nothing is said of them.
func TestDraw_JetsAreOnThePlanAndInItsWords(t *testing.T) {
	t.Parallel()
	s, m := pumped(t, "jets=4")
	html := markup.HTML(page.Tree(s, m))
	for _, want := range []string{`class="dr-spray"`, "Jets in the wall, on a pipe of their own from the pump: 4.", "Jets, 4 in the wall"} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
	s, m = pumped(t, "jets=0")
	html = markup.HTML(page.Tree(s, m))
	for _, not := range []string{`class="dr-spray"`, "Jets in the wall", "0 in the wall"} {
		if strings.Contains(html, not) {
			t.Errorf("%q where there are no jets", not)
		}
	}
	_, m = pumped(t, "view=pump&jets=4")
	if picture := words(m.Pumping.Pipework); !strings.Contains(picture, "4 × Jets") {
		t.Errorf("the pipework does not show the jets: %s", picture)
	}
}
