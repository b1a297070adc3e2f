// Package office lets the builder's people in: invitations, passwords,
// sessions, and the lock after too many wrong tries. It knows no pages and no
// database.
package office

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"net/mail"
	"strings"
	"time"

	"tarnwright/internal/account"
)

// How long things last. Common practice, no source.
const (
	InviteTime  = 7 * 24 * time.Hour
	IdleTime    = 2 * time.Hour  // a session that nobody uses
	SessionTime = 12 * time.Hour // a session, however much it is used
	touchTime   = time.Minute    // how exactly its last use is noted
)

// The lock: so many tries are free; from then on each is followed by a wait
// that doubles, up to the longest, and a try during the wait is not looked at.
// Common practice, no source.
const (
	freeTries   = 5
	firstWait   = time.Minute
	longestWait = 15 * time.Minute
)

// What a person may be told.
var (
	// ErrAddress says that a text cannot be an email address.
	ErrAddress = errors.New("not an email address, like anna@builder.example")
	// ErrSignIn says that address and password do not go together, or that too
	// many tries have been made; which of them is not said.
	ErrSignIn = errors.New("not let in")
	// ErrExpired says that an invitation came too late, was used, or never was.
	ErrExpired = errors.New("the invitation cannot be used any more")
	// ErrSignedOut says that there is no session, or that it has ended.
	ErrSignedOut = errors.New("signed out")
)

// PasswordError carries what is wrong with a new password.
type PasswordError struct{ Fault Fault }

// Error names the fault; the words are for package say.
func (e *PasswordError) Error() string { return "the password is " + string(e.Fault) }

// Door lets people in to one site's office. Now is passed in so that a test
// can say what it gives.
type Door struct {
	Store account.Store
	Now   func() time.Time
	// Turns bounds how many passwords are hashed at a time, each of which takes
	// 19 MiB; nil bounds nothing.
	Turns chan struct{}
}

// now is the time as the store keeps it.
func (d Door) now() time.Time { return d.Now().UTC().Truncate(time.Millisecond) }

// Address is an email address in the one way it is kept, in small letters.
func Address(typed string) (string, error) {
	a, err := mail.ParseAddress(strings.TrimSpace(typed))
	if err != nil || a.Name != "" || strings.ContainsAny(typed, "<>") || len(a.Address) > 254 {
		return "", ErrAddress
	}
	return strings.ToLower(a.Address), nil
}

// Invite makes an invitation for an address and returns what stands in its
// link. Who already has an account chooses another password with it.
func (d Door) Invite(ctx context.Context, email string) (token string, expires time.Time, err error) {
	email, err = Address(email)
	if err != nil {
		return "", time.Time{}, err
	}
	token, now := NewToken(), d.now()
	i := account.Invite{TokenHash: digest(token), Email: email, Created: now, Expires: now.Add(InviteTime)}
	if err := d.Store.AddInvite(ctx, i); err != nil {
		return "", time.Time{}, fmt.Errorf("keep an invitation: %w", err)
	}
	return token, i.Expires, nil
}

// Invited is the address that a link invites, or ErrExpired.
func (d Door) Invited(ctx context.Context, token string) (email string, err error) {
	i, err := d.Store.Invite(ctx, digest(token))
	switch {
	case errors.Is(err, account.ErrNotFound), err == nil && (!i.Used.IsZero() || d.Now().After(i.Expires)):
		return "", ErrExpired
	case err != nil:
		return "", fmt.Errorf("look an invitation up: %w", err)
	}
	return i.Email, nil
}

// Join takes an invitation with the password chosen, and signs in.
func (d Door) Join(ctx context.Context, token, password, again string) (Pass, error) {
	email, err := d.Invited(ctx, token)
	if err != nil {
		return Pass{}, err
	}
	if fault := CheckPassword(password, email); fault != "" {
		return Pass{}, &PasswordError{fault}
	}
	if password != again {
		return Pass{}, &PasswordError{NotSame}
	}
	done, err := d.turn(ctx)
	if err != nil {
		return Pass{}, err
	}
	hash := Hash(password)
	done()
	u, err := d.Store.Redeem(ctx, digest(token), hash, d.now())
	if errors.Is(err, account.ErrNotFound) || errors.Is(err, account.ErrSpent) {
		return Pass{}, ErrExpired
	}
	if err != nil {
		return Pass{}, fmt.Errorf("take an invitation: %w", err)
	}
	return d.begin(ctx, u)
}

// SignIn begins a session for who knows the password. An address without an
// account takes as long and is told the same.
func (d Door) SignIn(ctx context.Context, email, password string) (Pass, error) {
	u, open, err := d.tried(ctx, email)
	if err != nil {
		return Pass{}, err
	}
	done, err := d.turn(ctx)
	if err != nil {
		return Pass{}, err
	}
	right := Matches(u.PasswordHash, password)
	done()
	if !open || !right {
		return Pass{}, ErrSignIn
	}
	if err := d.Store.PassSignIn(ctx, u.ID); err != nil {
		return Pass{}, fmt.Errorf("clear the tries: %w", err)
	}
	return d.begin(ctx, u)
}

// Change gives a session's user another password, once the one they have is
// given, ends all their sessions and begins a new one.
func (d Door) Change(ctx context.Context, p Pass, current, password, again string) (Pass, error) {
	u, open, err := d.tried(ctx, p.User.Email)
	if err != nil {
		return Pass{}, err
	}
	done, err := d.turn(ctx)
	if err != nil {
		return Pass{}, err
	}
	right := Matches(u.PasswordHash, current)
	done()
	if !open || !right {
		return Pass{}, ErrSignIn
	}
	if err := d.Store.PassSignIn(ctx, u.ID); err != nil {
		return Pass{}, fmt.Errorf("clear the tries: %w", err)
	}
	if fault := CheckPassword(password, u.Email); fault != "" {
		return Pass{}, &PasswordError{fault}
	}
	if password != again {
		return Pass{}, &PasswordError{NotSame}
	}
	if done, err = d.turn(ctx); err != nil {
		return Pass{}, err
	}
	hash := Hash(password)
	done()
	if err := d.Store.SetPassword(ctx, u.ID, hash); err != nil {
		return Pass{}, fmt.Errorf("change a password: %w", err)
	}
	if err := d.Store.EndSessions(ctx, u.ID); err != nil {
		return Pass{}, fmt.Errorf("end the sessions: %w", err)
	}
	return d.begin(ctx, u)
}

// tried is the account of an address; open when its password may be looked at
// now. A try is counted before it is looked at, so that many at the same moment
// cannot all pass under the limit; a good one clears the count.
func (d Door) tried(ctx context.Context, email string) (u account.User, open bool, err error) {
	email, err = Address(email)
	if err != nil {
		return u, false, nil //nolint:nilerr // it is nobody's
	}
	u, err = d.Store.UserByEmail(ctx, email)
	if errors.Is(err, account.ErrNotFound) {
		return u, false, nil
	}
	if err != nil {
		return u, false, fmt.Errorf("look an account up: %w", err)
	}
	now := d.now()
	if now.Before(u.LockedUntil) {
		return u, false, nil
	}
	after, err := d.Store.FailSignIn(ctx, u.ID, freeTries, now.Add(wait(u.Failed+1)))
	if err != nil {
		return u, false, fmt.Errorf("count a try: %w", err)
	}
	return u, after.Failed == u.Failed+1, nil
}

// wait is how long an account is locked after so many tries.
func wait(tries int) time.Duration {
	over := tries - freeTries
	if over < 0 {
		return 0
	}
	const doublings = 4
	return min(firstWait<<min(over, doublings), longestWait)
}

// turn waits until a password may be hashed.
func (d Door) turn(ctx context.Context) (done func(), err error) {
	if d.Turns == nil {
		return func() {}, nil
	}
	select {
	case d.Turns <- struct{}{}:
		return func() { <-d.Turns }, nil
	case <-ctx.Done():
		return nil, fmt.Errorf("wait for a turn: %w", ctx.Err())
	}
}

// Pass is a session as its browser holds it.
type Pass struct {
	// Cookie is what the browser keeps; Form is what each form of the session
	// carries, so that another site cannot send one in its name.
	Cookie, Form string
	User         account.User
	Ends         time.Time
}

// begin starts a session under a new cookie, so that one known before signing
// in is worth nothing after it.
func (d Door) begin(ctx context.Context, u account.User) (Pass, error) {
	now := d.now()
	if err := d.Store.Sweep(ctx, now); err != nil {
		return Pass{}, fmt.Errorf("sweep old sessions: %w", err)
	}
	p := Pass{Cookie: NewToken(), Form: NewToken(), User: u, Ends: now.Add(SessionTime)}
	s := account.Session{TokenHash: digest(p.Cookie), FormToken: p.Form, UserID: u.ID, Created: now, LastSeen: now, Expires: p.Ends}
	if err := d.Store.AddSession(ctx, s); err != nil {
		return Pass{}, fmt.Errorf("begin a session: %w", err)
	}
	return p, nil
}

// Who is the session of a cookie, or ErrSignedOut.
func (d Door) Who(ctx context.Context, cookie string) (Pass, error) {
	if cookie == "" {
		return Pass{}, ErrSignedOut
	}
	now := d.now()
	s, u, err := d.Store.Session(ctx, digest(cookie), now)
	if errors.Is(err, account.ErrNotFound) || err == nil && now.Sub(s.LastSeen) > IdleTime {
		return Pass{}, ErrSignedOut
	}
	if err != nil {
		return Pass{}, fmt.Errorf("look a session up: %w", err)
	}
	if now.Sub(s.LastSeen) > touchTime {
		if err := d.Store.SeeSession(ctx, s.TokenHash, now); err != nil {
			return Pass{}, fmt.Errorf("note a session's use: %w", err)
		}
	}
	return Pass{Cookie: cookie, Form: s.FormToken, User: u, Ends: s.Expires}, nil
}

// SignOut ends the session of a cookie.
func (d Door) SignOut(ctx context.Context, cookie string) error {
	if err := d.Store.EndSession(ctx, digest(cookie)); err != nil {
		return fmt.Errorf("end a session: %w", err)
	}
	return nil
}

// NewToken has 256 random bits, for a cookie, a link or a form.
func NewToken() string {
	var b [32]byte
	_, _ = rand.Read(b[:]) // never fails; it stops the program instead
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// digest is what is kept of a token, so that who reads the database cannot
// use it. It is too long to be guessed, so one round of SHA-256 is enough.
func digest(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}
