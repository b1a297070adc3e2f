package browsertest_test

import (
	"fmt"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// isLive gives a sign of a person, which the widget waits for, and tells
// whether it has taken over.
const isLive = `(dispatchEvent(new Event("pointermove")), document.getElementById("tarnwright")?.classList.contains("live") === true)`

// live opens the page and waits until the widget has taken over.
func live(t testing.TB, s *server, at size, address string) *tab {
	t.Helper()
	b := open(t, at, scriptOn)
	b.run(chromedp.Navigate(s.url + address))
	b.until("the widget took over", isLive)
	return b
}

// reading is the text of one result.
func (b *tab) reading(id string) string {
	b.t.Helper()
	return eval[string](b, `document.getElementById("r-`+id+`").innerText`)
}

// changes waits until a reading says something other than before.
func (b *tab) changes(id, before, because string) string {
	b.t.Helper()
	b.until(because+" changes the reading "+id, fmt.Sprintf(`document.getElementById("r-%s").innerText !== %q`, id, before))
	return b.reading(id)
}

// fill types a text over what a field holds.
func (b *tab) fill(id, text string) {
	b.t.Helper()
	b.run(chromedp.Focus("#"+id, chromedp.ByQuery))
	// A frame hears of the focus late, and would let go of what is selected.
	// Asked from here: a page with script off settles no promise.
	for wait := time.Now().Add(3 * time.Second); time.Now().Before(wait) && !eval[bool](b, `document.hasFocus()`); {
	}
	b.run(chromedp.Evaluate(`document.getElementById("`+id+`").select()`, nil), chromedp.KeyEvent(text))
}

func (b *tab) click(id string) {
	b.t.Helper()
	b.press("#" + id)
}

// press clicks what a selector finds once it has stood still: a page that has
// just been typed into may yet move what is aimed at.
func (b *tab) press(selector string) {
	b.t.Helper()
	b.run(chromedp.Evaluate(fmt.Sprintf(`document.querySelector(%q).scrollIntoView({block:"center"})`, selector), nil))
	box := fmt.Sprintf(`JSON.stringify(document.querySelector(%q).getBoundingClientRect())`, selector)
	tick := time.NewTicker(40 * time.Millisecond)
	defer tick.Stop()
	last, same := "", 0
	for end := time.Now().Add(patience); same < 8 && time.Now().Before(end); <-tick.C {
		if now := eval[string](b, box); now == last {
			same++
		} else {
			last, same = now, 0
		}
	}
	b.run(chromedp.Click(selector, chromedp.ByQuery))
}

// TestJourney_AHomeownerChangesEverythingAndSends walks the whole way: every
// input moves its figures, a lead with a mistake keeps what was typed, the
// mended lead is stored.
func TestJourney_AHomeownerChangesEverythingAndSends(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	b.shot("journey-draw")

	steps := []struct {
		why, reading string
		do           func()
	}{
		{"a longer pond", "volume", func() { b.fill("f-length", "40 ft") }},
		{"one press of plus", "volume", func() { b.click("s-width-more") }},
		{"an oval", "volume", func() { b.press("label:has(#f-shape-oval)") }},
		{"a shallower deep end", "volume", func() { b.fill("f-deep", "5 ft") }},
		{"a beach to the south", "volume", func() { b.press("label:has(#f-beach-s)") }},
		{"no regeneration zone", "volume", func() { b.click("f-zone") }},
		{"a wider lip", "flow", func() { b.fill("f-lip", "6 ft") }},
		{"a higher cascade", "duty", func() { b.fill("f-rise", "3 ft") }},
		{"no deck", "budget", func() { b.click("f-deck") }},
		{"dearer power", "power", func() { b.fill("f-power", "$0.30 / kWh") }},
		{"dearer water", "water", func() { b.fill("f-water", "$9.00 / 1,000 gal") }},
		{"a shorter season", "power", func() {
			b.run(chromedp.Focus("#f-to", chromedp.ByQuery), chromedp.KeyEvent("Sep"))
		}},
		{"metric", "volume", func() { b.press("label:has(#f-units-metric)") }},
	}
	for _, st := range steps {
		before := b.reading(st.reading)
		st.do()
		b.changes(st.reading, before, st.why)
	}
	if got := b.reading("volume"); !strings.Contains(got, "m³") {
		t.Errorf("the metric volume reads %q", got)
	}
	b.until("the address carries the pond", `location.search.includes("shape=oval")`)
	if said := eval[string](b, `document.getElementById("status").textContent`); strings.Contains(said, "undefined") {
		t.Errorf("the status line says %q", said)
	}

	b.click("tab-pump")
	b.until("the pump page shows", `document.getElementById("tarnwright").dataset.view === "pump"`)
	b.shot("journey-pump")
	b.click("tab-send")
	b.until("the last page shows", `document.getElementById("tarnwright").dataset.view === "send"`)
	b.fill("f-name", "Maren Oakes")
	b.fill("f-email", "maren@oakesmail")
	b.fill("f-note", "The site slopes <b>a little</b> & the lane is narrow.")
	b.click("send")
	b.until("the mistake is shown", `document.querySelector("#f-email[aria-invalid=true]") !== null`)
	b.shot("journey-mistake")
	if got := eval[string](b, `document.getElementById("f-note").value`); !strings.Contains(got, "<b>a little</b>") {
		t.Errorf("the note was lost: %q", got)
	}
	b.fill("f-email", "maren@oakesmail.example")
	b.click("f-consent")
	b.click("send")
	b.until("it was sent", `document.getElementById("sent") !== null`)
	b.shot("journey-sent")
	b.quiet()

	out, err := exec.Command(binary(t), "leads", "-data", s.data).CombinedOutput()
	if err != nil || !strings.Contains(string(out), "maren@oakesmail.example") {
		t.Errorf("leads: %v\n%s", err, out)
	}
	if strings.Contains(s.log.String(), "oakesmail") || strings.Contains(s.log.String(), "Maren") {
		t.Error("the server's log names the person")
	}
}

// TestTakeover_KeepsWhatWasTypedAndTheFocus types before the widget is there.
func TestTakeover_KeepsWhatWasTypedAndTheFocus(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(s.url+"/"), chromedp.WaitVisible("#f-length", chromedp.ByQuery))
	if eval[bool](b, isLive) {
		t.Fatal("the widget was there before anything could be typed; the test proves nothing")
	}
	b.fill("f-length", "41 ft")
	b.until("the widget took over", isLive)
	if got := eval[string](b, `document.getElementById("f-length").value`); got != "41 ft" {
		t.Errorf("length = %q, want what was typed", got)
	}
	if got := eval[string](b, `document.activeElement.id`); got != "f-length" {
		t.Errorf("the focus went to %q", got)
	}
	b.quiet()
}

// TestTakeover_ShowsTheServersFigures compares every reading before and after.
func TestTakeover_ShowsTheServersFigures(t *testing.T) {
	t.Parallel()
	s := serve(t)
	const all = `[...document.querySelectorAll("#figures section, .notes li, .pump p, table")].map(e => e.textContent.replace(/\s+/g, " ").trim()).join("\n")`
	for _, address := range []string{"/", "/?shape=oval&length=44+ft&units=metric", "/?view=pump", "/?view=send&zone=off"} {
		off := open(t, size{1280, 860}, scriptOff)
		off.run(chromedp.Navigate(s.url + address))
		before := eval[string](off, all)
		after := eval[string](live(t, s, size{1280, 860}, address), all)
		if before == "" || before != after {
			t.Errorf("%s: the server shows\n%s\nand the widget\n%s", address, before, after)
		}
	}
}

// TestNoScript_AnswersAsAPlainForm goes through figures, steppers, tabs and
// the enquiry with script off.
func TestNoScript_AnswersAsAPlainForm(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 860}, scriptOff)
	b.run(chromedp.Navigate(s.url + "/"))
	first := b.reading("volume")
	b.fill("f-length", "44 ft")
	b.run(loads(chromedp.Click("#update", chromedp.ByQuery)))
	longer := b.reading("volume")
	if longer == first {
		t.Errorf("a longer pond still reads %q", longer)
	}
	b.run(loads(chromedp.Click("#s-length-more", chromedp.ByQuery)))
	if got := b.reading("volume"); got == longer {
		t.Errorf("one press of plus still reads %q", got)
	}
	b.run(loads(chromedp.Click("#tab-send", chromedp.ByQuery)))
	b.fill("f-name", "Maren Oakes")
	b.run(loads(chromedp.Click("#send", chromedp.ByQuery)))
	if got := eval[string](b, `document.getElementById("f-name").value`); got != "Maren Oakes" {
		t.Errorf("the name came back as %q", got)
	}
	b.fill("f-email", "maren@oakesmail.example")
	b.run(chromedp.Click("#f-consent", chromedp.ByQuery), loads(chromedp.Click("#send", chromedp.ByQuery)))
	if !eval[bool](b, `document.getElementById("sent") !== null`) {
		t.Errorf("not sent: %s", eval[string](b, `document.body.innerText`))
	}
	b.quiet()
}

// loads runs an action and waits for the page that it leads to.
func loads(a chromedp.Action) chromedp.Action {
	return chromedp.ActionFunc(func(ctx contextOf) error {
		_, err := chromedp.RunResponse(ctx, a)
		return err
	})
}

// TestRing_ByPointerAndByKey pulls the outline both ways and takes it back.
func TestRing_ByPointerAndByKey(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	before := b.reading("volume")
	at := eval[[]float64](b, `(() => { const r = document.querySelector('[data-act=ring]').getBoundingClientRect(); return [r.x + r.width/2, r.y + r.height/2]; })()`)
	b.run(input.DispatchMouseEvent(input.MousePressed, at[0], at[1]).WithButton(input.Left).WithClickCount(1))
	for i := 1; i <= 8; i++ {
		b.run(input.DispatchMouseEvent(input.MouseMoved, at[0]-float64(5*i), at[1]).WithButton(input.Left))
	}
	b.run(input.DispatchMouseEvent(input.MouseReleased, at[0]-40, at[1]).WithButton(input.Left).WithClickCount(1))
	pulled := b.changes("volume", before, "a pulled ring")
	b.run(chromedp.Focus(`[data-act=ring]`, chromedp.ByQuery), chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowDown))
	b.changes("volume", pulled, "an arrow key")
	for eval[bool](b, `document.getElementById("undo").getAttribute("aria-disabled") !== "true" && !document.getElementById("undo").disabled`) {
		now := eval[string](b, `location.search + document.getElementById("r-volume").innerText`)
		b.click("undo")
		b.until("a step was taken back", fmt.Sprintf(`(location.search + document.getElementById("r-volume").innerText) !== %q`, now))
	}
	if got := b.reading("volume"); got != before {
		t.Errorf("after taking everything back the volume reads %q, want %q", got, before)
	}
	b.quiet()
}
