// Package account is who may sign in to the office: people, the invites that
// let them in, and the sessions they hold. It keeps no password and no token,
// only what each hashes to.
package account

import (
	"context"
	"errors"
	"time"
)

// The kinds of refusal.
var (
	// ErrNotFound says that there is no such person, session or invite.
	ErrNotFound = errors.New("no such account")
	// ErrSpent says that an invite was used or is too old.
	ErrSpent = errors.New("the invite was used or is too old")
)

// User is one who may sign in. Email is in small letters and the user's name.
type User struct {
	ID           int64
	Email        string
	PasswordHash string
	Created      time.Time
	// Failed counts sign-ins that failed since the last that did not;
	// LockedUntil is zero when none is refused.
	Failed      int
	LockedUntil time.Time
}

// Session is one sign-in that has not ended. TokenHash is what the cookie's
// token hashes to, and FormToken what forms must carry back.
type Session struct {
	TokenHash, FormToken       string
	UserID                     int64
	Created, LastSeen, Expires time.Time
}

// Invite lets one person set a password, once.
type Invite struct {
	TokenHash, Email string
	Created, Expires time.Time
	Used             time.Time // zero while it is not
}

// Store keeps the accounts of one site. An implementation passes package
// storetest.
type Store interface {
	// AddInvite keeps an invite.
	AddInvite(ctx context.Context, i Invite) error
	// Invite returns one by its token's hash, used or not, or ErrNotFound.
	Invite(ctx context.Context, tokenHash string) (Invite, error)
	// Redeem spends an invite and gives its person the password, in one
	// transaction. It makes the user, or changes the password of the one with
	// that email, lifts a lock and ends the sessions. It returns ErrSpent when
	// the invite was used or is too old, ErrNotFound when there is none.
	Redeem(ctx context.Context, tokenHash, passwordHash string, now time.Time) (User, error)

	// User and UserByEmail return one person, or ErrNotFound.
	User(ctx context.Context, id int64) (User, error)
	UserByEmail(ctx context.Context, email string) (User, error)
	// Users lists the people, by email.
	Users(ctx context.Context) ([]User, error)
	// SetPassword changes what the password hashes to.
	SetPassword(ctx context.Context, id int64, passwordHash string) error
	// RemoveUser takes a person out, with sessions and invites; ErrNotFound when
	// there is neither a person nor an invite.
	RemoveUser(ctx context.Context, email string) error
	// FailSignIn counts a failure at once for all replicas; from the most-th on
	// the account is locked until then. It returns the user as it is now.
	FailSignIn(ctx context.Context, id int64, most int, until time.Time) (User, error)
	// PassSignIn forgets failures and the lock.
	PassSignIn(ctx context.Context, id int64) error

	// AddSession keeps a session.
	AddSession(ctx context.Context, s Session) error
	// Session returns a session that has not expired, and its user, or
	// ErrNotFound.
	Session(ctx context.Context, tokenHash string, now time.Time) (Session, User, error)
	// SeeSession notes that a session was used; ErrNotFound when it has ended.
	SeeSession(ctx context.Context, tokenHash string, now time.Time) error
	// EndSession ends one, EndSessions all of a user's.
	EndSession(ctx context.Context, tokenHash string) error
	EndSessions(ctx context.Context, userID int64) error

	// Anyone tells whether there is a user or an invite at all: an office that
	// nobody was asked into is closed.
	Anyone(ctx context.Context) (bool, error)
	// Sweep forgets sessions and invites that expired before then.
	Sweep(ctx context.Context, before time.Time) error
}
