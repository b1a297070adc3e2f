package office_test

import (
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/account"
	"tarnwright/internal/office"
)

const (
	anna  = "anna@fernhollow.example"
	words = "four herons by the weir"
)

// clock is a time that a test moves.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func door(t *testing.T) (office.Door, *memory, *clock) {
	t.Helper()
	m, c := newMemory(), &clock{time.Date(2026, 11, 30, 7, 30, 0, 0, time.UTC)}
	return office.Door{Store: m, Now: c.now}, m, c
}

// joined is a door with one account behind it.
func joined(t *testing.T) (office.Door, *memory, *clock) {
	t.Helper()
	d, m, c := door(t)
	token, _, err := d.Invite(t.Context(), anna)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.Join(t.Context(), token, words, words); err != nil {
		t.Fatal(err)
	}
	return d, m, c
}

func TestInvite_WorksOnceAndForAWeek(t *testing.T) {
	t.Parallel()
	d, m, c := door(t)
	token, until, err := d.Invite(t.Context(), " Anna@Fernhollow.example ")
	if err != nil || until != c.at.Add(7*24*time.Hour) {
		t.Fatalf("%v, %v", until, err)
	}
	if email, err := d.Invited(t.Context(), token); err != nil || email != anna {
		t.Errorf("invites %q, %v", email, err)
	}
	for k := range m.invites {
		if k == "" || strings.Contains(k, token) {
			t.Error("the register keeps what stands in the link")
		}
	}
	p, err := d.Join(t.Context(), token, words, words)
	if err != nil || p.User.Email != anna || p.Cookie == "" || p.Form == "" || p.Form == p.Cookie {
		t.Fatalf("%+v, %v", p, err)
	}
	if _, err := d.Join(t.Context(), token, words, words); !errors.Is(err, office.ErrExpired) {
		t.Errorf("a second time: %v", err)
	}
	late, _, err := d.Invite(t.Context(), "ben@fernhollow.example")
	if err != nil {
		t.Fatal(err)
	}
	c.at = c.at.Add(office.InviteTime + time.Second)
	if _, err := d.Join(t.Context(), late, words, words); !errors.Is(err, office.ErrExpired) {
		t.Errorf("a week later: %v", err)
	}
	if _, _, err := d.Invite(t.Context(), "nobody"); !errors.Is(err, office.ErrAddress) {
		t.Errorf("not an address: %v", err)
	}
}

// A new invitation is how a forgotten password is mended: whoever held the old
// one is out.
func TestInvite_AgainChangesThePasswordAndEndsSessions(t *testing.T) {
	t.Parallel()
	d, _, _ := joined(t)
	before, err := d.SignIn(t.Context(), anna, words)
	if err != nil {
		t.Fatal(err)
	}
	token, _, err := d.Invite(t.Context(), anna)
	if err != nil {
		t.Fatal(err)
	}
	const other = "nine dragonflies at dusk"
	if _, err := d.Join(t.Context(), token, other, other); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Who(t.Context(), before.Cookie); !errors.Is(err, office.ErrSignedOut) {
		t.Errorf("the old session goes on: %v", err)
	}
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("the old password: %v", err)
	}
	if _, err := d.SignIn(t.Context(), "ANNA@fernhollow.example", other); err != nil {
		t.Errorf("the new password: %v", err)
	}
}

func TestChange_AsksForTheCurrentPasswordAndEndsOtherSessions(t *testing.T) {
	t.Parallel()
	d, _, _ := joined(t)
	here, err := d.SignIn(t.Context(), anna, words)
	if err != nil {
		t.Fatal(err)
	}
	elsewhere, err := d.SignIn(t.Context(), anna, words)
	if err != nil {
		t.Fatal(err)
	}
	const other = "nine dragonflies at dusk"
	if _, err := d.Change(t.Context(), here, "not these words", other, other); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("without the current one: %v", err)
	}
	var fault *office.PasswordError
	if _, err := d.Change(t.Context(), here, words, "short", "short"); !errors.As(err, &fault) || fault.Fault != office.TooShort {
		t.Errorf("to a short one: %v", err)
	}
	after, err := d.Change(t.Context(), here, words, other, other)
	if err != nil {
		t.Fatal(err)
	}
	for _, old := range []office.Pass{here, elsewhere} {
		if _, err := d.Who(t.Context(), old.Cookie); !errors.Is(err, office.ErrSignedOut) {
			t.Errorf("a session from before goes on: %v", err)
		}
	}
	if p, err := d.Who(t.Context(), after.Cookie); err != nil || p.User.Email != anna {
		t.Errorf("the new session: %v", err)
	}
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("the old password: %v", err)
	}
	if _, err := d.SignIn(t.Context(), anna, other); err != nil {
		t.Errorf("the new password: %v", err)
	}
}

func TestSignIn_TellsNobodyWhatWasWrong(t *testing.T) {
	t.Parallel()
	d, _, _ := joined(t)
	for _, c := range [][2]string{{anna, "four herons by the wire"}, {"ben@fernhollow.example", words}, {"", ""}, {"no address", words}} {
		if p, err := d.SignIn(t.Context(), c[0], c[1]); !errors.Is(err, office.ErrSignIn) || p.Cookie != "" || err.Error() != office.ErrSignIn.Error() {
			t.Errorf("%q: %q, %v", c, p.Cookie, err)
		}
	}
}

// An address without an account, one with, and a locked one cost the same
// work: a hash each.
func TestSignIn_TakesAsLongForAStranger(t *testing.T) {
	d, _, _ := joined(t)
	took := func(email string) time.Duration {
		best := time.Hour
		for range 3 {
			start := time.Now()
			_, _ = d.SignIn(t.Context(), email, "not the right words")
			best = min(best, time.Since(start))
		}
		return best
	}
	known, stranger := took(anna), took("ben@fernhollow.example")
	if stranger < known/3 || known < stranger/3 {
		t.Errorf("a known address takes %v, another %v", known, stranger)
	}
}

func TestSignIn_LocksAfterTooManyTries(t *testing.T) {
	t.Parallel()
	d, m, c := joined(t)
	for range 5 {
		_, _ = d.SignIn(t.Context(), anna, "wrong wrong wrong")
	}
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("the sixth try was looked at: %v", err)
	}
	if m.users[0].Failed != 5 {
		t.Errorf("%d tries counted; one during the wait must not make it longer", m.users[0].Failed)
	}
	c.at = c.at.Add(61 * time.Second)
	if _, err := d.SignIn(t.Context(), anna, "wrong again"); !errors.Is(err, office.ErrSignIn) {
		t.Error(err)
	}
	c.at = c.at.Add(61 * time.Second) // now it is two minutes
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("the wait did not double: %v", err)
	}
	c.at = c.at.Add(60 * time.Second)
	if _, err := d.SignIn(t.Context(), anna, words); err != nil {
		t.Errorf("after the wait: %v", err)
	}
	if m.users[0].Failed != 0 {
		t.Error("a good sign-in did not clear the tries")
	}
}

// However many tries come at the same moment, a good one among them passes
// only while tries are free.
func TestSignIn_CountsTriesMadeAtOnce(t *testing.T) {
	t.Parallel()
	d, m, _ := joined(t)
	var wait sync.WaitGroup
	for range 12 {
		wait.Go(func() { _, _ = d.SignIn(context.Background(), anna, "wrong wrong wrong") })
	}
	wait.Wait()
	if m.users[0].Failed < 5 {
		t.Errorf("%d of 12 tries were counted", m.users[0].Failed)
	}
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("after 12 tries the account is open: %v", err)
	}
}

// Two who read the account at the same moment do not both pass: the second
// finds that somebody was quicker.
func TestSignIn_LooksAtOneOfTwoTriesAtOnce(t *testing.T) {
	t.Parallel()
	d, m, _ := joined(t)
	d.Store = &between{m, func() { _, _ = m.FailSignIn(context.Background(), 1, 5, time.Time{}) }}
	if _, err := d.SignIn(t.Context(), anna, words); !errors.Is(err, office.ErrSignIn) {
		t.Errorf("both passed: %v", err)
	}
}

// between does something between reading an account and counting its try.
type between struct {
	*memory
	do func()
}

func (b *between) UserByEmail(ctx context.Context, email string) (account.User, error) {
	u, err := b.memory.UserByEmail(ctx, email)
	b.do()
	return u, err
}

func TestWho_EndsWithTheSession(t *testing.T) {
	t.Parallel()
	d, _, c := joined(t)
	start := c.at
	sign := func() string {
		p, err := d.SignIn(t.Context(), anna, words)
		if err != nil {
			t.Fatal(err)
		}
		return p.Cookie
	}
	idle := sign()
	c.at = start.Add(office.IdleTime - time.Second)
	if p, err := d.Who(t.Context(), idle); err != nil || p.User.Email != anna || p.Form == "" {
		t.Errorf("just before: %v", err)
	}
	c.at = c.at.Add(office.IdleTime + time.Second)
	if _, err := d.Who(t.Context(), idle); !errors.Is(err, office.ErrSignedOut) {
		t.Errorf("left alone: %v", err)
	}
	busy := sign()
	for end := c.at.Add(office.SessionTime); c.at.Before(end); c.at = c.at.Add(time.Hour) {
		if _, err := d.Who(t.Context(), busy); err != nil {
			t.Fatalf("in use: %v", err)
		}
	}
	c.at = c.at.Add(time.Second)
	if _, err := d.Who(t.Context(), busy); !errors.Is(err, office.ErrSignedOut) {
		t.Errorf("after %v: %v", office.SessionTime, err)
	}
	left := sign()
	if err := d.SignOut(t.Context(), left); err != nil {
		t.Fatal(err)
	}
	for _, cookie := range []string{left, "", "made up"} {
		if _, err := d.Who(t.Context(), cookie); !errors.Is(err, office.ErrSignedOut) {
			t.Errorf("%q: %v", cookie, err)
		}
	}
}
