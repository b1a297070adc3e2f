package storetest

import (
	"context"
	"errors"
	"reflect"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/account"
)

const lena = "lena@fernhollow.example"

// join makes a person by an invite.
func join(t *testing.T, s Whole, email, token string) account.User {
	t.Helper()
	ctx := context.Background()
	check(t, "invite", s.AddInvite(ctx, account.Invite{TokenHash: token, Email: email, Created: noon(), Expires: noon().Add(time.Hour)}))
	u, err := s.Redeem(ctx, token, "hash of "+token, noon())
	check(t, "redeem", err)
	return u
}

func invitesOnce(t *testing.T, one, other Whole) {
	ctx := context.Background()
	if some, err := one.Anyone(ctx); some || err != nil {
		t.Errorf("an empty site has somebody, %v", err)
	}
	invite := account.Invite{TokenHash: "first", Email: lena, Created: noon(), Expires: noon().Add(time.Hour)}
	check(t, "invite", one.AddInvite(ctx, invite))
	for s, want := range map[Whole]bool{one: true, other: false} {
		if some, err := s.Anyone(ctx); some != want || err != nil {
			t.Errorf("somebody there: %v, %v; want %v", some, err, want)
		}
	}
	if got, err := one.Invite(ctx, "first"); err != nil || got != invite {
		t.Errorf("invite %+v, %v", got, err)
	}
	if _, err := other.Redeem(ctx, "first", "x", noon()); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("another site's invite: %v", err)
	}
	if _, err := one.Redeem(ctx, "first", "x", noon().Add(time.Hour)); !errors.Is(err, account.ErrSpent) {
		t.Errorf("an invite that is too old: %v", err)
	}
	const hands = 6
	errs := make([]error, hands)
	var wg sync.WaitGroup
	for i := range hands {
		wg.Go(func() { _, errs[i] = one.Redeem(ctx, "first", "a hash", noon()) })
	}
	wg.Wait()
	used := 0
	for _, err := range errs {
		if err == nil {
			used++
		} else if !errors.Is(err, account.ErrSpent) {
			t.Errorf("redeem: %v", err)
		}
	}
	u, err := one.UserByEmail(ctx, lena)
	if used != 1 || err != nil || u.PasswordHash != "a hash" || !u.Created.Equal(noon()) {
		t.Errorf("used %d times, %+v, %v", used, u, err)
	}
	if got, err := one.Invite(ctx, "first"); err != nil || !got.Used.Equal(noon()) {
		t.Errorf("the used invite is %+v, %v", got, err)
	}
	if _, err := other.UserByEmail(ctx, lena); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("the other site knows her: %v", err)
	}
	if _, err := other.User(ctx, u.ID); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("the other site knows her id: %v", err)
	}
}

func locks(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	u := join(t, s, lena, "first")
	until := noon().Add(15 * time.Minute)
	const hands, most = 5, 5
	var wg sync.WaitGroup
	for range hands {
		wg.Go(func() {
			if _, err := s.FailSignIn(ctx, u.ID, most, until); err != nil {
				t.Errorf("fail: %v", err)
			}
		})
	}
	wg.Wait()
	got, err := s.User(ctx, u.ID)
	if err != nil || got.Failed != hands || !got.LockedUntil.Equal(until) {
		t.Errorf("after %d failures %+v, %v", hands, got, err)
	}
	check(t, "pass", s.PassSignIn(ctx, u.ID))
	if got, err := s.User(ctx, u.ID); err != nil || !reflect.DeepEqual(got, u) {
		t.Errorf("after a good sign-in %+v, %v; want %+v", got, err, u)
	}
	if got, err := s.FailSignIn(ctx, u.ID, most, until); err != nil || got.Failed != 1 || !got.LockedUntil.IsZero() {
		t.Errorf("after one failure %+v, %v", got, err)
	}
	if again := join(t, s, lena, "second"); again.ID != u.ID || again.Failed != 0 || again.PasswordHash != "hash of second" {
		t.Errorf("invited again she is %+v", again)
	}
	check(t, "password", s.SetPassword(ctx, u.ID, "third"))
	if got, err := s.User(ctx, u.ID); err != nil || got.PasswordHash != "third" {
		t.Errorf("%+v, %v", got, err)
	}
}

func endsSessions(t *testing.T, one, other Whole) {
	ctx := context.Background()
	u := join(t, one, lena, "first")
	begin := func(token string) account.Session {
		n := account.Session{TokenHash: token, FormToken: "form " + token, UserID: u.ID, Created: noon(), LastSeen: noon(), Expires: noon().Add(time.Hour)}
		check(t, "begin", one.AddSession(ctx, n))
		return n
	}
	ended := func(token string, at time.Time) bool {
		_, _, err := one.Session(ctx, token, at)
		if err != nil && !errors.Is(err, account.ErrNotFound) {
			t.Error(err)
		}
		return err != nil
	}
	want := begin("a")
	check(t, "see", one.SeeSession(ctx, "a", noon().Add(time.Minute)))
	want.LastSeen = noon().Add(time.Minute)
	if got, who, err := one.Session(ctx, "a", noon()); err != nil || got != want || who.Email != lena {
		t.Errorf("session %+v of %+v, %v", got, who, err)
	}
	if _, _, err := other.Session(ctx, "a", noon()); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("the session is the other site's too: %v", err)
	}
	if err := other.AddSession(ctx, account.Session{TokenHash: "b", UserID: u.ID}); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("the other site let her in: %v", err)
	}
	if !ended("a", noon().Add(time.Hour)) {
		t.Error("it outlives its end")
	}
	check(t, "end", one.EndSession(ctx, "a"))
	check(t, "end again", one.EndSession(ctx, "a"))
	if !ended("a", noon()) {
		t.Error("it goes on after sign-out")
	}
	if err := one.SeeSession(ctx, "a", noon()); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("an ended session was seen: %v", err)
	}
	begin("c")
	begin("d")
	check(t, "end all", one.EndSessions(ctx, u.ID))
	begin("e")
	join(t, one, lena, "second")
	begin("f")
	check(t, "sweep", one.Sweep(ctx, noon().Add(time.Hour)))
	if !ended("c", noon()) || !ended("d", noon()) || !ended("e", noon()) || ended("f", noon()) {
		t.Error("all ends, a new password and a sweep that is too early do not do what they say")
	}
	check(t, "sweep", one.Sweep(ctx, noon().Add(2*time.Hour)))
	if !ended("f", noon()) {
		t.Error("a sweep leaves what has expired")
	}
	if _, err := one.Invite(ctx, "second"); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("a sweep leaves an invite: %v", err)
	}
}

func removesUser(t *testing.T, one, other Whole) {
	ctx := context.Background()
	u := join(t, one, lena, "first")
	there := join(t, other, lena, "elsewhere")
	tom := join(t, one, "tom@fernhollow.example", "his")
	check(t, "begin", one.AddSession(ctx, account.Session{TokenHash: "a", UserID: u.ID, Created: noon(), LastSeen: noon(), Expires: noon().Add(time.Hour)}))
	check(t, "remove", one.RemoveUser(ctx, lena))
	if err := one.RemoveUser(ctx, lena); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("removed twice: %v", err)
	}
	if _, _, err := one.Session(ctx, "a", noon()); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("her session goes on: %v", err)
	}
	if _, err := one.Invite(ctx, "first"); !errors.Is(err, account.ErrNotFound) {
		t.Errorf("her invite is left: %v", err)
	}
	if got, err := one.Users(ctx); err != nil || !reflect.DeepEqual(got, []account.User{tom}) {
		t.Errorf("left are %+v, %v", got, err)
	}
	if got, err := other.Users(ctx); err != nil || !reflect.DeepEqual(got, []account.User{there}) {
		t.Errorf("the other site has %+v, %v", got, err)
	}
}
