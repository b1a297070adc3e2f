package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strings"
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

// migrate runs what a database has not seen, each step in its own transaction.
// The text of a step is kept: a step that was edited after it ran somewhere is
// found, and so is a database that a newer program has been at.
func migrate(ctx context.Context, db *sql.DB) error {
	const table = `CREATE TABLE IF NOT EXISTS migrations (position INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL) STRICT`
	if _, err := db.ExecContext(ctx, table); err != nil {
		return err
	}
	steps, err := released()
	if err != nil {
		return err
	}
	done, err := applied(ctx, db)
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
		if err := apply(ctx, db, i, step); err != nil {
			return fmt.Errorf("step %s: %w", step.name, err)
		}
	}
	return nil
}

func applied(ctx context.Context, db *sql.DB) (done []migration, err error) {
	rows, err := db.QueryContext(ctx, `SELECT name, text FROM migrations ORDER BY position`)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var m migration
		if err := rows.Scan(&m.name, &m.text); err != nil {
			return nil, err
		}
		done = append(done, m)
	}
	return done, rows.Err()
}

func apply(ctx context.Context, db *sql.DB, position int, step migration) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	if _, err := tx.ExecContext(ctx, step.text); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO migrations (position, name, text) VALUES (?, ?, ?)`, position, step.name, step.text); err != nil {
		return err
	}
	return tx.Commit()
}
