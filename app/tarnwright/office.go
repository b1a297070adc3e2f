package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"mime"
	"path"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/office"
	"tarnwright/internal/office/desk"
	"tarnwright/internal/ui/page"
	"tarnwright/web"
)

// hashing is how many passwords are hashed at a time.
const hashing = 2

// newOffice is the builder's own pages over a site's store.
func newOffice(s config.Settings, b core.Book, store keeper, log *slog.Logger) (*desk.Desk, error) {
	look, err := lookOf(s.Book)
	if err != nil {
		return nil, err
	}
	worded, err := wordsOf(s.Book, b)
	if err != nil {
		return nil, err
	}
	p := newPages(b, worded)
	styles, err := officeStyles(look)
	if err != nil {
		return nil, err
	}
	icon, err := fs.ReadFile(web.Files, "img/icon.svg")
	if err != nil {
		return nil, fmt.Errorf("read the office's icon: %w", err)
	}
	return desk.New(desk.Config{
		Site:  s.ID,
		Door:  office.Door{Store: store, Now: time.Now, Turns: make(chan struct{}, hashing)},
		Inbox: store, Outbox: store,
		In: func(language string) desk.Own {
			c := p.config(language)
			return desk.Own{Book: c.Book, Defaults: c.Defaults, Kit: c.Kit}
		},
		Languages: page.Languages(),
		Styles:    styles,
		Icon:      desk.Picture{Type: "image/svg+xml", Data: icon},
		Logo:      desk.Picture{Type: mime.TypeByExtension(path.Ext(look.LogoName)), Data: look.Logo},
		Now:       time.Now, Log: log,
	})
}

// officeStyles are the page's own style sheets, the office's, and the builder's
// colours.
func officeStyles(look book.Look) ([]byte, error) {
	var all []byte
	for _, name := range []string{"app.css", "drawing.css", "office/office.css"} {
		raw, err := fs.ReadFile(web.Files, "css/"+name)
		if err != nil {
			return nil, fmt.Errorf("read the office's look: %w", err)
		}
		all = append(append(all, raw...), '\n')
	}
	return append(all, look.Theme.CSS()...), nil
}

// invite makes a link that lets somebody into a site's office, or takes their
// account away. The link works while the server runs or not.
func invite(ctx context.Context, args []string, t tools) error {
	site, args, err := takeSite(args)
	if err != nil {
		return err
	}
	remove, args := taken(args, "-remove")
	s, rest, err := config.Read("invite", args, t.env, t.err, append(stored(), "addr")...)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("name one email address: %w", errUsage)
	}
	one, err := siteOf(s, site)
	if err != nil {
		return err
	}
	email, err := office.Address(rest[0])
	if err != nil {
		return fmt.Errorf("%q is %w: %w", plain(rest[0]), err, errUsage)
	}
	db, err := openDatabase(ctx, s)
	if err != nil {
		return err
	}
	if remove {
		err = removeAccount(ctx, db.at(site), email, t)
	} else {
		err = printInvite(ctx, db.at(site), email, officeAddress(s, one), t)
	}
	return errors.Join(err, db.close())
}

func printInvite(ctx context.Context, store keeper, email, at string, t tools) error {
	token, until, err := office.Door{Store: store, Now: time.Now}.Invite(ctx, email)
	if err != nil {
		return err
	}
	fmt.Fprintf(t.out, "%s/office/join/%s\n", at, token)
	fmt.Fprintf(t.out, "for %s, once, until %s; who opens it chooses a password\n", email, until.Format("2006-01-02 15:04 UTC"))
	return nil
}

func removeAccount(ctx context.Context, store keeper, email string, t tools) error {
	if err := store.RemoveUser(ctx, email); err != nil {
		return fmt.Errorf("%s: %w", email, err)
	}
	fmt.Fprintf(t.out, "%s has no account any more\n", email)
	return nil
}

// officeAddress is where people find a site: its own name, or else where the
// server listens.
func officeAddress(s config.Settings, one config.Site) string {
	if len(one.Hosts) > 0 {
		return "https://" + one.Hosts[0]
	}
	return "http://" + s.Addr
}

// taken takes a flag that says yes or no out of the arguments.
func taken(args []string, name string) (on bool, rest []string) {
	for _, a := range args {
		if a == name || a == "-"+name {
			on = true
			continue
		}
		rest = append(rest, a)
	}
	return on, rest
}
