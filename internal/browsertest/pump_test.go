package browsertest_test

import (
	"testing"

	"github.com/chromedp/chromedp"
)

const pipeworkSays = `document.querySelector("#pipework, #pipeworklet").textContent.replaceAll("\u00a0", " ")`

// TestPump_APumpFromTheListAndAnOfferedChange picks a pump, lets the kind take
// it back, and presses what a note offers: with script at once, without script
// by the button.
func TestPump_APumpFromTheListAndAnOfferedChange(t *testing.T) {
	t.Parallel()
	s := serve(t)
	const pick = `(() => { const e = document.getElementById("f-model"); e.value = "V-100"; e.dispatchEvent(new Event("input", {bubbles: true})); e.dispatchEvent(new Event("change", {bubbles: true})); })()`
	const has, chosen = pipeworkSays + `.includes("V-100")`, `document.getElementById("f-model").value`

	b := live(t, s, size{1280, 860}, "/?view=pump")
	b.run(chromedp.Evaluate(pick, nil))
	b.until("the picture shows the pump from the list", has)
	b.until("the kind follows it", `document.getElementById("f-pump-variable").checked`)
	b.press("label:has(#f-pump-single)")
	b.until("the other kind lets the pump go", chosen+` === "auto" && !`+has)
	b.run(chromedp.Evaluate(`[...document.querySelectorAll(".tries a")].find(a => a.textContent.includes("4 in suction pipe")).click()`, nil))
	b.until("the offered pipe is drawn", `document.getElementById("f-pipe").value === "4" && `+pipeworkSays+`.includes("4.0 in inside")`)
	b.until("and is offered no more", `![...document.querySelectorAll(".tries a")].some(a => a.textContent.includes("4 in suction pipe"))`)
	b.run(chromedp.Evaluate(`document.querySelector(".why .acts a").click()`, nil))
	b.until("the chosen pump, number and pipes are set at once",
		chosen+` !== "auto" && document.getElementById("f-pipe").value === document.getElementById("f-discharge").value`)
	b.quiet()

	off := open(t, size{390, 844}, scriptOff)
	off.run(chromedp.Navigate(s.url+"/?view=pump"), chromedp.SetValue("#f-model", "V-100", chromedp.ByQuery), loads(chromedp.Click("#update", chromedp.ByQuery)))
	if !eval[bool](off, has+` && document.getElementById("f-pump-variable").checked`) {
		t.Error("without script, a pump from the list is not drawn or its kind is not shown")
	}
	off.run(chromedp.Evaluate(`document.getElementById("f-pump-single").checked = true`, nil), loads(chromedp.Click("#update", chromedp.ByQuery)))
	if !eval[bool](off, chosen+` === "auto" && document.getElementById("f-pump-single").checked && !(`+has+`)`) {
		t.Error("without script, the other kind does not let the pump go")
	}
	off.quiet()
}
