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

// keyBeside is the file beside a backup that holds the key which a site's
// tablets seal enquiries to; without it, those still under way could not be
// read.
func keyBeside(file string, site config.Site) string {
	if site.ID == config.MainSite {
		return file + ".seal-key.pem"
	}
	return file + ".seal-key-" + site.ID + ".pem"
}

// backup writes every site's enquiries to a new file, and their keys beside it.
func backup(ctx context.Context, args []string, t tools) error {
	s, rest, err := config.Read("backup", args, t.env, t.err, "data", "database", "seal-key")
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("name the file to write: %w", errUsage)
	}
	return withFile(ctx, s, func(store *sqlite.Store) error {
		keys, err := copyKeys(s, rest[0])
		if err == nil {
			var n int
			if n, err = store.Backup(ctx, rest[0]); err == nil {
				fmt.Fprintf(t.out, "%s: %d enquiries, checked\n", rest[0], n)
			}
		}
		for _, key := range keys {
			if err != nil {
				err = errors.Join(err, os.Remove(key))
				continue
			}
			fmt.Fprintf(t.out, "%s: the key that tablets seal to; keep it as safe as the enquiries\n", key)
		}
		return err
	})
}

// copyKeys copies the keys of all sites beside a backup, and names the copies.
func copyKeys(s config.Settings, file string) (copies []string, err error) {
	for _, site := range s.Sites() {
		copied, err := copyKey(s.KeyFileOf(site), keyBeside(file, site))
		if copied {
			copies = append(copies, keyBeside(file, site))
		}
		if err != nil {
			return copies, err
		}
	}
	return copies, nil
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
	for _, site := range s.Sites() {
		if _, err := copyKey(keyBeside(rest[0], site), s.KeyFileOf(site)); err != nil {
			return fmt.Errorf("the enquiries are back, the key for tablets is not: %w", err)
		}
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
