package drawing_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

// written is a line of words and the room it takes, by the usual width of a
// letter.
type written struct {
	words          string
	x0, x1, y0, y1 float64
}

func read(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// writing lists the words in a picture, and the picture's size.
func writing(t *testing.T, out string) (all []written, wide, high float64) {
	t.Helper()
	frame := regexp.MustCompile(`viewBox="0 0 ([0-9.]+) ([0-9.]+)"`).FindStringSubmatch(out)
	wide, high = read(t, frame[1]), read(t, frame[2])
	for _, m := range regexp.MustCompile(`<text class="([^"]*)" x="([^"]*)" y="([^"]*)"( text-anchor="([a-z]*)")?>([^<]*)</text>`).FindAllStringSubmatch(out, -1) {
		size := 13.0
		if strings.Contains(m[1], "ch-title") {
			size = 17
		}
		x, y := read(t, m[2]), read(t, m[3])
		w := 0.46 * size * float64(len([]rune(m[6])))
		b := written{m[6], x, x + w, y - 0.72*size, y + 0.2*size}
		switch m[5] {
		case "end":
			b.x0, b.x1 = x-w, x
		case "middle":
			b.x0, b.x1 = x-w/2, x+w/2
		}
		all = append(all, b)
	}
	return all, wide, high
}

func (a written) over(b written) bool {
	return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

// Every part is drawn and named, nothing runs off the sheet, and no words lie
// on others, on a wide page and on a phone.
func TestSchematic_CanBeReadInEveryLayout(t *testing.T) {
	t.Parallel()
	for name, c := range pipeworks() {
		for _, px := range []float64{0, 720, 360} {
			c.WidthPx = px
			out := markup.HTML(c.Node())
			all, wide, high := writing(t, out)
			for _, p := range c.Parts {
				for _, w := range append([]string{p.Name}, p.Notes...) {
					if !strings.Contains(out, ">"+w+"<") {
						t.Errorf("%s at %v px: no %q", name, px, w)
					}
				}
			}
			for i, a := range all {
				if a.x0 < -1 || a.x1 > wide+1 || a.y0 < -1 || a.y1 > high+1 {
					t.Errorf("%s at %v px: %q runs off a sheet of %v by %v: %+v", name, px, a.words, wide, high, a)
				}
				for _, b := range all[i+1:] {
					if a.over(b) {
						t.Errorf("%s at %v px: %q lies on %q", name, px, a.words, b.words)
					}
				}
			}
			if strings.Contains(out, "NaN") || !strings.Contains(out, `role="img"`) || !strings.Contains(out, "<desc") {
				t.Errorf("%s at %v px is not a named picture", name, px)
			}
		}
	}
}

// One suction line, one grate and one pump for each pump, and symbols that
// differ from one another.
func TestSchematic_DrawsALineForEachPump(t *testing.T) {
	t.Parallel()
	count := func(c drawing.Schematic) int { return strings.Count(markup.HTML(c.Node()), `class="ch-part"`) }
	one, three := pipework(nil), pipework(func(c *drawing.Schematic) { c.Lines = 3 })
	// A valve, a check valve, a tee, a grate and a pump each; the pads are one path.
	if got := count(three) - count(one); got != 2*5 {
		t.Errorf("three pumps have %d more symbols than one, want 10", got)
	}
	seen := map[string]drawing.PartKind{}
	for _, k := range []drawing.PartKind{drawing.ValvePart, drawing.CheckPart, drawing.FootPart, drawing.TeePart, drawing.UnionPart} {
		c := pipework(func(c *drawing.Schematic) { c.Parts[2] = drawing.SchematicPart{Kind: k, Name: "X"} })
		out := markup.HTML(c.Node())
		if other, twice := seen[out]; twice {
			t.Errorf("%s looks like %s", k, other)
		}
		seen[out] = k
	}
}

// The axes end where they are told, and the words of the chart keep off the
// curves, the rings and each other.
func TestPumpChart_WordsKeepOffTheLines(t *testing.T) {
	t.Parallel()
	for _, px := range []float64{800, 360} {
		c := pumpChart()
		c.WidthPx, c.MostX, c.MostY = px, 250, 21.5
		if px < 400 {
			c.HeightPx = 360
			c.Words.Lift, c.Words.QuietNote, c.Words.DutyNote = "", "", ""
		}
		all, wide, high := writing(t, markup.HTML(c.Node()))
		foot, left := high-44, 52.0
		at := func(p sheet.XY) (x, y float64) { return left + p.X/250*(wide-24-left), foot + p.Y/21.5*(30-foot) }
		for i, a := range all {
			for _, b := range all[i+1:] {
				if a.over(b) {
					t.Errorf("at %v px %q lies on %q", px, a.words, b.words)
				}
			}
			for _, curve := range [][]sheet.XY{c.Full, c.Quiet, c.System} {
				for _, p := range curve {
					if x, y := at(p); p.Y > 0 && p.Y < 21.5 && x > a.x0 && x < a.x1 && y > a.y0 && y < a.y1 {
						t.Errorf("at %v px %q lies on a curve at %v", px, a.words, p)
						break
					}
				}
			}
		}
		if !strings.Contains(markup.HTML(c.Node()), ">What your pond asks for<") {
			t.Errorf("at %v px the pond's own curve has no name", px)
		}
	}
}
