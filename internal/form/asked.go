package form

import (
	"strconv"
	"strings"

	"tarnwright/internal/core/num"
	"tarnwright/internal/measure"
)

// Leaves is a design as its file has it: the text of each value by its path,
// "outline.length_m".
type Leaves map[string]string

// Asked is the form whose answers mean a design, as near as its questions can
// come; same is false when something is left that they cannot say, or that the
// form would not take. The
// questions are asked one after the other: a size is what the design has at the
// question's path, and of a choice each answer is tried. flat is the design
// that the form means, as leaves.
func Asked(d Defaults, wanted Leaves, flat func(State) Leaves) (s State, same bool) {
	s = New(d).begunFrom(wanted)
	far := func(s State) int { return apart(flat(s), wanted) }
	best := far(s)
	take := func(tried State) {
		if n := far(tried); n < best {
			s, best = tried, n
		}
	}
	const rounds = 4 // one answer may make room for another
	for range rounds {
		before := best
		if differs(flat(s), wanted, "running.spans") {
			s.seasons(take)
		}
		for i, q := range s.asks {
			for _, v := range s.candidates(i, q, wanted) {
				take(s.changed(i, answer{in: s.System, good: v}))
			}
		}
		if best == 0 || best == before {
			break
		}
	}
	if best > 0 {
		return s, false
	}
	_, whole := Opened(d, s.Answers())
	return s, whole
}

// begunFrom gives the answers that only several together bring nearer: a free
// outline with its size, and the side that the beach lies on.
func (s State) begunFrom(wanted Leaves) State {
	if text := handlesOf(wanted); text != "" {
		if pts, ok := readPoints(text); ok {
			lo, hi := bounds(pts)
			s = s.put(Shape, value{word: "free"}).put(Handles, value{word: text})
			s = s.put(Length, value{n: hi.XM - lo.XM}).put(Width, value{n: hi.YM - lo.YM})
		}
	}
	if deg, err := strconv.ParseFloat(wanted["bowl.beach.bearing_deg"], 64); err == nil {
		s = s.put(Beach, value{word: side(deg)})
	}
	return s
}

// seasons tries every pair of months.
func (s State) seasons(take func(State)) {
	for from := 1; from <= 12; from++ {
		for to := 1; to <= 12; to++ {
			take(s.put(From, value{n: float64(from)}).put(To, value{n: float64(to)}))
		}
	}
}

// apart counts the leaves that differ.
func apart(a, b Leaves) int {
	n := 0
	for path, text := range a {
		if b[path] != text {
			n++
		}
	}
	for path := range b {
		if _, ok := a[path]; !ok {
			n++
		}
	}
	return n
}

// differs tells whether two designs are not alike below a path.
func differs(a, b Leaves, path string) bool {
	below := func(all Leaves) Leaves {
		out := Leaves{}
		for at, text := range all {
			if strings.HasPrefix(at, path) {
				out[at] = text
			}
		}
		return out
	}
	return apart(below(a), below(b)) > 0
}

// candidates are the answers of a question that a design may have come from.
func (s State) candidates(i int, q question, wanted Leaves) []value {
	var texts []string
	switch {
	case q.field == Place, q.kind == month, q.kind == points:
		return nil // a place only offers a price; the others are tried together
	case q.kind == choice:
		texts = q.choices
	case q.kind == hours:
		for h := range 25 {
			texts = append(texts, strconv.Itoa(h)+" h")
		}
	default:
		for _, p := range append(q.paths, at(q.field)) {
			if text, ok := wanted[p]; ok {
				texts = append(texts, strings.Trim(text, `"`)+suffix(q.kind))
			}
		}
	}
	var out []value
	for _, text := range texts {
		if v, fault := q.read(text, measure.Metric); fault == measure.OK && v != s.answers[i].good {
			out = append(out, v)
		}
	}
	return out
}

// at is the path of a question that decides no limits there.
func at(f Field) string {
	if f == BeachAt {
		return "bowl.beach.bearing_deg"
	}
	return ""
}

// suffix is the unit that a leaf's path says and its text does not.
func suffix(k kind) string {
	switch k {
	case length, thin:
		return "m"
	case area:
		return "m2"
	case electricity:
		return "/kWh"
	case waterPrice:
		return "/m3"
	}
	return ""
}

// handlesOf are the points of a free outline, in centimetres.
func handlesOf(wanted Leaves) string {
	var b strings.Builder
	for n := 0; ; n++ {
		at := "outline.handles[" + strconv.Itoa(n) + "]."
		x, okX := wanted[at+"x_m"]
		y, okY := wanted[at+"y_m"]
		if !okX && !okY {
			return b.String()
		}
		if n > 0 {
			b.WriteByte(';')
		}
		b.WriteString(centimetres(x) + "," + centimetres(y))
	}
}

func centimetres(lengthM string) string {
	m, err := strconv.ParseFloat(lengthM, 64)
	if err != nil {
		return "0" // a nought is left out of the file
	}
	return num.Shortest(tidy(m * 100))
}
