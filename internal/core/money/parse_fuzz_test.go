package money_test

import (
	"testing"

	"tarnwright/internal/core/money"
)

// What is read as money is written as the same money.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"12.50", "0", "-0", "-1.005", "1e3", "1e999999999", "00012", "+5", ".5", "5.", "", "١", "1,000", "99999999999999999999.99"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if a, err := money.Parse(text); err == nil {
			if b, err := money.Parse(a.String()); err != nil || b.String() != a.String() {
				t.Errorf("%q reads as %s, and that as %s, %v", text, a, b, err)
			}
		}
		if a, err := money.ParsePrice(text); err == nil {
			if b, err := money.ParsePrice(a.String()); err != nil || b.String() != a.String() {
				t.Errorf("%q reads as the price %s, and that as %s, %v", text, a, b, err)
			}
		}
		if _, err := money.ParseQuantity(text); err == nil && len(text) > 100 {
			t.Errorf("a quantity of %d letters was read", len(text))
		}
	})
}
