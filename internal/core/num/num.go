// Package num holds the numerics: roots, monotone interpolation, quadrature,
// decimal text and seeded sampling. It knows no pond words.
package num

import (
	"math"
	"strconv"
)

// Root returns the zero of a monotone f between lo and hi by halving the
// bracket until no float64 lies inside it, so the answer does not depend on a
// tolerance or a first guess. ok is false when f has the same sign at both
// ends; then x is the end with the smaller |f|.
func Root(f func(float64) float64, lo, hi float64) (x float64, ok bool) {
	flo, fhi := f(lo), f(hi)
	switch {
	case flo == 0:
		return lo, true
	case fhi == 0:
		return hi, true
	case (flo > 0) == (fhi > 0):
		if math.Abs(flo) < math.Abs(fhi) {
			return lo, false
		}
		return hi, false
	}
	for {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			return mid, true
		}
		fm := f(mid)
		if fm == 0 {
			return mid, true
		}
		if (fm > 0) == (flo > 0) {
			lo = mid
		} else {
			hi = mid
		}
	}
}

// Decimal writes x as plain decimal text with n decimals, for money.Quantity.
func Decimal(x float64, n int) string { return strconv.FormatFloat(x, 'f', n, 64) }

// Shortest writes x as the shortest decimal text that reads back as x.
func Shortest(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// AppendShortest writes it at the end of a text.
func AppendShortest(text []byte, x float64) []byte { return strconv.AppendFloat(text, x, 'f', -1, 64) }
