package sheet_test

import (
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

func TestClause_HoldsAtItsEnds(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "pond.max_depth", Value: 1.5, Unit: sheet.Metre})
	s.Add(sheet.Figure{ID: "budget.likely", Unit: sheet.Money, Amount: money.Cents(100)})
	at := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		why    string
		clause sheet.Clause
		want   bool
	}{
		{"at least, at the end", sheet.Clause{Figure: "pond.max_depth", AtLeast: at(1.5)}, true},
		{"at least, past it", sheet.Clause{Figure: "pond.max_depth", AtLeast: at(1.6)}, false},
		{"above, at the end", sheet.Clause{Figure: "pond.max_depth", Above: at(1.5)}, false},
		{"above, within", sheet.Clause{Figure: "pond.max_depth", Above: at(1.4)}, true},
		{"at most, at the end", sheet.Clause{Figure: "pond.max_depth", AtMost: at(1.5)}, true},
		{"at most, past it", sheet.Clause{Figure: "pond.max_depth", AtMost: at(1.4)}, false},
		{"below, at the end", sheet.Clause{Figure: "pond.max_depth", Below: at(1.5)}, false},
		{"below, within", sheet.Clause{Figure: "pond.max_depth", Below: at(1.6)}, true},
		{"equals", sheet.Clause{Figure: "pond.max_depth", Equals: at(1.5)}, true},
		{"equals another", sheet.Clause{Figure: "pond.max_depth", Equals: at(1)}, false},
		{"a span", sheet.Clause{Figure: "pond.max_depth", Above: at(1), Below: at(2)}, true},
		{"a span beside it", sheet.Clause{Figure: "pond.max_depth", Above: at(1.5), Below: at(2)}, false},
		{"no bound", sheet.Clause{Figure: "pond.max_depth"}, false},
		{"no such figure", sheet.Clause{Figure: "pond.moat", AtMost: at(9)}, false},
		{"money", sheet.Clause{Figure: "budget.likely", AtMost: at(9)}, false},
	} {
		if got := c.clause.Holds(s); got != c.want {
			t.Errorf("%s: %v, want %v", c.why, got, c.want)
		}
	}
	if !sheet.AllHold(nil, s) {
		t.Error("no clauses must hold")
	}
}
