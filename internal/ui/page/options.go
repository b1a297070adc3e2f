package page

import (
	"net/url"
	"strconv"
	"strings"
	"unicode"

	"tarnwright/internal/form"
)

// Option is one of the ponds that are set side by side.
type Option struct {
	Name string // what a person calls it; "" takes the usual name
	Form form.State
}

// Beside is what the page knows of the ponds that are compared. The pond in
// hand is one of them: Draw, Pump and Safety show it, and it is State.Form.
type Beside struct {
	Others []Option // the rest, in order
	At     int      // the place of the pond in hand among all
	Name   string   // of the pond in hand
	Months int      // the place of the one whose months are shown
	Steps  bool     // what one step of each answer does to the bill is shown
}

// Limits of what an address may ask for.
const (
	mostOptions     = 3
	mostOptionBytes = 1500
	mostNameRunes   = 40
)

// Names in the address: the names of all options, the questions of those not
// in hand, the place of the one in hand, whose months, and whether the steps
// are shown.
const (
	calledName = "called"
	optionName = "opt"
	atName     = "at"
	monthsName = "months"
	stepsName  = "steps"
)

// Options lists the ponds that are compared, the one in hand among them, all
// in the units that are shown.
func (s State) Options() []Option {
	out := make([]Option, 0, len(s.Others)+1)
	for _, o := range s.Others {
		o.Form.System = s.Form.System
		out = append(out, o)
	}
	at := min(max(s.At, 0), len(out))
	out = append(out, Option{})
	copy(out[at+1:], out[at:])
	out[at] = Option{s.Name, s.Form}
	return out
}

// withOptions takes a list with the one in hand at a place.
func (s State) withOptions(all []Option, at int) State {
	s.At, s.Name, s.Form = at, all[at].Name, all[at].Form
	s.Others = append(append([]Option(nil), all[:at]...), all[at+1:]...)
	s.Months = min(s.Months, len(all)-1)
	return s
}

// readBeside reads the ponds beside the one in hand out of an address. What
// is too long or too many is left out.
func readBeside(s State, v url.Values, d form.Defaults) State {
	for _, query := range v[optionName] {
		q, err := url.ParseQuery(query)
		if err != nil || len(query) > mostOptionBytes || len(s.Others) == mostOptions-1 {
			continue
		}
		s.Others = append(s.Others, Option{Form: form.Read(q, d)})
	}
	s.At = place(v.Get(atName), len(s.Others))
	s.Months = s.At
	if v.Has(monthsName) {
		s.Months = place(v.Get(monthsName), len(s.Others))
	}
	s.Steps = v.Get(stepsName) != ""
	all := s.Options()
	for i, name := range v[calledName] {
		if i < len(all) {
			all[i].Name = tidyName(name)
		}
	}
	return s.withOptions(all, s.At).readEach(v)
}

// place reads a place from 0 to most; anything else is the first.
func place(text string, most int) int {
	if n, err := strconv.Atoi(text); err == nil && n >= 0 && n <= most {
		return n
	}
	return 0
}

// tidyName is a name on one line, not too long.
func tidyName(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, text)
	runes := []rune(strings.Join(strings.Fields(text), " "))
	if len(runes) > mostNameRunes {
		runes = runes[:mostNameRunes]
	}
	return strings.TrimSpace(string(runes))
}

// besidePairs is what of the compared ponds the address carries, in order.
func (s State) besidePairs() []Pair {
	var out []Pair
	all := s.Options()
	if len(all) > 1 || s.Name != "" {
		for _, o := range all {
			out = append(out, Pair{calledName, o.Name})
		}
	}
	for _, o := range s.Others {
		out = append(out, Pair{optionName, o.Form.Values().Encode()})
	}
	if s.At > 0 {
		out = append(out, Pair{atName, strconv.Itoa(s.At)})
	}
	if s.Months != s.At {
		out = append(out, Pair{monthsName, strconv.Itoa(s.Months)})
	}
	if s.Steps {
		out = append(out, Pair{stepsName, "1"})
	}
	return out
}

// The acts of the comparison; the arg of ActCompare is a verb, a place and,
// for a new pond, its name: "longer 0 Longer swim", "drop 1".
const (
	ActCompare = "compare"
	ActCalled  = "called" // a pond was given a name: place, text
)

// compared handles the acts of the comparison.
func (s State) compared(a Action) (State, bool) {
	all := s.Options()
	if a.Name == ActEach {
		return s.answeredForAll(form.Field(a.Arg), a.Value), true
	}
	if a.Name == ActCalled {
		i, err := strconv.Atoi(a.Arg)
		if err != nil || i < 0 || i >= len(all) {
			return s, true
		}
		// The blank at the end is kept while a name is being typed.
		all[i].Name = strings.TrimLeft(tidyName(a.Value+"."), " ")
		all[i].Name = strings.TrimSuffix(all[i].Name, ".")
		return s.withOptions(all, s.At), true
	}
	if a.Name != ActCompare {
		return s, false
	}
	verb, rest, _ := strings.Cut(a.Arg, " ")
	where, name, _ := strings.Cut(rest, " ")
	i, err := strconv.Atoi(where)
	if err != nil || i < 0 || i >= len(all) {
		return s, true
	}
	return s.arranged(verb, i, name), true
}

// arranged does one of the verbs to the pond at a place.
func (s State) arranged(verb string, i int, name string) State {
	all, n := s.Options(), len(s.Others)+1
	switch verb {
	case "months":
		s.Months = i
		return s
	case "steps":
		s.Steps = !s.Steps
		return s
	case "open":
		s = s.remembered().withOptions(all, i)
		s.View, s.Fix, s.Chosen = DrawView, "tab-"+string(DrawView), 0
	case "left", "right":
		j := i + 1
		if verb == "left" {
			j = i - 1
		}
		if j < 0 || j >= n {
			return s
		}
		s = s.remembered()
		all[i], all[j] = all[j], all[i]
		s.Months = moved(s.Months, i, j)
		s = s.withOptions(all, moved(s.At, i, j))
		s.Fix = "change-" + strconv.Itoa(j)
	case "drop":
		if n == 1 {
			return s
		}
		at := s.At
		if at > i || at == n-1 {
			at = max(at-1, 0)
		}
		s = s.remembered()
		if s.Months > i {
			s.Months--
		}
		s = s.withOptions(append(all[:i:i], all[i+1:]...), at)
		s.Fix = "compare-title"
	case "copy", "longer", "smaller":
		if n == mostOptions {
			return s
		}
		s = s.remembered()
		next := Option{tidyName(name), variant(verb, all[i].Form)}
		s = s.withOptions(append(all[:n:n], next), s.At)
		s.Fix = "option-" + strconv.Itoa(n)
	}
	return s
}

// moved is where a place is after two have changed theirs.
func moved(at, i, j int) int {
	switch at {
	case i:
		return j
	case j:
		return i
	}
	return at
}

// variant is another pond to begin with: the same, a longer and narrower one,
// or a smaller one without a cascade. The shares are a start to look at, not
// advice.
func variant(verb string, f form.State) form.State {
	long, wide := 1.0, 1.0
	switch verb {
	case "longer":
		long, wide = 1.3, 0.9
	case "smaller":
		long, wide = 0.82, 0.86
		f = f.With(form.Cascade, "off")
	default:
		return f
	}
	f = scaledTo(f, form.Width, wide)
	return scaledTo(f, form.Length, long)
}

// scaledTo is a form with one size changed by a ratio, to the next whole step;
// a size that makes no pond is left as it was.
func scaledTo(f form.State, q form.Field, ratio float64) form.State {
	want := f.Value(q) * ratio
	for range 60 {
		up := 1
		if ratio < 1 {
			up = -1
		}
		next := f.Step(q, up)
		was, is := f.Value(q), next.Value(q)
		if is == was || (up > 0 && is > want+(is-was)/2) || (up < 0 && is < want-(was-is)/2) {
			return f
		}
		f = next
	}
	return f
}
