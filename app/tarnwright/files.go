package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/jsonfile"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
	"tarnwright/internal/wire"
)

// printSheet prints the calc sheet of one design, for people or as JSON.
func printSheet(_ context.Context, args []string, t tools) error {
	set := flag.NewFlagSet("sheet", flag.ContinueOnError)
	set.SetOutput(t.err)
	asJSON := set.Bool("json", false, "print every figure as JSON")
	dir := set.String("book", "", "folder with the builder's files; empty takes the invented demo")
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() != 1 {
		return fmt.Errorf("name one design file: %w", errUsage)
	}
	b, err := loadBook(*dir, t)
	if err != nil {
		return err
	}
	data, err := os.ReadFile(set.Arg(0))
	if err != nil {
		return fmt.Errorf("read the design: %w", err)
	}
	d, faults := wire.ReadDesign(set.Arg(0), data)
	if len(faults) > 0 {
		printFaults(faults, t)
		return errFaults
	}
	s := core.Compute(d, b)
	if !*asJSON {
		_, err := fmt.Fprint(t.out, view.CalcSheet(s))
		return err
	}
	w := say.English()
	raw, err := wire.SheetJSON(s, w.Say("page.rough"), w.Name)
	if err != nil {
		return fmt.Errorf("write the sheet: %w", err)
	}
	_, err = t.out.Write(raw)
	return err
}

// designName asks for the schema of a design file.
const designName = "design.json"

// printSchema prints the JSON Schema of one of a builder's files or of a
// design, for editors that check as one types.
func printSchema(_ context.Context, args []string, t tools) error {
	if len(args) == 0 {
		for _, name := range append(book.Files(), book.ThemeName, book.WordsName("es"), designName) {
			fmt.Fprintln(t.out, name)
		}
		return nil
	}
	if len(args) > 1 {
		return fmt.Errorf("name one file: %w", errUsage)
	}
	raw, known, err := book.Schema(args[0])
	if args[0] == designName {
		raw, err = jsonfile.Schema(designName, design.Design{}, nil)
		known = true
	}
	if err != nil {
		return fmt.Errorf("make the schema: %w", err)
	}
	if !known {
		return fmt.Errorf("no file is called %s; tarnwright schema lists them: %w", args[0], errUsage)
	}
	_, err = t.out.Write(raw)
	return err
}

// settings prints the settings as a server would take them.
func settings(_ context.Context, args []string, t tools) error {
	s, rest, err := config.Read("settings", args, t.env, t.err)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%q is not an option: %w", rest[0], errUsage)
	}
	_, err = fmt.Fprint(t.out, s.TOML())
	return err
}

// check reads designs, builders' folders or single files of theirs, and
// settings files, and prints each fault with its file and line.
func check(_ context.Context, args []string, t tools) error {
	if len(args) == 0 {
		return fmt.Errorf("name design files, a builder's folder or a settings file: %w", errUsage)
	}
	bad := false
	for _, name := range args {
		faults, err := checkOne(name, t.env)
		if err != nil {
			return err
		}
		printFaults(faults, t)
		if len(faults) == 0 {
			fmt.Fprintln(t.out, name+": ok")
			printLeft(name, t)
		}
		bad = bad || len(faults) > 0
	}
	if bad {
		return errFaults
	}
	return nil
}

func checkOne(name string, env func(string) string) ([]wire.Fault, error) {
	st, err := os.Stat(name)
	if err != nil {
		return nil, fmt.Errorf("look at %s: %w", name, err)
	}
	if st.IsDir() {
		return checkFolder(name), nil
	}
	if book.IsFile(filepath.Base(name)) {
		// What the folder's other files have to do with it counts too.
		return slices.DeleteFunc(checkFolder(filepath.Dir(name)), func(f wire.Fault) bool { return f.File != filepath.Clean(name) }), nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if filepath.Ext(name) == ".toml" {
		return config.Check(name, data, env), nil
	}
	_, faults := wire.ReadDesign(name, data)
	return faults, nil
}

func checkFolder(dir string) []wire.Fault {
	b, faults := book.Load(os.DirFS(dir))
	_, looks := book.LoadLook(os.DirFS(dir))
	_, words := book.LoadWords(os.DirFS(dir), b)
	faults = slices.Concat(faults, looks, words)
	for i := range faults {
		faults[i].File = filepath.Join(dir, faults[i].File)
	}
	return faults
}

// printLeft tells which texts of a builder's folder have no words in another
// language. That is no fault.
func printLeft(dir string, t tools) {
	b, faults := book.Load(os.DirFS(dir))
	if len(faults) > 0 {
		return
	}
	worded, _ := book.LoadWords(os.DirFS(dir), b)
	for _, language := range book.Languages() {
		if left := worded[language].Left; len(left) > 0 {
			fmt.Fprintf(t.out, "%s leaves %d to the words of the other files: %s\n",
				filepath.Join(dir, book.WordsName(language)), len(left), strings.Join(left, ", "))
		}
	}
}
