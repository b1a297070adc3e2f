package browsertest_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Three ponds side by side, with what a step of each answer does.
const (
	threeMore    = "&called=As+drawn&called=Longer+swim&called=Small+and+still&opt=length%3D44ft%26width%3D19ft%26lip%3D6ft&opt=length%3D28ft%26width%3D18ft%26cascade%3Doff&steps=1"
	threeOptions = "/?view=compare" + threeMore
)

// options are the names of the ponds compared, in order.
const options = `[...document.querySelectorAll(".cmp-name h2")].map(e => e.textContent).join(", ")`

// TestCompare_AddsOpensAndComesBack compares with script, and the address
// brings the same back without.
func TestCompare_AddsOpensAndComesBack(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 900}, "/?view=compare")
	b.click("add-0")
	b.until("a longer one stands beside it", options+` === "A: As drawn, B: Longer swim"`)
	b.click("add-1")
	b.until("a smaller one too", options+` === "A: As drawn, B: Longer swim, C: Small and still"`)
	b.until("a best value is named", `document.querySelectorAll(".cmp-best").length === 1`)
	b.click("change-1")
	b.fill("f-called-1", "Lap pond")
	b.until("it has its name", options+` === "A: As drawn, B: Lap pond, C: Small and still"`)
	b.click("months-C")
	b.until("the months are the third's", `document.getElementById("months-C").getAttribute("aria-current") === "true"`)
	b.shot("compare")
	b.until("the address carries them", `location.search.includes("Lap+pond")`)
	address := eval[string](b, `location.pathname + location.search`)
	shown := eval[string](b, `document.querySelector(".cmp").innerText`)
	off := open(t, size{1280, 900}, scriptOff)
	off.run(chromedp.Navigate(s.url + address))
	if got := eval[string](off, options); got != "A: As drawn, B: Lap pond, C: Small and still" {
		t.Errorf("without script the options are %s", got)
	}
	if got := eval[string](off, `[...document.querySelectorAll(".cmp dd")].map(e => e.textContent.trim()).join("|")`); got !=
		eval[string](b, `[...document.querySelectorAll(".cmp dd")].map(e => e.textContent.trim()).join("|")`) {
		t.Errorf("the server shows\n%s\nand the widget\n%s", got, shown)
	}
	off.run(chromedp.Click("#change-0", chromedp.ByQuery), loads(chromedp.Click("#drop-0", chromedp.ByQuery)))
	if got := eval[string](off, options); got != "A: Lap pond, B: Small and still" {
		t.Errorf("with the first taken away the options are %s", got)
	}
	b.click("open-1")
	b.until("the second is drawn", `document.getElementById("tarnwright").dataset.view === "draw" && document.getElementById("f-length").value.startsWith("44")`)
	b.click("tab-compare")
	b.until("it is in hand", `document.querySelectorAll(".cmp-pond")[1]?.innerText.includes("show this one") === true`)
	b.quiet()
	off.quiet()
}

// TestCompare_StepsAreShownOnlyWhenAsked and hidden again.
func TestCompare_StepsAreShownOnlyWhenAsked(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 900}, "/?view=compare")
	if eval[bool](b, `document.querySelector(".steptable table") !== null`) {
		t.Error("the steps were worked out before anyone asked")
	}
	b.click("steps")
	b.until("they are shown", `document.querySelectorAll(".steptable tbody tr").length > 6`)
	if text := eval[string](b, `document.querySelector(".steptable").textContent`); !strings.Contains(text, "electricity") || !strings.Contains(text, "to") {
		t.Errorf("the steps say %q", text)
	}
	b.click("steps")
	b.until("they are hidden", `document.querySelector(".steptable table") === null`)
	b.quiet()
}
