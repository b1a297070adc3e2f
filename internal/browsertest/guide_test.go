package browsertest_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// asked lists the questions in sight, by name.
const asked = `[...new Set([...document.querySelectorAll(".in [name][form=design], .in [name]")]
	.filter(e => e.type !== "hidden" && e.tagName !== "BUTTON" && e.name !== "part" && (e.closest("label") ?? e).checkVisibility())
	.map(e => e.name))].sort().join(" ")`

// unfolded opens what is folded away, so that its questions count.
const unfolded = `document.querySelectorAll(".in details").forEach(d => d.open = true); 0`

// TestGuide_AsksTheSameQuestions walks through the steps at a phone's width
// and a wide page's, and holds all that was asked against the open page.
func TestGuide_AsksTheSameQuestions(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, at := range []size{{390, 844}, {1280, 860}} {
		b := live(t, s, at, "/?ask=all&length=41+ft")
		b.run(chromedp.Evaluate(unfolded, nil))
		all := strings.Fields(eval[string](b, asked))
		if len(all) < 15 {
			t.Fatalf("at %d px the open page asks only %q", at.w, all)
		}
		b.click("ask-steps")
		b.until("one group is in sight", `document.querySelectorAll(".grp").length === 4 && [...document.querySelectorAll(".grp")].filter(e => e.checkVisibility()).length === 1`)
		var led []string
		for step := 1; ; step++ {
			b.run(chromedp.Evaluate(unfolded, nil))
			b.shot(fmt.Sprintf("guide-%d-%d", at.w, step))
			led = append(led, strings.Fields(eval[string](b, asked))...)
			if at.w < 600 && !eval[bool](b, `(r => r.height > 40 && r.top >= 0 && r.bottom <= innerHeight)(document.querySelector(".dock").getBoundingClientRect())`) {
				t.Errorf("step %d: the figures are out of sight", step)
			}
			if at.w >= 600 && !eval[bool](b, `document.getElementById("r-budget").checkVisibility()`) {
				t.Errorf("step %d: the figures are out of sight", step)
			}
			if step == 4 {
				break
			}
			b.click("step-next")
			b.until("the next step is here", fmt.Sprintf(`document.querySelector(".steps .note").textContent.startsWith("Step %d of 4")`, step+1))
			if got := eval[string](b, `document.activeElement.id`); !strings.HasPrefix(got, "g-") {
				t.Errorf("step %d: the focus is on %q", step+1, got)
			}
		}
		if a, z := strings.Join(all, " "), strings.Join(sorted(led), " "); a != z {
			t.Errorf("at %d px all at once asks\n%s\nand step by step\n%s", at.w, a, z)
		}
		b.until("the address has the step", `location.search.includes("part=site") && location.search.includes("ask=steps")`)
		b.run(chromedp.Reload())
		b.until("the widget took over again", isLive)
		if got := eval[string](b, `document.querySelector(".steps .note").textContent + document.getElementById("f-length").value`); got != "Step 4 of 441 ft" {
			t.Errorf("after a reload it reads %q", got)
		}
		b.click("step-back")
		b.until("a step back", `document.querySelector(".steps .note").textContent.startsWith("Step 3")`)
		b.click("ask-all")
		b.until("all is in sight", `[...document.querySelectorAll(".grp")].every(e => e.checkVisibility())`)
		b.click("ask-steps")
		b.click("step-next")
		b.until("the last step again", `document.getElementById("step-next")?.textContent.includes("send")`)
		b.click("step-next")
		b.until("it ends where the enquiry is", `document.getElementById("f-name") !== null`)
		b.quiet()
	}
}

func sorted(names []string) []string {
	out := append([]string(nil), names...)
	slices.Sort(out)
	return slices.Compact(out)
}

// TestGuide_WithoutScriptLosesNothingTyped types on one step and goes on.
func TestGuide_WithoutScriptLosesNothingTyped(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{390, 844}, scriptOff)
	b.run(chromedp.Navigate(s.url + "/"))
	b.fill("f-length", "44 ft")
	b.run(loads(chromedp.Click("#step-next", chromedp.ByQuery)))
	b.fill("f-deep", "7 ft")
	b.run(loads(chromedp.Click("#step-next", chromedp.ByQuery)))
	if got := eval[string](b, `[...document.querySelectorAll(".grp")].filter(e => e.checkVisibility()).map(e => e.className).join()`); got != "grp g-features" {
		t.Errorf("the third step shows %q", got)
	}
	b.run(loads(chromedp.Click("#step-back", chromedp.ByQuery)))
	b.fill("f-beach_slope", "1 in 6")
	b.run(loads(chromedp.Click("#ask-all", chromedp.ByQuery)))
	if got := eval[string](b, `["length", "deep", "beach_slope"].map(f => document.getElementById("f-" + f).value).join() + [...document.querySelectorAll(".grp")].filter(e => e.checkVisibility()).length`); got != "44 ft,7 ft,1 in 64" {
		t.Errorf("all at once shows %q", got)
	}
	b.run(loads(chromedp.Click("#tab-pump", chromedp.ByQuery)), loads(chromedp.Click("#tab-draw", chromedp.ByQuery)))
	if !eval[bool](b, `document.querySelector(".ask-all") !== null`) {
		t.Error("the way of asking was lost on the way round")
	}
	b.quiet()
}

// TestGuide_BackAndForwardOfTheBrowserLeadThroughTheSteps and nothing that was
// typed on the way is lost.
func TestGuide_BackAndForwardOfTheBrowserLeadThroughTheSteps(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{390, 844}, "/?deep=6+ft")
	at := func(step int, because string) {
		t.Helper()
		b.until(because, fmt.Sprintf(`document.querySelector(".steps .note")?.textContent.startsWith("Step %d of 4")`, step))
	}
	answers := func(want string) {
		t.Helper()
		if got := eval[string](b, `["length", "deep"].map(f => document.getElementById("f-" + f).value).join()`); got != want {
			t.Errorf("the answers are %q, want %q", got, want)
		}
	}
	before := b.reading("volume")
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", before, "a longer pond")
	b.click("step-next")
	at(2, "the second step")
	b.fill("f-deep", "7 ft")
	deeper := b.changes("volume", longer, "a deeper pond")
	b.click("step-next")
	at(3, "the third step")
	b.run(chromedp.Evaluate(`window.sameVisit = true; history.back(); 0`, nil))
	at(2, "Back leads to the second step")
	b.run(chromedp.Evaluate(`history.back(); 0`, nil))
	at(1, "Back leads to the first step")
	answers("41 ft,7 ft")
	b.run(chromedp.Evaluate(`history.forward(); 0`, nil))
	at(2, "Forward leads to the second step")
	if got := eval[string](b, `document.activeElement.id`); got != "g-depth" {
		t.Errorf("the focus is on %q", got)
	}
	b.click("step-next")
	at(3, "on to the third step")
	b.click("step-next")
	at(4, "the last step")
	b.click("step-next")
	b.until("the enquiry", `document.getElementById("f-name") !== null`)
	b.fill("f-name", "Maren Oakes")
	b.run(chromedp.Evaluate(`history.back(); 0`, nil))
	at(4, "Back leads from the enquiry to the last step")
	answers("41 ft,7 ft")
	b.run(chromedp.Evaluate(`history.forward(); 0`, nil))
	b.until("Forward leads to the enquiry, with what was typed", `document.getElementById("f-name")?.value === "Maren Oakes"`)
	if !eval[bool](b, `window.sameVisit === true`) {
		t.Error("the page was loaded anew on the way")
	}
	b.run(chromedp.Evaluate(`history.go(-3); 0`, nil))
	at(2, "three back at once")
	if got := b.reading("volume"); got != deeper {
		t.Errorf("the volume is %q, want %q", got, deeper)
	}
	b.until("the address has the step and the pond", `location.search.includes("part=depth") && location.search.includes("length=41") && location.hash.startsWith("#d=1.")`)
	b.quiet()
}

// TestBack_ToAnEntryThatIsNotThePagesOwn goes past an entry that another
// program made, as a browser's own tools or a script around the page may: the
// page stays one page, and keeps what was typed.
func TestBack_ToAnEntryThatIsNotThePagesOwn(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?deep=6+ft")
	before := b.reading("volume")
	b.run(chromedp.Evaluate(`history.pushState(null, "", "/?deep=5+ft"); 0`, nil))
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", before, "a longer pond")
	b.until("the address has the pond", `location.search.includes("length=41")`)
	b.run(chromedp.Evaluate(`history.back(); 0`, nil))
	b.until("the address of the entry is the pond's", `location.search.includes("length=41") && location.search.includes("deep=6")`)
	if got := b.reading("volume"); got != longer {
		t.Errorf("the volume is %q, want %q", got, longer)
	}
	b.fill("f-width", "20 ft")
	b.changes("volume", longer, "a narrower pond")
	if got := eval[string](b, `["length", "deep", "width"].map(f => document.getElementById("f-" + f).value).join()`); got != "41 ft,6 ft,20 ft" {
		t.Errorf("the answers are %q", got)
	}
	b.quiet()
}
