package main

import (
	"context"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/office"
	"tarnwright/internal/store/sqlite"
)

// An invitation is made before there is any database, works for its address
// and site alone, and is taken back with the account.
func TestInvite_OpensTheOffice(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	code, out, errs := call("invite", "-data", data, "-addr", "127.0.0.1:8099", "Anna@Fernhollow.example")
	link := regexp.MustCompile(`^http://127\.0\.0\.1:8099/office/join/([A-Za-z0-9_-]{43})\n`).FindStringSubmatch(out)
	if code != 0 || link == nil || !strings.Contains(out, "anna@fernhollow.example, once, until ") {
		t.Fatalf("%d, %s%s", code, out, errs)
	}
	store, err := sqlite.Open(context.Background(), filepath.Join(data, "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	door := office.Door{Store: store, Now: time.Now}
	if email, err := door.Invited(t.Context(), link[1]); err != nil || email != "anna@fernhollow.example" {
		t.Errorf("it invites %q, %v", email, err)
	}
	if open, err := store.At("north").Anyone(t.Context()); err != nil || open {
		t.Errorf("it opens another site's office: %v", err)
	}
	if _, err := door.Join(t.Context(), link[1], "four herons by the weir", "four herons by the weir"); err != nil {
		t.Error(err)
	}
	if code, out, errs := call("invite", "-data", data, "-remove", "anna@fernhollow.example"); code != 0 || !strings.Contains(out, "no account any more") {
		t.Errorf("-remove: %d, %s%s", code, out, errs)
	}
	if _, err := store.UserByEmail(t.Context(), "anna@fernhollow.example"); err == nil {
		t.Error("the account is still there")
	}
}

func TestInvite_SaysWhatIsMissing(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"invite", "-data", data}, 2, "name one email address"}, {[]string{"invite", "-data", data, "anna"}, 2, "not an email address, like"},
		{[]string{"invite", "-data", data, "-site", "north", "anna@fernhollow.example"}, 2, "no site north"},
		{[]string{"invite", "-data", data, "-remove", "anna@fernhollow.example"}, 1, "no such account"},
	} {
		if code, _, errs := call(c.args...); code != c.code || !strings.Contains(errs, c.want) {
			t.Errorf("%v: %d, %s", c.args, code, errs)
		}
	}
}

// The server answers below /office/ from the first invitation on, without a
// restart.
func TestServe_OpensTheOfficeWithTheFirstInvitation(t *testing.T) {
	t.Parallel()
	v := &victim{t: t, bin: build(t), data: t.TempDir(), proxy: newLossy(t, 0)}
	v.start()
	defer v.stop()
	at := "http://" + v.proxy.l.Addr().String() + "/office/sign-in"
	status := func() int {
		res, err := http.Get(at)
		if err != nil {
			t.Fatal(err)
		}
		_ = res.Body.Close()
		return res.StatusCode
	}
	if got := status(); got != http.StatusNotFound {
		t.Errorf("before anybody is asked in: %d", got)
	}
	if code, _, errs := call("invite", "-data", v.data, "anna@fernhollow.example"); code != 0 {
		t.Fatal(errs)
	}
	if got := status(); got != http.StatusOK {
		t.Errorf("after it: %d", got)
	}
}
