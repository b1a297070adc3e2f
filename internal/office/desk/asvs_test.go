package desk_test

import (
	"context"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// A password is masked as it is typed, and may be pasted or filled in by what
// keeps passwords.
func TestASVS_PasswordsAreMaskedAndMayBeFilledIn(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	token, _, err := r.door.Invite(context.Background(), anna)
	if err != nil {
		t.Fatal(err)
	}
	field := regexp.MustCompile(`<input[^>]*name="(?:password|again)"[^>]*>`)
	for path, fill := range map[string]string{"/office/join/" + token: "new-password", "/office/sign-in": "current-password"} {
		found := field.FindAllString(r.get(path).Body.String(), -1)
		if len(found) == 0 {
			t.Errorf("%s asks for no password", path)
		}
		for _, f := range found {
			if !strings.Contains(f, `type="password"`) || !strings.Contains(f, `autocomplete="`+fill+`"`) || strings.Contains(f, "onpaste") || strings.Contains(f, "maxlength") {
				t.Errorf("%s: %s", path, f)
			}
		}
	}
}

// Neither the log nor a title names who asks or what they wrote, whatever page
// of the office is looked at.
func TestASVS_TheLogAndTheTitlesNameNobody(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	r.filled()
	r.joined()
	title := regexp.MustCompile(`<title>(.*?)</title>`)
	for _, path := range []string{"/office/", "/office/?words=1", "/office/untold", "/office/leads/" + first, "/office/leads/" + second, "/office/leads/FP-ODALYS", "/office/Canarywell?words=Canarywell"} {
		w := r.get(path)
		m := title.FindStringSubmatch(w.Body.String())
		if m == nil && w.Code == http.StatusOK {
			t.Errorf("%s: no title", path)
		}
		for _, secret := range []string{"Odalys", "Canarywell", "canarywell", "5550142", "555 0142", "Cheap Meds", anna} {
			if m != nil && strings.Contains(m[1], secret) {
				t.Errorf("%s: the title is %q", path, m[1])
			}
			if strings.Contains(r.log.String(), secret) {
				t.Errorf("%s: the log says %s", path, r.log)
			}
		}
	}
	r.post("/office/sign-in", "email", "odalys@canarywell.example", "password", "Canarywell's own")
	r.post("/office/find", "words", "Canarywell")
	if log := r.log.String(); strings.Contains(log, "anarywell") || log == "" {
		t.Errorf("the log says %s", log)
	}
}
