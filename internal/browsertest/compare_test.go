package browsertest_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// Three ponds side by side, and with what a step of each answer does.
const (
	threeBeside  = "&called=As+drawn&called=Longer+swim&called=Small+and+still&opt=length%3D44ft%26width%3D19ft%26lip%3D6ft&opt=length%3D28ft%26width%3D18ft%26cascade%3Doff"
	threeMore    = threeBeside + "&steps=1"
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

// electricity is what each option costs in electricity a year, with a pump of
// one speed.
const electricity = `[...document.querySelectorAll(".cmp-pair dd")].map(e => e.textContent.trim()).join("|")`

// TestCompare_OnePriceIsTypedForAll types it by the keyboard, takes it back, and
// sends it as a form where script does not run.
func TestCompare_OnePriceIsTypedForAll(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 900}, "/?view=compare"+threeBeside)
	before := eval[string](b, electricity)
	b.run(chromedp.Focus("#f-each", chromedp.ByQuery), chromedp.Evaluate(`document.getElementById("f-each").select()`, nil))
	for _, key := range "0.32" {
		b.run(chromedp.KeyEvent(string(key)))
	}
	first := strconv.Itoa(2 * dollars(t, before) / 100) // $577 of 16 cents make $1,154 of 32
	b.until("all are worked out again", electricity+`.replace(/[$,]/g, "").startsWith("`+first+`")`)
	after := eval[string](b, electricity)
	for i, one := range strings.Split(before, "|") {
		was, is := dollars(t, one), dollars(t, strings.Split(after, "|")[i])
		if is < 2*was-1 || is > 2*was+1 {
			t.Errorf("option %d costs $%d at 32 cents and $%d at 16", i, is, was)
		}
	}
	if at := eval[string](b, `document.activeElement.id`); at != "f-each" {
		t.Errorf("the keyboard is at %q now", at)
	}
	b.until("the address has it for each", `(new URL(location).searchParams.getAll("opt").join(" ") + location.search).split("power=0.32").length === 4`)
	off := open(t, size{1280, 900}, scriptOff)
	off.run(chromedp.Navigate(s.url+threeOptions), chromedp.SetValue("#f-each", "0.32", chromedp.ByQuery), loads(chromedp.Click("#update-each", chromedp.ByQuery)))
	if got := eval[string](off, electricity); got != after {
		t.Errorf("without script the options cost %s, with it %s", got, after)
	}
	b.fill("f-each", "dear")
	b.until("it is said to be no price, and stays", `document.getElementById("f-each-fault").offsetHeight > 0 && document.getElementById("f-each").value === "dear"`)
	if got := eval[string](b, electricity); got != after {
		t.Errorf("with a price that is none the options cost %s", got)
	}
	b.click("undo")
	b.until("it is taken back", electricity+` === "`+before+`"`)
	b.quiet()
	off.quiet()
}

// dollars reads "$1,234".
func dollars(t *testing.T, text string) int {
	t.Helper()
	first, _, _ := strings.Cut(text, "|")
	n, err := strconv.Atoi(strings.ReplaceAll(strings.TrimPrefix(strings.Fields(first)[0], "$"), ",", ""))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestPage_IsDrawnForTheWidthItHas turns a tablet and turns it back.
func TestPage_IsDrawnForTheWidthItHas(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1024, 700}, "/")
	const sees = `(id => document.getElementById(id)?.getClientRects().length > 0)`
	b.until("wide, the wide drawing", sees+`("pond") && !`+sees+`("pondlet")`)
	b.run(emulation.SetDeviceMetricsOverride(500, 900, 1, true))
	b.until("narrow, the narrow one", sees+`("pondlet") && !`+sees+`("pond")`)
	b.run(emulation.SetDeviceMetricsOverride(1024, 700, 1, true))
	b.until("wide again, the wide one", sees+`("pond") && !`+sees+`("pondlet")`)
	b.quiet()
}

// TestCompare_TakesWhatWasTypedBeforeTheWidget was there: the price of all, and
// a name.
func TestCompare_TakesWhatWasTypedBeforeTheWidget(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 900}, scriptOn)
	b.run(chromedp.Navigate(s.url+threeOptions), chromedp.WaitVisible("#f-each", chromedp.ByQuery))
	if eval[bool](b, isLive) {
		t.Fatal("the widget was there before anything could be typed; the test proves nothing")
	}
	b.run(chromedp.Evaluate(`document.getElementById("f-called-1").value = "Lap pond"`, nil))
	before := eval[string](b, electricity)
	b.fill("f-each", "0.32")
	b.until("the widget took over", isLive)
	b.until("the name is there", options+` === "A: As drawn, B: Lap pond, C: Small and still"`)
	if got := eval[string](b, `document.getElementById("f-each").value`); got != "0.32" {
		t.Errorf("the price is %q, want what was typed", got)
	}
	for i, one := range strings.Split(eval[string](b, electricity), "|") {
		if was := dollars(t, strings.Split(before, "|")[i]); dollars(t, one) < 2*was-1 {
			t.Errorf("option %d costs %s, and cost $%d at half the price", i, one, was)
		}
	}
	b.quiet()
}
