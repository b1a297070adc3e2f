package postgres

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"tarnwright/internal/account"
	"tarnwright/internal/store/ledger"
)

const userColumns = `u.id, u.email, u.password_hash, u.created, u.failed, u.locked_until`

// scanUser reads first what precedes the columns of a user.
func scanUser(row pgx.Row, first ...any) (account.User, error) {
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
	if errors.Is(err, pgx.ErrNoRows) {
		return account.ErrNotFound
	}
	return kind(err)
}

// changed turns no row into account.ErrNotFound.
func changed(res pgconn.CommandTag, err error) error {
	if err == nil && res.RowsAffected() == 0 {
		return account.ErrNotFound
	}
	return kind(err)
}

// AddInvite keeps an invite.
func (s *Store) AddInvite(ctx context.Context, i account.Invite) error {
	_, err := s.pool.Exec(ctx, `INSERT INTO invites (token_hash, site, email, created, expires) VALUES ($1,$2,$3,$4,$5)`,
		i.TokenHash, s.site, i.Email, i.Created.UnixMilli(), i.Expires.UnixMilli())
	return kind(err)
}

// Invite returns an invite by its token's hash.
func (s *Store) Invite(ctx context.Context, tokenHash string) (account.Invite, error) {
	i := account.Invite{TokenHash: tokenHash}
	var created, expires int64
	var used *int64
	err := s.pool.QueryRow(ctx, `SELECT email, created, expires, used FROM invites WHERE site = $1 AND token_hash = $2`, s.site, tokenHash).
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
	err = s.together(ctx, func(tx pgx.Tx) error {
		var email string
		err := tx.QueryRow(ctx, `UPDATE invites SET used = $1 WHERE site = $2 AND token_hash = $3 AND used IS NULL AND expires > $1 RETURNING email`,
			now.UnixMilli(), s.site, tokenHash).Scan(&email)
		if errors.Is(err, pgx.ErrNoRows) {
			return account.ErrSpent
		}
		if err != nil {
			return err
		}
		if u, err = scanUser(tx.QueryRow(ctx, `INSERT INTO users AS u (site, email, password_hash, created) VALUES ($1,$2,$3,$4)
 ON CONFLICT (site, email) DO UPDATE SET password_hash = excluded.password_hash, failed = 0, locked_until = NULL
 RETURNING `+userColumns, s.site, email, passwordHash, now.UnixMilli())); err != nil {
			return err
		}
		_, err = tx.Exec(ctx, `DELETE FROM sessions WHERE user_id = $1`, u.ID)
		return err
	})
	if err != nil {
		return account.User{}, err
	}
	return u, nil
}

// User returns one person.
func (s *Store) User(ctx context.Context, id int64) (account.User, error) {
	return scanUser(s.pool.QueryRow(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = $1 AND u.id = $2`, s.site, id))
}

// UserByEmail returns one person.
func (s *Store) UserByEmail(ctx context.Context, email string) (account.User, error) {
	return scanUser(s.pool.QueryRow(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = $1 AND u.email = $2`, s.site, email))
}

// Users lists the people.
func (s *Store) Users(ctx context.Context) ([]account.User, error) {
	rows, err := s.pool.Query(ctx, `SELECT `+userColumns+` FROM users u WHERE u.site = $1 ORDER BY u.email COLLATE "C"`, s.site)
	return collect(rows, err, func(row pgx.CollectableRow) (account.User, error) { return scanUser(row) })
}

// SetPassword changes what the password hashes to.
func (s *Store) SetPassword(ctx context.Context, id int64, passwordHash string) error {
	return changed(s.pool.Exec(ctx, `UPDATE users SET password_hash = $1 WHERE site = $2 AND id = $3`, passwordHash, s.site, id))
}

// RemoveUser takes a person out, with sessions and invites.
func (s *Store) RemoveUser(ctx context.Context, email string) error {
	return s.together(ctx, func(tx pgx.Tx) error {
		removed := int64(0)
		for _, text := range []string{`DELETE FROM invites WHERE site = $1 AND email = $2`, `DELETE FROM users WHERE site = $1 AND email = $2`} {
			res, err := tx.Exec(ctx, text, s.site, email)
			if err != nil {
				return err
			}
			removed += res.RowsAffected()
		}
		if removed == 0 {
			return account.ErrNotFound
		}
		return nil
	})
}

// FailSignIn counts a failure.
func (s *Store) FailSignIn(ctx context.Context, id int64, most int, until time.Time) (account.User, error) {
	return scanUser(s.pool.QueryRow(ctx, `UPDATE users u SET failed = failed + 1,
 locked_until = CASE WHEN failed + 1 >= $1 THEN $2 ELSE locked_until END WHERE u.site = $3 AND u.id = $4 RETURNING `+userColumns,
		most, until.UnixMilli(), s.site, id))
}

// PassSignIn forgets failures and the lock.
func (s *Store) PassSignIn(ctx context.Context, id int64) error {
	return changed(s.pool.Exec(ctx, `UPDATE users SET failed = 0, locked_until = NULL WHERE site = $1 AND id = $2`, s.site, id))
}

// AddSession keeps a session of one of the site's users.
func (s *Store) AddSession(ctx context.Context, n account.Session) error {
	return changed(s.pool.Exec(ctx, `INSERT INTO sessions (token_hash, user_id, form_token, created, last_seen, expires)
 SELECT $1, id, $2, $3, $4, $5 FROM users WHERE site = $6 AND id = $7`,
		n.TokenHash, n.FormToken, n.Created.UnixMilli(), n.LastSeen.UnixMilli(), n.Expires.UnixMilli(), s.site, n.UserID))
}

// Session returns a session that has not expired.
func (s *Store) Session(ctx context.Context, tokenHash string, now time.Time) (account.Session, account.User, error) {
	n := account.Session{TokenHash: tokenHash}
	var created, seen, expires int64
	u, err := scanUser(s.pool.QueryRow(ctx, `SELECT n.form_token, n.created, n.last_seen, n.expires, `+userColumns+`
 FROM sessions n JOIN users u ON u.id = n.user_id WHERE u.site = $1 AND n.token_hash = $2 AND n.expires > $3`, s.site, tokenHash, now.UnixMilli()),
		&n.FormToken, &created, &seen, &expires)
	if err != nil {
		return account.Session{}, account.User{}, err
	}
	n.UserID, n.Created, n.LastSeen, n.Expires = u.ID, time.UnixMilli(created).UTC(), time.UnixMilli(seen).UTC(), time.UnixMilli(expires).UTC()
	return n, u, nil
}

// SeeSession notes that a session was used.
func (s *Store) SeeSession(ctx context.Context, tokenHash string, now time.Time) error {
	return changed(s.pool.Exec(ctx, `UPDATE sessions SET last_seen = $1 WHERE token_hash = $2
 AND user_id IN (SELECT id FROM users WHERE site = $3)`, now.UnixMilli(), tokenHash, s.site))
}

// EndSession ends a session; one that has ended already is no error.
func (s *Store) EndSession(ctx context.Context, tokenHash string) error {
	_, err := s.pool.Exec(ctx, `DELETE FROM sessions WHERE token_hash = $1 AND user_id IN (SELECT id FROM users WHERE site = $2)`, tokenHash, s.site)
	return kind(err)
}

// EndSessions ends all sessions of a user.
func (s *Store) EndSessions(ctx context.Context, userID int64) error {
	_, err := s.pool.Exec(ctx, `DELETE FROM sessions WHERE user_id = $1 AND user_id IN (SELECT id FROM users WHERE site = $2)`, userID, s.site)
	return kind(err)
}

// Anyone tells whether there is a user or an invite.
func (s *Store) Anyone(ctx context.Context) (some bool, err error) {
	err = s.pool.QueryRow(ctx, `SELECT EXISTS (SELECT 1 FROM users WHERE site = $1) OR EXISTS (SELECT 1 FROM invites WHERE site = $1)`, s.site).Scan(&some)
	return some, kind(err)
}

// Sweep forgets sessions and invites that expired before then.
func (s *Store) Sweep(ctx context.Context, before time.Time) error {
	return s.together(ctx, func(tx pgx.Tx) error {
		_, err1 := tx.Exec(ctx, `DELETE FROM sessions WHERE expires < $1 AND user_id IN (SELECT id FROM users WHERE site = $2)`, before.UnixMilli(), s.site)
		_, err2 := tx.Exec(ctx, `DELETE FROM invites WHERE expires < $1 AND site = $2`, before.UnixMilli(), s.site)
		return errors.Join(err1, err2)
	})
}
