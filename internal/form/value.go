package form

import (
	"math"
	"strings"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/measure"
)

// value is an answer that could be read: a number in SI, or a word (a choice,
// a price as decimal text, a list of points).
type value struct {
	n    float64
	word string
}

// read reads a text as an answer to the question.
func (q question) read(text string, in measure.System) (value, measure.Fault) {
	switch q.kind {
	case length:
		n, fault := measure.ParseLength(text, in)
		return value{n: n}, fault
	case thin:
		n, fault := measure.ParseSmall(text, in)
		return value{n: n}, fault
	case area:
		n, fault := measure.ParseArea(text, in)
		return value{n: n}, fault
	case slope:
		n, fault := measure.ParseSlope(text)
		return value{n: n}, fault
	case month:
		n, fault := measure.ParseMonth(text)
		return value{n: float64(n)}, fault
	case electricity:
		w, fault := measure.ParseElectricity(text)
		return value{word: w}, fault
	case waterPrice:
		w, fault := measure.ParseWater(text, in)
		return value{word: w}, fault
	case points:
		_, ok := readPoints(text)
		if !ok {
			return value{}, measure.NotANumber
		}
		return value{word: strings.TrimSpace(text)}, measure.OK
	case bearing, cut:
		return q.readBearings(text)
	case hours:
		n, fault := measure.ParseHours(text)
		return value{n: n}, fault
	case energy:
		n, fault := measure.ParseEnergy(text)
		return value{n: n}, fault
	}
	return q.pick(text)
}

// pick reads a choice.
func (q question) pick(text string) (value, measure.Fault) {
	t := strings.TrimSpace(text)
	for _, c := range q.choices {
		if strings.EqualFold(c, t) {
			return value{word: c}, measure.OK
		}
	}
	return value{}, measure.UnknownUnit
}

// show writes an answer for a person.
func (q question) show(v value, t measure.Terms) string {
	switch q.kind {
	case length:
		return typable(t.Length(v.n))
	case thin:
		return typable(t.Small(v.n))
	case area:
		return typable(t.Area(v.n))
	case slope:
		return typable(measure.Slope(v.n))
	case month:
		return measure.MonthName(int(v.n))[:3]
	case electricity:
		return typable(t.Electricity(v.word))
	case waterPrice:
		return typable(t.Water(v.word))
	case hours:
		return num.Shortest(v.n) + " h"
	case energy:
		return num.Shortest(v.n) + " kWh"
	}
	return v.word
}

// typable is a shown figure with ordinary blanks, as a person would type it.
func typable(s measure.Shown) string { return strings.ReplaceAll(s.String(), "\u00a0", " ") }

// short writes an answer for the page's address: brief, with its unit, and
// reading back as exactly this value.
func (q question) short(v value, t measure.Terms) string {
	exact := q.exact(v)
	if q.kind == choice || q.kind == points || q.kind == electricity || q.kind == month || q.kind == slope || q.kind == bearing || q.kind == cut || q.kind == hours || q.kind == energy {
		return exact
	}
	brief := strings.Map(plainly, q.show(v, t))
	if q.kind == area {
		brief = strings.Replace(brief, "sqft", "ft2", 1)
	}
	if back, fault := q.read(brief, t.System); fault == measure.OK && back == v && len(brief) <= len(exact)+2 {
		return brief
	}
	return exact
}

// plainly leaves out of a shown figure what an address would have to escape.
func plainly(r rune) rune {
	switch r {
	case ' ', ',', '$':
		return -1
	case '²':
		return '2'
	case '³':
		return '3'
	}
	return r
}

// exact writes an answer in SI so that it reads back as the same value.
func (q question) exact(v value) string {
	switch q.kind {
	case length, thin:
		return num.Shortest(v.n) + "m"
	case area:
		return num.Shortest(v.n) + "m2"
	case slope, month, hours, energy:
		return num.Shortest(v.n)
	case waterPrice:
		return v.word + "/m3"
	}
	return v.word
}

// step is the answer one step up or down from v: on to the next multiple of
// the step, so that 34 ft 3 in goes up to 35 ft.
func (q question) step(v value, t measure.Terms, up int) (value, bool) {
	by := q.stepUS
	if t.System == measure.Metric {
		by = q.stepMetric
	}
	switch q.kind {
	case choice:
		return q.turn(v, up), true
	case points, cut, bearing:
		return v, false // a bearing is stepped from where the thing stands
	case electricity:
		return stepPrice(v, int64(by)*int64(up))
	case waterPrice:
		return q.stepWater(v, t, int64(by)*int64(up))
	case month:
		n := (int(v.n)-1+up+12)%12 + 1
		return value{n: float64(n)}, true
	}
	return value{n: onward(v.n, by, up)}, true
}

// turn goes to the next choice and stays at the ends.
func (q question) turn(v value, up int) value {
	for i, c := range q.choices {
		if c == v.word {
			return value{word: q.choices[min(max(i+up, 0), len(q.choices)-1)]}
		}
	}
	return v
}

// stepPrice adds hundredths to a price.
func stepPrice(v value, hundredths int64) (value, bool) {
	a, err := money.Parse(v.word)
	if err != nil {
		return v, false
	}
	a = a.Add(money.Cents(hundredths))
	return value{word: a.String()}, a.Sign() >= 0
}

// stepWater steps the price as the reader sees it, for a thousand gallons or
// for a cubic metre.
func (q question) stepWater(v value, t measure.Terms, hundredths int64) (value, bool) {
	shown, unit, _ := strings.Cut(strings.TrimLeft(q.show(v, t), "$€£CAUNZ"), " ")
	next, ok := stepPrice(value{word: strings.ReplaceAll(shown, ",", "")}, hundredths)
	if !ok {
		return v, false
	}
	back, fault := q.read(next.word+" "+unit, t.System)
	return back, fault == measure.OK
}

// onward is the next multiple of step above or below n; a value within a
// thousandth of a multiple counts as on it.
func onward(n, step float64, up int) float64 {
	at := n / step
	whole := float64(int64(at + 0.5))
	if d := at - whole; d < 1e-3 && d > -1e-3 {
		return tidy((whole + float64(up)) * step)
	}
	low := float64(int64(at))
	if up > 0 {
		return tidy((low + float64(up)) * step)
	}
	return tidy((low + 1 + float64(up)) * step)
}

// tidy takes away what a product leaves in the last bits: 35 × 0.3048.
func tidy(x float64) float64 {
	const part = 1e9 // of a metre; a length has room for it many times over
	if math.Abs(x) < 1<<53/part {
		return math.Round(x*part) / part
	}
	return x
}
