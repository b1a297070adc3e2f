package theme

import "fmt"

// Least contrasts. Source: WCAG 2.2, success criteria 1.4.3 (text) and 1.4.11
// (edges and marks that have to be seen).
const (
	leastTextRatio = 4.5
	leastMarkRatio = 3.0
)

// pair is two colours that meet on the page. A name with a # in front is a
// colour that no theme changes.
type pair struct {
	over, under string
	leastRatio  float64
}

// depths are the tones of depth, from shallow to deep, as the style sheets
// have them.
func depths() []string {
	return []string{"#DFF1EF", "#BEE2DF", "#9BD0CE", "#74B7B9", "#317980", "#185B64", "#093E47"}
}

// pairs lists what stands on what.
func pairs() []pair {
	all := []pair{
		{"ink", "paper", leastTextRatio}, {"ink_soft", "paper", leastTextRatio}, {"ink_faint", "paper", leastTextRatio},
		{"care", "paper", leastTextRatio}, {"fine", "paper", leastTextRatio},
		{"ink", "field", leastTextRatio}, {"ink_soft", "field", leastTextRatio}, {"care", "field", leastMarkRatio},
		{"care_ink", "care_ground", leastTextRatio},
		{"control", "paper", leastMarkRatio}, {"control", "field", leastMarkRatio},
		{"care", "care_ground", leastMarkRatio},
		// The ticks in boxes and switches are pictures of their own.
		{"#16342F", "paper", leastMarkRatio}, {"#FBF7EF", "ink", leastMarkRatio},
	}
	for i, d := range depths() {
		if i < 4 { // figures on shallow water are in ink, on deep water in paper
			all = append(all, pair{"ink", d, leastTextRatio})
		} else {
			all = append(all, pair{"paper", d, leastTextRatio})
		}
	}
	return all
}

// unreadable names every pair of a whole set of colours that is too close.
func (c Colours) unreadable() []Fault {
	var faults []Fault
	of := func(name string) string {
		for _, one := range c.list() {
			if one.name == name {
				return *one.at
			}
		}
		return name
	}
	for _, p := range pairs() {
		a, okA := hex(of(p.over))
		b, okB := hex(of(p.under))
		if got := contrast(a, b); !okA || !okB || got < p.leastRatio {
			faults = append(faults, Fault{"colours." + p.named(), "contrast", fmt.Sprintf(
				"%s (%s) on %s (%s) has a contrast of %.2f to 1 and needs %.1f: make one darker or the other lighter",
				p.over, of(p.over), p.under, of(p.under), floor2(got), p.leastRatio)})
		}
	}
	return faults
}

// named is the colour of a pair that a theme may change.
func (p pair) named() string {
	if p.over[0] == '#' {
		return p.under
	}
	return p.over
}

// floor2 keeps two decimals without rounding up, so that a contrast just under
// its least does not read as enough.
func floor2(ratio float64) float64 { return float64(int(ratio*100)) / 100 }
