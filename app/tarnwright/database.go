package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"regexp"
	"strings"

	"tarnwright/internal/account"
	"tarnwright/internal/config"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/postgres"
	"tarnwright/internal/store/sqlite"
)

// keeper is what a database keeps for one site.
type keeper interface {
	lead.Store
	lead.Outbox
	lead.Inbox
	account.Store
}

// database is where all sites keep their enquiries.
type database struct {
	at    func(site string) keeper
	close func() error
	where string // for people; names no password
}

// openDatabase opens the database of the settings, and makes the file when it
// is one.
func openDatabase(ctx context.Context, s config.Settings) (database, error) {
	if s.DatabaseURL != "" {
		db, err := postgres.Open(ctx, s.DatabaseURL.Reveal())
		if err != nil {
			return database{}, err
		}
		return database{func(site string) keeper { return db.At(site) }, db.Close, "PostgreSQL"}, nil
	}
	db, err := sqlite.Open(ctx, s.Database())
	if err != nil {
		return database{}, err
	}
	return database{func(site string) keeper { return db.At(site) }, db.Close, s.Database()}, nil
}

// stored are the settings that say where enquiries are.
func stored() []string { return []string{"data", "database"} }

// withStore opens the database that is there, for one site; looking must not
// make one.
func withStore(ctx context.Context, s config.Settings, site string, do func(keeper) error) error {
	if s.DatabaseURL == "" {
		if _, err := os.Stat(s.Database()); errors.Is(err, os.ErrNotExist) {
			return fmt.Errorf("there is no database at %s yet", s.Database())
		}
	}
	db, err := openDatabase(ctx, s)
	if err != nil {
		return err
	}
	return errors.Join(do(db.at(site)), db.close())
}

// withFile is withStore for what only a file can do.
func withFile(ctx context.Context, s config.Settings, do func(*sqlite.Store) error) error {
	if err := needsFile(s); err != nil {
		return err
	}
	if _, err := os.Stat(s.Database()); errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("there is no database at %s yet", s.Database())
	}
	store, err := sqlite.Open(ctx, s.Database())
	if err != nil {
		return err
	}
	return errors.Join(do(store), store.Close())
}

// needsFile sends those with a database server to its own tools.
func needsFile(s config.Settings) error {
	if s.DatabaseURL != "" {
		return errors.New("the enquiries are in PostgreSQL: back them up with pg_dump and bring them back with pg_restore; the key that tablets seal to is a file of its own")
	}
	return nil
}

// takeSite takes -site and its value out of the arguments; without it, the site
// is the main one.
func takeSite(args []string) (site string, rest []string, err error) {
	site = lead.Main
	for i := 0; i < len(args); i++ {
		name, value, joined := strings.Cut(args[i], "=")
		if name != "-site" && name != "--site" {
			rest = append(rest, args[i])
			continue
		}
		if !joined {
			if i++; i < len(args) {
				value = args[i]
			}
		}
		if site = value; !regexp.MustCompile(`^[a-z0-9][a-z0-9-]*$`).MatchString(site) {
			return "", nil, fmt.Errorf("-site takes the name of a site of the settings, like main: %w", errUsage)
		}
	}
	return site, rest, nil
}
