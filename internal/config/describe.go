package config

// Described is one setting as a paper shows it; a secret has no flag.
type Described struct{ Flag, Variable, Help, Default string }

// Describe lists the settings in their order, with their defaults.
func Describe() []Described {
	d := Defaults()
	var all []Described
	for _, o := range options() {
		row := Described{Flag: o.name, Variable: o.env, Help: o.help, Default: o.get(&d)}
		if o.secret {
			row.Flag = ""
		}
		all = append(all, row)
	}
	return all
}
