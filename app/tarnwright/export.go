package main

import (
	"context"
	"flag"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"

	"tarnwright/internal/config"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/seal"
)

// export writes the page as files. Enquiries go to a server that lets the
// page's origin in.
func export(_ context.Context, args []string, t tools) error {
	set := flag.NewFlagSet("export", flag.ContinueOnError)
	set.SetOutput(t.err)
	dir := set.String("book", "", "folder with the builder's files; empty takes the invented demo")
	intake := set.String("intake", "", "origin of the server that takes enquiries, like https://leads.builder.example")
	hosts := set.String("hosts", "", "sites that may show the page in a frame, with commas between; empty lets every site")
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() != 1 {
		return fmt.Errorf("name one folder to write to: %w", errUsage)
	}
	to, err := config.Origins(*intake)
	if err != nil {
		return err
	}
	if len(to) != 1 {
		return fmt.Errorf("name the server that takes enquiries, with -intake: %w", errUsage)
	}
	framers, err := config.Origins(*hosts)
	if err != nil {
		return err
	}
	b, err := loadBook(*dir, t)
	if err != nil {
		return err
	}
	srv, err := newServer(config.Settings{Site: config.Site{Book: *dir}}, b, seal.Key{}, nil, parts{}, slog.New(slog.NewJSONHandler(t.err, nil)))
	if err != nil {
		return err
	}
	files, bytes := 0, 0
	err = srv.Export(httpapi.Export{Intake: to[0] + "/api/v1/leads", Hosts: framers}, func(name string, data []byte) error {
		files, bytes = files+1, bytes+len(data)
		return writeFile(filepath.Join(set.Arg(0), filepath.FromSlash(name)), data)
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(t.out, "%d files, %d kB in %s; start the server at %s with the origin of this page in -intake-origins\n", files, bytes/1000, set.Arg(0), strings.Join(to, ""))
	return nil
}

func writeFile(name string, data []byte) error {
	const folder, file = 0o755, 0o644
	if err := os.MkdirAll(filepath.Dir(name), folder); err != nil {
		return fmt.Errorf("make the folder: %w", err)
	}
	if err := os.WriteFile(name, data, file); err != nil { //nolint:gosec // the page is public
		return fmt.Errorf("write the page: %w", err)
	}
	return nil
}
