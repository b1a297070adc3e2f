package browsertest_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// hidden tells what is wrong with where the focus is: out of sight, or under
// something else.
const hidden = `(() => {
	const e = document.activeElement;
	if (!e || e === document.body) return "";
	let seen = e.matches("input.choice") ? e.closest("label") : e;
	const r = seen.getBoundingClientRect();
	if (r.bottom <= 0 || r.top >= innerHeight || r.right <= 0 || r.left >= innerWidth) return e.tagName + "#" + e.id + " is out of sight";
	const x = Math.min(Math.max(r.left + r.width / 2, 1), innerWidth - 2), y = Math.min(Math.max(r.top + r.height / 2, 1), innerHeight - 2);
	const top = document.elementFromPoint(x, y);
	if (!top || (!seen.contains(top) && !top.contains(seen) && !(e.closest("svg") && top.closest("svg") === e.closest("svg")))) return e.tagName + "#" + e.id + " is under " + (top ? top.tagName + "." + (top.className.baseVal ?? top.className) : "nothing");
	const ring = e.matches("input.choice") ? getComputedStyle(e.nextElementSibling) : getComputedStyle(e.matches("input[type=range]") ? e.parentElement : e);
	if (!e.closest("svg") && !e.matches("input[type=range], [tabindex='-1']") && (ring.outlineStyle === "none" || parseFloat(ring.outlineWidth) < 2)) return e.tagName + "#" + e.id + " shows no focus";
	return "";
})()`

// tabTo goes on by the Tab key until something has the focus, and looks at
// each stop on the way.
func (b *tab) tabTo(selector string) {
	b.t.Helper()
	look := fmt.Sprintf(`[%s, document.activeElement.matches(%q) ? "there" : ""]`, hidden, selector)
	for range 250 {
		var at []string
		b.run(chromedp.KeyEvent(kb.Tab), chromedp.Evaluate(look, &at))
		if at[0] != "" {
			b.t.Errorf("on the way to %s the focus on %s", selector, at[0])
		}
		if at[1] != "" {
			return
		}
	}
	b.t.Fatalf("the Tab key never comes to %s", selector)
}

// typed replaces what a field holds, by keys alone.
func (b *tab) typed(text string) {
	b.t.Helper()
	b.run(chromedp.KeyEvent("a", chromedp.KeyModifiers(input.ModifierCtrl)), chromedp.KeyEvent(text))
}

// TestJourney_ByKeysAloneAndWithoutADrag makes the same pond twice, once with
// keys and nothing else, once with taps and no drag, and sends both.
func TestJourney_ByKeysAloneAndWithoutADrag(t *testing.T) {
	t.Parallel()
	s := serve(t)

	keys := live(t, s, size{1280, 860}, "/")
	keys.tabTo("#f-shape-bean")
	keys.run(chromedp.KeyEvent(kb.ArrowRight)) // the oval
	keys.until("it is an oval", `document.getElementById("f-shape-oval").checked`)
	keys.tabTo("#f-length")
	keys.typed("40 ft")
	keys.tabTo("#s-width-more")
	keys.run(chromedp.KeyEvent(kb.Enter))
	keys.tabTo("#f-deep-slide")
	keys.run(chromedp.KeyEvent(kb.ArrowRight))
	keys.tabTo("#f-zone")
	keys.run(chromedp.KeyEvent(" "))
	keys.until("the zone is not asked about", `document.getElementById("f-zone_area").offsetParent === null`)
	keys.tabTo("[data-act=ring]")
	keys.run(chromedp.KeyEvent(kb.Delete))
	keys.tabTo(`[data-act=grip][data-arg=deck_at]`)
	keys.run(chromedp.KeyEvent(kb.ArrowRight))
	keys.tabTo("#read-notes")
	keys.run(chromedp.KeyEvent(kb.Enter))
	keys.until("the last page shows", `document.getElementById("f-name") !== null`)
	for _, field := range [][2]string{{"#f-name", "Keys"}, {"#f-email", "keys@oakesmail.example"}} {
		keys.tabTo(field[0])
		keys.typed(field[1])
	}
	keys.tabTo("#f-consent")
	keys.run(chromedp.KeyEvent(" "))
	keys.tabTo("#send")
	keys.run(chromedp.KeyEvent(kb.Enter))
	keys.until("it was sent", `document.getElementById("sent") !== null`)
	keys.quiet()

	taps := live(t, s, size{1280, 860}, "/")
	press := func(selector string) {
		taps.run(chromedp.Evaluate(fmt.Sprintf(`document.querySelector(%q).scrollIntoView({block: "center"})`, selector), nil), chromedp.Click(selector, chromedp.ByQuery))
	}
	press("label:has(#f-shape-oval)")
	taps.fill("f-length", "40 ft")
	press("#s-width-more")
	taps.fill("f-deep", "6 ft 9 in")
	press("#f-zone")
	press("[data-act=ring]")
	taps.until("the ring is in hand", `document.getElementById("ring-remove") !== null`)
	press("#ring-remove")
	press("#hand-done")
	press(`[data-act=grip][data-arg=deck_at]`)
	taps.until("the deck is in hand", `document.getElementById("turn-on") !== null`)
	press("#turn-on")
	press("#tab-send")
	taps.until("the last page shows", `document.getElementById("f-name") !== null`)
	taps.fill("f-name", "Taps")
	taps.fill("f-email", "taps@oakesmail.example")
	press("#f-consent")
	press("#send")
	taps.until("it was sent", `document.getElementById("sent") !== null`)
	taps.quiet()

	var ponds []string
	for _, b := range []*tab{keys, taps} {
		raw, err := json.Marshal(s.lead(t, eval[string](b, `document.getElementById("sent").dataset.sent`)).Design)
		if err != nil {
			t.Fatal(err)
		}
		ponds = append(ponds, string(raw))
	}
	if ponds[0] != ponds[1] {
		t.Errorf("by keys\n%s\nby taps\n%s", ponds[0], ponds[1])
	}
	// Half of 40 ft, an edge ring less, and the deck a step on from where it was.
	for _, want := range []string{`"shape":"freehand"`, `"x_m":-6.1,`, `"deep_m":2.0574`, `"deck":{"length_m":3.3528,"width_m":2.1336,"bearing_deg":155}`} {
		if !strings.Contains(ponds[0], want) {
			t.Errorf("neither pond has %s: %s", want, ponds[0])
		}
	}
}

// TestFocus_IsNeverHidden goes through every stop of a phone's page, where the
// bar with the figures stands over its foot.
func TestFocus_IsNeverHidden(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, address := range []string{"/?ask=all", "/?view=send"} {
		b := live(t, s, size{390, 700}, address)
		stops := map[string]bool{}
		for range 160 {
			b.run(chromedp.KeyEvent(kb.Tab))
			if wrong := eval[string](b, hidden); wrong != "" {
				t.Errorf("%s: the focus on %s", address, wrong)
			}
			at := eval[string](b, `(e => e === document.body ? "" : e.tagName + e.id + (e.dataset?.arg ?? "") + e.textContent.slice(0, 20))(document.activeElement)`)
			if at != "" && stops[at] && len(stops) > 20 {
				break
			}
			stops[at] = true
		}
		if len(stops) < 20 {
			t.Errorf("%s: only %d stops", address, len(stops))
		}
		b.quiet()
	}
}

// TestStatus_SaysOneThingOnceThingsHaveSettled counts what is read out while a
// person types and after.
func TestStatus_SaysOneThingOnceThingsHaveSettled(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	if got := eval[int](b, `document.querySelectorAll("[aria-live]:not([aria-live=off]), [role=status], [role=alert], output").length`); got != 1 {
		t.Errorf("%d places read themselves out, want 1", got)
	}
	b.run(chromedp.Evaluate(`window.said = []; new MutationObserver(() => said.push(document.getElementById("status").textContent)).observe(document.getElementById("status"), {childList: true, characterData: true, subtree: true}); 0`, nil))
	for i, length := range []string{"41 ft", "43 ft"} {
		before := b.reading("volume")
		b.fill("f-length", length)
		b.changes("volume", before, "another length")
		b.until("it was read out", fmt.Sprintf("said.length >= %d", i+1))
	}
	b.run(chromedp.Evaluate(`document.getElementById("f-units-metric").click(); 0`, nil))
	b.until("the units too", "said.length >= 3")
	said := eval[[]string](b, "said")
	if len(said) != 3 {
		t.Errorf("three changes were read out as %q", said)
	}
	for _, text := range said {
		if !strings.HasPrefix(text, "Updated: ") || !strings.HasSuffix(text, ".") {
			t.Errorf("it reads out %q", text)
		}
	}
	b.quiet()
}
