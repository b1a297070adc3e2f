package view_test

import (
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

func demoView(t *testing.T) (view.View, *sheet.Sheet) {
	t.Helper()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s := core.Compute(d, book.Demo())
	return view.Of(s, say.English(), measure.Terms{System: measure.US, Currency: "USD"}), s
}

// What is behind the budget is the sheet's own tables, worded: nothing is left
// out, the largest stands first, and no code shows through.
func TestMoves_SayWhatTheSheetSays(t *testing.T) {
	t.Parallel()
	v, s := demoView(t)
	m := v.Moves()
	for _, c := range []struct {
		why   string
		table view.Table
		want  int
	}{
		{"items", m.Shares, len(s.Table("budget.items").Rows)},
		{"drivers", m.Drivers, 5},
		{"savings", m.Savings, len(s.Table("budget.savings").Rows)},
		{"works", m.Works.Table, len(s.Table("budget.works").Rows)},
	} {
		if len(c.table.Rows) != c.want || c.want == 0 {
			t.Errorf("%s: %d rows, want %d", c.why, len(c.table.Rows), c.want)
		}
		for _, r := range c.table.Rows {
			if len(r) != len(c.table.Heads) || strings.ContainsAny(r[0], "_") || strings.Contains(r[0], "item.") || strings.Contains(r[0], "driver.") {
				t.Errorf("%s: row %q under %q", c.why, r, c.table.Heads)
			}
		}
	}
	most, name := 0.0, ""
	for _, r := range s.Table("budget.items").Rows {
		if r.Cells[3].Value > most {
			if most, name = r.Cells[3].Value, r.Plain; name == "" {
				name = say.English().Say(r.Name)
			}
		}
	}
	if m.Shares.Rows[0][0] != name || m.Shares.Rows[0][2] != measure.Percent(most).String() {
		t.Errorf("first of the items is %q, want %s at %s", m.Shares.Rows[0], name, measure.Percent(most))
	}
	for _, head := range append(m.Shares.Heads, m.Works.Table.Heads...) {
		if strings.Contains(head, ".") {
			t.Errorf("a head without words: %q", head)
		}
	}
}

// The bars are the table: start, work, weather and inspection of each phase
// follow on to the last working day.
func TestMoves_TheWorksFollowEachOther(t *testing.T) {
	t.Parallel()
	v, _ := demoView(t)
	w := v.Moves().Works
	next := 0.0
	for _, p := range w.Phases {
		if p.Start != next {
			t.Errorf("%s starts after %g days, want %g", p.Name, p.Start, next)
		}
		next += p.Work + p.Weather + p.Inspection
	}
	if w.Ends != next || !strings.Contains(w.Says, "days") {
		t.Errorf("the works end at %g, want %g; said %q", w.Ends, next, w.Says)
	}
}

// Marks read what the sheet reads, in the reader's units.
func TestDepthMarks_ReadTheSheet(t *testing.T) {
	t.Parallel()
	v, s := demoView(t)
	marks, table := v.DepthMarks()
	rows := s.Table("safety.depth_marks").Rows
	if len(marks) == 0 || len(marks) != len(rows) || len(table.Rows) != len(rows) {
		t.Fatalf("%d marks, %d rows, want %d of each", len(marks), len(table.Rows), len(rows))
	}
	terms := measure.Terms{System: measure.US, Currency: "USD"}
	for i, m := range marks {
		if want := terms.Depth(rows[i].Cells[2].Value).String(); m.Text != want || table.Rows[i][1] != want || m.At.X != rows[i].Cells[0].Value {
			t.Errorf("mark %d at %v reads %q, table %q, want %s", i, m.At, m.Text, table.Rows[i], want)
		}
	}
}

// The printed page explains what there is and names every caution that has no
// place on the plan.
func TestPaper_NamesEveryCaution(t *testing.T) {
	t.Parallel()
	v, _ := demoView(t)
	p := v.Paper("$0.16 / kWh")
	if len(p.How) != 6 || len(p.Readings) != 6 || !strings.Contains(p.Marks, "1–2: 2\u00a0ft\u00a05\u00a0in · 3: 5\u00a0in · 4: 2\u00a0ft\u00a05\u00a0in") || !strings.Contains(p.Moves, "days") || !strings.Contains(p.Version, "demo/1") {
		t.Errorf("paper %+v", p)
	}
	for _, e := range p.How {
		if e.Text == "" || strings.ContainsAny(e.Text, "{}") {
			t.Errorf("%s is explained as %q", e.Name, e.Text)
		}
	}
	care := 0
	for _, n := range v.Notes() {
		if !n.Care || n.Pinned() {
			continue
		}
		if care++; !strings.Contains(p.Also, n.Title) {
			t.Errorf("the printed page lacks %q", n.Title)
		}
	}
	if care < 10 {
		t.Errorf("only %d cautions without a place", care)
	}
}
