package browsertest_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

type contextOf = context.Context

func axe(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile("../../.tools/node_modules/axe-core/axe.min.js")
	if err != nil {
		t.Fatalf("%v: run make tools", err)
	}
	return string(src)
}

// axe returns what the rules find: all that have to do with level AA and good
// practice, or some by name.
func (b *tab) axe(rules ...string) []string {
	b.t.Helper()
	only := `{type: "tag", values: ["wcag2a","wcag2aa","wcag21a","wcag21aa","wcag22aa","best-practice"]}`
	if len(rules) > 0 {
		only = `{type: "rule", values: ["` + strings.Join(rules, `","`) + `"]}`
	}
	where := "document"
	if len(rules) > 0 {
		// A drawing is one image to these rules, thousands of marks to walk.
		where = `{exclude: [[".dr-still > g"], [".ch"]]}`
	}
	var raw string
	b.run(chromedp.Evaluate(`axe.run(`+where+`, {runOnly: `+only+`})
		.then(r => JSON.stringify(r.violations.map(v => v.id + " (" + v.impact + "): " + v.help + " at " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + n.failureSummary.slice(0, 200)).join(" | "))))`,
		&raw, awaitPromise))
	var found []string
	if err := json.Unmarshal([]byte(raw), &found); err != nil {
		b.t.Fatal(err)
	}
	return found
}

// TestAxe_CanSayNo plants a fault and sees it found.
func TestAxe_CanSayNo(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	b.run(chromedp.Evaluate(axe(t), nil), chromedp.Evaluate(`document.body.insertAdjacentHTML("beforeend", "<main><input></main><p id=\"pale\">Pale</p>"); document.getElementById("pale").classList.add("pale"); document.adoptedStyleSheets = [Object.assign(new CSSStyleSheet(), {})]; document.adoptedStyleSheets[0].replaceSync(".pale { color: #ddd; }")`, nil))
	if len(b.axe(colourRules()...)) == 0 {
		t.Error("pale words passed")
	}
	if len(b.axe()) == 0 {
		t.Error("a nameless field passed")
	}
}

// TestReflow_NothingRunsOffTheSide and every target is big enough to touch.
func TestReflow_NothingRunsOffTheSide(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, view := range []string{"draw", "pump", "compare", "compare" + threeMore, "send"} {
		b := live(t, s, size{1280, 860}, "/?view="+view)
		for _, at := range []size{{1280, 860}, {1000, 800}, {768, 1024}, {390, 844}, {320, 700}} {
			b.run(emulation.SetDeviceMetricsOverride(int64(at.w), int64(at.h), 1, at.w < 600))
			b.settles()
			b.shot(fmt.Sprintf("width-%d-%.12s", at.w, strings.ReplaceAll(view, "&", "-")))
			for _, wrong := range b.misfits() {
				t.Errorf("%s at %d px: %s", view, at.w, wrong)
			}
		}
	}
}

// misfits tells what runs off the side of the page, and which targets are too
// small for a thumb.
func (b *tab) misfits() (out []string) {
	b.t.Helper()
	if over := eval[int64](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		wide := eval[string](b, `[...document.querySelectorAll("#tarnwright *")].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 && !e.closest("svg svg, .sheet svg")).slice(0, 5).map(e => e.tagName + "." + e.className).join(" ")`)
		out = append(out, fmt.Sprintf("runs %d px off the side: %s", over, wide))
	}
	small := eval[[]string](b, `[...document.querySelectorAll("#tarnwright button, #tarnwright summary, #tarnwright nav a, #tarnwright input:not([type=hidden]), #tarnwright select, #tarnwright textarea")]
		.map(e => e.matches("input.choice, input[type=radio], input[type=checkbox]") ? (e.closest("label") || document.querySelector('label[for="' + e.id + '"]') || e) : e)
		.filter(e => e.checkVisibility({checkOpacity: true, checkVisibilityCSS: true}) && !e.closest("[hidden]") && e.tabIndex !== -1 | e.tagName === "LABEL")
		.map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.width > 2 && (r.width < 43.5 || r.height < 43.5))
		.map(([e, r]) => e.tagName + " " + (e.id || e.htmlFor || e.className || e.textContent.trim()).slice(0, 40) + " " + Math.round(r.width) + "×" + Math.round(r.height))`)
	if len(small) > 0 {
		out = append(out, "targets under 44 px: "+strings.Join(small, ", "))
	}
	return out
}
