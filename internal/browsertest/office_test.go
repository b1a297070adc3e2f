package browsertest_test

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/wire"
)

const (
	annaAtWork = "anna@fernhollow.example"
	annasWords = "four herons by the weir"
)

// asker is somebody who sent an enquiry, made up.
type asker struct {
	lead.Contact
	ref    string
	change func(form.State) form.State
	aside  string
	old    time.Duration
}

func askers() []asker {
	same := func(s form.State) form.State { return s }
	return []asker{
		{lead.Contact{Name: "Odalys Canarywell-Featherstonehaugh", Email: "odalys@canarywell.example", Phone: "+1 555 0142 ext. 12", Town: "Upper Alder", Start: "soon",
			Note: "The slope runs to the south.\nTwo big oaks <stay>; see & keep them.", Consent: true}, "FP-00000A", same, "", 40 * time.Minute},
		{lead.Contact{Name: "Tomás Ríos", Phone: "555 0177", Town: "Lower Alder", Start: "next_spring", Consent: true}, "FP-00000B",
			func(s form.State) form.State { return s.With(form.Length, "48 ft").With(form.Width, "30 ft") }, "", 26 * time.Hour},
		{lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Consent: true}, "FP-00000C",
			func(s form.State) form.State { return s.With(form.Cascade, "off").With(form.Deck, "off") }, "", 9 * 24 * time.Hour},
		{lead.Contact{Name: "Cheap Meds", Email: "x@spam.example", Note: "https://spam.example https://spam.example", Consent: true}, "FP-00000D", same, "trap, links", 50 * time.Minute},
	}
}

// enquired puts enquiries into a server's database: one of them with figures
// that differ and a delivery that nobody tries any more, one put aside.
func enquired(t *testing.T, s *server) {
	t.Helper()
	ctx := context.Background()
	store, err := sqlite.Open(ctx, filepath.Join(s.data, "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	for n, a := range askers() {
		d, _ := a.change(form.New(form.Demo())).Design()
		l := leadOf(t, d)
		l.Key, l.Reference, l.Contact, l.Quarantine = fmt.Sprintf("key-of-enquiry-number-%d", n), a.ref, a.Contact, a.aside
		l.Received = time.Now().Add(-a.old).UTC().Truncate(time.Millisecond)
		if n == 0 {
			l.Differences = []lead.Difference{{ID: "water.net_volume", Client: "61.2", Server: "67.7588"}, {ID: "budget.low", Client: "38000", Server: "41250.37"}}
		}
		if _, _, err := store.Put(ctx, l); err != nil {
			t.Fatal(err)
		}
	}
	now := time.Now()
	if err := store.Spread(ctx, []string{"mail"}, now); err != nil {
		t.Fatal(err)
	}
	due, err := store.Take(ctx, lead.Taking{Channels: []string{"mail"}, Now: now, Until: now.Add(time.Minute), Limit: 10})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range due {
		out := lead.Outcome{State: lead.Sent, At: now}
		if x.Reference == askers()[0].ref {
			out = lead.Outcome{State: lead.Dead, At: now, Why: "the mail server said no (550)"}
		}
		if err := store.Settle(ctx, x, out); err != nil {
			t.Fatal(err)
		}
	}
}

func leadOf(t *testing.T, d design.Design) lead.Lead {
	t.Helper()
	sh := core.Compute(d, book.Demo())
	raw, err := wire.SheetJSON(sh, "", nil)
	if err != nil {
		t.Fatal(err)
	}
	return lead.Lead{Digest: strings.Repeat("0", 64), MadeAt: "2026-11-25T16:00:00+01:00", Design: d, SheetJSON: raw, CoreVersion: sh.CoreVersion, Book: sh.Book,
		Consent: lead.Consent{Text: "Fernhollow Ponds may use these details and this drawing to reply to me about Alder Reach.", Language: "en", Channel: "page"}}
}

// invited runs the command that makes an invitation and returns its address.
func invited(t *testing.T, s *server, email string) string {
	t.Helper()
	out, err := exec.Command(binary(t), "invite", "-data", s.data, "-addr", strings.TrimPrefix(s.url, "http://"), email).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	link := regexp.MustCompile(`http://\S+/office/join/\S+`).FindString(string(out))
	if link == "" {
		t.Fatalf("no link in %s", out)
	}
	return link
}

// reach presses Tab until an element has the focus: what cannot be reached so
// is out of reach for those without a mouse.
func (b *tab) reach(selector string) {
	b.t.Helper()
	const most = 90
	for range most {
		b.run(chromedp.KeyEvent(kb.Tab))
		if eval[bool](b, fmt.Sprintf(`document.activeElement !== null && document.activeElement.matches(%q)`, selector)) {
			return
		}
	}
	b.t.Fatalf("%s is not reached with the Tab key on %s", selector, eval[string](b, `location.pathname`))
}

func (b *tab) keys(text string) { b.t.Helper(); b.run(chromedp.KeyEvent(text)) }

// arrive waits for another page; while the old one goes, there is none to ask.
func (b *tab) arrive(what, js string) {
	b.t.Helper()
	js = `document.readyState === "complete" && (` + js + `)`
	const turn = 5 * time.Second
	for end := time.Now().Add(patience); time.Now().Before(end); {
		if chromedp.Run(b.ctx, chromedp.Poll(js, nil, chromedp.WithPollingTimeout(turn), chromedp.WithPollingInterval(30*time.Millisecond))) == nil {
			return
		}
	}
	b.until(what, js)
}

// looked runs the rules over the page at some widths, and keeps pictures. The
// drawing is the page's own and is looked at there; here once is enough.
func (b *tab) looked(t *testing.T, rules, name string, widths ...int64) {
	t.Helper()
	if len(widths) == 0 {
		widths = []int64{1280, 390, 320}
	}
	dir, err := filepath.Abs("../../.build/shots")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, w := range widths {
		b.run(emulation.SetDeviceMetricsOverride(w, 844, 1, w < 600), chromedp.Evaluate(rules, nil))
		hide := fmt.Sprintf(`document.querySelectorAll(".of-drawing svg").forEach(e => e.classList.toggle("axe-later", %v))`, name != "enquiry" || w != widths[0])
		b.run(chromedp.Evaluate(hide+`; document.querySelectorAll(".axe-later").forEach(e => e.setAttribute("display", "none"))`, nil))
		for _, v := range b.axe() {
			t.Errorf("%s at %d px: %s", name, w, v)
		}
		b.run(chromedp.Evaluate(`document.querySelectorAll(".axe-later").forEach(e => e.removeAttribute("display"))`, nil))
		if over := eval[int64](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			t.Errorf("%s at %d px runs %d px off the side: %s", name, w, over,
				eval[string](b, `[...document.querySelectorAll("main *")].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 && !e.closest(".scroll, svg svg")).slice(0, 4).map(e => e.tagName + "." + e.className).join(" ")`))
		}
		for _, small := range eval[[]string](b, `[...document.querySelectorAll(".of button, .of summary, .of nav a, .of .btn, .of .lnk, .of input:not([type=hidden]), .of select, .of textarea, .of dd a")]
			.filter(e => e.checkVisibility({checkOpacity: true, checkVisibilityCSS: true}) && !e.closest(".skip"))
			.map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.height < 43.5 || r.width < 43.5)
			.map(([e, r]) => e.tagName + " " + (e.id || e.className || e.textContent.trim()).slice(0, 40) + " " + Math.round(r.width) + "×" + Math.round(r.height))`) {
			t.Errorf("%s at %d px: a target under 44 px: %s", name, w, small)
		}
		var png []byte
		b.run(chromedp.CaptureScreenshot(&png))
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("office-%s-%d.png", name, w)), png, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b.run(emulation.SetDeviceMetricsOverride(1280, 860, 1, false))
	// No title names a person.
	if title := eval[string](b, `document.title`); !strings.HasSuffix(title, "Fernhollow Ponds") || strings.Contains(title, "Canarywell") || strings.Contains(title, "@") {
		t.Errorf("%s has the title %q", name, title)
	}
}

// TestOffice_FromTheInvitationToTheDeletion walks through the office with the
// keyboard alone: invited, a password chosen, signed out and in again, the
// list, one enquiry, its status and a note, files taken away, one let through,
// one deleted.
func TestOffice_FromTheInvitationToTheDeletion(t *testing.T) {
	t.Parallel()
	s := serve(t)
	rules := axe(t)
	enquired(t, s)
	b := open(t, size{1280, 860}, scriptOn)
	invitation := invited(t, s, annaAtWork)
	b.run(chromedp.Navigate(invitation))
	b.looked(t, rules, "invited")
	b.reach("#f-password")
	b.keys("passwordpassword" + kb.Tab + "passwordpassword" + kb.Enter)
	b.arrive("a password that is guessed first is refused", `document.querySelector("[role=alert]") !== null`)
	b.looked(t, rules, "join")
	b.reach("#f-password")
	b.keys(annasWords + kb.Tab + annasWords + kb.Enter)
	b.arrive("the list", `document.querySelectorAll(".of-row").length === 3`)
	b.looked(t, rules, "list")
	if got := eval[string](b, `document.querySelector(".of-row a").textContent`); got != askers()[0].Name {
		t.Errorf("the newest is %s", got)
	}

	b.reach(".of-me button")
	b.keys(kb.Enter)
	b.arrive("signed out", `location.pathname === "/office/sign-in"`)
	b.looked(t, rules, "door")
	b.reach("#f-email")
	b.keys(annaAtWork + kb.Tab + "not these words" + kb.Enter)
	b.arrive("a wrong password is refused", `document.querySelector("[role=alert]") !== null`)
	b.looked(t, rules, "sign-in")
	if kept := eval[string](b, `document.getElementById("f-email").value + "|" + document.getElementById("f-password").value`); kept != annaAtWork+"|" {
		t.Errorf("after a wrong password the form holds %q", kept)
	}
	b.reach("#f-password")
	b.keys(annasWords + kb.Enter)
	b.arrive("signed in", `document.querySelectorAll(".of-row").length === 3`)

	b.reach("#f-words")
	b.keys("canarywell" + kb.Enter)
	b.arrive("one is found", `document.querySelectorAll(".of-row").length === 1`)
	if at := eval[string](b, `location.href`); strings.Contains(strings.ToLower(at), "canary") {
		t.Errorf("the address names a person: %s", at)
	}
	b.reach(".of-name a")
	b.keys(kb.Enter)
	b.arrive("the enquiry", `document.querySelector(".of-case") !== null`)
	b.looked(t, rules, "enquiry")
	lookedAtEnquiry(t, b)

	b.reach("#f-status")
	b.keys("C" + kb.Tab + "a") // Called; anna
	b.reach("#handling button")
	b.keys(kb.Enter)
	b.arrive("it is saved", `document.querySelector("[role=status]") !== null`)
	b.reach("#f-text")
	b.keys("Left a message on Monday.")
	b.reach("#remark button")
	b.keys(kb.Enter)
	b.arrive("the note stands there", `document.querySelector(".of-notes") !== null`)
	if got := eval[string](b, `[document.getElementById("f-status").value, document.getElementById("f-assignee").value, document.querySelector(".of-notes").textContent].join("|")`); !strings.HasPrefix(got, "called|"+annaAtWork+"|"+annaAtWork) || !strings.HasSuffix(got, "Left a message on Monday.") {
		t.Errorf("the enquiry holds %s", got)
	}

	b.looked(t, rules, "handled")
	takenAway(t, b, s)
	b.run(chromedp.Navigate(s.url + "/office/?status=won"))
	b.looked(t, rules, "none-found")
	b.run(chromedp.Navigate(invitation))
	b.looked(t, rules, "spent")
	b.run(chromedp.Navigate(s.url + "/office/nowhere"))
	b.looked(t, rules, "nowhere")
	b.run(chromedp.Navigate(s.url + "/office/password"))
	b.looked(t, rules, "password")
	b.run(chromedp.Navigate(s.url + "/office/untold"))
	b.looked(t, rules, "untold")
	b.run(chromedp.Navigate(s.url + "/office/?aside=1"))
	b.looked(t, rules, "aside")
	b.reach(".of-name a")
	b.keys(kb.Enter)
	b.arrive("the one put aside", `document.querySelector(".of-put-aside") !== null`)
	b.looked(t, rules, "enquiry-aside")
	b.reach(".of-put-aside button")
	b.keys(kb.Enter)
	b.arrive("it is let through", `document.querySelector(".of-put-aside") === null && document.querySelector("[role=status]") !== null`)
	b.looked(t, rules, "let-through")
	b.run(chromedp.Navigate(s.url + "/office/leads/" + askers()[0].ref + "/delete"))
	b.looked(t, rules, "delete")
	b.reach(".of-door button")
	b.keys(kb.Enter)
	b.arrive("it is gone", `document.querySelectorAll(".of-row").length === 3 && !document.body.textContent.includes("Canarywell")`)
	b.run(chromedp.Navigate(s.url + "/office/leads/" + askers()[0].ref))
	b.looked(t, rules, "gone")
	b.problems = withoutGone(b.problems)
	b.quiet()
	for _, canary := range []string{"Canarywell", "odalys", "555 0142", annaAtWork, "herons"} {
		if strings.Contains(s.log.String(), canary) {
			t.Errorf("the log holds %q", canary)
		}
	}
	if !strings.Contains(s.log.String(), `"act":"delete","reference":"FP-00000A"`) {
		t.Error("the log does not say who deleted what")
	}
}

// withoutGone leaves out what the browser says of a page that is meant not to
// be there.
func withoutGone(p *lines) *lines {
	out := &lines{}
	for _, l := range strings.Split(strings.TrimSpace(p.String()), "\n") {
		if l != "" && !strings.Contains(l, "status of 404") && !strings.Contains(l, "status of 410") {
			out.add(l)
		}
	}
	return out
}

// lookedAtEnquiry finds on the page what a first call needs.
func lookedAtEnquiry(t *testing.T, b *tab) {
	t.Helper()
	text := strings.ReplaceAll(eval[string](b, `document.querySelector("main").innerText`), "\u00a0", " ")
	for _, want := range []string{"Odalys Canarywell-Featherstonehaugh", "Upper Alder", "As soon as can be", "Two big oaks <stay>; see & keep them.", "13,000 gal", "16,200 gal",
		"Takeoff", "Liner", "Budget items", "may use these details", "the mail server said no (550)", "Nobody", "months"} {
		if !strings.Contains(text, want) {
			t.Errorf("the enquiry does not say %q", want)
		}
	}
	for _, want := range []string{`#call[href="tel:+15550142"]`, `#write[href^="mailto:odalys@canarywell.example?subject="]`, ".of-drawing svg", ".of-safety li", ".of-pump .tbl"} {
		if !eval[bool](b, fmt.Sprintf(`document.querySelector(%q) !== null`, want)) {
			t.Errorf("the enquiry has no %s", want)
		}
	}
	if bad := eval[[]string](b, `[...document.querySelectorAll("main *")].flatMap(e => [...e.childNodes].filter(n => n.nodeType === 3).map(n => n.textContent.trim())).filter(t => /^(office|send|view|page|figure)\.[a-z_.]+$/.test(t))`); len(bad) > 0 {
		t.Errorf("keys without words: %v", bad)
	}
	at := eval[string](b, `location.href`)
	b.run(chromedp.Navigate(at + "/open"))
	b.arrive("the pond opens in the page", `location.pathname === "/" && location.hash.startsWith("#d=")`)
	b.run(chromedp.Navigate(at))
	b.arrive("back at the enquiry", `document.querySelector(".of-case") !== null`)
}

// takenAway fetches the files with the browser's own session.
func takenAway(t *testing.T, b *tab, s *server) {
	t.Helper()
	var cookies []*network.Cookie
	b.run(chromedp.ActionFunc(func(ctx context.Context) (err error) { cookies, err = network.GetCookies().Do(ctx); return err }))
	get := func(path string) (string, *http.Response) {
		req, err := http.NewRequest(http.MethodGet, s.url+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cookies {
			req.AddCookie(&http.Cookie{Name: c.Name, Value: c.Value})
		}
		res, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = res.Body.Close() }()
		text, err := io.ReadAll(res.Body)
		if err != nil {
			t.Fatal(err)
		}
		return string(text), res
	}
	text, res := get("/office/files/enquiries.csv")
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff"))).ReadAll()
	if err != nil || len(rows) != 4 || res.Header.Get("Content-Disposition") != `attachment; filename="enquiries.csv"` {
		t.Errorf("%d rows, %v, %s", len(rows), err, res.Header.Get("Content-Disposition"))
	}
	if text, _ := get("/office/leads/FP-00000A/files/enquiry.vcf"); !strings.Contains(text, "FN:Odalys Canarywell-Featherstonehaugh\r\n") {
		t.Errorf("the card is %s", text)
	}
	if text, _ := get("/office/leads/FP-00000A/files/enquiry.json"); !strings.Contains(text, `"Left a message on Monday."`) {
		t.Errorf("the JSON is %.300s", text)
	}
	cookies = nil
	if _, res := get("/office/files/enquiries.csv"); res.Request.URL.Path != "/office/sign-in" {
		t.Errorf("without a session the file is at %s", res.Request.URL)
	}
}
