package desk_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/lead"
)

func TestList_ShowsWhatAFirstLookNeeds(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.joined()
	says(t, r.get("/office/"), http.StatusOK, "No enquiry has come in yet", "kept for 24 months")
	r.filled()
	w := r.get("/office/")
	says(t, w, http.StatusOK, who, "1 hour ago", "gal", "$", "New", `href="/office/leads/`+first+`"`)
	if strings.Contains(w.Body.String(), "Cheap Meds") {
		t.Error("one that was put aside is in the list")
	}
	says(t, r.get("/office/?aside=1"), http.StatusOK, "Cheap Meds")
	says(t, r.get("/office/?status=won"), http.StatusOK, "Nothing fits")
	says(t, r.get("/office/?status=nonsense&who=9&from=x&until=2026-13-01&page=-1&aside=yes&lang=zz"), http.StatusOK, who)
	says(t, r.get("/office/?from=2026-12-01"), http.StatusOK, "Nothing fits")
	says(t, r.get("/office/?from=2026-11-30&until=2026-11-30"), http.StatusOK, who)
	says(t, r.get("/office/?page=999999"), http.StatusOK, "Nothing fits")
}

// Words that are looked for may name a person: they never stand in an address.
func TestFind_KeepsWordsOutOfTheAddress(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	w := r.post("/office/find", "words", "  Canarywell ", "status", "new", "who", lead.Nobody)
	to := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || strings.Contains(strings.ToLower(to), "canary") || !strings.Contains(to, "words=1") {
		t.Fatalf("%d to %s", w.Code, to)
	}
	says(t, r.get(to), http.StatusOK, who, `value="Canarywell"`, "1 enquiry")
	r.get("/office/")
	to = r.post("/office/find", "words", "nobody of that name "+strings.Repeat("ñ", 500)).Header().Get("Location")
	says(t, r.get(to), http.StatusOK, "Nothing fits")
	says(t, r.get("/office/"), http.StatusOK, who)
}

func TestPages_GoThroughAllEnquiries(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	l := r.lead(first).Lead
	for n := range 30 {
		l.Key, l.Reference, l.Contact.Name = fmt.Sprintf("another-key-number-%d", n), fmt.Sprintf("FP-1000%02d", n), fmt.Sprintf("Person No. %d", n)
		if _, _, err := r.store.Put(t.Context(), l); err != nil {
			t.Fatal(err)
		}
	}
	r.joined()
	seen := map[string]bool{}
	for _, page := range []string{"/office/", "/office/?page=2"} {
		for _, m := range regexp.MustCompile(`/office/leads/(FP-[0-9A-Z]+)"`).FindAllStringSubmatch(r.get(page).Body.String(), -1) {
			seen[m[1]] = true
		}
	}
	if len(seen) != 31 {
		t.Errorf("%d enquiries on both pages, want 31", len(seen))
	}
	says(t, r.get("/office/"), http.StatusOK, "31 enquiries", "Older", "Page 1 of 2")
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(r.get("/office/files/enquiries.csv").Body.String(), "\ufeff"))).ReadAll()
	if err != nil || len(rows) != 32 {
		t.Errorf("%d rows, %v", len(rows), err)
	}
	var all struct{ Enquiries []struct{ Reference string } }
	if err := json.Unmarshal(r.get("/office/files/enquiries.json?page=2").Body.Bytes(), &all); err != nil || len(all.Enquiries) != 31 {
		t.Errorf("%d in the JSON, %v", len(all.Enquiries), err)
	}
	if w := r.get("/office/files/enquiries.exe"); w.Code != http.StatusNotFound {
		t.Errorf("an unknown kind: %d", w.Code)
	}
}

func TestEnquiry_ShowsEverythingAndEscapesIt(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	w := r.get("/office/leads/" + first)
	says(t, w, http.StatusOK, who, "tel:+15550142", "mailto:odalys@canarywell.example", "&lt;script&gt;", "You may reply.", "<svg", "Takeoff", "Budget items", "Kept for 24 months", "2028-11-30")
	if strings.Contains(w.Body.String(), "<script") {
		t.Error("what a stranger typed runs")
	}
	if m := regexp.MustCompile(`(?:[>"])((?:office|send|view|page)\.[a-z_.]+)[<"]`).FindStringSubmatch(w.Body.String()); m != nil {
		t.Errorf("a key without words: %s", m[1])
	}
	title := regexp.MustCompile(`<title>(.*)</title>`).FindStringSubmatch(w.Body.String())
	if title == nil || title[1] != "Enquiry "+first+" – Fernhollow Ponds" {
		t.Errorf("the title is %v", title)
	}
	says(t, r.get("/office/leads/"+strings.ToLower(first)), http.StatusNotFound, "no such enquiry")
	if strings.Contains(r.log.String(), "Canarywell") || strings.Contains(r.log.String(), anna) {
		t.Error("the log names a person")
	}
	if !strings.Contains(r.log.String(), `"msg":"office","site":"main","user":1,"act":"look","reference":"`+first+`"`) {
		t.Errorf("the log does not say who looked at what:\n%s", r.log)
	}
}

func TestEnquiry_IsWordedInSpanish(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	for _, path := range []string{"/office/leads/" + first, "/office/", "/office/leads/" + first + "/delete", "/office/untold", "/office/password"} {
		w := r.get(path + "?lang=es")
		says(t, w, http.StatusOK, `lang="es"`, "Salir")
		if m := regexp.MustCompile(`(?:[>"])((?:office|send|view|page)\.[a-z_.]+)[<"]`).FindStringSubmatch(w.Body.String()); m != nil {
			t.Errorf("%s: a key without words: %s", path, m[1])
		}
		for _, english := range []string{">Enquiries<", "Looked after by", ">Save<", "Sign out", "kept for"} {
			if strings.Contains(w.Body.String(), english) {
				t.Errorf("%s says %q", path, english)
			}
		}
	}
	says(t, r.get("/office/leads/"+first), http.StatusOK, "Mediciones", "Partidas del presupuesto", "hace 1 hora", "Guardar")
}

// The page is asked for the pond of the enquiry; one that its questions cannot
// say is said to be another.
func TestOpen_LeadsToThePageWithThePond(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	w := r.get("/office/leads/" + first + "/open")
	if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/#d=1.") {
		t.Errorf("%d to %s", w.Code, to)
	}
	l := r.lead(first).Lead
	l.Key, l.Reference, l.Design.Bowl.Wall[1].InsetM = "a-key-of-another-pond", "FP-00000C", 0.5
	if _, _, err := r.store.Put(t.Context(), l); err != nil {
		t.Fatal(err)
	}
	says(t, r.get("/office/leads/FP-00000C/open"), http.StatusOK, "only nearly", `href="/#d=1.`)
}

func TestHandling_IsKeptAndGuardedAgainstAnother(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	at := "/office/leads/" + first
	if w := r.post(at+"/handling", "status", "called", "assignee", anna, "version", "0"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != at+"?done=handling" {
		t.Fatalf("%d, %s", w.Code, w.Body)
	}
	if c := r.lead(first); c.Status != lead.StatusCalled || c.Assignee != anna {
		t.Errorf("%+v", c.Handling)
	}
	says(t, r.get(at+"?done=handling"), http.StatusOK, "Saved.", `role="status"`)
	says(t, r.post(at+"/handling", "status", "won", "assignee", "", "version", "0"), http.StatusConflict, "Somebody else changed this")
	if c := r.lead(first); c.Status != lead.StatusCalled {
		t.Errorf("an old form changed it to %s", c.Status)
	}
	for _, c := range [][2]string{{"gone", anna}, {"won", "stranger@evil.example"}} {
		if w := r.post(at+"/handling", "status", c[0], "assignee", c[1], "version", "2"); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%v: %d", c, w.Code)
		}
	}
}

func TestNote_IsNotLostWhenItIsTooLong(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	at := "/office/leads/" + first + "/note"
	long := strings.Repeat("Rocks. ", 700)
	says(t, r.post(at, "text", long), http.StatusUnprocessableEntity, "too long", strings.TrimSpace(long))
	says(t, r.post(at, "text", " \n "), http.StatusUnprocessableEntity, "Write something")
	if w := r.post(at, "text", "Left a message.\r\nWill call back."); w.Code != http.StatusSeeOther {
		t.Errorf("%d", w.Code)
	}
	notes, err := r.store.Notes(t.Context(), first)
	if err != nil || len(notes) != 1 || notes[0].Text != "Left a message.\nWill call back." || notes[0].Author != anna || !notes[0].At.Equal(r.at) {
		t.Errorf("%+v, %v", notes, err)
	}
	if w := r.post("/office/leads/NOBODY/note", "text", "x"); w.Code != http.StatusNotFound {
		t.Errorf("a note on nothing: %d", w.Code)
	}
	if w := r.do(http.MethodPost, at, url.Values{"form": {r.form}, "text": {strings.Repeat("x", 40<<10)}}); w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("a book: %d", w.Code)
	}
}

func TestRelease_LetsAnEnquiryThrough(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	says(t, r.get("/office/leads/"+second), http.StatusOK, "This was put aside", "cannot see was filled in", "out of the ordinary", "Nobody is told")
	if w := r.post("/office/leads/"+second+"/release", "version", "0"); w.Code != http.StatusSeeOther {
		t.Fatalf("%d, %s", w.Code, w.Body)
	}
	if r.lead(second).PutAside() {
		t.Error("it is still put aside")
	}
	says(t, r.get("/office/"), http.StatusOK, "Cheap Meds")
}

func TestUntold_ShowsDeadLettersAndSendsThemAgain(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	says(t, r.get("/office/untold"), http.StatusOK, "Everything has been delivered")
	ctx := t.Context()
	if err := r.store.Spread(ctx, []string{"mail"}, r.at); err != nil {
		t.Fatal(err)
	}
	due, err := r.store.Take(ctx, lead.Taking{Channels: []string{"mail"}, Now: r.at, Until: r.at.Add(time.Minute), Limit: 9})
	if err != nil || len(due) != 1 {
		t.Fatalf("%d due, %v", len(due), err)
	}
	if err := r.store.Settle(ctx, due[0], lead.Outcome{State: lead.Dead, At: r.at, Why: "the mail server said no"}); err != nil {
		t.Fatal(err)
	}
	says(t, r.get("/office/"), http.StatusOK, "1 enquiry could not be told")
	says(t, r.get("/office/untold"), http.StatusOK, first, "Not told by email, and not tried any more", "the mail server said no")
	if w := r.post("/office/leads/" + first + "/resend"); w.Code != http.StatusSeeOther {
		t.Fatalf("%d, %s", w.Code, w.Body)
	}
	says(t, r.get("/office/untold"), http.StatusOK, "Still being tried")
}

func TestDelete_AsksFirst(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	at := "/office/leads/" + first + "/delete"
	says(t, r.get(at), http.StatusOK, "Delete "+first+" for good?", "Keep it", "cannot be undone")
	if r.lead(first).Reference != first {
		t.Fatal("looking at the question deleted it")
	}
	if w := r.post(at); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/office/?done=delete" {
		t.Fatalf("%d", w.Code)
	}
	says(t, r.get("/office/leads/"+first), http.StatusNotFound, "may have been deleted")
}

// An enquiry whose design or sheet cannot be worked with any more is shown all
// the same: the person can still be called.
func TestEnquiry_ThatCannotBeWorkedOutIsShown(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	l := r.lead(first).Lead
	l.Key, l.Reference, l.Design.Outline.LengthM, l.SheetJSON, l.Book = "a-key-of-a-broken-pond", "FP-00000C", -1, []byte("{"), "demo/0"
	l.Contact.Name, l.Consent.Text = "Tomás Ríos", "Old words."
	l.Differences = []lead.Difference{{ID: "no.longer.a.figure", Client: "1.5", Server: "x"}}
	if _, _, err := r.store.Put(t.Context(), l); err != nil {
		t.Fatal(err)
	}
	says(t, r.get("/office/leads/FP-00000C"), http.StatusOK, "Tomás Ríos", "tel:+15550142", "Old words.", "no.longer.a.figure", "– of water and –")
	says(t, r.get("/office/"), http.StatusOK, "Tomás Ríos")
	says(t, r.get("/office/leads/FP-00000C/open"), http.StatusOK, "only nearly")
	for _, kind := range []string{"csv", "vcf"} {
		says(t, r.get("/office/leads/FP-00000C/files/enquiry."+kind), http.StatusOK, "Tomás Ríos")
	}
}
