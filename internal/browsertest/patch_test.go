package browsertest_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"tarnwright/internal/markup"
)

// tree grows an element with random kids; the same few names come again and
// again, so that two trees have much in common.
func tree(r *rand.Rand, deep int) markup.Node {
	some := func(all ...string) string { return all[r.IntN(len(all))] }
	var parts []any
	parts = append(parts, markup.Class(some("a", "b", "b on", "c")))
	if r.IntN(3) == 0 {
		parts = append(parts, markup.A("id", fmt.Sprintf("n%d", r.IntN(1000))))
	}
	if r.IntN(3) == 0 {
		parts = append(parts, markup.A("title", some("", `"quoted" <&>`, "a\x00b", "two\nlines", "long … text")))
	}
	parts = append(parts, markup.Flag("hidden", r.IntN(4) == 0))
	for range r.IntN(4) {
		switch {
		case r.IntN(3) == 0:
			parts = append(parts, some("text", " ", "<b>", "a\u00a0b", "é\x01"))
		case r.IntN(6) == 0:
			parts = append(parts, markup.E("svg", markup.E("g", markup.Class(some("x", "y")), markup.E("path", markup.A("d", some("M0 0", "M1 1"))), markup.E("text", "t"))))
		case r.IntN(6) == 0:
			parts = append(parts, markup.E("table", markup.E("tbody", markup.E("tr", markup.E("td", some("1", "2"))))))
		case r.IntN(6) == 0:
			parts = append(parts, markup.E("select", markup.E("option", markup.A("value", "1"), "one"), markup.E("option", markup.A("value", "2"), markup.Flag("selected", r.IntN(2) == 0), "two")))
		case deep > 0:
			parts = append(parts, tree(r, deep-1))
		}
	}
	return markup.E(some("div", "section", "span"), parts...)
}

// copied is a tree that shares nothing with the one it is like.
func copied(n markup.Node) markup.Node {
	out := n
	out.Attrs, out.Kids = append([]markup.Attr(nil), n.Attrs...), nil
	for _, k := range n.Kids {
		out.Kids = append(out.Kids, copied(k))
	}
	return out
}

// js is a text as a script writes it.
func js(s string) string {
	raw, _ := json.Marshal(s)
	return string(raw)
}

// TestPatch_MakesOnePageOfAnother takes random pages over, changes them many
// times by steps, and holds the browser's document each time against the one
// it reads from the whole markup.
func TestPatch_MakesOnePageOfAnother(t *testing.T) {
	script, err := os.ReadFile("../../web/js/patch.js")
	if err != nil {
		t.Fatal(err)
	}
	b := open(t, size{400, 300}, scriptOn)
	b.run(chromedp.Navigate("about:blank"), chromedp.Evaluate(string(script), nil))
	r := rand.New(rand.NewPCG(7, 11))
	root := func(n markup.Node) markup.Node {
		return markup.E("div", markup.A("id", "root"), markup.Class("root"), n, tree(r, 3), tree(r, 2))
	}
	changes := 0
	for range 12 {
		server, first := root(tree(r, 4)), root(tree(r, 4))
		stands := markup.Stand(first)
		var found struct {
			Size int
			Same bool
		}
		b.run(chromedp.Evaluate(fmt.Sprintf(`(() => {
			document.body.innerHTML = %s;
			window.read = (html) => { const t = document.createElement("template"); t.innerHTML = html; return t.content.firstElementChild; };
			window.same = (html) => document.getElementById("root").isEqualNode(read(html));
			const n = tarnwrightPatch.take("root", %[2]s);
			return {size: n, same: same(%[2]s)};
		})()`, js(markup.HTML(server)), js(markup.HTML(first))), &found))
		if found.Size != stands.Size() || !found.Same {
			t.Fatalf("taking over: the browser has %d nodes, want %d; the same page: %v\n%s", found.Size, stands.Size(), found.Same, markup.HTML(first))
		}
		next := first
		for range 25 {
			next = root(tree(r, 4))
			steps := stands.Change(next)
			var ok bool
			b.run(chromedp.Evaluate(fmt.Sprintf(`tarnwrightPatch.follow(%s) && same(%s)`, js(steps), js(markup.HTML(next))), &ok))
			if !ok {
				t.Fatalf("after %q the page is not\n%s", steps, markup.HTML(next))
			}
			changes++
		}
		if again := stands.Change(copied(next)); again != "" {
			t.Fatalf("a page that stays as it is takes %q", again)
		}
	}
	t.Logf("%d changes", changes)
	var ok bool
	b.run(chromedp.Evaluate(`tarnwrightPatch.follow("t\0999999\0lost\0")`, &ok))
	if ok {
		t.Error("a page that is not as it was left is said to have followed")
	}
}
