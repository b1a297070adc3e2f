// Package wire is what passes between the page, the server and files: the
// design file, the enquiry and its answer, problems, and a sheet as JSON. Both
// ends use these shapes, and each has a version.
package wire

import (
	"strconv"
	"strings"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/jsonfile"
)

// Fault is one thing wrong with a file, with its line.
type Fault = jsonfile.Fault

// ReadDesign reads a design file strictly. It returns every fault at once:
// first what is wrong with the file, and when the file is right, what is wrong
// with the pond. The design is only to be used when there is none.
func ReadDesign(name string, data []byte) (design.Design, []Fault) {
	doc, faults := jsonfile.Parse(name, data)
	if len(faults) > 0 {
		return design.Design{}, faults
	}
	var d design.Design
	if faults := doc.Into(&d); len(faults) > 0 {
		return d, faults
	}
	for _, f := range core.Check(d) {
		faults = append(faults, doc.FaultAt(f.Path, f.Code, DesignFault(f)))
	}
	return d, faults
}

// WriteDesign is the canonical text of a design: equal designs give equal bytes.
func WriteDesign(d design.Design) ([]byte, error) { return jsonfile.Write(d) }

// DesignFault says what is wrong in the file's own terms, SI units and all. A
// person at the page gets package say's words, in their own units.
func DesignFault(f design.Fault) string {
	switch f.Code {
	case "other_version":
		return f.Path + " must be " + arg(f, "want") + "; this program reads no other"
	case "too_long":
		return f.Path + " must have at most " + arg(f, "max") + " characters"
	case "not_a_number":
		return f.Path + " must be a number, like 10.36"
	case "out_of_range", "wrong_count":
		return f.Path + " must lie between " + arg(f, "low") + " and " + arg(f, "high") + ", and is " + arg(f, "value")
	case "unknown_choice":
		return f.Path + " must be one of " + choices(f) + ", and is " + strconv.Quote(text(f, "value"))
	case "circle_not_round":
		return f.Path + " must be the length, " + arg(f, "length") + ", because a circle is round"
	case "falls":
		return f.Path + " must not be less than the one before, " + arg(f, "before")
	case "starts_at_edge":
		return f.Path + " must start at the edge, with inset_m 0 and depth_m 0"
	case "not_a_day":
		return f.Path + ` must be a day of the year, like "03-31", and is ` + strconv.Quote(text(f, "value"))
	case "not_a_time":
		return f.Path + ` must be a time of day, like "07:30", and is ` + strconv.Quote(text(f, "value"))
	case "not_a_price":
		return f.Path + ` must be a price as decimal text, like "0.16", and is ` + strconv.Quote(text(f, "value"))
	case "crosses_itself":
		return f.Path + " must not cross itself, and does near x " + nearly(f, "x") + ", y " + nearly(f, "y") +
			", between the points " + arg(f, "first") + " and " + arg(f, "second")
	case "no_outline":
		return f.Path + " must go round some water"
	}
	return f.Path + " is not right (" + strings.ReplaceAll(f.Code, "_", " ") + ")" + rest(f)
}

func find(f design.Fault, name string) (design.Arg, bool) {
	for _, a := range f.Args {
		if a.Name == name {
			return a, true
		}
	}
	return design.Arg{}, false
}

func shown(a design.Arg) string {
	if a.Text != "" {
		return a.Text
	}
	s := strconv.FormatFloat(a.Value, 'f', -1, 64)
	if a.Unit != "" {
		s += " " + a.Unit
	}
	return s
}

func arg(f design.Fault, name string) string { a, _ := find(f, name); return shown(a) }

// nearly is a place to the centimetre: where to look, not a figure.
func nearly(f design.Fault, name string) string {
	a, _ := find(f, name)
	return strconv.FormatFloat(a.Value, 'f', 2, 64) + " " + a.Unit
}

func text(f design.Fault, name string) string { a, _ := find(f, name); return a.Text }

func choices(f design.Fault) string {
	var all []string
	for _, a := range f.Args {
		if a.Name == "choice" {
			all = append(all, strconv.Quote(a.Text))
		}
	}
	return strings.Join(all, ", ")
}

// rest lists the figures of a fault that has no sentence here.
func rest(f design.Fault) string {
	var b strings.Builder
	for _, a := range f.Args {
		b.WriteString("; " + a.Name + " " + shown(a))
	}
	return b.String()
}
