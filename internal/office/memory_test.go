package office_test

import (
	"context"
	"errors"
	"sync"
	"time"

	"tarnwright/internal/account"
)

// memory is a store for these tests; what they do not need fails.
type memory struct {
	account.Store
	mu       sync.Mutex
	users    []account.User
	invites  map[string]account.Invite
	sessions map[string]account.Session
}

func newMemory() *memory {
	return &memory{invites: map[string]account.Invite{}, sessions: map[string]account.Session{}}
}

func (m *memory) AddInvite(_ context.Context, i account.Invite) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.invites[i.TokenHash] = i
	return nil
}

func (m *memory) Invite(_ context.Context, hash string) (account.Invite, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	i, ok := m.invites[hash]
	if !ok {
		return i, account.ErrNotFound
	}
	return i, nil
}

func (m *memory) Redeem(_ context.Context, hash, password string, now time.Time) (account.User, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	i, ok := m.invites[hash]
	if !ok || !i.Used.IsZero() || now.After(i.Expires) {
		return account.User{}, account.ErrSpent
	}
	i.Used = now
	m.invites[hash] = i
	n := m.find(i.Email)
	if n < 0 {
		n = len(m.users)
		m.users = append(m.users, account.User{ID: int64(n + 1), Email: i.Email, Created: now})
	}
	u := &m.users[n]
	u.PasswordHash, u.Failed, u.LockedUntil = password, 0, time.Time{}
	for k, s := range m.sessions {
		if s.UserID == u.ID {
			delete(m.sessions, k)
		}
	}
	return *u, nil
}

func (m *memory) find(email string) int {
	for i, u := range m.users {
		if u.Email == email {
			return i
		}
	}
	return -1
}

func (m *memory) UserByEmail(_ context.Context, email string) (account.User, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if n := m.find(email); n >= 0 {
		return m.users[n], nil
	}
	return account.User{}, account.ErrNotFound
}

func (m *memory) FailSignIn(_ context.Context, id int64, most int, until time.Time) (account.User, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	u := &m.users[id-1]
	if u.Failed++; u.Failed >= most {
		u.LockedUntil = until
	}
	return *u, nil
}

func (m *memory) PassSignIn(_ context.Context, id int64) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.users[id-1].Failed, m.users[id-1].LockedUntil = 0, time.Time{}
	return nil
}

func (m *memory) SetPassword(_ context.Context, id int64, hash string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.users[id-1].PasswordHash = hash
	return nil
}

func (m *memory) EndSessions(_ context.Context, id int64) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	for k, s := range m.sessions {
		if s.UserID == id {
			delete(m.sessions, k)
		}
	}
	return nil
}

func (m *memory) AddSession(_ context.Context, s account.Session) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.sessions[s.TokenHash] = s
	return nil
}

func (m *memory) Session(_ context.Context, hash string, now time.Time) (account.Session, account.User, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	s, ok := m.sessions[hash]
	if !ok || !now.Before(s.Expires) {
		return s, account.User{}, account.ErrNotFound
	}
	return s, m.users[s.UserID-1], nil
}

func (m *memory) SeeSession(_ context.Context, hash string, now time.Time) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	s, ok := m.sessions[hash]
	if !ok {
		return errors.New("no such session")
	}
	s.LastSeen = now
	m.sessions[hash] = s
	return nil
}

func (m *memory) EndSession(_ context.Context, hash string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	delete(m.sessions, hash)
	return nil
}

func (m *memory) Sweep(context.Context, time.Time) error { return nil }
