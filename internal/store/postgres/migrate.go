package postgres

import (
	"context"
	"embed"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"tarnwright/internal/store/ledger"
)

//go:embed migrations/*.sql
var migrations embed.FS

// ErrSchema says that a database and this program do not belong together.
var ErrSchema = ledger.ErrSchema

// lockNumber is a number that only this program locks, so that of several
// servers that start together one makes the tables and the others wait.
const lockNumber = 7_420_611_253

// migrate runs what the database has not seen, each step in its own
// transaction. The text of a step is kept, so that ledger.Left can tell whether
// database and program belong together.
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
	steps, err := ledger.Steps(migrations)
	if err != nil {
		return err
	}
	rows, err := c.Query(ctx, `SELECT name, text FROM migrations ORDER BY position`)
	if err != nil {
		return err
	}
	done, err := pgx.CollectRows(rows, func(row pgx.CollectableRow) (m ledger.Step, err error) { return m, row.Scan(&m.Name, &m.Text) })
	if err != nil {
		return err
	}
	left, err := ledger.Left(steps, done)
	if err != nil {
		return err
	}
	for i, step := range left {
		if err := apply(ctx, c, len(done)+i, step); err != nil {
			return fmt.Errorf("step %s: %w", step.Name, err)
		}
	}
	return nil
}

func apply(ctx context.Context, c *pgxpool.Conn, position int, step ledger.Step) error {
	return pgx.BeginFunc(ctx, c, func(tx pgx.Tx) error {
		if _, err := tx.Exec(ctx, step.Text); err != nil {
			return err
		}
		_, err := tx.Exec(ctx, `INSERT INTO migrations (position, name, text) VALUES ($1, $2, $3)`, position, step.Name, step.Text)
		return err
	})
}
