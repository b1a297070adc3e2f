package page_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/ui/page"
	"tarnwright/internal/ui/part"
)

// drawn is a pond with its real answer, as a page shows it.
func drawn(t *testing.T, query string) (page.State, page.Answered, page.Model) {
	t.Helper()
	s := start(query)
	d, faults := s.Form.Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	sheet, plan := core.Answer(d, book.Demo(), core.Sight{LevelsM: page.Levels(s)})
	a := page.Answered{Sheet: sheet, Plan: plan}
	s = s.Seeing(a)
	return s, a, page.Build(s, a, kit())
}

// number reads a figure as a page writes it.
func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(regexp.MustCompile(`[^0-9.]`).ReplaceAllString(text, ""), 64)
	if err != nil {
		t.Fatalf("%q holds no number", text)
	}
	return v
}

func px(t *testing.T, n markup.Node, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(get(n, name), 64)
	if err != nil {
		t.Fatalf("a %s has no %s: %v", n.Tag, name, err)
	}
	return v
}

// classed lists the elements of a tree with a class.
func classed(n markup.Node, class string) []markup.Node {
	var out []markup.Node
	walk(n, func(n markup.Node) {
		if strings.Contains(" "+get(n, "class")+" ", " "+class+" ") {
			out = append(out, n)
		}
	})
	return out
}

func svgs(n markup.Node) []markup.Node {
	var out []markup.Node
	walk(n, func(n markup.Node) {
		if n.Tag == "svg" {
			out = append(out, n)
		}
	})
	return out
}

// TestMonths_TheTableIsTheBars reads the height of each bar off the chart's own
// axis and holds it against the table behind it.
func TestMonths_TheTableIsTheBars(t *testing.T) {
	t.Parallel()
	for _, query := range []string{"view=pump", "view=pump&power=0.4+%2F+kWh&from=May&to=Sep"} {
		_, _, m := drawn(t, query)
		charts := svgs(m.Bars)
		if len(charts) == 0 {
			t.Fatal("no chart of months")
		}
		for _, chart := range charts {
			top, foot := axis(t, chart)
			var single, variable []float64
			for _, r := range m.BarTable.Rows[:12] {
				if v := number(t, r[3].Text); v > 0 {
					single = append(single, v)
				}
				if v := number(t, r[5].Text); v > 0 {
					variable = append(variable, v)
				}
			}
			var ruled []float64
			for _, bar := range classed(chart, "ch-ruled") {
				ruled = append(ruled, onAxis(px(t, bar, "y"), top, foot))
			}
			agree(t, query+": single speed", ruled, single, 0.7)
			solid := corners(t, classed(chart, "ch-solid")[0])
			for i := range solid {
				solid[i] = onAxis(solid[i], top, foot)
			}
			agree(t, query+": variable speed", solid, variable, 0.7)
		}
	}
}

// mark is a labelled place on an axis: where it stands and what it says.
type mark struct{ px, value float64 }

// axis is the first and the last of the labels at the left.
func axis(t *testing.T, chart markup.Node) (last, first mark) {
	t.Helper()
	var all []mark
	for _, x := range classed(chart, "ch-axis") {
		if get(x, "text-anchor") == "end" {
			all = append(all, mark{px(t, x, "y") - 4, number(t, words(x))})
		}
	}
	if len(all) < 2 {
		t.Fatal("an axis without labels")
	}
	return all[len(all)-1], all[0]
}

func onAxis(at float64, a, b mark) float64 {
	return b.value + (a.value-b.value)*(at-b.px)/(a.px-b.px)
}

// corners are the heights of the first corner of each outline of a path.
func corners(t *testing.T, path markup.Node) []float64 {
	t.Helper()
	var out []float64
	for _, m := range regexp.MustCompile(`M([-0-9.]+) ([-0-9.]+)`).FindAllStringSubmatch(absolute(get(path, "d")), -1) {
		y, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, y)
	}
	return out
}

func agree(t *testing.T, what string, marks, table []float64, within float64) {
	t.Helper()
	if len(marks) != len(table) || len(marks) == 0 {
		t.Errorf("%s: the picture has %d marks, the table %d: %v, %v", what, len(marks), len(table), marks, table)
		return
	}
	for i := range marks {
		if math.Abs(marks[i]-table[i]) > within {
			t.Errorf("%s: mark %d stands at %.2f, the table says %.2f", what, i+1, marks[i], table[i])
		}
	}
}

// TestHead_TheTableIsTheBar holds the share of each piece against the table.
func TestHead_TheTableIsTheBar(t *testing.T) {
	t.Parallel()
	_, _, m := drawn(t, "view=pump&rise=4+ft")
	for _, chart := range svgs(m.HeadBar) {
		var wide, table []float64
		total, sum := 0.0, 0.0
		for _, class := range []string{"ch-lift", "ch-t1", "ch-t2", "ch-t3", "ch-t4", "ch-t5"} {
			for _, piece := range classed(chart, class) {
				wide = append(wide, px(t, piece, "width"))
				total += wide[len(wide)-1]
			}
		}
		for _, r := range m.HeadTable.Rows {
			table = append(table, number(t, r[1].Text))
			sum += table[len(table)-1]
		}
		for i := range wide {
			wide[i] *= sum / total
		}
		agree(t, "head", wide, table, 0.11)
	}
}

// TestDrawing_TheTablesAreItsMarks holds rings and the section against the
// tables under the drawing, in both units.
func TestDrawing_TheTablesAreItsMarks(t *testing.T) {
	t.Parallel()
	for _, query := range []string{"", "units=metric&shape=ell&length=12m&width=9m"} {
		s, a, m := drawn(t, query)
		places, section := tabled(t, m, "Where things stand"), tabled(t, m, "Section")
		rings := 0
		for _, r := range places.Rows {
			if !strings.HasPrefix(r[0].Text, "Ring") {
				continue
			}
			for k, text := range strings.Split(r[1].Text, ",") {
				want := []float64{a.Plan.Handles[rings].X, a.Plan.Handles[rings].Y}[k]
				if got := place(t, text, s.Form.System); math.Abs(got-want) > 0.016 {
					t.Errorf("%s ring %d: the table says %q, it stands at %.3f m", query, rings+1, text, want)
				}
			}
			rings++
		}
		if rings != len(a.Plan.Handles) || rings < 4 {
			t.Errorf("%s: the table has %d rings, the drawing %d", query, rings, len(a.Plan.Handles))
		}
		deepest := 0.0
		for _, r := range section.Rows {
			along, fault := measure.ParseLength(r[0].Text, s.Form.System)
			depth, fault2 := measure.ParseLength(r[1].Text, s.Form.System)
			if !zero(r[0].Text) && fault != measure.OK || !zero(r[1].Text) && fault2 != measure.OK {
				t.Fatalf("%v cannot be read", r)
			}
			sec := a.Plan.Section
			want, near := 0.0, math.Inf(1)
			for _, p := range sec {
				if d := math.Abs(p.AlongM - along); d < near {
					near, want = d, p.DepthM
				}
			}
			if near < 0.06 && math.Abs(depth-want) > 0.12 {
				t.Errorf("%s: %s along the table says %s deep, the section is %.3f m", query, r[0].Text, r[1].Text, want)
			}
			deepest = max(deepest, depth)
		}
		if len(section.Rows) < 8 || deepest < 1 {
			t.Errorf("%s: the section's table has %d rows, deepest %.2f m", query, len(section.Rows), deepest)
		}
	}
}

// tabled is the table under the drawing whose name begins so.
func tabled(t *testing.T, m page.Model, name string) part.Table {
	t.Helper()
	for _, x := range m.Tables {
		if strings.HasPrefix(x.Caption, name) {
			return x
		}
	}
	t.Fatalf("no table named %s", name)
	return part.Table{}
}

func zero(text string) bool { return strings.Trim(text, "0. \u00a0ftinm") == "" }

// place reads "7 ft 3 in west" as metres east or north.
func place(t *testing.T, text string, in measure.System) float64 {
	t.Helper()
	text = strings.TrimSpace(text)
	i := strings.LastIndexAny(text, " \u00a0")
	size := strings.TrimSpace(text[:i])
	if zero(size) {
		return 0
	}
	v, fault := measure.ParseLength(size, in)
	if fault != measure.OK {
		t.Fatalf("%q cannot be read: %s", text, fault)
	}
	if way := text[i:]; strings.Contains(way, "west") || strings.Contains(way, "south") {
		return -v
	}
	return v
}

// absolute starts each outline of a path with a capital M; the pen writes the
// second and later ones as steps from where it was.
func absolute(d string) string {
	var out strings.Builder
	var x, y, fromX, fromY float64
	for _, m := range regexp.MustCompile(`([MmLlHhVvZz])([^MmLlHhVvZz]*)`).FindAllStringSubmatch(d, -1) {
		var v []float64
		for _, text := range regexp.MustCompile(`-?[0-9]*\.?[0-9]+`).FindAllString(m[2], -1) {
			n, _ := strconv.ParseFloat(text, 64)
			v = append(v, n)
		}
		for i := 0; ; {
			switch cmd := m[1]; cmd {
			case "M", "L":
				x, y = v[i], v[i+1]
				i += 2
			case "m", "l":
				x, y = x+v[i], y+v[i+1]
				i += 2
			case "H":
				x = v[i]
				i++
			case "h":
				x += v[i]
				i++
			case "V":
				y = v[i]
				i++
			case "v":
				y += v[i]
				i++
			default:
				x, y = fromX, fromY
			}
			if (m[1] == "M" || m[1] == "m") && i == 2 {
				fromX, fromY = x, y
				out.WriteString("M" + strconv.FormatFloat(x, 'f', 3, 64) + " " + strconv.FormatFloat(y, 'f', 3, 64) + " ")
			}
			if i >= len(v) {
				break
			}
		}
	}
	return out.String()
}
