package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"encoding/json"
	"errors"
	"fmt"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

//go:embed migrations/*.sql
var migrations embed.FS

// ErrSchema says that a database and this program do not belong together.
var ErrSchema = ledger.ErrSchema

// migrate runs what a database has not seen, each step in its own transaction.
// The text of a step is kept, so that ledger.Left can tell whether database and
// program belong together.
func migrate(ctx context.Context, db *sql.DB) error {
	const table = `CREATE TABLE IF NOT EXISTS migrations (position INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL) STRICT`
	if _, err := db.ExecContext(ctx, table); err != nil {
		return err
	}
	steps, err := ledger.Steps(migrations)
	if err != nil {
		return err
	}
	done, err := applied(ctx, db)
	if err != nil {
		return err
	}
	left, err := ledger.Left(steps, done)
	if err != nil || len(left) == 0 {
		return err
	}
	return advance(ctx, db, left, len(done))
}

// advance runs steps, of which first stand already, on one connection that lets a table be
// dropped without what refers to it: one that is made anew has the same rows.
func advance(ctx context.Context, db *sql.DB, steps []ledger.Step, first int) (err error) {
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	if _, err := conn.ExecContext(ctx, `PRAGMA foreign_keys=OFF`); err != nil {
		return err
	}
	for i, step := range steps {
		if err := apply(ctx, conn, first+i, step); err != nil {
			return fmt.Errorf("step %s: %w", step.Name, err)
		}
	}
	_, err = conn.ExecContext(ctx, `PRAGMA foreign_keys=ON`)
	return err
}

func applied(ctx context.Context, db *sql.DB) (done []ledger.Step, err error) {
	rows, err := db.QueryContext(ctx, `SELECT name, text FROM migrations ORDER BY position`)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var m ledger.Step
		if err := rows.Scan(&m.Name, &m.Text); err != nil {
			return nil, err
		}
		done = append(done, m)
	}
	return done, rows.Err()
}

func apply(ctx context.Context, conn *sql.Conn, position int, step ledger.Step) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // after a commit it does nothing
	if _, err := tx.ExecContext(ctx, step.Text); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO migrations (position, name, text) VALUES (?, ?, ?)`, position, step.Name, step.Text); err != nil {
		return err
	}
	if step.Name == sitesStep {
		if err := fillSearch(ctx, tx); err != nil {
			return err
		}
	}
	var orphans int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM pragma_foreign_key_check`).Scan(&orphans); err != nil {
		return err
	}
	if orphans > 0 {
		return fmt.Errorf("%w: %d rows would belong to nothing", ErrDamaged, orphans)
	}
	return tx.Commit()
}

// sitesStep brought the column that is searched, which SQL cannot work out.
const sitesStep = "0003_sites.sql"

func fillSearch(ctx context.Context, tx *sql.Tx) error {
	for {
		texts, err := unsearchable(ctx, tx)
		if err != nil || len(texts) == 0 {
			return err
		}
		for id, text := range texts {
			if _, err := tx.ExecContext(ctx, `UPDATE leads SET search = ? WHERE id = ?`, text, id); err != nil {
				return err
			}
		}
	}
}

func unsearchable(ctx context.Context, tx *sql.Tx) (texts map[int64]string, err error) {
	const atOnce = 1000
	rows, err := tx.QueryContext(ctx, `SELECT id, reference, name, email, phone, town, note, design FROM leads WHERE search = '' LIMIT ?`, atOnce)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	texts = map[int64]string{}
	for rows.Next() {
		var id int64
		var l lead.Lead
		var design string
		c := &l.Contact
		if err := rows.Scan(&id, &l.Reference, &c.Name, &c.Email, &c.Phone, &c.Town, &c.Note, &design); err != nil {
			return nil, err
		}
		if err := json.Unmarshal([]byte(design), &l.Design); err != nil {
			return nil, fmt.Errorf("read the lead %s: %w", l.Reference, err)
		}
		texts[id] = lead.SearchText(l)
	}
	return texts, rows.Err()
}
