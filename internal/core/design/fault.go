package design

// Fault is something wrong with what was asked: where, what, and the figures
// its sentence needs. Package say words it; Validate returns every fault at once.
type Fault struct {
	Path string // "outline.length_m"
	Code string // "out_of_range", "missing", "unknown_choice", "not_a_number", "crosses_itself", "falls", …
	Args []Arg
}

// Arg is a value with its unit, or a word.
type Arg struct {
	Name  string
	Value float64
	Unit  string
	Text  string
}
