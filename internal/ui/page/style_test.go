package page_test

import (
	"os"
	"strings"
	"testing"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

// A class that no style sheet knows is a slip of the pen in one or the other.
func TestTree_EveryClassIsInTheStyleSheets(t *testing.T) {
	t.Parallel()
	var css string
	for _, name := range []string{"app.css", "drawing.css", "print.css", "tablet.css"} {
		raw, err := os.ReadFile("../../../web/css/" + name)
		if err != nil {
			t.Fatal(err)
		}
		css += string(raw)
	}
	// Names for tests, scripts and the document's own order, without a look.
	bare := " hold main live drawn v-draw v-pump v-send p-size p-depth p-features p-site ic-builder ic-undo ic-redo ic-up pen sub slider-off" +
		" guide on-paper headtable pipetable choicetable power monthtable steptable v-compare cmp-1 trouble sum-slot fig drawn plain btn-gap headbar "
	for _, q := range []string{"", "view=pump", "view=compare", "view=send", "view=send&sheets=2", "ask=steps&part=site", "length=12 cats"} {
		for _, live := range []bool{true, false} {
			s := start(q)
			s.Live = live
			walk(page.Tree(s, built(s)), func(n markup.Node) {
				for _, c := range strings.Fields(get(n, "class")) {
					if !strings.Contains(css, "."+c) && !strings.Contains(bare, " "+c+" ") && !strings.HasPrefix(c, "dr") && !strings.HasPrefix(c, "ch") {
						t.Errorf("no style for the class %s of a %s", c, n.Tag)
						bare += c + " "
					}
				}
				if get(n, "sty"+"le") != "" {
					t.Errorf("a %s has a style of its own", n.Tag)
				}
			})
		}
	}
}
