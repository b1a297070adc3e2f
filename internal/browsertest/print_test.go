package browsertest_test

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// paper is a size of sheet, in inches.
type paper struct {
	name       string
	wide, high float64
}

func papers() []paper { return []paper{{"letter", 8.5, 11}, {"a4", 8.27, 11.69}} }

// printed are ponds with little and with much to say.
func printed() map[string]string {
	return map[string]string{
		"demo":     "/?view=send",
		"demo-two": "/?view=send&sheets=2",
		"smallest": "/?view=send&length=6+ft&width=6+ft&deep=2+ft&zone=off&cascade=off&deck=off&beach=none",
		"largest":  "/?view=send&length=200+ft&width=200+ft&deep=19+ft&zone_area=20000+sq+ft&lip=39+ft&rise=16+ft&fence=on&patio=on&fire_pit=on",
		"many":     "/?view=send&sheets=2&length=200+ft&width=200+ft&deep=19+ft&zone_area=20000+sq+ft&lip=39+ft&rise=16+ft&fence=on&patio=on&fire_pit=on",
		"narrow":   "/?view=send&length=200+ft&width=12+ft&shape=long&units=metric&pump=variable&pipe=1.5",
		"spanish":  "/?view=send&lang=es&sheets=2&length=200+ft&width=200+ft&deep=19+ft&zone_area=20000+sq+ft&lip=39+ft&rise=16+ft&fence=on",
	}
}

// pages counts the pages of a PDF.
func pages(pdf []byte) int { return len(regexp.MustCompile(`/Type\s*/Page[^s]`).FindAll(pdf, -1)) }

// TestPrint_IsOnePage prints every pond on both sizes: one page, and two with
// the builder's, with nothing cut off from them, whether or not script runs.
// The code on the page opens the pond.
func TestPrint_IsOnePage(t *testing.T) {
	t.Parallel()
	s := serve(t)
	dir, err := filepath.Abs("../../.build/shots")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, address := range printed() {
		sheets := 1 + strings.Count(address, "&sheets=2")
		b := printedTab(t, s, name, address)
		for _, p := range papers() {
			pdf := b.pdf(p)
			if n := pages(pdf); n != sheets {
				t.Errorf("%s on %s: %d pages, want %d", name, p.name, n, sheets)
			}
			if err := os.WriteFile(filepath.Join(dir, "print-"+name+"-"+p.name+".pdf"), pdf, 0o600); err != nil {
				t.Fatal(err)
			}
			for _, cut := range b.cutOff(p) {
				t.Errorf("%s on %s: %s is cut off", name, p.name, cut)
			}
		}
		b.quiet()
	}
}

func (b *tab) pdf(p paper) (pdf []byte) {
	b.t.Helper()
	b.run(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPaperWidth(p.wide).WithPaperHeight(p.high).WithPrintBackground(false).Do(ctx)
		return err
	}))
	return pdf
}

// printedTab is the demo with script, and the others as the server draws them.
func printedTab(t *testing.T, s *server, name, address string) *tab {
	t.Helper()
	if name == "demo" || name == "demo-two" {
		return live(t, s, size{1280, 860}, address)
	}
	b := open(t, size{1280, 860}, scriptOff)
	b.run(chromedp.Navigate(s.url + address))
	return b
}

// asPrinted shows the page as paper of a size does, and gives the way back.
func (b *tab) asPrinted(p paper, scale float64) (back func()) {
	b.t.Helper()
	const marginPx = 2 * 12 / 25.4 * 96
	b.run(emulation.SetEmulatedMedia().WithMedia("print"), emulation.SetDeviceMetricsOverride(int64(p.wide*96-marginPx), int64(p.high*96-marginPx), scale, false))
	return func() {
		b.run(emulation.SetEmulatedMedia().WithMedia(""), emulation.SetDeviceMetricsOverride(1280, 860, 1, false))
	}
}

// cutOff lists what of the printed pages does not lie on them.
func (b *tab) cutOff(p paper) []string {
	b.t.Helper()
	defer b.asPrinted(p, 1)()
	return eval[[]string](b, `[...document.querySelectorAll(".paper")].flatMap((sheet) => {
		const r = sheet.getBoundingClientRect(), out = [], drawing = sheet.querySelector(".pp-drawing svg");
		if (r.height < 500) out.push("the page itself, " + r.height + " px high");
		if (drawing && drawing.getBoundingClientRect().height < 180) out.push("the drawing, " + drawing.getBoundingClientRect().height + " px high");
		for (const e of sheet.querySelectorAll("p, dt, dd, li, td, th, .fig, svg")) {
			if (e.closest("svg") && e.tagName !== "svg") continue;
			const q = e.getBoundingClientRect();
			if (q.width && (q.bottom > r.bottom + 1 || q.right > r.right + 1 || q.left < r.left - 1 || q.top < r.top - 1)) out.push(e.textContent.slice(0, 60));
			const box = e.closest(".pp-side"), cols = e.closest(".pp-cols"); // words that run out of their column
			if (box && q.bottom > sheet.querySelector(".pp-words").getBoundingClientRect().top + 1) out.push(e.textContent.slice(0, 60));
			if (cols && q.bottom > sheet.querySelector(".pp-end").getBoundingClientRect().top + 1) out.push(e.textContent.slice(0, 60));
		}
		return out;
	})`)
}

// TestPrint_TheCodeOpensThePond reads the printed code as a phone would, off a
// page with and one without script.
func TestPrint_TheCodeOpensThePond(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, with := range []scripting{scriptOn, scriptOff} {
		b := open(t, size{1280, 860}, with)
		b.run(chromedp.Navigate(s.url + "/?view=send&length=41+ft&zone=off"))
		if with == scriptOn {
			b.until("the widget took over", isLive)
		}
		back := b.asPrinted(papers()[0], 2)
		var shot []byte
		b.run(chromedp.Screenshot("#paper-qr", &shot, chromedp.ByQuery))
		back()
		b.run(emulation.SetScriptExecutionDisabled(false))
		read := b.scanned(shot)
		if !strings.HasPrefix(read, s.url+"/#d=1.") {
			t.Fatalf("the printed code reads %q", read)
		}
		phone := open(t, size{390, 844}, scriptOn)
		phone.run(chromedp.Navigate(read))
		phone.until("the phone shows the pond", isLive)
		if got := eval[string](phone, `document.getElementById("f-length").value + document.getElementById("f-zone").checked`); got != "41 ftfalse" {
			t.Errorf("the phone shows %q", got)
		}
	}
}

// TestPrint_SaysWhatTheScreenSays compares every figure of the readings with
// the printed page of the same pond.
func TestPrint_SaysWhatTheScreenSays(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?length=30+ft&deep=7+ft")
	screen := eval[[]string](b, `[...document.querySelectorAll(".out .rd .rd-v .fig, .out .rd .amt, .out .rd > .note")].map(e => e.textContent.trim())`)
	b.click("tab-send")
	b.until("the last page shows", `document.getElementById("paper") !== null`)
	text := eval[string](b, `document.getElementById("paper").textContent`)
	if len(screen) < 12 {
		t.Fatalf("only %d figures on the screen", len(screen))
	}
	for _, f := range screen {
		if !strings.Contains(text, f) {
			t.Errorf("the screen says %q, the printed page does not", f)
		}
	}
	for _, note := range eval[[]string](b, `[...document.querySelectorAll(".know .notes li")].filter(e => e.querySelector(".pin-care")).map(e => e.querySelector("h2").lastChild.textContent.trim())`) {
		if !strings.Contains(text, note) {
			t.Errorf("the printed page lacks the caution %q", note)
		}
	}
	if !strings.Contains(text, "Not a quotation") || !strings.Contains(text, "hello@fernhollow.example") {
		t.Errorf("no caution or no builder: %.500s", text)
	}
}

// TestPages_CountsThem so that one page cannot be a miscount.
func TestPages_CountsThem(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{1280, 860}, scriptOff)
	b.run(chromedp.Navigate(s.url + "/?view=pump"))
	var pdf []byte
	b.run(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPaperWidth(3).WithPaperHeight(3).Do(ctx)
		return err
	}))
	if n := pages(pdf); n < 3 {
		t.Errorf("%d pages of 3 by 3 in, want several", n)
	}
}
