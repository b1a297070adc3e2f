package config

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"tarnwright/internal/jsonfile"
)

// The settings file itself is named by a flag or a variable.
const (
	fileFlag     = "settings"
	fileVariable = "TARNWRIGHT_SETTINGS"
	fileHelp     = "file with settings, in TOML; variables and flags win over it"
)

// Read reads the settings file, then the environment and then the flags, each
// over what came before, and returns what is left of the arguments. Every wrong
// setting is in the error. Only the named options are offered as flags; none
// means all.
func Read(command string, args []string, env func(string) string, usage io.Writer, only ...string) (Settings, []string, error) {
	s := Defaults()
	set := flag.NewFlagSet(command, flag.ContinueOnError)
	set.SetOutput(usage)
	set.Usage = func() { help(set, only) }
	file := set.String(fileFlag, env(fileVariable), fileHelp+" ("+fileVariable+")")
	trial := Defaults()
	var flags []func(*Settings) error
	for _, o := range options() {
		if o.secret || !offered(o.name, only) {
			continue
		}
		set.Func(o.name, fmt.Sprintf("%s (%s; default %q)", o.help, o.env, o.get(ptr(Defaults()))), func(v string) error {
			flags = append(flags, func(s *Settings) error { return o.set(s, v) })
			return o.set(&trial, v)
		})
	}
	var errs []error
	if err := set.Parse(args); err != nil {
		errs = append(errs, err)
	}
	errs = append(errs, readFile(&s, *file)...)
	errs = append(errs, readEnvironment(&s, env, only)...)
	for _, apply := range flags {
		_ = apply(&s) // what is wrong with it is said already
	}
	if len(errs) == 0 {
		errs = append(errs, s.sound(*file != "")...)
	}
	return s, set.Args(), errors.Join(errs...)
}

func readFile(s *Settings, name string) []error {
	if name == "" {
		return nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return []error{fmt.Errorf("read the settings: %w", err)}
	}
	var errs []error
	for _, f := range s.fromTOML(name, data) {
		errs = append(errs, wrongError(f.String()))
	}
	return errs
}

func readEnvironment(s *Settings, env func(string) string, only []string) []error {
	var errs []error
	for _, o := range options() {
		v := env(o.env)
		if v == "" || !offered(o.name, only) {
			continue
		}
		if err := o.set(s, v); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", o.env, err))
		}
	}
	return errs
}

// Check finds all that is wrong with a settings file, as a server with this
// environment would read it.
func Check(name string, data []byte, env func(string) string) []jsonfile.Fault {
	s := Defaults()
	faults := s.fromTOML(name, data)
	if len(faults) > 0 {
		return faults
	}
	for _, err := range append(readEnvironment(&s, env, nil), s.sound(true)...) {
		faults = append(faults, jsonfile.Fault{File: name, Code: "setting", Text: err.Error()})
	}
	return faults
}

// sound finds settings that need each other, or that only one site may have.
func (s Settings) sound(filed bool) []error {
	var errs []error
	taken := map[string]string{}
	for i, site := range s.Sites() {
		call := func(key string) string { return "site." + site.ID + "." + key }
		if !filed {
			call = func(key string) string { return "TARNWRIGHT_" + strings.ToUpper(key) }
		}
		if (site.Webhook == "") != (site.WebhookSecret == "") {
			errs = append(errs, wrongError(call("webhook")+" and "+call("webhook_secret")+" go together"))
		}
		if n := count(site.SMTP.Reveal(), site.MailFrom, site.MailTo); n != 0 && n != 3 {
			errs = append(errs, wrongError(call("smtp")+", "+call("mail_from")+" and "+call("mail_to")+" go together"))
		}
		if i > 0 && len(site.Hosts) == 0 {
			errs = append(errs, wrongError(call("hosts")+" must name what the site answers under, like [\"check.builder.example\"]; only one site may go without"))
		}
		for _, h := range site.Hosts {
			if other := taken[h]; other != "" {
				errs = append(errs, wrongError(call("hosts")+" names "+h+", which is "+other+"'s already"))
			}
			taken[h] = "site." + site.ID
		}
	}
	return errs
}

func count(texts ...string) int {
	n := 0
	for _, t := range texts {
		if t != "" {
			n++
		}
	}
	return n
}

// help prints the flags, and then what is only read from the environment.
func help(set *flag.FlagSet, only []string) {
	fmt.Fprintf(set.Output(), "Usage of %s:\n", set.Name())
	set.PrintDefaults()
	for _, o := range options() {
		if o.secret && offered(o.name, only) {
			fmt.Fprintf(set.Output(), "  %s\n    \t%s (a variable, or in the settings file)\n", o.env, o.help)
		}
	}
}

// Environment reads a variable of the process.
func Environment(name string) string { return os.Getenv(name) }

func ptr(s Settings) *Settings { return &s }

func offered(name string, only []string) bool {
	for _, o := range only {
		if o == name {
			return true
		}
	}
	return len(only) == 0
}
