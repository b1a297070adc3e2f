package browsertest_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// place is the middle of an element on the screen once the drawing rests: a
// change before it may still be on its way to the screen. Of a grip it is the
// knob, which may stand at the far end of a line from its thing.
func (b *tab) place(selector string) (x, y float64) {
	b.t.Helper()
	var at []float64
	b.run(chromedp.Evaluate(fmt.Sprintf(`(async () => {
		window.scrollTo(0, 0);
		const part = e => e.querySelector(".dr-reach") ?? e;
		const middle = () => { const r = part(document.querySelector(%q)).getBoundingClientRect(); return [r.x + r.width/2, r.y + r.height/2]; };
		for (let last = "", same = 0; same < 10;) {
			await new Promise(requestAnimationFrame);
			const now = middle().join() + document.querySelector("svg[id^=pond]")?.getAttribute("viewBox");
			same = now === last ? same + 1 : 0;
			last = now;
		}
		return middle();
	})()`, selector), &at, awaitPromise))
	return at[0], at[1]
}

// drag pulls with the mouse from one place to another in small steps.
func (b *tab) drag(x0, y0, x1, y1 float64) {
	b.t.Helper()
	b.hold(x0, y0, x1, y1)
	b.run(input.DispatchMouseEvent(input.MouseReleased, x1, y1).WithButton(input.Left).WithClickCount(1))
}

// hold is drag without letting go.
func (b *tab) hold(x0, y0, x1, y1 float64) {
	b.t.Helper()
	const steps = 12
	b.run(input.DispatchMouseEvent(input.MousePressed, x0, y0).WithButton(input.Left).WithClickCount(1))
	for i := 1; i <= steps; i++ {
		k := float64(i) / steps
		b.run(input.DispatchMouseEvent(input.MouseMoved, x0+(x1-x0)*k, y0+(y1-y0)*k).WithButton(input.Left))
	}
}

// tap presses and lets go, without a drag.
func (b *tab) tap(x, y float64) {
	b.t.Helper()
	b.run(chromedp.MouseClickXY(x, y))
}

func (b *tab) rings() int {
	b.t.Helper()
	return eval[int](b, `document.querySelectorAll('[data-act=ring]').length`)
}

const query = `new URLSearchParams(location.search)`

// TestOutline_ThatCrossesItselfIsShownAndTakenBack pulls a ring across the
// pond: the outline is shown with its place, the last good figures stay and
// say so, the rest of the page works, and one press puts it back.
func TestOutline_ThatCrossesItselfIsShownAndTakenBack(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, at := range []size{{1280, 860}, {390, 844}} {
		b := live(t, s, at, "/?shape=oval&deck=off")
		id := "pond"
		if at.w < 600 {
			id = "pondlet"
		}
		x0, y0 := b.place("#" + id + "-ring-0")
		x1, y1 := b.place("#" + id + "-ring-6")
		before := b.reading("volume")
		b.hold(x0, y0, x1-40, y1)
		b.until("the outline is shown as wrong", `document.querySelector(".dr-wrong") !== null`)
		b.until("what is wrong is said", `document.getElementById("outline-fault")?.innerText.includes("crosses itself")`)
		b.run(input.DispatchMouseEvent(input.MouseReleased, x1-40, y1).WithButton(input.Left).WithClickCount(1))
		b.shot(fmt.Sprintf("hand-wrong-%d", at.w))
		if !eval[bool](b, `document.querySelector(".dr-cross") !== null && document.querySelector(".lastgood") !== null && document.querySelector(".dr-wrong .dr-line") === null`) {
			t.Errorf("%d px: the place is not marked, or the bands or the figures are shown as good", at.w)
		}
		if got := b.reading("volume"); !strings.ContainsAny(got, "0123456789") {
			t.Errorf("%d px: no last good figure: %q", at.w, got)
		}
		last := b.reading("volume")
		b.run(chromedp.Evaluate(`document.getElementById("f-deep").scrollIntoView()`, nil))
		if at.w > 600 {
			b.fill("f-deep", "5 ft")
			b.changes("volume", last, "a depth typed while the outline is wrong")
		}
		// The address brings the attempt and the last good pond back.
		b.until("the address has the attempt and the last good outline", query+`.get("kept")?.includes("handles:")`)
		if at.w > 600 {
			b.until("and the depth", query+`.get("deep") === "5ft"`)
		}
		again := live(t, s, at, eval[string](b, `location.search`))
		if got, want := again.reading("volume"), b.reading("volume"); got != want {
			t.Errorf("%d px: opened again the volume is %q, want %q", at.w, got, want)
		}
		b.click("mend")
		b.until("the outline is a pond again", `document.querySelector(".dr-wrong") === null && document.querySelector(".lastgood") === null`)
		if at.w < 600 && b.reading("volume") != last {
			t.Errorf("%d px: mended, the volume is %q, want %q", at.w, b.reading("volume"), last)
		}
		if b.reading("volume") == before {
			t.Errorf("%d px: the volume never moved", at.w)
		}
		b.quiet()
	}
}

// TestRings_AreAddedRemovedAndPlacedWithoutADrag uses buttons, taps, keys,
// double presses and typed places.
func TestRings_AreAddedRemovedAndPlacedWithoutADrag(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?shape=oval&deck=off&cascade=off")
	all := func() int { return eval[int](b, `(`+query+`.get("handles") ?? "").split(";").length`) }
	volume := b.reading("volume")

	b.tap(b.place("#pond-ring-6"))
	b.until("the ring is in hand", `document.getElementById("ring-add") !== null`)
	if b.reading("volume") != volume {
		t.Error("choosing a ring moved it")
	}
	b.shot("hand-ring")
	x, y := b.place("#pond-ring-6")
	b.tap(x+50, y+6)
	volume = b.changes("volume", volume, "a tap where the ring should go")
	b.until("the ring is where it was tapped", fmt.Sprintf(`(() => { const r = document.getElementById("pond-ring-6").getBoundingClientRect(); return Math.hypot(r.x + r.width/2 - %f, r.y + r.height/2 - %f) < 6; })()`, x+50, y+6))

	b.click("ring-add")
	b.until("one ring more", query+`.get("handles")?.split(";").length === 13`)
	b.click("ring-remove")
	b.until("one ring less", query+`.get("handles")?.split(";").length === 12`)

	b.fill("ring-at-x", "-12 ft")
	b.until("a typed place", query+`.get("handles")?.includes("-366,")`)
	volume = b.reading("volume")
	b.fill("ring-at-x", "nowhere")
	b.until("a place that cannot be read is marked", `document.querySelector("#ring-at-x[aria-invalid=true]") !== null`)
	if b.reading("volume") != volume {
		t.Error("a place that cannot be read moved the ring")
	}
	b.click("hand-done")
	b.until("nothing is in hand", `document.getElementById("ring-add") === null`)

	b.run(chromedp.Focus("#pond-ring-2", chromedp.ByQuery), chromedp.KeyEvent("+"))
	b.until("a ring by key", query+`.get("handles")?.split(";").length === 13`)
	b.until("the focus is on the new ring", `document.activeElement.id === "pond-ring-3"`)
	b.run(chromedp.KeyEvent(kb.Delete))
	b.until("a ring less by key", query+`.get("handles")?.split(";").length === 12`)
	b.run(chromedp.KeyEvent(kb.Escape))

	x, y = b.place("#pond-ring-9")
	b.run(chromedp.MouseClickXY(x, y, chromedp.ClickCount(2)))
	b.until("a ring less by two presses", query+`.get("handles")?.split(";").length === 11`)
	b.run(chromedp.KeyEvent(kb.Escape))
	b.until("nothing is in hand", `document.getElementById("ring-add") === null`)
	ax, ay := b.place("#pond-ring-3")
	cx, cy := b.place("#pond-ring-4")
	b.run(chromedp.MouseClickXY((ax+cx)/2, (ay+cy)/2, chromedp.ClickCount(2)))
	b.until("a ring more by two presses on the edge", query+`.get("handles")?.split(";").length === 12`)

	b.run(chromedp.Focus("#pond-ring-0", chromedp.ByQuery))
	for n := all(); n > 3; n-- {
		b.run(chromedp.KeyEvent(kb.Delete))
		b.until("a ring less", fmt.Sprintf(query+`.get("handles")?.split(";").length === %d`, n-1))
	}
	if got := eval[string](b, `document.getElementById("ring-remove").getAttribute("aria-disabled")`); got != "true" {
		t.Errorf("with three rings one can still be removed: %q", got)
	}
	b.quiet()
}

// TestGrips_MoveThingsAlongTheEdge by pointer, by key, by tap and by number.
func TestGrips_MoveThingsAlongTheEdge(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?stairs=on")
	b.shot("hand-grips")
	for _, c := range []struct {
		grip string
		dx   float64
		dy   float64
	}{{"cascade_at", -60, 10}, {"deck_at", 40, -30}, {"zone_at", 60, 20}, {"pump_at", 0, -60}, {"beach_at", 20, -50}, {"stairs_at", 30, 40}} {
		x, y := b.place("#pond-grip-" + c.grip)
		b.drag(x, y, x+c.dx, y+c.dy)
		b.until(c.grip+" is in the address", query+`.has("`+c.grip+`")`)
	}
	b.shot("hand-grips-moved")
	at := eval[string](b, query+`.get("pump_at")`)
	b.run(chromedp.Focus("#pond-grip-pump_at", chromedp.ByQuery), chromedp.KeyEvent(kb.ArrowUp))
	b.until("an arrow key turns the pump", fmt.Sprintf(query+`.get("pump_at") !== %q`, at))
	b.tap(b.place("#pond-grip-cascade_at"))
	b.until("the cascade is in hand", `document.getElementById("turn-on") !== null`)
	x, y := b.place("#pond-grip-beach_at")
	at = eval[string](b, query+`.get("cascade_at")`)
	b.tap(x+60, y-90)
	b.until("a tap turns the cascade", fmt.Sprintf(query+`.get("cascade_at") !== %q`, at))
	b.click("turn-on")
	b.click("hand-done")
	b.until("nothing is in hand", `document.getElementById("turn-on") === null`)

	from := eval[string](b, `document.querySelector("#pond .dr-cut")?.getAttribute("d") ?? ""`)
	x, y = b.place("#pond-grip-cut_from")
	b.drag(x, y, x+30, y+60)
	b.until("the section has a place of its own", query+`.has("cut")`)
	b.until("the section's line moved", fmt.Sprintf(`document.querySelector("#pond .dr-cut")?.getAttribute("d") !== %q`, from))
	b.shot("hand-cut")
	b.click("uncut")
	b.until("the section runs through the deepest place again", `!`+query+`.has("cut")`)

	b.run(chromedp.Evaluate(`document.getElementById("standing").open = true`, nil))
	b.fill("f-deck_at", "200")
	b.until("a typed bearing moves the deck", query+`.get("deck_at") === "200"`)
	b.quiet()
}

// TestHandbar_HasNoBarriers looks at the page with a ring and then a grip in
// hand, on a tablet and on the smallest phone.
func TestHandbar_HasNoBarriers(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, w := range []int64{768, 320} {
		b := live(t, s, size{w, 900}, "/?stairs=on")
		b.run(chromedp.Evaluate(axe(t), nil))
		for _, c := range []struct{ kind, held string }{{"ring", "ring-add"}, {"grip", "turn-on"}} {
			id := eval[string](b, `[...document.querySelectorAll('[data-act=`+c.kind+`]')].find(e => e.getBoundingClientRect().width > 0).id`)
			b.run(chromedp.Focus("#"+id, chromedp.ByQuery), chromedp.KeyEvent(kb.Enter))
			b.until(c.kind+" in hand", `document.getElementById("`+c.held+`") !== null`)
			b.shot(fmt.Sprintf("handbar-%s-%d", c.kind, w))
			for _, v := range b.axe() {
				t.Errorf("%d px, %s in hand: %s", w, c.kind, v)
			}
			small := eval[string](b, `[...document.querySelectorAll(".handbar button")].filter(e => e.getBoundingClientRect().height < 43.5).map(e => e.id).join()`)
			if wide := eval[float64](b, `document.documentElement.scrollWidth`); small != "" || wide > float64(w) {
				t.Errorf("%d px, %s in hand: buttons too small: %q; the page is %g px wide", w, c.kind, small, wide)
			}
		}
		b.quiet()
	}
}

// TestZoom_LeavesThePageAlone: a plain wheel scrolls the page, one with Ctrl
// and two fingers zoom the drawing, buttons do the same.
func TestZoom_LeavesThePageAlone(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1000, 600}, "/")
	box := func() string { return eval[string](b, `document.getElementById("pond").getAttribute("viewBox")`) }
	whole := box()
	x, y := b.place("#pond-ring-0")
	b.run(input.DispatchMouseEvent(input.MouseWheel, x-80, y).WithDeltaX(0).WithDeltaY(160))
	b.until("the page scrolled", `window.scrollY > 40`)
	if box() != whole {
		t.Error("a plain wheel zoomed the drawing")
	}
	x, y = b.place("#pond-ring-0")
	scroll := eval[float64](b, `window.scrollY`)
	b.run(input.DispatchMouseEvent(input.MouseWheel, x-80, y).WithDeltaX(0).WithDeltaY(-160).WithModifiers(input.ModifierCtrl))
	b.until("a wheel with Ctrl zooms the drawing", fmt.Sprintf(`document.getElementById("pond").getAttribute("viewBox") !== %q`, whole))
	if got := eval[float64](b, `window.scrollY`); got != scroll || eval[float64](b, `window.visualViewport.scale`) != 1 {
		t.Errorf("the page moved as well: %g px, was %g px", got, scroll)
	}
	b.click("zoom-fit")
	b.until("all of it again", fmt.Sprintf(`document.getElementById("pond").getAttribute("viewBox") === %q`, whole))
	b.click("zoom-in")
	b.until("nearer by a button", fmt.Sprintf(`document.getElementById("pond").getAttribute("viewBox") !== %q`, whole))
	b.shot("hand-zoomed")
	b.quiet()

	p := live(t, s, size{390, 844}, "/")
	whole = eval[string](p, `document.getElementById("pondlet").getAttribute("viewBox")`)
	x, y = p.place("#pondlet .dr-water")
	for i := 0; i <= 8; i++ {
		kind := input.TouchMove
		if i == 0 {
			kind = input.TouchStart
		}
		d := float64(20 + 6*i)
		p.run(input.DispatchTouchEvent(kind, []*input.TouchPoint{{X: x - d, Y: y, ID: 1}, {X: x + d, Y: y, ID: 2}}))
	}
	p.run(input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{}))
	p.until("two fingers bring the drawing nearer", fmt.Sprintf(`document.getElementById("pondlet").getAttribute("viewBox") !== %q`, whole))
	if got := eval[float64](p, `window.visualViewport.scale`); got != 1 {
		t.Errorf("two fingers on the drawing zoomed the page by %g", got)
	}
	p.shot("hand-pinched")
	p.quiet()
}

// TestDrawing_IsATableAndPrintsInInk.
func TestDrawing_IsATableAndPrintsInInk(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	got := eval[string](b, `document.getElementById("drawing-tables").textContent`)
	for _, want := range []string{"Water left", "Where things stand", "Cascade", "10°, north", "Section", "6 ft 6 in"} {
		if !strings.Contains(strings.ReplaceAll(got, "\u00a0", " "), want) {
			t.Errorf("the tables under the drawing do not say %q: %s", want, got)
		}
	}
	deep := `getComputedStyle(document.querySelector("#pond .dr-d6")).fill`
	screen := eval[string](b, deep)
	b.run(emulation.SetEmulatedMedia().WithMedia("print"))
	print := eval[string](b, deep)
	b.shot("hand-print")
	if screen == print || print != "rgb(205, 205, 205)" {
		t.Errorf("the deep water is %s on the screen and %s in print, want the ink's grey there", screen, print)
	}
	b.quiet()
}

// TestFit_ShowsPlanAndSectionAtOnce on a usual screen.
func TestFit_ShowsPlanAndSectionAtOnce(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, at := range []size{{1280, 860}, {1440, 900}, {1920, 1080}} {
		b := live(t, s, at, "/")
		b.shot(fmt.Sprintf("fit-%d", at.w))
		if foot := eval[float64](b, `document.querySelector("#pond .dr-section").getBoundingClientRect().bottom`); foot > float64(at.h)+2 {
			t.Errorf("%d × %d: the section ends at %.0f px, below the screen", at.w, at.h, foot)
		}
	}
}
