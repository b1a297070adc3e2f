package money

import (
	"math"
	"math/bits"
	"strconv"

	"github.com/shopspring/decimal"
)

// exact is a decimal number: units × 10^-places where both fit, as nearly all
// money does, and the decimal library's number where they do not. The digits
// are the same either way. The short way leaves nothing behind that has to be
// cleared up, and a page works out some thousand of these at every move.
type exact struct {
	units  int64 // never the least of all, so that it has an opposite
	places int32 // 0 to mostPlaces
	wide   *decimal.Decimal
}

// mostPlaces is the highest power of ten that fits.
const mostPlaces = 18

// of takes a number of the library over.
func of(d decimal.Decimal) exact {
	if e := d.Exponent(); e <= 0 && e >= -mostPlaces {
		if c := d.Coefficient(); c.IsInt64() && c.Int64() != math.MinInt64 {
			return exact{units: c.Int64(), places: -e}
		}
	}
	return exact{wide: &d}
}

// proper is x, or the library's number where x has no opposite.
func (x exact) proper() exact {
	if x.units == math.MinInt64 {
		return of(decimal.New(x.units, -x.places))
	}
	return x
}

// long is the number as the library's.
func (x exact) long() decimal.Decimal {
	if x.wide != nil {
		return *x.wide
	}
	return decimal.New(x.units, -x.places)
}

// tenTo is 10^k for k from 0 to mostPlaces.
func tenTo(k int32) uint64 {
	p := uint64(1)
	for range k {
		p *= 10
	}
	return p
}

// size is n without its sign.
func size(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

// signed gives a size its sign, where that fits.
func signed(n uint64, negative bool) (int64, bool) {
	if n > math.MaxInt64 {
		return 0, false
	}
	if negative {
		return -int64(n), true
	}
	return int64(n), true
}

// grown is n × 10^k, where that fits.
func grown(n int64, k int32) (int64, bool) {
	if k == 0 {
		return n, true
	}
	hi, lo := bits.Mul64(size(n), tenTo(k))
	if hi != 0 {
		return 0, false
	}
	return signed(lo, n < 0)
}

// aligned are two numbers in the same places, where they fit.
func aligned(x, y exact) (u, v int64, places int32, ok bool) {
	if x.wide != nil || y.wide != nil {
		return 0, 0, 0, false
	}
	u, v, places = x.units, y.units, max(x.places, y.places)
	if u, ok = grown(u, places-x.places); !ok {
		return 0, 0, 0, false
	}
	v, ok = grown(v, places-y.places)
	return u, v, places, ok
}

func (x exact) plus(y exact) exact {
	if u, v, places, ok := aligned(x, y); ok {
		if sum := u + v; (sum > u) == (v > 0) && sum != math.MinInt64 {
			return exact{units: sum, places: places}
		}
	}
	return of(x.long().Add(y.long()))
}

func (x exact) minus(y exact) exact {
	if y.wide == nil {
		return x.plus(exact{units: -y.units, places: y.places})
	}
	return of(x.long().Sub(*y.wide))
}

func (x exact) times(y exact) exact {
	if x.wide == nil && y.wide == nil && x.places+y.places <= mostPlaces {
		if hi, lo := bits.Mul64(size(x.units), size(y.units)); hi == 0 {
			if n, ok := signed(lo, (x.units < 0) != (y.units < 0)); ok {
				return exact{units: n, places: x.places + y.places}
			}
		}
	}
	return of(x.long().Mul(y.long()))
}

// over is x ÷ y to some places, halves away from zero.
func (x exact) over(y exact, places int32) exact {
	if x.wide == nil && y.wide == nil && y.units != 0 && places <= mostPlaces {
		var over uint64
		d, k := size(y.units), places+y.places-x.places
		hi, n, fits := scaled(size(x.units), max(k, 0))
		if k < 0 {
			over, d, fits = scaled(d, -k)
			fits = fits && over == 0
		}
		if fits && hi < d {
			q, rest := bits.Div64(hi, n, d)
			if rest >= d-rest {
				q++
			}
			if n, ok := signed(q, (x.units < 0) != (y.units < 0)); ok {
				return exact{units: n, places: places}
			}
		}
	}
	return of(x.long().DivRound(y.long(), places))
}

// scaled is n × 10^k in two words, the high one first, where it fits; k is from
// 0 to twice mostPlaces.
func scaled(n uint64, k int32) (hi, lo uint64, fits bool) {
	first := min(k, mostPlaces)
	hi, lo = bits.Mul64(n, tenTo(first))
	if k == first {
		return hi, lo, true
	}
	by := tenTo(k - first)
	over, high := bits.Mul64(hi, by)
	carry, low := bits.Mul64(lo, by)
	high, more := bits.Add64(high, carry, 0)
	return high, low, over == 0 && more == 0
}

// round is x to so many places, halves away from zero.
func (x exact) round(places int32) exact {
	if x.wide != nil {
		return of(x.wide.Round(places))
	}
	if x.places <= places {
		return x
	}
	return exact{units: nearest(x.units, int64(tenTo(x.places-places))), places: places}
}

// nearest is n ÷ d, a half away from zero; d is above nothing.
func nearest(n, d int64) int64 {
	q, rest := n/d, n%d
	switch {
	case rest > 0 && rest >= d-rest:
		q++
	case rest < 0 && -rest >= d+rest:
		q--
	}
	return q
}

// toStep is x to a whole number of steps, halves away from zero.
func (x exact) toStep(step int64) exact {
	if x.wide == nil && step > 0 {
		if d, ok := grown(step, x.places); ok {
			if n, ok := (exact{units: nearest(x.units, d)}).times(exact{units: step}).whole(); ok {
				return exact{units: n}
			}
		}
	}
	s := decimal.NewFromInt(step)
	return of(x.long().Div(s).Round(0).Mul(s))
}

// whole is x where it is a short whole number.
func (x exact) whole() (int64, bool) { return x.units, x.wide == nil && x.places == 0 }

// hundredths is x to the cent, counted in cents.
func (x exact) hundredths() int64 {
	if c := x.round(2); c.wide == nil {
		if n, ok := grown(c.units, 2-c.places); ok {
			return n
		}
	}
	return x.long().Round(2).Shift(2).IntPart()
}

func (x exact) cmp(y exact) int {
	if u, v, _, ok := aligned(x, y); ok {
		switch {
		case u < v:
			return -1
		case u > v:
			return 1
		}
		return 0
	}
	return x.long().Cmp(y.long())
}

func (x exact) sign() int {
	switch {
	case x.wide != nil:
		return x.wide.Sign()
	case x.units < 0:
		return -1
	case x.units > 0:
		return 1
	}
	return 0
}

// near is x as a binary number, the nearest there is.
func (x exact) near() float64 {
	const exactly = 1 << 53 // up to here every whole number is one
	if x.wide == nil && size(x.units) <= exactly {
		return float64(x.units) / float64(tenTo(x.places))
	}
	f, _ := x.long().Float64()
	return f
}

// text is x without zeros at its end.
func (x exact) text() string {
	if x.wide != nil {
		return x.wide.String()
	}
	for x.places > 0 && x.units%10 == 0 {
		x.units, x.places = x.units/10, x.places-1
	}
	return x.written(x.places)
}

// fixed is x with so many decimals, halves away from zero.
func (x exact) fixed(places int32) string {
	c := x.round(places)
	if c.wide != nil || places < 0 {
		return x.long().StringFixed(places)
	}
	return c.written(places)
}

// written is a short number with so many decimals, not fewer than it has.
func (x exact) written(places int32) string {
	digits := strconv.AppendUint(make([]byte, 0, 20), size(x.units), 10)
	out := make([]byte, 0, 24)
	if x.units < 0 {
		out = append(out, '-')
	}
	dot := len(digits) - int(x.places)
	if dot > 0 {
		out = append(out, digits[:dot]...)
	} else {
		out = append(out, '0')
	}
	if places > 0 {
		out = append(out, '.')
		for ; dot < 0; dot++ {
			out = append(out, '0')
		}
		out = append(out, digits[dot:]...)
		for range places - x.places {
			out = append(out, '0')
		}
	}
	return string(out)
}
