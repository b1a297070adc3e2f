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
	"tarnwright/internal/store/sqlite"
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
	b, err := loadBook(s.Book, t)
	if err != nil {
		return err
	}
	store, err := sqlite.Open(ctx, s.Database())
	if err != nil {
		return err
	}
	return errors.Join(serveFrom(ctx, s, b, store, t), store.Close())
}

func serveFrom(ctx context.Context, s config.Settings, b core.Book, store *sqlite.Store, t tools) error {
	key, err := seal.Load(s.KeyFile())
	if err != nil {
		return err
	}
	cs, err := channels(s, b)
	if err != nil {
		return err
	}
	log := slog.New(slog.NewJSONHandler(t.err, nil))
	worker, stop := startPost(ctx, store, cs, log)
	defer stop()
	srv, err := newServer(s, b, key, post.Ringing(store, worker), log)
	if err != nil {
		return err
	}
	l, err := new(net.ListenConfig).Listen(ctx, "tcp", s.Addr)
	if err != nil {
		return fmt.Errorf("listen on %s: %w", s.Addr, err)
	}
	fmt.Fprintf(t.out, "%s on http://%s (enquiries in %s)\n", b.Builder.Name, visible(l.Addr()), s.Database())
	return srv.Serve(ctx, l)
}

// visible is an address that a browser on this machine can open.
func visible(a net.Addr) string {
	if tcp, ok := a.(*net.TCPAddr); ok && tcp.IP.IsUnspecified() {
		return fmt.Sprintf("localhost:%d", tcp.Port)
	}
	return a.String()
}

// newServer wires the parts together.
func newServer(s config.Settings, b core.Book, key seal.Key, store lead.Store, log *slog.Logger) (*httpapi.Server, error) {
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
