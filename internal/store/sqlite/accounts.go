package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"tarnwright/internal/account"
	"tarnwright/internal/store/ledger"
)

const userColumns = `u.id, u.email, u.password_hash, u.created, u.failed, u.locked_until`

// returnedUser is userColumns where the table has no other name.
const returnedUser = `id, email, password_hash, created, failed, locked_until`

// scanUser reads first what precedes the columns of a user.
func scanUser(row ledger.Row, first ...any) (account.User, error) {
	var u account.User
	var created int64
	var locked *int64
	if err := row.Scan(append(first, &u.ID, &u.Email, &u.PasswordHash, &created, &u.Failed, &locked)...); err != nil {
		return account.User{}, accountKind(err)
	}
	u.Created, u.LockedUntil = time.UnixMilli(created).UTC(), ledger.Moment(locked)
	return u, nil
}

// accountKind is kind in the words of accounts.
func accountKind(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return account.ErrNotFound
	}
	return kind(err)
}

// changed turns no row into account.ErrNotFound.
func changed(res sql.Result, err error) error {
	if err != nil {
		return kind(err)
	}
	n, err := res.RowsAffected()
	if err == nil && n == 0 {
		return account.ErrNotFound
	}
	return kind(err)
}

// together runs what must happen all or not at all.
func (s *Store) together(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return kind(err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	if err := do(tx); err != nil {
		return kind(err)
	}
	return kind(tx.Commit())
}

// AddInvite keeps an invite.
func (s *Store) AddInvite(ctx context.Context, i account.Invite) error {
	_, err := s.write.ExecContext(ctx, `INSERT INTO invites (token_hash, site, email, created, expires) VALUES (?,?,?,?,?)`,
		i.TokenHash, s.site, i.Email, i.Created.UnixMilli(), i.Expires.UnixMilli())
	return kind(err)
}

// Invite returns an invite by its token's hash.
func (s *Store) Invite(ctx context.Context, tokenHash string) (account.Invite, error) {
	i := account.Invite{TokenHash: tokenHash}
	var created, expires int64
	var used *int64
	err := s.read.QueryRowContext(ctx, `SELECT email, created, expires, used FROM invites WHERE site = ? AND token_hash = ?`, s.site, tokenHash).
		Scan(&i.Email, &created, &expires, &used)
	if err != nil {
		return account.Invite{}, accountKind(err)
	}
	i.Created, i.Expires, i.Used = time.UnixMilli(created).UTC(), time.UnixMilli(expires).UTC(), ledger.Moment(used)
	return i, nil
}

// Redeem spends an invite and gives its person the password.
func (s *Store) Redeem(ctx context.Context, tokenHash, passwordHash string, now time.Time) (u account.User, err error) {
	if _, err := s.Invite(ctx, tokenHash); err != nil {
		return account.User{}, err
	}
	err = s.together(ctx, func(tx *sql.Tx) error {
		var email string
		err := tx.QueryRowContext(ctx, `UPDATE invites SET used = ?1 WHERE site = ?2 AND token_hash = ?3 AND used IS NULL AND expires > ?1 RETURNING email`,
			now.UnixMilli(), s.site, tokenHash).Scan(&email)
		if errors.Is(err, sql.ErrNoRows) {
			return account.ErrSpent
		}
		if err != nil {
			return err
		}
		if u, err = scanUser(tx.QueryRowContext(ctx, `INSERT INTO users (site, email, password_hash, created) VALUES (?,?,?,?)
 ON CONFLICT (site, email) DO UPDATE SET password_hash = excluded.password_hash, failed = 0, locked_until = NULL
 RETURNING `+returnedUser, s.site, email, passwordHash, now.UnixMilli())); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM sessions WHERE user_id = ?`, u.ID)
		return err
	})
	if err != nil {
		return account.User{}, err
	}
	return u, nil
}

// User returns one person.
func (s *Store) User(ctx context.Context, id int64) (account.User, error) {
	return scanUser(s.read.QueryRowContext(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = ? AND u.id = ?`, s.site, id))
}

// UserByEmail returns one person.
func (s *Store) UserByEmail(ctx context.Context, email string) (account.User, error) {
	return scanUser(s.read.QueryRowContext(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = ? AND u.email = ?`, s.site, email))
}

// Users lists the people.
func (s *Store) Users(ctx context.Context) (users []account.User, err error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = ? ORDER BY u.email`, s.site)
	if err != nil {
		return nil, kind(err)
	}
	defer func() { err = kind(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		u, err := scanUser(rows)
		if err != nil {
			return nil, err
		}
		users = append(users, u)
	}
	return users, rows.Err()
}

// SetPassword changes what the password hashes to.
func (s *Store) SetPassword(ctx context.Context, id int64, passwordHash string) error {
	return changed(s.write.ExecContext(ctx, `UPDATE users SET password_hash = ? WHERE site = ? AND id = ?`, passwordHash, s.site, id))
}

// RemoveUser takes a person out, with sessions and invites.
func (s *Store) RemoveUser(ctx context.Context, email string) error {
	return s.together(ctx, func(tx *sql.Tx) error {
		removed := int64(0)
		for _, text := range []string{`DELETE FROM invites WHERE site = ? AND email = ?`, `DELETE FROM users WHERE site = ? AND email = ?`} {
			res, err := tx.ExecContext(ctx, text, s.site, email)
			if err != nil {
				return err
			}
			n, err := res.RowsAffected()
			if err != nil {
				return err
			}
			removed += n
		}
		if removed == 0 {
			return account.ErrNotFound
		}
		return nil
	})
}

// FailSignIn counts a failure.
func (s *Store) FailSignIn(ctx context.Context, id int64, most int, until time.Time) (account.User, error) {
	return scanUser(s.write.QueryRowContext(ctx, `UPDATE users SET failed = failed + 1,
 locked_until = CASE WHEN failed + 1 >= ? THEN ? ELSE locked_until END WHERE site = ? AND id = ? RETURNING `+returnedUser,
		most, until.UnixMilli(), s.site, id))
}

// PassSignIn forgets failures and the lock.
func (s *Store) PassSignIn(ctx context.Context, id int64) error {
	return changed(s.write.ExecContext(ctx, `UPDATE users SET failed = 0, locked_until = NULL WHERE site = ? AND id = ?`, s.site, id))
}

// AddSession keeps a session of one of the site's users.
func (s *Store) AddSession(ctx context.Context, n account.Session) error {
	return changed(s.write.ExecContext(ctx, `INSERT INTO sessions (token_hash, user_id, form_token, created, last_seen, expires)
 SELECT ?, id, ?, ?, ?, ? FROM users WHERE site = ? AND id = ?`,
		n.TokenHash, n.FormToken, n.Created.UnixMilli(), n.LastSeen.UnixMilli(), n.Expires.UnixMilli(), s.site, n.UserID))
}

// Session returns a session that has not expired.
func (s *Store) Session(ctx context.Context, tokenHash string, now time.Time) (account.Session, account.User, error) {
	n := account.Session{TokenHash: tokenHash}
	var created, seen, expires int64
	u, err := scanUser(s.read.QueryRowContext(ctx, `SELECT n.form_token, n.created, n.last_seen, n.expires, `+userColumns+`
 FROM sessions n JOIN users u ON u.id = n.user_id WHERE u.site = ? AND n.token_hash = ? AND n.expires > ?`, s.site, tokenHash, now.UnixMilli()),
		&n.FormToken, &created, &seen, &expires)
	if err != nil {
		return account.Session{}, account.User{}, err
	}
	n.UserID, n.Created, n.LastSeen, n.Expires = u.ID, time.UnixMilli(created).UTC(), time.UnixMilli(seen).UTC(), time.UnixMilli(expires).UTC()
	return n, u, nil
}

const ofSite = `user_id IN (SELECT id FROM users WHERE site = ?)`

// SeeSession notes that a session was used.
func (s *Store) SeeSession(ctx context.Context, tokenHash string, now time.Time) error {
	return changed(s.write.ExecContext(ctx, `UPDATE sessions SET last_seen = ? WHERE token_hash = ? AND `+ofSite, now.UnixMilli(), tokenHash, s.site))
}

// EndSession ends a session; one that has ended already is no error.
func (s *Store) EndSession(ctx context.Context, tokenHash string) error {
	_, err := s.write.ExecContext(ctx, `DELETE FROM sessions WHERE token_hash = ? AND `+ofSite, tokenHash, s.site)
	return kind(err)
}

// EndSessions ends all sessions of a user.
func (s *Store) EndSessions(ctx context.Context, userID int64) error {
	_, err := s.write.ExecContext(ctx, `DELETE FROM sessions WHERE user_id = ? AND `+ofSite, userID, s.site)
	return kind(err)
}

// Anyone tells whether there is a user or an invite.
func (s *Store) Anyone(ctx context.Context) (some bool, err error) {
	err = s.read.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM users WHERE site = ?1) OR EXISTS (SELECT 1 FROM invites WHERE site = ?1)`, s.site).Scan(&some)
	return some, kind(err)
}

// Sweep forgets sessions and invites that expired before then.
func (s *Store) Sweep(ctx context.Context, before time.Time) error {
	return s.together(ctx, func(tx *sql.Tx) error {
		_, err1 := tx.ExecContext(ctx, `DELETE FROM sessions WHERE expires < ? AND `+ofSite, before.UnixMilli(), s.site)
		_, err2 := tx.ExecContext(ctx, `DELETE FROM invites WHERE expires < ? AND site = ?`, before.UnixMilli(), s.site)
		return errors.Join(err1, err2)
	})
}
