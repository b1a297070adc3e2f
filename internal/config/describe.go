package config

// Described is one setting as a paper shows it.
type Described struct{ Flag, Variable, Help, Default string }

// Describe lists the settings in their order, with their defaults.
func Describe() []Described {
	d := Defaults()
	var all []Described
	for _, o := range options() {
		all = append(all, Described{Flag: o.name, Variable: o.env, Help: o.help, Default: o.get(&d)})
	}
	return all
}
