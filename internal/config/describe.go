package config

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// Described is one setting as a paper shows it; a secret has no flag.
type Described struct{ Flag, Variable, Help, Default string }

// Describe lists the settings in their order, with their defaults.
func Describe() []Described {
	d := Defaults()
	all := []Described{{Flag: fileFlag, Variable: fileVariable, Help: fileHelp}}
	for _, o := range options() {
		row := Described{Flag: o.name, Variable: o.env, Help: o.help, Default: o.get(&d)}
		if o.secret {
			row.Flag = ""
		}
		all = append(all, row)
	}
	return all
}

// TOML writes the settings as a file that says the same, with what each is for
// and a mask for every secret.
func (s Settings) TOML() string {
	var b bytes.Buffer
	for _, o := range serverOptions() {
		writeOption(&b, o, &s)
	}
	for _, site := range s.Sites() {
		fmt.Fprintf(&b, "\n[site.%s]\n", site.ID)
		for _, o := range siteOptions() {
			writeOption(&b, o, &site)
		}
	}
	return b.String()
}

func writeOption[T any](b *bytes.Buffer, o option[T], of *T) {
	text := o.get(of)
	var value any = text
	if o.list {
		value = append([]string{}, list(text)...)
	}
	raw, err := toml.Marshal(map[string]any{o.key(): value})
	if err != nil {
		raw = []byte("# " + o.key() + " cannot be shown\n") // text that is no UTF-8
	}
	fmt.Fprintf(b, "# %s\n%s\n", o.help, strings.TrimSpace(string(raw)))
}
