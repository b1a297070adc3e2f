package browsertest_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// TestGallery_IsSeen writes the gallery, takes a picture of it in two schemes
// of colour, and sees that every piece shows something, has no fault that the
// accessibility rules find, and keeps inside its column on a phone.
func TestGallery_IsSeen(t *testing.T) {
	t.Parallel()
	dir, err := filepath.Abs("../../.build/gallery")
	if err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("go", "run", "../../app/gallery", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	front := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(front.Close)
	b := open(t, size{1280, 900}, scriptOn)
	b.run(chromedp.Navigate(front.URL))
	boxes := eval[[][4]float64](b, `[...document.querySelectorAll(".piece-in")].map(e => { const r = e.getBoundingClientRect(); return [r.left, r.top + scrollY, r.width, r.height]; })`)
	if len(boxes) < 50 {
		t.Fatalf("only %d pieces", len(boxes))
	}
	for _, c := range schemes() {
		b.run(emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: c.feature, Value: c.value}}))
		var shot []byte
		b.run(chromedp.FullScreenshot(&shot, 100))
		if err := os.WriteFile(filepath.Join(dir, "gallery-"+c.name+".png"), shot, 0o600); err != nil {
			t.Fatal(err)
		}
		picture, err := png.Decode(bytes.NewReader(shot))
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range boxes {
			if n := colours(picture, image.Rect(int(r[0]), int(r[1]), int(r[0]+r[2]), int(r[1]+r[3]))); n < 2 {
				t.Errorf("%s: piece %d shows nothing: %s", c.name, i, eval[string](b, fmt.Sprintf(`document.getElementById("piece-%d").getAttribute("aria-label")`, i)))
			}
		}
	}
	b.run(emulation.SetEmulatedMedia(), chromedp.Evaluate(axe(t), nil))
	for _, v := range b.axe() {
		t.Error(v)
	}
	b.run(emulation.SetDeviceMetricsOverride(320, 700, 1, true))
	if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		t.Errorf("at 320 px it runs %d px off the side", over)
	}
	b.quiet()
}

// colours counts the colours of a part of a picture, up to two.
func colours(picture image.Image, part image.Rectangle) int {
	part = part.Intersect(picture.Bounds())
	var first color.Color
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			c := picture.At(x, y)
			if first == nil {
				first = c
			} else if c != first {
				return 2
			}
		}
	}
	return 1
}
