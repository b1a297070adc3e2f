package sheet

// Clause is one condition on a figure, in the figure's own unit. Every bound
// that is set must hold. A figure that is not on the sheet meets no clause, and
// neither does one of money.
type Clause struct {
	Figure  ID       `json:"figure"`
	AtLeast *float64 `json:"at_least,omitempty"`
	Above   *float64 `json:"above,omitempty"`
	AtMost  *float64 `json:"at_most,omitempty"`
	Below   *float64 `json:"below,omitempty"`
	Equals  *float64 `json:"equals,omitempty"`
}

// Bounded says whether the clause sets any bound at all.
func (c Clause) Bounded() bool {
	return c.AtLeast != nil || c.Above != nil || c.AtMost != nil || c.Below != nil || c.Equals != nil
}

// Holds says whether the sheet meets the clause.
func (c Clause) Holds(s *Sheet) bool {
	f, ok := s.Find(c.Figure)
	if !ok || f.Unit == Money || f.Unit == MoneyPerKWh || f.Unit == MoneyPerM3 {
		return false
	}
	return c.Bounded() &&
		(c.AtLeast == nil || f.Value >= *c.AtLeast) &&
		(c.Above == nil || f.Value > *c.Above) &&
		(c.AtMost == nil || f.Value <= *c.AtMost) &&
		(c.Below == nil || f.Value < *c.Below) &&
		(c.Equals == nil || f.Value == *c.Equals)
}

// AllHold says whether the sheet meets every clause; none at all is met.
func AllHold(clauses []Clause, s *Sheet) bool {
	for _, c := range clauses {
		if !c.Holds(s) {
			return false
		}
	}
	return true
}
