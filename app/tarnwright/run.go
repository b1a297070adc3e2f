package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/wire"
)

// tools is what a command may use of the world.
type tools struct {
	out, err io.Writer
	env      func(string) string
}

// command is one thing the program does.
type command struct {
	name, args, help string
	do               func(context.Context, []string, tools) error
}

func commands() []command {
	return []command{
		{"serve", "[-addr A] [-data DIR] [-book DIR]", "serve the page and take enquiries", serve},
		{"export", "[-book DIR] [-hosts ORIGINS] -intake ORIGIN DIR", "write the page for a host that serves files only", export},
		{"sheet", "[-json] [-book DIR] FILE", "print the calc sheet of a design file", printSheet},
		{"schema", "[NAME]", "print the JSON Schema of a builder's file, or list the files", printSchema},
		{"check", "FILES…", "say all that is wrong with designs, builders' folders and settings files", check},
		{"settings", "[-settings FILE]", "print the settings as a server would take them, secrets masked", settings},
		{"leads", "[-site ID] [REFERENCE]", "list enquiries, with what was not told, or show one", leads},
		{"resend", "[-site ID] REFERENCE", "tell the office of an enquiry again", resend},
		{"delete", "[-site ID] REFERENCE", "delete an enquiry and all that belongs to it, for good", deleteLead},
		{"invite", "[-site ID] [-remove] EMAIL", "make a link that lets somebody into the office, or take their account away", invite},
		{"purge", "[-site ID]", "delete the enquiries that are older than the builder keeps them", purge},
		{"backup", "[-data DIR] FILE", "write every enquiry to a file, while the server runs or not", backup},
		{"restore", "[-data DIR] FILE", "start a database from a backup", restore},
	}
}

// errFaults says that what is wrong has been printed already.
var errFaults = errors.New("there are faults")

// run does what the arguments ask and returns the exit code: 0 done, 1 it
// could not be done, 2 it was not asked right.
func run(ctx context.Context, args []string, t tools) int {
	if len(args) > 0 {
		for _, c := range commands() {
			if c.name == args[0] {
				return report(c.name, c.do(ctx, args[1:], t), t)
			}
		}
	}
	usage(t.err)
	if len(args) > 0 && (args[0] == "help" || args[0] == "-h" || args[0] == "--help") {
		return 0
	}
	return 2
}

func report(name string, err error, t tools) int {
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return 0
	case errors.Is(err, errFaults):
		return 1
	}
	fmt.Fprintf(t.err, "tarnwright %s: %v\n", name, err)
	if errors.Is(err, errUsage) || errors.Is(err, config.ErrSetting) {
		return 2
	}
	return 1
}

func usage(w io.Writer) {
	fmt.Fprintln(w, "tarnwright: a design check for swim ponds")
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, c := range commands() {
		fmt.Fprintf(tab, "  tarnwright %s %s\t%s\n", c.name, c.args, c.help)
	}
	_ = tab.Flush()
}

// errUsage says that a command was not asked right.
var errUsage = errors.New("not asked right")

// loadBook reads a builder's folder, or takes the demo when none is named.
func loadBook(dir string, t tools) (core.Book, error) {
	if dir == "" {
		return book.Demo(), nil
	}
	b, faults := book.Load(os.DirFS(dir))
	if len(faults) > 0 {
		printFaults(faults, t)
		return core.Book{}, errFaults
	}
	return b, nil
}

func printFaults(faults []wire.Fault, t tools) {
	for _, f := range faults {
		fmt.Fprintln(t.err, f)
	}
}
