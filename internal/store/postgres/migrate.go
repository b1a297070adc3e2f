package postgres

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

//go:embed migrations/*.sql
var migrations embed.FS

// ErrSchema says that a database and this program do not belong together.
var ErrSchema = errors.New("the database is not of this program")

type migration struct{ name, text string }

func released() ([]migration, error) {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	out := make([]migration, 0, len(names))
	for _, n := range names {
		text, err := fs.ReadFile(migrations, n)
		if err != nil {
			return nil, err
		}
		out = append(out, migration{strings.TrimPrefix(n, "migrations/"), string(text)})
	}
	return out, nil
}

// lockNumber is a number that only this program locks, so that of several
// servers that start together one makes the tables and the others wait.
const lockNumber = 7_420_611_253

// migrate runs what the database has not seen, each step in its own
// transaction. The text of a step is kept: one that was edited after it ran
// somewhere is found, and so is a database that a newer program has been at.
func migrate(ctx context.Context, pool *pgxpool.Pool) error {
	return pool.AcquireFunc(ctx, func(c *pgxpool.Conn) error {
		if _, err := c.Exec(ctx, `SET lock_timeout = 0`); err != nil {
			return err
		}
		if _, err := c.Exec(ctx, `SELECT pg_advisory_lock($1)`, int64(lockNumber)); err != nil {
			return err
		}
		err := advance(ctx, c)
		// The lock and the setting are the connection's; with it they end.
		return errors.Join(err, c.Conn().Close(context.WithoutCancel(ctx)))
	})
}

func advance(ctx context.Context, c *pgxpool.Conn) error {
	if _, err := c.Exec(ctx, `CREATE TABLE IF NOT EXISTS migrations (position INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL)`); err != nil {
		return err
	}
	steps, err := released()
	if err != nil {
		return err
	}
	rows, err := c.Query(ctx, `SELECT name, text FROM migrations ORDER BY position`)
	if err != nil {
		return err
	}
	done, err := pgx.CollectRows(rows, func(row pgx.CollectableRow) (m migration, err error) { return m, row.Scan(&m.name, &m.text) })
	if err != nil {
		return err
	}
	if len(done) > len(steps) {
		return fmt.Errorf("a newer program has been at it (%s): %w", done[len(done)-1].name, ErrSchema)
	}
	for i, step := range steps {
		if i < len(done) {
			if done[i] != step {
				return fmt.Errorf("step %s was changed after it ran: %w", step.name, ErrSchema)
			}
			continue
		}
		if err := apply(ctx, c, i, step); err != nil {
			return fmt.Errorf("step %s: %w", step.name, err)
		}
	}
	return nil
}

func apply(ctx context.Context, c *pgxpool.Conn, position int, step migration) error {
	return pgx.BeginFunc(ctx, c, func(tx pgx.Tx) error {
		if _, err := tx.Exec(ctx, step.text); err != nil {
			return err
		}
		_, err := tx.Exec(ctx, `INSERT INTO migrations (position, name, text) VALUES ($1, $2, $3)`, position, step.name, step.text)
		return err
	})
}
