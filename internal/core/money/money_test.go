package money_test

import (
	"math/big"
	"testing"

	"tarnwright/internal/core/money"
)

func amount(t *testing.T, s string) money.Amount {
	t.Helper()
	a, err := money.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Half away from zero, as a bill is rounded: the cases where binary floats or
// banker's rounding would differ. Expected values by hand.
func TestToCent_RoundsHalfAwayFromZero(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ in, want string }{
		{"0.125", "0.13"}, {"-0.125", "-0.13"}, {"1.005", "1.01"}, {"2.675", "2.68"},
		{"4.805", "4.81"}, {"0.124999999999999999", "0.12"}, {"0", "0"}, {"-0.004", "0"},
	} {
		if got := amount(t, c.in).ToCent().String(); got != c.want {
			t.Errorf("ToCent(%s) = %s, want %s", c.in, got, c.want)
		}
	}
}

func TestToStep_RoundsToWholeSteps(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in, want string
		step     int64
	}{{"91499.99", "91000", 1000}, {"91500", "92000", 1000}, {"-1500", "-2000", 1000}, {"7.5", "8", 1}} {
		if got := amount(t, c.in).ToStep(c.step).String(); got != c.want {
			t.Errorf("ToStep(%s, %d) = %s, want %s", c.in, c.step, got, c.want)
		}
	}
}

func TestParse_TakesPlainDecimalTextOnly(t *testing.T) {
	t.Parallel()
	for _, bad := range []string{"", "-", ".5", "5.", "1e3", "1,000", "$5", " 5", "5 ", "+5", "NaN", "Inf", "0x10", "１", "1.2.3", "9999999999999999999"} {
		if a, err := money.Parse(bad); err == nil {
			t.Errorf("Parse(%q) = %s, want an error", bad, a)
		}
	}
	for _, good := range []string{"0", "12.50", "-3", "0.2847", "000.10"} {
		if _, err := money.Parse(good); err != nil {
			t.Errorf("Parse(%q): %v", good, err)
		}
	}
}

// The product against math/big's exact rationals, another method.
func FuzzTimesIsExact(f *testing.F) {
	f.Add("0.2847", "1533.5")
	f.Add("-0.000000000000000001", "999999999999999999")
	f.Fuzz(func(t *testing.T, price, qty string) {
		p, err1 := money.ParsePrice(price)
		q, err2 := money.ParseQuantity(qty)
		if err1 != nil || err2 != nil {
			return
		}
		want, _ := new(big.Rat).SetString(price)
		other, _ := new(big.Rat).SetString(qty)
		got, ok := new(big.Rat).SetString(p.Times(q).String())
		if !ok || got.Cmp(want.Mul(want, other)) != 0 {
			t.Fatalf("%s × %s = %s", price, qty, p.Times(q))
		}
	})
}

func TestSplit_PartsAddUpAndDifferByACentAtMost(t *testing.T) {
	t.Parallel()
	for _, c := range []string{"100.00", "0.01", "99.97", "-10.00", "0"} {
		for n := 1; n <= 13; n++ {
			sum := money.Cents(0)
			for _, p := range amount(t, c).Split(n) {
				sum = sum.Add(p)
			}
			if sum.Cmp(amount(t, c)) != 0 {
				t.Errorf("%s in %d parts adds up to %s", c, n, sum)
			}
		}
	}
}

func TestNewRange_RefusesAFallingRange(t *testing.T) {
	t.Parallel()
	if _, err := money.NewRange(money.Cents(2), money.Cents(1), money.Cents(3)); err == nil {
		t.Error("low above likely passed")
	}
	r, err := money.NewRange(money.Cents(1), money.Cents(2), money.Cents(3))
	if err != nil || r.Add(r).High.String() != "0.06" {
		t.Errorf("range = %v, %v", r, err)
	}
}

func TestRatio_OfNothingIsNotANumber(t *testing.T) {
	t.Parallel()
	if _, ok := money.Ratio(money.Cents(1), money.Cents(0), 2); ok {
		t.Error("a ratio to nothing was given")
	}
	if q, ok := money.Ratio(money.Cents(100), money.Cents(300), 4); !ok || q.String() != "0.3333" {
		t.Errorf("ratio = %s", q)
	}
}
