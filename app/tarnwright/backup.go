package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"tarnwright/internal/config"
	"tarnwright/internal/store/sqlite"
)

// keyBeside is the file beside a backup that holds the key which tablets seal
// enquiries to; without it, those still under way could not be read.
func keyBeside(file string) string { return file + ".seal-key.pem" }

// backup writes every enquiry to a new file, and the key beside it.
func backup(ctx context.Context, args []string, t tools) error {
	s, rest, err := config.Read("backup", args, t.env, t.err, "data", "database", "seal-key")
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("name the file to write: %w", errUsage)
	}
	return withFile(ctx, s, func(store *sqlite.Store) error {
		keys, err := copyKey(s.KeyFile(), keyBeside(rest[0]))
		if err != nil {
			return err
		}
		n, err := store.Backup(ctx, rest[0])
		if err != nil {
			if keys {
				err = errors.Join(err, os.Remove(keyBeside(rest[0])))
			}
			return err
		}
		fmt.Fprintf(t.out, "%s: %d enquiries, checked\n", rest[0], n)
		if keys {
			fmt.Fprintf(t.out, "%s: the key that tablets seal to; keep it as safe as the enquiries\n", keyBeside(rest[0]))
		}
		return nil
	})
}

// restore starts a database from a backup.
func restore(ctx context.Context, args []string, t tools) error {
	s, rest, err := config.Read("restore", args, t.env, t.err, "data", "database", "seal-key")
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("name the backup: %w", errUsage)
	}
	if err := needsFile(s); err != nil {
		return err
	}
	n, err := sqlite.Restore(ctx, rest[0], s.Database())
	if errors.Is(err, sqlite.ErrExists) {
		return fmt.Errorf("%w; stop the server and move it away first", err)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(t.out, "%s: %d enquiries, checked\n", s.Database(), n)
	if _, err := copyKey(keyBeside(rest[0]), s.KeyFile()); err != nil {
		return fmt.Errorf("the enquiries are back, the key for tablets is not: %w", err)
	}
	return nil
}

// copyKey copies a key where there is none yet; false when there is none to
// copy.
func copyKey(from, to string) (copied bool, err error) {
	raw, err := os.ReadFile(from)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fmt.Errorf("read the key: %w", err)
	}
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return false, fmt.Errorf("copy the key: %w", err)
	}
	_, err = f.Write(raw)
	return true, errors.Join(err, f.Sync(), f.Close())
}
