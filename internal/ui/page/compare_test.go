package page_test

import (
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

// three is a comparison of three ponds, the second in hand.
const three = "view=compare&at=1&called=As+drawn&called=Longer&called=Still&length=44+ft&opt=&opt=cascade%3Doff%26units%3Dmetric"

// valued is the sample with a ten-year cost of its own.
func valued(perM2 string) page.Answered {
	s := sample()
	s.Add(sheet.Figure{ID: "value.per_m2", Amount: cash(perM2), Unit: sheet.Money})
	s.Add(sheet.Figure{ID: "power.ten_year_single", Amount: cash("6120"), Unit: sheet.Money})
	s.Add(sheet.Figure{ID: "power.ten_year_variable", Amount: cash("3830"), Unit: sheet.Money})
	return page.Answered{Sheet: s}
}

func beside(s page.State, perM2 ...string) page.Model {
	a := page.Answered{Sheet: sample()}
	for _, x := range perM2 {
		a.Beside = append(a.Beside, valued(x))
	}
	return page.Build(s, a, kit())
}

func compare(s page.State, arg string) page.State {
	return page.Update(s, page.Action{Name: page.ActCompare, Arg: arg})
}

// names lists the options in order, the one in hand in brackets.
func names(s page.State) string {
	var out []string
	for i, o := range s.Options() {
		name := o.Name
		if i == s.At {
			name = "[" + name + "]"
		}
		long, _ := o.Form.Understood(form.Length)
		out = append(out, name+" "+long)
	}
	return strings.Join(out, ", ")
}

func TestOptions_ComeBackFromTheAddress(t *testing.T) {
	t.Parallel()
	for _, q := range []string{"", "view=compare", three, three + "&months=2&steps=1", "called=Only+one", "opt=length%3D12cats%26kept%3Dlength%253A11m"} {
		s := start(q)
		address := s.Address()
		again := start(strings.TrimPrefix(strings.TrimPrefix(address, "/"), "?"))
		if got := again.Address(); got != address {
			t.Errorf("%q gives %q, and that gives %q", q, address, got)
		}
		if names(again) != names(s) {
			t.Errorf("%q holds %s, and its address %s", q, names(s), names(again))
		}
	}
	if got, want := names(start(three)), "As drawn 34 ft, [Longer] 44 ft, Still 34 ft"; got != want {
		t.Errorf("the options are %s, want %s", got, want)
	}
}

// What a stranger puts in an address is bounded: three ponds, short names.
func TestOptions_AreBounded(t *testing.T) {
	t.Parallel()
	long := url.Values{"opt": {"length=40ft", "length=41ft", "length=42ft", strings.Repeat("x", 5000)}, "called": {strings.Repeat("é", 900), "a\x01b\n c"}, "at": {"77"}, "months": {"-3"}}
	s := start(long.Encode())
	if n := len(s.Options()); n != 3 || s.At != 0 || s.Months != 0 {
		t.Errorf("%d options, the one at %d in hand, the months of %d; want 3, 0, 0", n, s.At, s.Months)
	}
	if got := []rune(s.Options()[0].Name); len(got) != 40 {
		t.Errorf("a name of %d letters, want 40", len(got))
	}
	if got := s.Options()[1].Name; got != "a b c" {
		t.Errorf("the name is %q, want %q", got, "a b c")
	}
	if heavy := start("opt=" + strings.Repeat("x", 1501)); len(heavy.Options()) != 1 {
		t.Error("an option of more than 1.5 kB was taken")
	}
}

func TestUpdate_OptionsAreAddedMovedAndTakenAway(t *testing.T) {
	t.Parallel()
	s := start("view=compare")
	for _, step := range []struct{ why, arg, want string }{
		{"a longer one", "longer 0 Longer swim", "[] 34 ft, Longer swim 44 ft"},
		{"a smaller one", "smaller 0 Small and still", "[] 34 ft, Longer swim 44 ft, Small and still 28 ft"},
		{"no fourth", "copy 0 X", "[] 34 ft, Longer swim 44 ft, Small and still 28 ft"},
		{"the second before the first", "left 1", "Longer swim 44 ft, [] 34 ft, Small and still 28 ft"},
		{"nowhere further", "left 0", "Longer swim 44 ft, [] 34 ft, Small and still 28 ft"},
		{"the first goes", "drop 0", "[] 34 ft, Small and still 28 ft"},
		{"the other in hand", "open 1", " 34 ft, [Small and still] 28 ft"},
		{"a copy", "copy 1 Copy", " 34 ft, [Small and still] 28 ft, Copy 28 ft"},
		{"the one in hand goes", "drop 1", " 34 ft, [Copy] 28 ft"},
		{"no such place", "drop 7", " 34 ft, [Copy] 28 ft"},
		{"nonsense", "fly 0", " 34 ft, [Copy] 28 ft"},
	} {
		if s = compare(s, step.arg); names(s) != step.want {
			t.Errorf("%s: %s, want %s", step.why, names(s), step.want)
		}
	}
	for s.CanUndo() {
		s = page.Update(s, page.Action{Name: page.ActUndo})
	}
	if got := names(s); got != "[] 34 ft" {
		t.Errorf("with everything taken back: %s", got)
	}
}

// The months stay those of the pond that was chosen, wherever it moves.
func TestUpdate_TheMonthsStayWithTheirPond(t *testing.T) {
	t.Parallel()
	s := compare(start(three), "months 2")
	for _, step := range []struct {
		arg  string
		want int
	}{{"left 2", 1}, {"left 1", 0}, {"right 1", 0}, {"right 0", 1}, {"drop 0", 0}} {
		if s = compare(s, step.arg); s.Months != step.want {
			t.Errorf("after %s the months are those at %d, want %d", step.arg, s.Months, step.want)
		}
	}
}

// Whoever opens an option draws that one and leaves the others alone.
func TestUpdate_DrawingChangesTheOptionInHandOnly(t *testing.T) {
	t.Parallel()
	s := compare(start(three), "open 2")
	if s.View != page.DrawView || s.Form.On(form.Cascade) {
		t.Fatalf("open shows %s with a cascade %v", s.View, s.Form.On(form.Cascade))
	}
	s = page.Update(s, page.Action{Name: page.ActField, Arg: "length", Value: "20 ft"})
	if got, want := names(s), "As drawn 34 ft, Longer 44 ft, [Still] 20 ft"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	s = page.Update(s, page.Action{Name: page.ActCalled, Arg: "0", Value: "  First "})
	if got := s.Options()[0].Name; got != "First " {
		t.Errorf("named %q while typing, want %q", got, "First ")
	}
	s = page.Update(s, page.Action{Name: page.ActField, Arg: "units", Value: "metric"})
	for i, o := range s.Options() {
		if text := o.Form.Text(form.Length); !strings.HasSuffix(text, " m") {
			t.Errorf("option %d is %s long on a metric page", i, text)
		}
	}
}

// 1,781.06, 1,880.53 and 1,863.55 a square metre are 165, 175 and 173 a square
// foot, by hand; the lowest is the best value, wherever it stands.
func TestCompare_TheLowestTenYearCostIsTheBestValue(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why   string
		perM2 []string
		best  string
		dots  []string
	}{
		{"the first", []string{"1781.06", "1880.53", "1863.55"}, "A", []string{"$165", "$175", "$173"}},
		{"the last", []string{"1880.53", "1863.55", "1781.06"}, "C", []string{"$175", "$173", "$165"}},
	} {
		m := beside(start(three), c.perM2...)
		for i, p := range m.Compare.Ponds {
			if p.Best != (p.Letter == c.best) {
				t.Errorf("%s: %s is best: %v", c.why, p.Letter, p.Best)
			}
			if got := p.Rows[len(p.Rows)-1].Figures[0].Value; got != c.dots[i] {
				t.Errorf("%s: %s costs %s a square foot, want %s", c.why, p.Letter, got, c.dots[i])
			}
		}
		if want := c.best + ", with a variable-speed pump"; m.Compare.Best.Headline != want {
			t.Errorf("%s: %q, want %q", c.why, m.Compare.Best.Headline, want)
		}
	}
	if alone := beside(start("view=compare"), "1781.06"); alone.Compare.Best.Headline != "" || alone.Compare.Ponds[0].Best {
		t.Error("one pond alone is called the best of several")
	}
}

// The columns and the table behind them must say the same, and a bar is as
// long as its share of the longest.
func TestCompare_TheTableSaysWhatTheMarksSay(t *testing.T) {
	t.Parallel()
	m := beside(start(three), "1781.06", "1880.53", "1863.55")
	plain := func(s string) string { return strings.NewReplacer("\u00a0", " ", ",", "").Replace(s) }
	for i, p := range m.Compare.Ponds {
		if len(p.Rows) != len(m.Compare.Table.Rows) || len(p.Rows) != len(m.Compare.Labels) {
			t.Fatalf("%d rows of marks, %d names, %d rows of the table", len(p.Rows), len(m.Compare.Labels), len(m.Compare.Table.Rows))
		}
		for n, r := range p.Rows {
			cells := m.Compare.Table.Rows[n]
			if cells[0].Text != m.Compare.Labels[n] {
				t.Errorf("row %d is %q in the table and %q beside the marks", n, cells[0].Text, m.Compare.Labels[n])
			}
			for _, f := range r.Figures {
				if f.Value != "" && !strings.Contains(plain(cells[i+1].Text), plain(f.Value)) {
					t.Errorf("%s, %s: the mark says %q and the table %q", p.Letter, m.Compare.Labels[n], f.Value, cells[i+1].Text)
				}
			}
		}
		if got := get(p.Rows[4].Bar, "width"); got != "112.0" {
			t.Errorf("the dearest bar is %s px long, want 112.0 px", got)
		}
		if got := get(p.Rows[5].Bar, "width"); got != "49.0" { // 112 × 268 ÷ 612
			t.Errorf("a bar of $268 beside $612 is %s px long, want 49.0 px", got)
		}
	}
}

func TestCompare_SaysInWordsWhatDiffers(t *testing.T) {
	t.Parallel()
	m := beside(start(three), "1781.06", "1880.53", "1863.55")
	for i, want := range []string{"", "Unlike A: length 44 ft.", "Unlike A: no cascade."} {
		if got := m.Compare.Ponds[i].Unlike; got != want {
			t.Errorf("option %d: %q, want %q", i, got, want)
		}
	}
	if !strings.Contains(m.Compare.Lede, "Same power") {
		t.Errorf("one price, and %q", m.Compare.Lede)
	}
	dear := beside(start(three+"&power=0.30"), "1781.06", "1880.53", "1863.55")
	if strings.Contains(dear.Compare.Lede, "Same power") || !strings.Contains(dear.Compare.Ponds[1].Unlike, "electricity") {
		t.Errorf("two prices, and %q, %q", dear.Compare.Lede, dear.Compare.Ponds[1].Unlike)
	}
}

// Without script each button is a link to the page after it.
func TestCompare_LinksDoWithoutScriptWhatButtonsDo(t *testing.T) {
	t.Parallel()
	s := start(three)
	links := 0
	walk(page.Tree(s, beside(s, "1781.06", "1880.53", "1863.55")), func(n markup.Node) {
		if n.Tag != "a" || get(n, "data-act") != page.ActCompare {
			return
		}
		links++
		after := compare(s, get(n, "data-arg"))
		if got := start(strings.TrimPrefix(get(n, "href"), "/?")); names(got) != names(after) || got.View != after.View || got.Months != after.Months {
			t.Errorf("%s: the link holds %s, the act %s", get(n, "data-arg"), names(got), names(after))
		}
	})
	if links < 11 {
		t.Errorf("only %d links", links)
	}
}

// Whatever differs is worded; no key shows through.
func TestCompare_EveryDifferenceHasWords(t *testing.T) {
	t.Parallel()
	plain := start("").Form
	for _, c := range []struct{ field, text string }{
		{"shape", "oval"}, {"length", "30 ft"}, {"width", "18 ft"}, {"deep", "5 ft"}, {"beach", "e"}, {"beach_slope", "6"}, {"shelf", "off"}, {"zone", "off"},
		{"zone_area", "100 sq ft"}, {"cascade", "off"}, {"lip", "6 ft"}, {"rise", "2 ft"}, {"deck", "off"}, {"power", "0.2"}, {"water", "7"}, {"from", "4"}, {"to", "10"},
		{"pump", "variable"}, {"pumps", "2"}, {"pipe", "4"}, {"discharge", "4"}, {"fence", "on"}, {"patio", "on"}, {"fire_pit", "on"}, {"deck_at", "120"},
	} {
		v := plain.SetField(c.field, c.text).Values().Encode()
		if v == "" || v == "fire_pit=on" {
			continue
		}
		m := beside(start("view=compare&opt="+escape(v)), "1781.06", "1880.53")
		if got := m.Compare.Ponds[1].Unlike; !strings.HasPrefix(got, "Unlike A: ") || strings.Contains(got, "ask.") || strings.Contains(got, "{") || strings.Contains(got, "beach beach") {
			t.Errorf("%s: %q", v, got)
		}
	}
}

func TestTree_DrawSaysWhichOptionIsDrawn(t *testing.T) {
	t.Parallel()
	s := start(strings.Replace(three, "view=compare", "view=draw", 1))
	if html := markup.HTML(page.Tree(s, built(s))); !strings.Contains(html, "Option B, Longer.") {
		t.Error("nothing says which of three ponds is drawn")
	}
	alone := start("")
	if html := markup.HTML(page.Tree(alone, built(alone))); strings.Contains(html, "Option A") {
		t.Error("a pond alone is called an option")
	}
}
