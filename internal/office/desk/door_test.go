package desk_test

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/office"
	"tarnwright/internal/office/desk"
)

// routes are all that need somebody who is signed in.
func routes() map[string][]string {
	at := "/office/leads/" + first
	return map[string][]string{
		http.MethodGet:  {"/office/", "/office/?aside=1", "/office/untold", "/office/password", "/office/files/enquiries.csv", at, at + "/files/enquiry.json", at + "/open", at + "/delete"},
		http.MethodPost: {"/office/find", at + "/delete", at + "/handling", at + "/note", at + "/release", at + "/resend", "/office/password", "/office/sign-out"},
	}
}

func TestOffice_IsClosedUntilSomebodyIsAskedIn(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	if r.Open(t.Context()) {
		t.Error("an office without anybody is open")
	}
	if _, _, err := r.door.Invite(t.Context(), anna); err != nil {
		t.Fatal(err)
	}
	if !r.Open(t.Context()) {
		t.Error("an invitation does not open it")
	}
}

// No page and no file is seen by who is not signed in.
func TestDoor_KeepsEverythingBehindIt(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	for method, paths := range routes() {
		for _, path := range paths {
			for _, cookie := range []string{"", "made-up"} {
				w := r.do(method, path, nil, "Cookie", "__Host-tarnwright-office="+cookie)
				if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/office/sign-in" || strings.Contains(w.Body.String(), "Canarywell") {
					t.Errorf("%s %s: %d to %s", method, path, w.Code, w.Header().Get("Location"))
				}
			}
		}
	}
	if r.lead(first).Notes != 0 || r.lead(second).Released != (time.Time{}) {
		t.Error("something was done all the same")
	}
}

// A form without the proof of this session does nothing.
func TestForms_AreTakenFromThisSessionOnly(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	good := r.form
	for _, path := range routes()[http.MethodPost] {
		for _, proof := range []string{"", "made-up", strings.ToUpper(good)} {
			r.form = proof
			if w := r.post(path, "text", "a note", "status", "won", "version", "0"); w.Code != http.StatusForbidden {
				t.Errorf("%s with %q: %d", path, proof, w.Code)
			}
		}
	}
	if c := r.lead(first); c.Notes != 0 || c.Version != 0 {
		t.Errorf("something was done all the same: %+v", c.Handling)
	}
	r.form = good
	if w := r.post("/office/leads/"+first+"/note", "text", "a note"); w.Code != http.StatusSeeOther || r.lead(first).Notes != 1 {
		t.Errorf("with the proof: %d", w.Code)
	}
}

func TestCookies_AreBoundToTheHost(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		host, header string
		bare         bool
	}{
		{"check.fernhollow.example", "", false}, {"127.0.0.1:8080", "", true}, {"localhost:8080", "", true}, {"[::1]:8080", "", true},
		{"127.0.0.1:8080", "X-Forwarded-For", false}, {"127.0.0.1:8080", "X-Forwarded-Proto", false}, {"127.0.0.1:8080", "Forwarded", false}, {"10.0.0.5:8080", "", false},
		{"localhost.evil.example", "", false},
	} {
		r := setUp(t)
		r.host = c.host
		var headers []string
		if c.header != "" {
			headers = []string{c.header, "203.0.113.9"}
		}
		got := r.get("/office/sign-in", headers...).Result().Cookies()
		if len(got) != 1 {
			t.Fatalf("%s: %d cookies", c.host, len(got))
		}
		k := got[0]
		if strings.HasPrefix(k.Name, "__Host-") == c.bare || k.Secure == c.bare || !k.HttpOnly || k.SameSite != http.SameSiteLaxMode || k.Path != "/" || k.Domain != "" || k.MaxAge != 0 {
			t.Errorf("%s %s: %s", c.host, c.header, k)
		}
	}
}

// Who follows a letter's link before signing in gets to that enquiry after it,
// once, and nowhere else.
func TestSignIn_LeadsToTheEnquiryThatWasAskedFor(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	r.post("/office/sign-out")
	enter := func() string {
		t.Helper()
		r.get("/office/sign-in")
		w := r.post("/office/sign-in", "email", anna, "password", words)
		if w.Code != http.StatusSeeOther {
			t.Fatalf("signing in: %d", w.Code)
		}
		to := w.Header().Get("Location")
		r.get("/office/")
		r.post("/office/sign-out")
		return to
	}
	r.get("/office/leads/" + first)
	if got := enter(); got != "/office/leads/"+first {
		t.Errorf("it leads to %s", got)
	}
	if got := enter(); got != "/office/" {
		t.Errorf("the next time it leads to %s", got)
	}
	for _, forged := range []string{"../../evil", "//evil.example", "https://evil.example", "x%0d%0aSet-Cookie: a=b"} {
		r.jar["__Host-tarnwright-to"] = &http.Cookie{Name: "__Host-tarnwright-to", Value: forged}
		if got := enter(); got != "/office/" {
			t.Errorf("%s leads to %s", forged, got)
		}
		delete(r.jar, "__Host-tarnwright-to")
	}
}

// The session has another name after signing in, and the one before ends.
func TestSignIn_ChangesTheSession(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.joined()
	before := r.jar["__Host-tarnwright-office"].Value
	r.get("/office/sign-in")
	if w := r.post("/office/sign-in", "email", anna, "password", words); w.Code != http.StatusSeeOther {
		t.Fatalf("%d, %s", w.Code, w.Body)
	}
	after := r.jar["__Host-tarnwright-office"].Value
	if after == before || len(after) < 40 {
		t.Errorf("before %q, after %q", before, after)
	}
	if _, err := r.door.Who(context.Background(), before); err == nil {
		t.Error("the session before goes on")
	}
	r.get("/office/")
	if w := r.post("/office/sign-out"); w.Code != http.StatusSeeOther || r.jar["__Host-tarnwright-office"] != nil {
		t.Errorf("signing out: %d", w.Code)
	}
	if _, err := r.door.Who(context.Background(), after); err == nil {
		t.Error("after signing out the session goes on")
	}
}

func TestSignIn_SaysTheSameOfEveryMistake(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.joined()
	pages := map[string]bool{}
	for _, c := range [][2]string{{anna, "not these words"}, {"ben@fernhollow.example", words}, {"nobody", ""}} {
		r.get("/office/sign-in")
		w := r.post("/office/sign-in", "email", c[0], "password", c[1])
		says(t, w, http.StatusUnprocessableEntity, `role="alert"`, `value="`+c[0]+`"`)
		if strings.Contains(w.Body.String(), words) {
			t.Error("the page gives a password back")
		}
		text := strings.ReplaceAll(w.Body.String(), c[0], "EMAIL")
		pages[strings.ReplaceAll(text, r.form, "FORM")] = true
	}
	if len(pages) != 1 {
		t.Errorf("%d different answers", len(pages))
	}
	r.form = "made-up"
	says(t, r.post("/office/sign-in", "email", anna, "password", words), http.StatusForbidden, "kept no cookie")
}

func TestJoin_SaysWhatIsWrongWithAPassword(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	token, _, err := r.door.Invite(t.Context(), anna)
	if err != nil {
		t.Fatal(err)
	}
	at := "/office/join/" + token
	says(t, r.get(at), http.StatusOK, anna, "At least 12")
	for _, c := range [][3]string{{"short", "short", "at least 12"}, {"qwertyuiopasdf", "qwertyuiopasdf", "first that others"}, {"anna@fernhollow.example", "anna@fernhollow.example", "email address"}, {words, words + " ", "must be the same"}} {
		says(t, r.post(at, "password", c[0], "again", c[1]), http.StatusUnprocessableEntity, c[2])
	}
	r.at = r.at.Add(office.InviteTime + time.Minute)
	says(t, r.get(at), http.StatusGone, "too old")
	says(t, r.post(at, "password", words, "again", words), http.StatusGone, "too old")
	says(t, r.get("/office/join/made-up"), http.StatusGone, "too old")
}

// Every answer has the headers, and nothing but what is public may be kept.
func TestHeaders_OfEveryAnswer(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	css := r.get("/office/").Body.String()
	_, css, _ = strings.Cut(css, `rel="stylesheet" href="`)
	css, _, _ = strings.Cut(css, `"`)
	for _, path := range append(append(routes()[http.MethodGet], css, "/office/nowhere", "/office/leads/NOBODY"), "/office/sign-in", "/office/join/x") {
		h := r.get(path).Header()
		for name, want := range map[string]string{"X-Frame-Options": "DENY", "X-Content-Type-Options": "nosniff", "Cross-Origin-Opener-Policy": "same-origin",
			"Content-Security-Policy": "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"} {
			if h.Get(name) != want {
				t.Errorf("%s: %s is %q", path, name, h.Get(name))
			}
		}
		want := "no-store"
		if path == css {
			want = "public, max-age=31536000, immutable"
		}
		if h.Get("Cache-Control") != want {
			t.Errorf("%s may be kept: %s", path, h.Get("Cache-Control"))
		}
	}
}

func TestLanguage_IsChosenAndKept(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	says(t, r.get("/office/sign-in", "Accept-Language", "es-MX,en;q=0.5"), http.StatusOK, `lang="es"`, "Contraseña")
	says(t, r.get("/office/sign-in"), http.StatusOK, `lang="en"`, "Password", "Español")
	says(t, r.get("/office/sign-in?lang=es"), http.StatusOK, "Contraseña")
	says(t, r.get("/office/sign-in"), http.StatusOK, "Contraseña")
}

func TestNew_NeedsNoLogo(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	if w := r.get("/office/assets/logo.0"); w.Code != http.StatusNotFound {
		t.Errorf("%d", w.Code)
	}
	if _, err := desk.New(desk.Config{}); err != nil {
		t.Error(err)
	}
}

func TestPassword_IsChangedByWhoKnowsIt(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.joined()
	before := r.jar["__Host-tarnwright-office"].Value
	const other = "nine dragonflies at dusk"
	w := r.get("/office/password")
	says(t, w, http.StatusOK, `type="password"`, `autocomplete="current-password"`, `autocomplete="new-password"`)
	says(t, r.post("/office/password", "current", "not these words", "password", other, "again", other), http.StatusUnprocessableEntity, "not the password as it is")
	says(t, r.post("/office/password", "current", words, "password", "short", "again", "short"), http.StatusUnprocessableEntity, "at least 12")
	if w := r.post("/office/password", "current", words, "password", other, "again", other); w.Code != http.StatusSeeOther {
		t.Fatalf("%d, %s", w.Code, w.Body)
	}
	if _, err := r.door.Who(t.Context(), before); err == nil {
		t.Error("the session before goes on")
	}
	says(t, r.get("/office/?done=password"), http.StatusOK, "The new password is saved.")
	if _, err := r.door.SignIn(t.Context(), anna, other); err != nil {
		t.Errorf("the new password: %v", err)
	}
}

// Taking an account away ends its sessions at once.
func TestAccount_ThatIsRemovedIsOut(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	if err := r.store.RemoveUser(t.Context(), anna); err != nil {
		t.Fatal(err)
	}
	if w := r.get("/office/leads/" + first); w.Code != http.StatusSeeOther {
		t.Errorf("%d", w.Code)
	}
}

// What is another site's is not there: neither its accounts nor its enquiries.
func TestOffice_OfAnotherSiteIsApart(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	cookie := r.jar["__Host-tarnwright-office"].Value
	there := r.store.At("north")
	north := office.Door{Store: there, Now: r.door.Now}
	if _, err := north.Who(t.Context(), cookie); err == nil {
		t.Error("the session opens the other office")
	}
	if _, err := north.SignIn(t.Context(), anna, words); err == nil {
		t.Error("the password opens the other office")
	}
	if _, err := there.Case(t.Context(), first); err == nil {
		t.Error("the enquiry is in the other office")
	}
}
