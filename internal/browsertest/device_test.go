package browsertest_test

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

const pond = `document.getElementById("r-volume").innerText`

// TestLink_SurvivesReloadBackAndForward changes the pond, and goes where
// people go with it.
func TestLink_SurvivesReloadBackAndForward(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	first := b.reading("volume")
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", first, "a longer pond")
	b.until("the fragment holds the pond", `location.hash.startsWith("#d=1.")`)
	made := eval[string](b, `location.hash`)
	if n := len(made); n > 600 {
		t.Errorf("the link takes %d characters", n)
	}

	b.run(chromedp.Reload())
	b.until("the widget took over again", isLive)
	if got := b.reading("volume"); got != longer {
		t.Errorf("after a reload the volume reads %q, want %q", got, longer)
	}
	// The fragment alone is the whole pond.
	b.run(chromedp.Navigate("about:blank"), chromedp.Navigate(s.url+"/"+made))
	b.until("the link opened", isLive+` && `+fmt.Sprintf(pond+` === %q`, longer))

	// Another link in the same tab, and back, and forward.
	b.run(chromedp.Evaluate(`location.hash = "#d=1.AAAAAA"`, nil))
	b.until("the second link opened", fmt.Sprintf(pond+` === %q`, first))
	b.run(chromedp.NavigateBack())
	b.until("back is the first pond", fmt.Sprintf(pond+` === %q`, longer))
	b.run(chromedp.NavigateForward())
	b.until("forward is the second", fmt.Sprintf(pond+` === %q`, first))

	for damaged, id := range map[string]string{made[:len(made)-2]: "not complete", "#d=7.abc": "newer"} {
		b.run(chromedp.Navigate("about:blank"), chromedp.Navigate(s.url+"/"+damaged))
		b.until("the page says what is wrong with "+damaged, isLive+` && (document.getElementById("link-says")?.innerText ?? "").includes("`+id+`")`)
		if got := b.reading("volume"); got != first {
			t.Errorf("%s: the volume reads %q, want %q", damaged, got, first)
		}
	}
	b.quiet()
}

// TestShare_TheCodeOnTheScreenIsTheLink reads the picture as a phone would.
func TestShare_TheCodeOnTheScreenIsTheLink(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?view=send&length=41+ft&zone=off")
	b.click("show-qr")
	b.until("the code shows", `document.getElementById("qr") !== null`)
	want := eval[string](b, `document.getElementById("share-link").value`)
	if !strings.HasPrefix(want, s.url+"/#d=1.") {
		t.Errorf("the link is %q", want)
	}
	var shot []byte
	b.run(chromedp.Screenshot("#qr", &shot, chromedp.ByQuery))
	b.shot("share")
	read := b.scanned(shot)
	if read != want {
		t.Errorf("the code reads %q, want %q", read, want)
	}
	b.run(chromedp.Navigate("about:blank"), chromedp.Navigate(read))
	b.until("the phone shows the pond", isLive)
	if got := eval[string](b, `document.getElementById("f-length").value`); got != "41 ft" {
		t.Errorf("the phone shows a length of %q", got)
	}
	b.quiet()
}

// scanned is what a reader of codes makes of a picture.
func (b *tab) scanned(shot []byte) string {
	b.t.Helper()
	script, err := os.ReadFile("../../.tools/node_modules/jsqr/dist/jsQR.js")
	if err != nil {
		b.t.Fatal("run make tools: ", err)
	}
	raw, err := json.Marshal(shot)
	if err != nil {
		b.t.Fatal(err)
	}
	b.run(chromedp.Evaluate(string(script)+"\n;0", nil))
	return evalAwait[string](b, `(async () => {
		const bytes = Uint8Array.from(atob(`+string(raw)+`), (c) => c.charCodeAt(0));
		const picture = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
		const canvas = new OffscreenCanvas(picture.width, picture.height), pen = canvas.getContext("2d");
		pen.drawImage(picture, 0, 0);
		return jsQR(pen.getImageData(0, 0, picture.width, picture.height).data, picture.width, picture.height)?.data ?? "nothing";
	})()`)
}

// TestUnits_AHundredTogglesChangeNothing goes there and back with answers
// that no unit shows exactly.
func TestUnits_AHundredTogglesChangeNothing(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?length=10.1234567m&width=21+ft+3+in&deep=1.87m&power=0.1734&water=2.345%2Fm3")
	const all = `[...document.querySelectorAll("#tarnwright input[type=text]")].map(e => e.id + "=" + e.value).join("\n") + document.getElementById("figures").innerText`
	before := eval[string](b, all)
	for i := range 100 {
		unit := []string{"metric", "us"}[i%2]
		b.run(chromedp.Evaluate(`document.getElementById("f-units-`+unit+`").click()`, nil))
		b.until("the units are "+unit, fmt.Sprintf(`document.getElementById("r-volume").innerText.includes("m³") === %v`, unit == "metric"))
	}
	if after := eval[string](b, all); after != before {
		t.Errorf("before\n%s\nafter\n%s", before, after)
	}
	b.quiet()
}

// TestDraft_SurvivesAReloadAndIsGoneOnceSent types, reloads by accident, and
// sends.
func TestDraft_SurvivesAReloadAndIsGoneOnceSent(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/")
	b.fill("f-length", "41 ft")
	b.fill("f-width", "a bit")
	b.click("tab-send")
	b.until("the last page shows", `document.getElementById("f-name") !== null`)
	for id, text := range map[string]string{"f-name": "Maren Oakes", "f-email": "maren@oakesmail.example", "f-note": "The site slopes."} {
		b.fill(id, text)
	}
	b.click("f-consent")
	b.until("the address carries the pond", `location.search.includes("41") && location.search.includes("bit") && location.search.includes("send")`)
	b.run(chromedp.Reload())
	b.until("the widget took over again", isLive)
	got := eval[string](b, `["name", "email", "note"].map(f => document.getElementById("f-" + f).value).join("|") + document.getElementById("f-consent").checked`)
	if got != "Maren Oakes|maren@oakesmail.example|The site slopes.true" {
		t.Errorf("after a reload the form holds %q", got)
	}
	if where := eval[string](b, `location.href + document.title + JSON.stringify(localStorage) + document.cookie`); strings.Contains(where, "Maren") || strings.Contains(where, "oakesmail") {
		t.Errorf("a name stands where it should not: %s", where)
	}
	b.click("tab-draw")
	b.until("the drawing shows", `document.getElementById("f-width") !== null`)
	if got := eval[string](b, `document.getElementById("f-width").value + "; " + document.getElementById("f-length").value`); strings.ReplaceAll(got, " ", "") != "abit;41ft" {
		t.Errorf("after a reload the sizes are %q", got)
	}
	b.click("tab-send")
	b.until("the last page shows", `document.getElementById("send") !== null`)
	b.click("send")
	b.until("it was sent", `document.getElementById("sent") !== null`)
	if kept := eval[string](b, `JSON.stringify(sessionStorage)`); strings.Contains(kept, "Maren") {
		t.Errorf("kept after sending: %s", kept)
	}
	b.quiet()
}

// stored lists the enquiries of a server as its own command prints them.
func (s *server) stored(t *testing.T) string {
	t.Helper()
	out, err := exec.Command(binary(t), "leads", "-data", s.data).CombinedOutput()
	if err != nil {
		t.Fatalf("leads: %v\n%s", err, out)
	}
	return string(out)
}

func evalAwait[T any](b *tab, js string) T {
	b.t.Helper()
	var v T
	b.run(chromedp.Evaluate(js, &v, awaitPromise))
	return v
}
