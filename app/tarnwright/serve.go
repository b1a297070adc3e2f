package main

import (
	"context"
	"crypto/rand"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/post"
	"tarnwright/internal/seal"
	"tarnwright/internal/ui/page"
	"tarnwright/web"
)

// serve answers until it is told to stop.
func serve(ctx context.Context, args []string, t tools) error {
	s, rest, err := config.Read("serve", args, t.env, t.err)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%q is not an option: %w", rest[0], errUsage)
	}
	sites, err := builders(s, t)
	if err != nil {
		return err
	}
	db, err := openDatabase(ctx, s)
	if err != nil {
		return err
	}
	return errors.Join(serveFrom(ctx, sites, db, t), db.close())
}

// serveFrom serves every site on one address until the context ends, tells
// each builder's office, and lets enquiries go when their time is over.
func serveFrom(ctx context.Context, sites []builder, db database, t tools) error {
	log := slog.New(slog.NewJSONHandler(t.err, nil))
	counts := newMetrics(sites, db)
	var doors []httpapi.Site
	for _, b := range sites {
		srv, stop, err := b.open(ctx, db.at(b.ID), counts.watch(b.ID), log)
		if err != nil {
			return err
		}
		defer stop()
		doors = append(doors, httpapi.Site{Hosts: b.Hosts, Server: srv})
	}
	front, err := httpapi.NewFront(doors)
	if err != nil {
		return err
	}
	l, err := new(net.ListenConfig).Listen(ctx, "tcp", sites[0].Addr)
	if err != nil {
		return fmt.Errorf("listen on %s: %w", sites[0].Addr, err)
	}
	for _, b := range sites {
		fmt.Fprintf(t.out, "%s on http://%s (enquiries in %s)\n", b.book.Builder.Name, b.visible(l.Addr()), db.where)
	}
	stop, err := counts.start(ctx, sites[0].MetricsAddr, t)
	if err != nil {
		return err
	}
	defer stop()
	return front.Serve(ctx, l)
}

// builder is one site of the settings with its book.
type builder struct {
	config.Settings // this site's, and no other's
	book            core.Book
}

// builders reads the book of every site, and says all that is wrong with any.
func builders(s config.Settings, t tools) ([]builder, error) {
	var all []builder
	var errs []error
	for _, site := range s.Sites() {
		one := s
		one.Site, one.More = site, nil
		b, err := loadBook(site.Book, t)
		errs = append(errs, err)
		all = append(all, builder{one, b})
	}
	return all, errors.Join(errs...)
}

// open makes a site's server and starts what works behind it; stop ends that.
func (b builder) open(ctx context.Context, store keeper, watch httpapi.Watch, log *slog.Logger) (srv *httpapi.Server, stop func(), err error) {
	key, err := seal.Load(b.KeyFile())
	if err != nil {
		return nil, nil, err
	}
	cs, err := channels(b.Settings, b.book, store.Anyone)
	if err != nil {
		return nil, nil, err
	}
	worker, stopPost := startPost(ctx, store, cs, log)
	stopPurge := startPurge(ctx, store, b.book, log)
	stop = func() { stopPurge(); stopPost() }
	rooms, err := newOffice(b.Settings, b.book, store, log)
	if err == nil {
		srv, err = newServer(b.Settings, b.book, key, post.Ringing(store, worker), parts{watch, rooms}, log)
	}
	if err != nil {
		stop()
		return nil, nil, err
	}
	return srv, stop, nil
}

// visible is where a site is found: under its own name, or else at an address.
func (b builder) visible(a net.Addr) string {
	if tcp, ok := a.(*net.TCPAddr); ok && len(b.Hosts) > 0 {
		return fmt.Sprintf("%s:%d", b.Hosts[0], tcp.Port)
	}
	return visible(a)
}

// visible is an address that a browser on this machine can open.
func visible(a net.Addr) string {
	if tcp, ok := a.(*net.TCPAddr); ok && tcp.IP.IsUnspecified() {
		return fmt.Sprintf("localhost:%d", tcp.Port)
	}
	return a.String()
}

// parts are those of a server that it can do without.
type parts struct {
	watch  httpapi.Watch
	office httpapi.Office
}

// newServer wires the parts together.
func newServer(s config.Settings, b core.Book, key seal.Key, store lead.Store, more parts, log *slog.Logger) (*httpapi.Server, error) {
	raw, err := book.Encode(b)
	if err != nil {
		return nil, fmt.Errorf("write the book for the page: %w", err)
	}
	look, err := lookOf(s.Book)
	if err != nil {
		return nil, err
	}
	worded, err := wordsOf(s.Book, b)
	if err != nil {
		return nil, err
	}
	books, err := booksOf(worded)
	if err != nil {
		return nil, err
	}
	p := newPages(b, worded)
	prefix := lead.Prefix(b.Builder.Name)
	return httpapi.New(httpapi.Config{
		Desk:           lead.Desk{Store: store, Now: time.Now, NewReference: func() string { return lead.Reference(prefix, randomNumber()) }},
		Compute:        func(d design.Design) *sheet.Sheet { return core.Compute(d, b) },
		Design:         p.design,
		Page:           p.page,
		Consent:        p.consent,
		HTML:           markup.HTML,
		Book:           raw,
		Books:          books,
		Theme:          look.Theme.CSS(),
		Logo:           httpapi.Picture{Name: look.LogoName, Data: look.Logo},
		Assets:         web.Files,
		Framework:      framework(b),
		SealKey:        key.Public(),
		Unseal:         key.Open,
		AppName:        b.Builder.Name,
		AppShort:       b.Builder.Short,
		FrameAncestors: s.FrameAncestors,
		IntakeOrigins:  s.IntakeOrigins,
		TrustedProxies: s.TrustedProxies,
		Log:            log,
		Now:            time.Now,
		NewID:          randomID,
		FormSecret:     key.Derived("forms"),
		Watch:          more.watch,
		Office:         more.office,
		Languages:      page.Languages(),
		Words:          p.say,
		Texts:          p.texts(),
	})
}

// lookOf is the builder's own look. One that people could not read stops the
// server before it starts.
func lookOf(dir string) (book.Look, error) {
	if dir == "" {
		return book.Look{}, nil
	}
	look, faults := book.LoadLook(os.DirFS(dir))
	var all []error
	for _, f := range faults {
		all = append(all, errors.New(f.String()))
	}
	return look, errors.Join(all...)
}

// framework makes the page framework's own handler; httpapi lets only its
// scripts through.
func framework(b core.Book) func(httpapi.Files) http.Handler {
	return func(f httpapi.Files) http.Handler {
		return &app.Handler{
			Name: b.Builder.Name, ShortName: b.Builder.Short, Lang: "en", Version: f.Version,
			Icon:                    app.Icon{Default: f.Icon, Large: f.Icon, SVG: f.Icon, Maskable: f.Icon},
			WasmContentLengthHeader: "X-Wasm-Length",
			InternalURLs:            []string{"tel:", "sms:", "mailto:"},
		}
	}
}

// randomNumber is below 2^25, as a reference takes it.
func randomNumber() uint32 {
	var b [4]byte
	_, _ = rand.Read(b[:]) // never fails; it stops the program instead
	return binary.LittleEndian.Uint32(b[:]) & (1<<25 - 1)
}

// randomID has 128 random bits.
func randomID() string {
	var b [16]byte
	_, _ = rand.Read(b[:])
	return hex.EncodeToString(b[:])
}
