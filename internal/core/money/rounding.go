package money

// Over returns a ÷ n to 24 decimals, and exactly where the quotient ends
// sooner. Bills kept in sixtieths of a kilowatt-hour are divided once, just
// before rounding.
func (a Amount) Over(n int64) Amount { return Amount{a.d.over(exact{units: n}, 24)} }

// CentsOver returns a ÷ n to the cent, halves away from zero, rounded once.
func (a Amount) CentsOver(n int64) Amount { return Amount{a.d.over(exact{units: n}, 2)} }

// ToCentEven rounds to the cent, halves to the even cent. Some tariffs state
// it; the rule of the house is ToCent.
func (a Amount) ToCentEven() Amount { return Amount{of(a.d.long().RoundBank(2))} }
