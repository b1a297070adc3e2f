package browsertest_test

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// isOn tells whether the widget has taken over, without a sign of a person.
const isOn = `document.documentElement.dataset.live === "1"`

// TestWaking_WaitsForAPerson: a page that nobody touches has the widget at hand
// and leaves its own thread alone; one that was opened from a link with a pond
// in it, or again, shows what only the widget can.
func TestWaking_WaitsForAPerson(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, size{412, 823}, scriptOn)
	b.run(chromedp.Navigate(s.url + "/"))
	b.until("the widget was fetched", `performance.getEntriesByType("resource").some(e => e.name.includes("/rehearse."))`)
	if eval[bool](b, `performance.getEntriesByName("wake").length > 0`) {
		t.Error("the page woke with nobody there")
	}
	b.run(chromedp.MouseEvent("mouseMoved", 200, 300))
	b.until("a pointer that moves wakes it", isOn)
	b.run(chromedp.Reload())
	b.until("a page that is loaded again wakes by itself", isOn)
	b.run(chromedp.Navigate("about:blank"), chromedp.Navigate(s.url+"/#1.nonsense"))
	b.until("a page with a fragment wakes by itself", isOn)
}
