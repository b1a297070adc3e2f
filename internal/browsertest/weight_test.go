package browsertest_test

import (
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// squeezed fetches an address as a browser does, and gives what came over the
// line and what it says.
func squeezed(t *testing.T, address string) (bytes int, text string) {
	t.Helper()
	ask := func(coding string) []byte {
		r, err := http.NewRequest(http.MethodGet, address, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", coding)
		reply, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = reply.Body.Close() }()
		raw, err := io.ReadAll(reply.Body)
		if err != nil || reply.StatusCode != http.StatusOK {
			t.Fatalf("%s: %d %v", address, reply.StatusCode, err)
		}
		return raw
	}
	return len(ask("gzip, br")), string(ask("identity"))
}

// TestWeight_EveryFirstViewIsLight counts what comes before the widget is
// woken: the page, and what its head asks for. Headers are counted at 600 bytes
// a reply.
func TestWeight_EveryFirstViewIsLight(t *testing.T) {
	t.Parallel()
	const most, headers = 90_000, 600
	s := serve(t)
	for _, address := range []string{"/", "/?ask=steps", "/?view=pump", "/?view=compare", threeOptions, "/?view=send", "/?lang=es&view=send",
		"/?view=send&length=200+ft&width=120+ft&deep=12+ft&fence=on&patio=on&fire_pit=on"} {
		total, page := squeezed(t, s.url+address)
		parts := 1
		for _, link := range regexp.MustCompile(`<(?:link rel="(?:stylesheet|icon)" href|script src)="([^"]+)"`).FindAllStringSubmatch(page, -1) {
			n, _ := squeezed(t, s.url+link[1])
			total, parts = total+n, parts+1
		}
		total += parts * headers
		t.Logf("%5.1f kB in %d parts: %s", float64(total)/1000, parts, address)
		if parts < 4 || !strings.Contains(page, `id="tarnwright"`) {
			t.Errorf("%s: only %d parts", address, parts)
		}
		if total > most {
			t.Errorf("%s weighs %d bytes before the widget is woken, more than %d", address, total, most)
		}
	}
}
