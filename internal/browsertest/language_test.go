package browsertest_test

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// TestLanguage_SpanishBeforeAndAfterTheWidget opens the page in Spanish, works
// with it, and goes to English and back with the pond in hand.
func TestLanguage_SpanishBeforeAndAfterTheWidget(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?lang=es")
	if lang := eval[string](b, `document.documentElement.lang`); lang != "es" {
		t.Errorf("the page is said to be in %q", lang)
	}
	before := b.reading("volume")
	if !strings.Contains(before, "Volumen de agua") {
		t.Errorf("the widget says %q", before)
	}
	b.fill("f-length", "40 ft")
	after := b.changes("volume", before, "a longer pond")
	if !strings.Contains(after, "Volumen de agua") || !strings.Contains(after, "gal") {
		t.Errorf("after a change it says %q", after)
	}
	b.until("the change is told in Spanish", `document.getElementById("status").textContent.startsWith("Actualizado")`)
	b.until("the address keeps both", `location.search.includes("lang=es") && location.search.includes("length=40")`)
	b.shot("spanish-draw")
	b.run(chromedp.Evaluate(axe(t), nil))
	for _, v := range b.axe() {
		t.Error(v)
	}
	b.run(chromedp.Evaluate(`[...document.querySelectorAll(".lang a")].find(a => a.checkVisibility()).click()`, nil))
	b.run(chromedp.WaitVisible(`html[lang="en"] #r-volume`, chromedp.ByQuery))
	b.until("the pond came along", `location.search.includes("length=40")`)
	b.until("the widget took over", isLive)
	if got := b.reading("volume"); !strings.Contains(got, "Water volume") || strings.Fields(got)[2] != strings.Fields(after)[3] {
		t.Errorf("in English it says %q, in Spanish %q", got, after)
	}
	b.quiet()
}

// TestLanguage_ChangesBesideTheForm: what is typed there comes along, in the
// tab's own draft and not in the address.
func TestLanguage_ChangesBesideTheForm(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{390, 844}, "/?view=send&length=40+ft")
	b.fill("f-name", "Maren Oakes")
	b.run(chromedp.Evaluate(`[...document.querySelectorAll(".lang a")].find(a => a.checkVisibility()).click()`, nil))
	b.run(chromedp.WaitVisible(`html[lang="es"] #send-title`, chromedp.ByQuery))
	b.until("the widget took over", isLive)
	if got := eval[string](b, `document.getElementById("f-name").value`); got != "Maren Oakes" {
		t.Errorf("the name is %q", got)
	}
	if at := eval[string](b, `location.href`); strings.Contains(at, "Oakes") || !strings.Contains(at, "length=40") {
		t.Errorf("the address is %s", at)
	}
	b.quiet()
}

// TestLanguage_ChangesBesideTheFormWithoutScript: the form itself brings what
// was typed along, and the Enter key still sends it.
func TestLanguage_ChangesBesideTheFormWithoutScript(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 860}, scriptOff)
	b.run(chromedp.Navigate(s.url + "/?view=send&length=40+ft"))
	b.fill("f-name", "Maren Oakes")
	for _, lang := range []string{"es", "en"} {
		b.run(chromedp.Evaluate(`[...document.querySelectorAll(".lang [name=speak]")].find(a => a.checkVisibility()).scrollIntoView()`, nil), loads(chromedp.Click(`footer .lang [name=speak], .bar .lang [name=speak]`, chromedp.ByQuery, chromedp.NodeVisible)))
		if got := eval[string](b, `document.documentElement.lang + " " + document.getElementById("f-name").value + " " + document.querySelector("#lead [name=length]").value`); got != lang+" Maren Oakes 40 ft" {
			t.Errorf("the page says %q", got)
		}
		if eval[bool](b, `document.querySelector("[aria-invalid=true]") !== null || document.getElementById("sent") !== null`) {
			t.Error("another language checked the form or sent it")
		}
	}
	b.run(chromedp.Focus("#f-email", chromedp.ByQuery), loads(chromedp.KeyEvent("\r")))
	if !eval[bool](b, `document.documentElement.lang === "en" && document.querySelector("#f-email[aria-invalid=true]") !== null`) {
		t.Error("the Enter key did not send the form")
	}
	b.quiet()
}

// TestLanguage_FollowsTheBrowser where the address says nothing, without
// script as well.
func TestLanguage_FollowsTheBrowser(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{390, 844}, scriptOff)
	b.run(network.Enable(), network.SetExtraHTTPHeaders(network.Headers{"Accept-Language": "es-MX,es;q=0.9,en;q=0.5"}),
		chromedp.Navigate(s.url+"/?view=send"))
	if got := eval[string](b, `document.documentElement.lang + " " + document.getElementById("send-title").textContent`); !strings.HasPrefix(got, "es Envíelo a") {
		t.Errorf("the page says %q", got)
	}
	if over := eval[int64](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		t.Errorf("the Spanish page runs %d px off the side", over)
	}
	b.shot("spanish-send-phone")
	b.quiet()
}

// TestLanguage_SpanishFitsEveryWidth: longer words run nowhere off the side.
func TestLanguage_SpanishFitsEveryWidth(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 860}, scriptOff)
	for _, at := range []size{{1280, 860}, {1000, 800}, {768, 1024}, {390, 844}, {320, 700}} {
		for _, view := range []string{"draw", "pump", "compare", "send"} {
			b.run(chromedp.EmulateViewport(at.w, at.h), chromedp.Navigate(s.url+"/?lang=es&view="+view))
			if over := eval[int64](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
				wide := eval[string](b, `[...document.querySelectorAll("#tarnwright *")].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 && !e.closest("svg svg, .sheet svg")).slice(0, 5).map(e => e.tagName + "." + e.className).join(" ")`)
				t.Errorf("%s at %d px runs %d px off the side: %s", view, at.w, over, wide)
			}
		}
	}
}
