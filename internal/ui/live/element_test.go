package live

import (
	"testing"

	"tarnwright/internal/markup"
)

// The framework tracks what it drew; values and ticks belong to the person.
func TestControls_ListWhatEachShouldShow(t *testing.T) {
	t.Parallel()
	tree := markup.E("div",
		markup.E("input", markup.A("id", "a"), markup.A("type", "text"), markup.A("value", "34 ft")),
		markup.E("input", markup.A("id", "b"), markup.A("type", "radio"), markup.A("value", "bean"), markup.Flag("checked", true)),
		markup.E("input", markup.A("id", "c"), markup.A("type", "hidden"), markup.A("value", "x")),
		markup.E("textarea", markup.A("id", "d"), "two\nlines"),
		markup.E("select", markup.A("id", "e"), markup.E("option", markup.A("value", "1")), markup.E("option", markup.A("value", "2"), markup.Flag("selected", true))))
	got := controls(tree)
	want := []string{"a 34 ft -", "b bean +", "d two\nlines -", "e 2 -"}
	if len(got) != len(want) {
		t.Fatalf("%d controls, want %d", len(got), len(want))
	}
	for i, c := range got {
		if text := c.ID + " " + c.Value + " " + flag(c.Checked); text != want[i] {
			t.Errorf("control %d is %q, want %q", i, text, want[i])
		}
	}
	for _, c := range []struct {
		node markup.Node
		kept int
	}{{tree.Kids[0], 2}, {tree.Kids[1], 3}, {tree.Kids[2], 3}} {
		if n := len(attrs(c.node)); n != c.kept {
			t.Errorf("%s keeps %d attributes, want %d", find(c.node, "id"), n, c.kept)
		}
	}
}
