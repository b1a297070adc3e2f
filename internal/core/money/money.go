// Package money holds exact amounts, unit prices and three-point ranges. It is
// the only importer of the decimal library, and there is no way in from a
// float: quantities enter as decimal text. One book has one currency, stated
// once in the book.
package money

import (
	"errors"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// ErrText says that a text is not a plain decimal amount.
var ErrText = errors.New("not a plain decimal number, such as 12.50")

// Amount is an exact sum of money. The zero value is nothing.
type Amount struct{ d exact }

// Price is an exact price of one unit of something; it may have more decimals
// than a cent.
type Price struct{ d exact }

// Quantity is an exact count of units, made from decimal text.
type Quantity struct{ d exact }

// parse takes plain decimal text only: no exponent, no sign but a leading
// minus, no grouping, at most 18 digits either side.
func parse(text string) (exact, error) {
	t := strings.TrimPrefix(text, "-")
	whole, part, dotted := strings.Cut(t, ".")
	if whole == "" || len(whole) > 18 || len(part) > 18 || (dotted && part == "") {
		return exact{}, fmt.Errorf("%q: %w", text, ErrText)
	}
	for _, r := range whole + part {
		if r < '0' || r > '9' {
			return exact{}, fmt.Errorf("%q: %w", text, ErrText)
		}
	}
	part = strings.TrimRight(part, "0")
	if digits := strings.TrimLeft(whole+part, "0"); len(digits) <= mostPlaces {
		var n int64
		for _, r := range digits {
			n = 10*n + int64(r-'0')
		}
		if t != text {
			n = -n
		}
		return exact{units: n, places: int32(len(part))}, nil
	}
	d, err := decimal.NewFromString(text)
	if err != nil {
		return exact{}, fmt.Errorf("%q: %w", text, ErrText)
	}
	return of(d), nil
}

// Parse reads an amount from decimal text.
func Parse(text string) (Amount, error) { d, err := parse(text); return Amount{d}, err }

// ParsePrice reads a unit price from decimal text.
func ParsePrice(text string) (Price, error) { d, err := parse(text); return Price{d}, err }

// ParseQuantity reads a quantity from decimal text.
func ParseQuantity(text string) (Quantity, error) { d, err := parse(text); return Quantity{d}, err }

// Cents returns n hundredths.
func Cents(n int64) Amount { return Amount{exact{units: n, places: 2}.proper()} }

// Add returns a + b.
func (a Amount) Add(b Amount) Amount { return Amount{a.d.plus(b.d)} }

// Sub returns a − b.
func (a Amount) Sub(b Amount) Amount { return Amount{a.d.minus(b.d)} }

// Times returns the amount q times over.
func (a Amount) Times(q Quantity) Amount { return Amount{a.d.times(q.d)} }

// Cmp compares: −1, 0, 1.
func (a Amount) Cmp(b Amount) int { return a.d.cmp(b.d) }

// Sign is −1, 0 or 1.
func (a Amount) Sign() int { return a.d.sign() }

// ToCent rounds to the cent, half away from zero. It is called once per bill
// line and nowhere else on the way.
func (a Amount) ToCent() Amount { return Amount{a.d.round(2)} }

// ToStep rounds to a whole number of steps (1 dollar, 1000 dollars), half away
// from zero.
func (a Amount) ToStep(units int64) Amount {
	return Amount{a.d.toStep(units)}
}

// Split returns n parts, each to the cent, that add up to the amount; the
// first parts carry the spare cents.
func (a Amount) Split(n int) []Amount {
	cents := a.d.hundredths()
	parts := make([]Amount, n)
	for i := range parts {
		part := cents / int64(n-i)
		if cents%int64(n-i) > 0 {
			part++
		}
		cents -= part
		parts[i] = Cents(part)
	}
	return parts
}

// String is the plain decimal text, as exact as the amount.
func (a Amount) String() string { return a.d.text() }

// Fixed is the text with so many decimals, rounded half away from zero.
func (a Amount) Fixed(decimals int32) string { return a.d.fixed(decimals) }

// WholeCents is the amount in hundredths, for storage.
func (a Amount) WholeCents() int64 { return a.d.hundredths() }

// Approx is for drawing bars and ordering charts only; no sum is made of it.
func (a Amount) Approx() float64 { return a.d.near() }

// Times returns the price of q units, exact.
func (p Price) Times(q Quantity) Amount { return Amount{p.d.times(q.d)} }

// Add returns p + r: an adder on the same unit.
func (p Price) Add(r Price) Price { return Price{p.d.plus(r.d)} }

// Scale returns the price q times over: a price rise, a regional index.
func (p Price) Scale(q Quantity) Price { return Price{p.d.times(q.d)} }

// Amount returns the price of one unit.
func (p Price) Amount() Amount { return Amount(p) }

// Sign is −1, 0 or 1.
func (p Price) Sign() int { return p.d.sign() }

// String is the plain decimal text.
func (p Price) String() string { return p.d.text() }

// Add returns q + r.
func (q Quantity) Add(r Quantity) Quantity { return Quantity{q.d.plus(r.d)} }

// Sub returns q − r.
func (q Quantity) Sub(r Quantity) Quantity { return Quantity{q.d.minus(r.d)} }

// Mul returns q × r.
func (q Quantity) Mul(r Quantity) Quantity { return Quantity{q.d.times(r.d)} }

// Cmp compares: −1, 0, 1.
func (q Quantity) Cmp(r Quantity) int { return q.d.cmp(r.d) }

// Sign is −1, 0 or 1.
func (q Quantity) Sign() int { return q.d.sign() }

// String is the plain decimal text.
func (q Quantity) String() string { return q.d.text() }

// Ratio returns how many times b goes into a, to n decimals; ok is false when
// b is nothing. It gives a number, never money.
func Ratio(a, b Amount, n int32) (q Quantity, ok bool) {
	if b.d.sign() == 0 {
		return Quantity{}, false
	}
	return Quantity{a.d.over(b.d, n)}, true
}

// MarshalText and UnmarshalText keep files and wires on decimal text.
func (a Amount) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads decimal text.
func (a *Amount) UnmarshalText(b []byte) (err error) { *a, err = Parse(string(b)); return err }

// MarshalText writes decimal text.
func (p Price) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads decimal text.
func (p *Price) UnmarshalText(b []byte) (err error) { *p, err = ParsePrice(string(b)); return err }

// MarshalText writes decimal text.
func (q Quantity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads decimal text.
func (q *Quantity) UnmarshalText(b []byte) (err error) {
	*q, err = ParseQuantity(string(b))
	return err
}

// Range is a low, likely and high amount, in that order.
type Range struct{ Low, Likely, High Amount }

// NewRange keeps the order: it returns an error unless low ≤ likely ≤ high.
func NewRange(low, likely, high Amount) (Range, error) {
	if low.Cmp(likely) > 0 || likely.Cmp(high) > 0 {
		return Range{}, errors.New("low, likely and high must not fall")
	}
	return Range{low, likely, high}, nil
}

// Add returns the range of both together, end by end.
func (r Range) Add(s Range) Range {
	return Range{r.Low.Add(s.Low), r.Likely.Add(s.Likely), r.High.Add(s.High)}
}
