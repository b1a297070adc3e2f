package main

import (
	"context"
	"fmt"
	"log/slog"
	"time"

	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/lead"
)

// keptMonths is how long enquiries are kept when the builder does not say.
// Common practice, no source.
const keptMonths = 24

// keptSince is when the oldest enquiry that may be kept came in.
func keptSince(b core.Book, now time.Time) time.Time {
	months := b.Builder.RetentionMonths
	if months <= 0 {
		months = keptMonths
	}
	return now.AddDate(0, -months, 0)
}

// startPurge deletes what is too old, now and once a day; stop ends it.
func startPurge(ctx context.Context, store lead.Inbox, b core.Book, log *slog.Logger) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	done := make(chan struct{})
	go func() {
		defer close(done)
		day := time.NewTicker(24 * time.Hour)
		defer day.Stop()
		for {
			n, err := store.PurgeBefore(ctx, keptSince(b, time.Now()))
			if n > 0 {
				log.LogAttrs(ctx, slog.LevelInfo, "purge", slog.Int("deleted", n))
			}
			if err != nil && ctx.Err() == nil {
				log.LogAttrs(ctx, slog.LevelError, "purge trouble", slog.String("kind", fmt.Sprintf("%T", err)))
			}
			select {
			case <-ctx.Done():
				return
			case <-day.C:
			}
		}
	}()
	return func() { cancel(); <-done }
}

// purge deletes what is too old, of one site.
func purge(ctx context.Context, args []string, t tools) error {
	site, args, err := takeSite(args)
	if err != nil {
		return err
	}
	s, rest, err := config.Read("purge", args, t.env, t.err, append(stored(), "book")...)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%q is not an option: %w", rest[0], errUsage)
	}
	one, err := siteOf(s, site)
	if err != nil {
		return err
	}
	b, err := loadBook(one.Book, t)
	if err != nil {
		return err
	}
	return withStore(ctx, s, site, func(store keeper) error {
		since := keptSince(b, time.Now())
		n, err := store.PurgeBefore(ctx, since)
		if err != nil {
			return err
		}
		fmt.Fprintf(t.out, "%d enquiries from before %s are deleted\n", n, since.UTC().Format(time.DateOnly))
		return nil
	})
}

// siteOf finds a site in the settings.
func siteOf(s config.Settings, id string) (config.Site, error) {
	for _, site := range s.Sites() {
		if site.ID == id {
			return site, nil
		}
	}
	return config.Site{}, fmt.Errorf("the settings have no site %s: %w", id, errUsage)
}

// withEnquiry does what a command is for with the one enquiry it names.
func withEnquiry(ctx context.Context, command string, args []string, t tools, do func(keeper, lead.Lead) error) error {
	site, args, err := takeSite(args)
	if err != nil {
		return err
	}
	s, rest, err := config.Read(command, args, t.env, t.err, stored()...)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("name one reference: %w", errUsage)
	}
	return withStore(ctx, s, site, func(store keeper) error {
		l, err := found(ctx, store, rest[0])
		if err != nil {
			return err
		}
		return do(store, l)
	})
}

// deleteLead deletes one enquiry.
func deleteLead(ctx context.Context, args []string, t tools) error {
	return withEnquiry(ctx, "delete", args, t, func(store keeper, l lead.Lead) error {
		if err := store.Delete(ctx, l.Reference); err != nil {
			return err
		}
		fmt.Fprintf(t.out, "%s is deleted; backups made before hold it still\n", l.Reference)
		return nil
	})
}
