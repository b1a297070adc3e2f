package money

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
)

// The short way against the decimal library, digit for digit, where numbers
// fit, where they nearly do and where they do not.
func FuzzExact(f *testing.F) {
	for _, s := range [][2]int64{{1250, 3}, {-1005, 1000}, {0, 7}, {math.MaxInt64, 1}, {math.MinInt64, -1}, {math.MaxInt64, math.MaxInt64}, {1e18, 10}, {5, 1e18}, {-5, 10}, {123456, 987654321012345678}, {999999999, 1000000007}} {
		for _, places := range [][2]uint8{{2, 0}, {0, 2}, {18, 18}, {6, 3}, {17, 1}} {
			f.Add(s[0], s[1], places[0], places[1], uint8(2))
		}
		f.Add(s[0], s[1], uint8(0), uint8(18), uint8(17)) // more than one word of zeros
	}
	f.Fuzz(func(t *testing.T, m, n int64, i, j, to uint8) {
		a, b := decimal.New(m, -int32(i%25)), decimal.New(n, -int32(j%25))
		x, y, places := of(a), of(b), int32(to%24)
		same := func(what string, got exact, want decimal.Decimal) {
			t.Helper()
			if got.long().Cmp(want) != 0 || got.text() != want.String() {
				t.Errorf("%s of %s and %s: %s, want %s", what, a, b, got.text(), want)
			}
			if got.wide == nil && (got.units == math.MinInt64 || got.places < 0 || got.places > mostPlaces) {
				t.Errorf("%s of %s and %s is kept as %+v", what, a, b, got)
			}
		}
		same("sum", x.plus(y), a.Add(b))
		same("difference", x.minus(y), a.Sub(b))
		same("product", x.times(y), a.Mul(b))
		same("rounding", x.round(places), a.Round(places))
		if b.Sign() != 0 {
			same("quotient", x.over(y, places), a.DivRound(b, places))
		}
		for _, d := range []int64{1, 3, 60, 7} {
			// A bill's sixtieths to the cent at once are what they are by way of 24 decimals.
			if by, at := (Amount{x}).CentsOver(d), (Amount{x}).Over(d).ToCent(); by.Cmp(at) != 0 || by.String() != at.String() {
				t.Errorf("%s over %d to the cent is %s, want %s", a, d, by, at)
			}
		}
		if x.cmp(y) != a.Cmp(b) || x.sign() != a.Sign() {
			t.Errorf("%s and %s compare as %d, sign %d", a, b, x.cmp(y), x.sign())
		}
		if got, want := x.fixed(places), a.StringFixed(places); got != want {
			t.Errorf("%s with %d decimals is %q, want %q", a, places, got, want)
		}
		if want, _ := a.Float64(); x.near() != want {
			t.Errorf("%s is near %v, want %v", a, x.near(), want)
		}
		if cents := a.Round(2).Shift(2); cents.BigInt().IsInt64() && x.hundredths() != cents.IntPart() {
			t.Errorf("%s is %d cents, want %d", a, x.hundredths(), cents.IntPart())
		}
		if step := int64(n%5000) + 5000; step > 0 {
			s := decimal.NewFromInt(step)
			// Exactly: the library's own quotient is cut at sixteen decimals.
			q, rest := a.QuoRem(s, 0)
			if rest.Abs().Mul(decimal.NewFromInt(2)).Cmp(s) >= 0 {
				q = q.Add(decimal.NewFromInt(int64(a.Sign())))
			}
			if x.wide == nil {
				same("steps", x.toStep(step), q.Mul(s))
			}
		}
	})
}

// What is read is short where its digits are few, however many zeros there are.
func TestParse_KeepsItShort(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]exact{
		"12.50": {units: 125, places: 1}, "-0.004": {units: -4, places: 3}, "-0": {}, "000123.000000": {units: 123},
		"123456789012345678": {units: 123456789012345678}, "0.000000000000000001": {units: 1, places: 18},
	} {
		if got, err := parse(text); err != nil || got != want {
			t.Errorf("%q is kept as %+v, %v; want %+v", text, got, err, want)
		}
	}
	if got, err := parse("123456789012345678.98"); err != nil || got.wide == nil || got.text() != "123456789012345678.98" {
		t.Errorf("twenty digits are kept as %+v, %v", got, err)
	}
}
