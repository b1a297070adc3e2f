package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrExists says that a file would be written over.
var ErrExists = errors.New("there is a file already")

// Backup writes all that is stored at one moment to a new file, which has its
// name only when it is whole, checked and on the disk. Others go on writing
// meanwhile. It returns how many leads the file holds.
func (s *Store) Backup(ctx context.Context, file string) (leads int, err error) {
	if err := absent(file); err != nil {
		return 0, err
	}
	part := file + ".part"
	defer func() { _ = os.Remove(part) }() // when it has its name, this is gone
	if err := os.WriteFile(part, nil, 0o600); err != nil {
		return 0, fmt.Errorf("begin the backup: %w", err)
	}
	if _, err := s.read.ExecContext(ctx, `VACUUM INTO ?`, part); err != nil {
		return 0, fmt.Errorf("write the backup: %w", kind(err))
	}
	if leads, err = look(ctx, part); err != nil {
		return 0, fmt.Errorf("check the backup: %w", err)
	}
	return leads, settle(part, file)
}

// Restore starts a database from a backup where there is none, brings its
// tables up to date and checks it. It returns how many leads it holds.
func Restore(ctx context.Context, backup, file string) (leads int, err error) {
	for _, name := range []string{file, file + "-wal", file + "-shm"} {
		if err := absent(name); err != nil {
			return 0, err
		}
	}
	if _, err := look(ctx, backup); err != nil {
		return 0, fmt.Errorf("check %s: %w", backup, err)
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return 0, fmt.Errorf("make the data folder: %w", err)
	}
	part := file + ".part"
	defer func() { _ = os.Remove(part) }() // when it has its name, this is gone
	if err := copyTo(backup, part); err != nil {
		return 0, fmt.Errorf("copy the backup: %w", err)
	}
	s, err := Open(ctx, part)
	if err != nil {
		return 0, err
	}
	err = s.Check(ctx)
	if err := errors.Join(err, s.Close()); err != nil {
		return 0, fmt.Errorf("check what was restored: %w", err)
	}
	if leads, err = look(ctx, part); err != nil {
		return 0, fmt.Errorf("check what was restored: %w", err)
	}
	return leads, settle(part, file)
}

// look reads a whole database without changing it, and counts its leads. A
// file that is none, or another program's, is an error.
func look(ctx context.Context, file string) (leads int, err error) {
	if _, err := os.Stat(file); err != nil {
		return 0, err
	}
	db, err := connect(file, "deferred", ground{pragmas: []string{"query_only(ON)", "trusted_schema(OFF)"}})
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	if err := sound(ctx, db); err != nil {
		return 0, err
	}
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM leads`).Scan(&leads); err != nil {
		return 0, fmt.Errorf("%w: %w", ErrSchema, err)
	}
	return leads, nil
}

func absent(file string) error {
	_, err := os.Lstat(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err == nil:
		return fmt.Errorf("%s: %w", file, ErrExists)
	}
	return err
}

func copyTo(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// settle gives a whole file its name, and waits until the disk has both.
func settle(part, file string) error {
	if err := syncFile(part); err != nil {
		return err
	}
	// A link, unlike a rename, never writes over; not every disk has them.
	err := os.Link(part, file)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = os.Rename(part, file)
	}
	if err != nil {
		return fmt.Errorf("give %s its name: %w", file, err)
	}
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return syncFile(filepath.Dir(file))
}

func syncFile(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
