package browsertest_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"tarnwright/internal/book"
)

// TestTheme_DressesThePageAndTheDrawing: a builder's colours, font and logo
// show before and after the widget takes over; the colours of depth stay.
func TestTheme_DressesThePageAndTheDrawing(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "book")
	if err := os.CopyFS(dir, book.DemoFiles()); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		book.ThemeName: `{"file_version": 1, "colours": {"ink": "#102A40", "paper": "#FAFAF5"}, "fonts": {"serif": ["Noto Sans", "sans-serif"]}, "logo": "mark.svg"}`,
		"mark.svg":     `<svg xmlns="http://www.w3.org/2000/svg" width="84" height="36" viewBox="0 0 84 36"><path d="M0 0h84v36H0z"/></svg>`,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s := serveWith(t, "-book", dir)
	const looks = `JSON.stringify([getComputedStyle(document.body).color, getComputedStyle(document.documentElement).backgroundColor,
		getComputedStyle(document.querySelector("#figures .rd-v")).fontFamily, getComputedStyle(document.querySelector("svg.dr .dr-wall, svg.dr .dr-shoreline")).stroke,
		getComputedStyle(document.querySelector("svg.dr .dr-d4, svg.dr .dr-d3")).fill, document.querySelector(".brand img.logo")?.naturalWidth])`
	off := open(t, size{1280, 860}, scriptOff)
	off.run(chromedp.Navigate(s.url + "/"))
	on := live(t, s, size{1280, 860}, "/")
	on.until("the logo is there", `document.querySelector(".brand img.logo")?.complete === true`)
	const depth4, depth3 = `"rgb(49, 121, 128)"`, `"rgb(116, 183, 185)"`
	for name, b := range map[string]*tab{"without script": off, "live": on} {
		got := eval[string](b, looks)
		want := `["rgb(16, 42, 64)","rgb(250, 250, 245)","\"Noto Sans\", sans-serif","rgb(16, 42, 64)",`
		if got != want+depth4+",84]" && got != want+depth3+",84]" {
			t.Errorf("%s: %s\nwant %s… 84]", name, got, want)
		}
		b.quiet()
	}
}
