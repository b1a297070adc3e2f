package browsertest_test

import (
	"net/http"
	"net/http/httptest"
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestExport_WorksFromAPlainFileServer: the exported page, served by a host
// that knows nothing of it, sends an enquiry to the server that takes them.
func TestExport_WorksFromAPlainFileServer(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	host := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(host.Close)
	s := serveWith(t, "-intake-origins", host.URL)
	if out, err := exec.Command(binary(t), "export", "-intake", s.url, dir).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(host.URL + "/?length=44+ft&units=metric"))
	b.until("the widget took over", isLive)
	// The file is the same for every address; the address is what was asked.
	if got := b.reading("volume"); !strings.Contains(got, "m³") {
		t.Errorf("the address asks for metric, and the volume reads %q", got)
	}
	before := b.reading("volume")
	b.fill("f-width", "8 m")
	b.changes("volume", before, "another width")
	b.click("tab-send")
	b.until("the last page shows", `document.getElementById("tarnwright").dataset.view === "send"`)
	b.fill("f-name", "Maren Oakes")
	b.fill("f-email", "maren@oakesmail.example")
	b.click("f-consent")
	b.click("send")
	b.until("it was sent", `document.getElementById("sent") !== null`)
	b.quiet()
	out, err := exec.Command(binary(t), "leads", "-data", s.data).CombinedOutput()
	if err != nil || strings.Count(string(out), "maren@oakesmail.example") != 1 {
		t.Errorf("leads: %v\n%s", err, out)
	}
	if asked := eval[int64](b, `performance.getEntriesByType("resource").filter(e => !e.name.startsWith(location.origin) && !e.name.startsWith("data:")).length`); asked != 1 {
		t.Errorf("%d requests went elsewhere, want the enquiry alone", asked)
	}
}

// TestExport_ShowsInNoOtherSitesFrame: a host that serves files sends no
// policy, so the page itself looks whose frame it is in.
func TestExport_ShowsInNoOtherSitesFrame(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	host := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(host.Close)
	framing := func() string {
		return `<!doctype html><title>x</title><link rel="icon" href="data:,"><iframe width="1200" height="900" src="` + host.URL + `/"></iframe>`
	}
	listed, stranger := pageOf(t, framing), pageOf(t, framing)
	if out, err := exec.Command(binary(t), "export", "-intake", "http://127.0.0.1:9", "-hosts", listed.url, dir).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(listed.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	b.inside(host.URL).until("the widget took over", isLive)
	other := open(t, size{1280, 860}, scriptOn)
	other.run(chromedp.Navigate(stranger.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	other.inside(host.URL).until("nothing shows", `document.readyState === "complete" && document.documentElement.hidden && document.body.getClientRects().length === 0`)
}
