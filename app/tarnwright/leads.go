package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"tarnwright/internal/config"
	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// leads lists the enquiries, newest first, or shows one.
func leads(ctx context.Context, args []string, t tools) error {
	site, args, err := takeSite(args)
	if err != nil {
		return err
	}
	s, rest, err := config.Read("leads", args, t.env, t.err, stored()...)
	if err != nil {
		return err
	}
	if len(rest) > 1 {
		return fmt.Errorf("name one reference, or none for the list: %w", errUsage)
	}
	return withStore(ctx, s, site, func(store keeper) error {
		if len(rest) == 1 {
			return showLead(ctx, store, rest[0], t.out)
		}
		return listLeads(ctx, store, t.out)
	})
}

const pageOfLeads = 200

func listLeads(ctx context.Context, store keeper, w io.Writer) error {
	untold, err := untoldOf(ctx, store)
	if err != nil {
		return err
	}
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tab, "reference\treceived (UTC)\tstatus\tname\temail\tphone\ttown\tproject\tdiffers\tuntold")
	for offset := 0; ; offset += pageOfLeads {
		page, err := store.Search(ctx, lead.Filter{Aside: lead.With, Offset: offset, Limit: pageOfLeads})
		if err != nil {
			return fmt.Errorf("list the enquiries: %w", err)
		}
		for _, l := range page.Cases {
			fmt.Fprintln(tab, strings.Join(append(row(l), plain(untoldText(l, untold))), "\t"))
		}
		if len(page.Cases) < pageOfLeads {
			return tab.Flush()
		}
	}
}

// untoldOf says, of each enquiry that the office was not told of, through which
// channel and why.
func untoldOf(ctx context.Context, store lead.Outbox) (map[string]string, error) {
	all, err := store.Untold(ctx)
	if err != nil {
		return nil, fmt.Errorf("list what was not told: %w", err)
	}
	out := map[string]string{}
	for _, d := range all {
		text := fmt.Sprintf("%s: %s", d.Channel, d.State)
		if d.Attempts > 0 {
			text += fmt.Sprintf(", tried %d times", d.Attempts)
		}
		if d.LastError != "" {
			text += ", " + d.LastError
		}
		if before := out[d.Reference]; before != "" {
			text = before + "; " + text
		}
		out[d.Reference] = text
	}
	return out, nil
}

// untoldText is why the office was not told of an enquiry, or empty when it was.
func untoldText(l lead.Case, untold map[string]string) string {
	if l.PutAside() {
		return "put aside: " + l.Quarantine
	}
	return untold[l.Reference]
}

func row(l lead.Case) []string {
	differs := ""
	if n := len(l.Differences); n > 0 {
		differs = fmt.Sprint(n)
	}
	cells := []string{l.Reference, l.Received.Format("2006-01-02 15:04"), string(l.Status), l.Contact.Name, l.Contact.Email, l.Contact.Phone, l.Contact.Town, l.Design.Name, differs}
	for i, c := range cells {
		cells[i] = plain(c)
	}
	return cells
}

// plain keeps what a stranger typed from steering the terminal.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 || (r >= 0x7f && r < 0xa0) {
			return ' '
		}
		return r
	}, s)
}

func found(ctx context.Context, store lead.Store, reference string) (lead.Lead, error) {
	l, err := store.Find(ctx, strings.ToUpper(reference))
	if err != nil {
		return l, fmt.Errorf("find %s: %w", plain(reference), err)
	}
	return l, nil
}

func showLead(ctx context.Context, store lead.Store, reference string, w io.Writer) error {
	l, err := found(ctx, store, reference)
	if err != nil {
		return err
	}
	raw, err := wire.LeadJSON(l)
	if err != nil {
		return err
	}
	_, err = w.Write(raw)
	return err
}
