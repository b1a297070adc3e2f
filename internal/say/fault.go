package say

import (
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/measure"
)

// Fault is a sentence about something a person asked for, naming it and what
// would be right.
func (w Words) Fault(f design.Fault, t measure.Terms) string {
	name := w.Label(f.Path)
	key := "fault." + f.Code
	switch f.Code {
	case "out_of_range", "wrong_count":
		return w.Say(key, name, arg(f, "low", t), arg(f, "high", t))
	case "empty":
		return w.Say(key, strings.ToLower(name[:1])+name[1:])
	case "not_a_number", "unknown_unit", "mixed_units":
		return w.Say(key, name, w.example(f.Path, t.System))
	case "ambiguous":
		return w.ambiguous(f, name, t)
	case "unknown_choice":
		return w.Say(key, name, choices(f))
	}
	if !w.Has(key) {
		return w.Say("fault.other", name)
	}
	args := []string{name}
	for _, a := range f.Args {
		args = append(args, show(a, t))
	}
	return w.Say(key, args...)
}

// Notice is a sentence about something possible but unlikely.
func (w Words) Notice(f design.Fault, t measure.Terms) string {
	args := []string{w.Label(f.Path)}
	for _, a := range f.Args {
		args = append(args, show(a, t))
	}
	return w.Say("notice."+f.Code, args...)
}

// Label is what a place in the form or in a design is called.
func (w Words) Label(path string) string {
	bare := path
	for {
		open := strings.Index(bare, "[")
		shut := strings.Index(bare, "]")
		if open < 0 || shut < open {
			break
		}
		bare = bare[:open] + bare[shut+1:]
	}
	for bare != "" {
		if text, ok := w.text["field."+bare]; ok {
			return text
		}
		cut := strings.LastIndex(bare, ".")
		if cut < 0 {
			break
		}
		bare = bare[:cut]
	}
	return path
}

// example is what a right answer looks like.
func (w Words) example(path string, in measure.System) string {
	for _, key := range []string{"example." + path + "." + string(in), "example." + path, "example." + string(in)} {
		if w.Has(key) {
			return w.Say(key)
		}
	}
	return ""
}

// ambiguous offers the two readings of a comma before three digits, or asks
// for the unit.
func (w Words) ambiguous(f design.Fault, name string, t measure.Terms) string {
	typed := ""
	for _, a := range f.Args {
		if a.Name == "value" {
			typed = strings.TrimSpace(a.Text)
		}
	}
	if strings.Count(typed, ",") == 1 && !strings.Contains(typed, " ") {
		return w.Say("fault.ambiguous.comma", name, strings.Replace(typed, ",", "", 1), strings.Replace(typed, ",", ".", 1))
	}
	return w.Say("fault.ambiguous", name, w.example(f.Path, t.System))
}

func choices(f design.Fault) string {
	var words []string
	for _, a := range f.Args {
		if a.Name == "choice" {
			words = append(words, a.Text)
		}
	}
	return strings.Join(words, ", ")
}

func arg(f design.Fault, name string, t measure.Terms) string {
	for _, a := range f.Args {
		if a.Name == name {
			return show(a, t)
		}
	}
	return ""
}

// show is an argument of a fault in the reader's units.
func show(a design.Arg, t measure.Terms) string {
	if a.Text != "" {
		return a.Text
	}
	switch a.Unit {
	case "m":
		return t.Length(a.Value).String()
	case "m2":
		return t.Area(a.Value).String()
	case "m3/s":
		return t.Flow(a.Value).String()
	case "m/h":
		return t.Quantity(a.Value, "m/h").String()
	case "degC":
		return t.Temperature(a.Value).String()
	case "h":
		return measure.Hours(a.Value).String()
	case "deg":
		return measure.Round(a.Value, 0) + "°"
	case "kW", "kWh":
		return measure.Round(a.Value, 1) + "\u00a0" + a.Unit
	}
	// Two decimals always have a point, so only zeros behind it go.
	return strings.TrimSuffix(strings.TrimRight(measure.Round(a.Value, 2), "0"), ".")
}
