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
type Amount struct{ d decimal.Decimal }

// Price is an exact price of one unit of something; it may have more decimals
// than a cent.
type Price struct{ d decimal.Decimal }

// Quantity is an exact count of units, made from decimal text.
type Quantity struct{ d decimal.Decimal }

// parse takes plain decimal text only: no exponent, no sign but a leading
// minus, no grouping, at most 18 digits either side.
func parse(text string) (decimal.Decimal, error) {
	t := strings.TrimPrefix(text, "-")
	whole, part, dotted := strings.Cut(t, ".")
	if whole == "" || len(whole) > 18 || len(part) > 18 || (dotted && part == "") {
		return decimal.Decimal{}, fmt.Errorf("%q: %w", text, ErrText)
	}
	for _, r := range whole + part {
		if r < '0' || r > '9' {
			return decimal.Decimal{}, fmt.Errorf("%q: %w", text, ErrText)
		}
	}
	d, err := decimal.NewFromString(text)
	if err != nil {
		return decimal.Decimal{}, fmt.Errorf("%q: %w", text, ErrText)
	}
	return d, nil
}

// Parse reads an amount from decimal text.
func Parse(text string) (Amount, error) { d, err := parse(text); return Amount{d}, err }

// ParsePrice reads a unit price from decimal text.
func ParsePrice(text string) (Price, error) { d, err := parse(text); return Price{d}, err }

// ParseQuantity reads a quantity from decimal text.
func ParseQuantity(text string) (Quantity, error) { d, err := parse(text); return Quantity{d}, err }

// Cents returns n hundredths.
func Cents(n int64) Amount { return Amount{decimal.New(n, -2)} }

// Add returns a + b.
func (a Amount) Add(b Amount) Amount { return Amount{a.d.Add(b.d)} }

// Sub returns a − b.
func (a Amount) Sub(b Amount) Amount { return Amount{a.d.Sub(b.d)} }

// Times returns the amount q times over.
func (a Amount) Times(q Quantity) Amount { return Amount{a.d.Mul(q.d)} }

// Cmp compares: −1, 0, 1.
func (a Amount) Cmp(b Amount) int { return a.d.Cmp(b.d) }

// Sign is −1, 0 or 1.
func (a Amount) Sign() int { return a.d.Sign() }

// ToCent rounds to the cent, half away from zero. It is called once per bill
// line and nowhere else on the way.
func (a Amount) ToCent() Amount { return Amount{a.d.Round(2)} }

// ToStep rounds to a whole number of steps (1 dollar, 1000 dollars), half away
// from zero.
func (a Amount) ToStep(units int64) Amount {
	s := decimal.NewFromInt(units)
	return Amount{a.d.Div(s).Round(0).Mul(s)}
}

// Split returns n parts, each to the cent, that add up to the amount; the
// first parts carry the spare cents.
func (a Amount) Split(n int) []Amount {
	cents := a.d.Round(2).Shift(2).IntPart()
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
func (a Amount) String() string { return a.d.String() }

// Fixed is the text with so many decimals, rounded half away from zero.
func (a Amount) Fixed(decimals int32) string { return a.d.StringFixed(decimals) }

// WholeCents is the amount in hundredths, for storage.
func (a Amount) WholeCents() int64 { return a.d.Round(2).Shift(2).IntPart() }

// Approx is for drawing bars and ordering charts only; no sum is made of it.
func (a Amount) Approx() float64 { f, _ := a.d.Float64(); return f }

// Times returns the price of q units, exact.
func (p Price) Times(q Quantity) Amount { return Amount{p.d.Mul(q.d)} }

// Add returns p + r: an adder on the same unit.
func (p Price) Add(r Price) Price { return Price{p.d.Add(r.d)} }

// Scale returns the price q times over: a price rise, a regional index.
func (p Price) Scale(q Quantity) Price { return Price{p.d.Mul(q.d)} }

// Amount returns the price of one unit.
func (p Price) Amount() Amount { return Amount(p) }

// Sign is −1, 0 or 1.
func (p Price) Sign() int { return p.d.Sign() }

// String is the plain decimal text.
func (p Price) String() string { return p.d.String() }

// Add returns q + r.
func (q Quantity) Add(r Quantity) Quantity { return Quantity{q.d.Add(r.d)} }

// Sub returns q − r.
func (q Quantity) Sub(r Quantity) Quantity { return Quantity{q.d.Sub(r.d)} }

// Mul returns q × r.
func (q Quantity) Mul(r Quantity) Quantity { return Quantity{q.d.Mul(r.d)} }

// Cmp compares: −1, 0, 1.
func (q Quantity) Cmp(r Quantity) int { return q.d.Cmp(r.d) }

// Sign is −1, 0 or 1.
func (q Quantity) Sign() int { return q.d.Sign() }

// String is the plain decimal text.
func (q Quantity) String() string { return q.d.String() }

// Ratio returns how many times b goes into a, to n decimals; ok is false when
// b is nothing. It gives a number, never money.
func Ratio(a, b Amount, n int32) (q Quantity, ok bool) {
	if b.d.IsZero() {
		return Quantity{}, false
	}
	return Quantity{a.d.DivRound(b.d, n)}, true
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
