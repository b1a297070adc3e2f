package main

import (
	"context"
	"fmt"
	"log/slog"
	"math/rand/v2"
	"time"

	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/lead"
	"tarnwright/internal/measure"
	"tarnwright/internal/post"
)

// letterOf writes the letter about an enquiry, in the language that the office
// reads, with the builder's own words in it where they have some.
func letterOf(s config.Site, b core.Book) (func(l lead.Lead, where string) (subject, text string), error) {
	worded, err := wordsOf(s.Book, b)
	if err != nil {
		return nil, err
	}
	cfg := newPages(b, worded).config(s.MailLanguage)
	terms := measure.Terms{System: cfg.Defaults.System, Currency: cfg.Book.Currency}
	return func(l lead.Lead, where string) (string, string) {
		return post.Letter(l, core.Compute(l.Design, cfg.Book), cfg.Kit.Words, terms, where)
	}, nil
}

// channels are the ways to the office that are set up. open tells whether the
// site's office lets anybody in.
func channels(s config.Settings, b core.Book, open func(context.Context) (bool, error)) ([]post.Channel, error) {
	var out []post.Channel
	if s.SMTP != "" {
		letter, err := letterOf(s.Site, b)
		if err != nil {
			return nil, err
		}
		m, err := post.NewMail(post.Office{URL: s.SMTP.Reveal(), From: s.MailFrom, To: s.MailTo,
			Letter: func(ctx context.Context, l lead.Lead) (string, string) {
				return letter(l, whereIs(ctx, s.Site, l.Reference, open))
			}})
		if err != nil {
			return nil, fmt.Errorf("set up mail: %w", err)
		}
		out = append(out, m)
	}
	if s.Webhook != "" {
		w, err := post.NewWebhook(post.Hook{URL: s.Webhook, Secret: s.WebhookSecret.Reveal(), Networks: s.WebhookNetworks, Whole: s.WebhookData == "enquiry"})
		if err != nil {
			return nil, fmt.Errorf("set up the webhook: %w", err)
		}
		out = append(out, w)
	}
	return out, nil
}

// whereIs is where a letter sends who wants to see all of an enquiry: to its
// page in the office, when the site has a name of its own to be found under and
// somebody was asked in, or else to the command line.
func whereIs(ctx context.Context, s config.Site, reference string, open func(context.Context) (bool, error)) string {
	if len(s.Hosts) > 0 {
		// A database in trouble is no reason to lead people past their office.
		if some, err := open(ctx); some || err != nil {
			return "https://" + s.Hosts[0] + "/office/leads/" + reference
		}
	}
	if s.ID != config.MainSite {
		return "tarnwright leads -site " + s.ID + " " + reference
	}
	return "tarnwright leads " + reference
}

// startPost starts the worker; stop ends it and waits for what is on its way.
func startPost(ctx context.Context, store keeper, cs []post.Channel, log *slog.Logger) (w *post.Worker, stop func()) {
	w = post.New(post.Config{Outbox: store, Find: store.Find, Channels: cs, Now: time.Now, Jitter: rand.Float64, Log: log})
	// It ends after the server, which takes enquiries until its own end.
	ctx, cancel := context.WithCancel(context.WithoutCancel(ctx))
	done := make(chan struct{})
	go func() { w.Run(ctx); close(done) }()
	return w, func() { cancel(); <-done }
}

// resend makes the messages about an enquiry due again; a server that runs
// sends them within half a minute.
func resend(ctx context.Context, args []string, t tools) error {
	return withEnquiry(ctx, "resend", args, t, func(store keeper, l lead.Lead) error {
		n, err := store.Again(ctx, l.Reference, time.Now())
		if err != nil {
			return err
		}
		fmt.Fprintf(t.out, "%s: %d messages are due again\n", l.Reference, n)
		return nil
	})
}
