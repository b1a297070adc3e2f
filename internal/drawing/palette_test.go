package drawing_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

func css(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "web", "css", "drawing.css"))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// colours reads the named colours of one block of the style sheet.
func colours(t *testing.T, selector string) map[string][3]float64 {
	t.Helper()
	sheet := css(t)
	at := strings.Index(sheet, "\n"+selector+" {")
	if at < 0 {
		t.Fatalf("no block for %s", selector)
	}
	block := sheet[at:]
	block = block[:strings.Index(block, "}")]
	found := map[string][3]float64{}
	for _, m := range regexp.MustCompile(`--([a-z0-9]+): #([0-9a-f]{3,6})`).FindAllStringSubmatch(block, -1) {
		hex := m[2]
		if len(hex) == 3 {
			hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
		}
		var c [3]float64
		for i := range c {
			v, _ := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
			c[i] = float64(v) / 255
		}
		found[m[1]] = c
	}
	return found
}

// luminance is the relative luminance of WCAG 2.2, from its definition.
func luminance(c [3]float64) float64 {
	var l [3]float64
	for i, v := range c {
		if v <= 0.04045 {
			l[i] = v / 12.92
		} else {
			l[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2]
}

func contrast(a, b [3]float64) float64 {
	x, y := luminance(a), luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

// The definition's own ends: black on white is 21 to 1.
func TestContrast_OfBlackOnWhite(t *testing.T) {
	t.Parallel()
	if got := contrast([3]float64{}, [3]float64{1, 1, 1}); math.Abs(got-21) > 1e-12 {
		t.Errorf("contrast %v, want 21", got)
	}
}

func TestPalette_GetsDarkerWithDepthOnScreenAndInInk(t *testing.T) {
	t.Parallel()
	for _, block := range []string{".dr", ".dr-ink"} {
		c := colours(t, block)
		for k := 1; k <= 6; k++ {
			a, b := c["d"+strconv.Itoa(k-1)], c["d"+strconv.Itoa(k)]
			if luminance(b) >= luminance(a) {
				t.Errorf("%s: tone %d is not darker than tone %d", block, k, k-1)
			}
		}
	}
}

func TestPalette_WordsCanBeRead(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		block, words, on string
		least            float64
		why              string
	}{
		{".dr", "ink", "d0", 4.5, "depth figures"}, {".dr", "ink", "d1", 4.5, "depth figures"}, {".dr", "ink", "d2", 4.5, "depth figures"},
		{".dr", "ink", "d3", 4.5, "depth figures"}, {".dr", "paper", "d4", 4.5, "depth figures"}, {".dr", "paper", "d5", 4.5, "depth figures"},
		{".dr", "paper", "d6", 4.5, "depth figures"}, {".dr", "ink", "paper", 4.5, "names"}, {".dr", "ink2", "paper", 4.5, "notes"},
		{".dr", "paper", "ember", 4.5, "numbers of care"}, {".dr", "paper", "moss", 4.5, "numbers of fine"}, {".dr", "ctl", "paper", 3, "leaders"},
		{".dr-ink", "ink", "d6", 4.5, "depth figures in print"},
		{".ch", "ink2", "paper", 4.5, "axes"}, {".ch", "moss", "paper", 4.5, "the easy stretch"}, {".ch", "paper", "t1", 4.5, "head"},
		{".ch", "ink", "t2", 4.5, "head"}, {".ch", "ink", "t3", 4.5, "head"}, {".ch", "ink", "t4", 4.5, "head"},
	} {
		set := colours(t, c.block)
		a, okA := set[c.words]
		b, okB := set[c.on]
		if !okA || !okB {
			t.Errorf("%s has no %s or no %s", c.block, c.words, c.on)
			continue
		}
		if got := contrast(a, b); got < c.least {
			t.Errorf("%s: %s on %s has %.2f to 1, want %.1f (%s)", c.block, c.words, c.on, got, c.least, c.why)
		}
	}
}

// The style sheet dresses every class that a picture may use, and no other.
func TestStyle_KnowsEveryClass(t *testing.T) {
	t.Parallel()
	used := map[string]bool{}
	note := func(out string) {
		for _, m := range regexp.MustCompile(`class="([^"]*)"`).FindAllStringSubmatch(out, -1) {
			for _, c := range strings.Fields(m[1]) {
				used[c] = true
			}
		}
	}
	for _, change := range looks() {
		note(svg(demo(), change))
	}
	for _, name := range []string{"tiny", "turned", "north", "south", "fallen", "jets"} {
		note(svg(gallery()[name], func(o *drawing.Options) { o.Chosen = 1 }))
	}
	note(markup.HTML(drawing.Sheet(cutOpen(t, gallery()["steps"], 45, 225), options(demo())).Node))
	before, grown := drawing.Sheet(plan(demo()), options(demo())), demo()
	grown.Outline.LengthM += 2
	o := options(grown)
	o.Detail, o.Last = drawing.Following, &before
	note(markup.HTML(drawing.Sheet(plan(grown), o).Node))
	note(charts())
	note(svg(demo(), func(o *drawing.Options) { o.RiseM = 0.5 }))
	note(markup.HTML(drawing.HeadBar{Caption: drawing.Caption{ID: "h", Colour: drawing.Ink}, WidthPx: 2000, Parts: []drawing.HeadPart{
		{Text: "1", HeadM: 1}, {Text: "1", HeadM: 1}, {Text: "1", HeadM: 1}, {Text: "1", HeadM: 1}, {Text: "1", HeadM: 1}}}.Node()))
	puddle := demo()
	puddle.Bowl.DeepM = 0.28
	note(svg(puddle, nil))
	sheet := css(t)
	for _, c := range sortedKeys(used) {
		plain := regexp.MustCompile(`\.` + c + `[^a-z0-9-]`)
		if !plain.MatchString(sheet) && !strings.HasPrefix(c, "c") && !group(c) {
			t.Errorf("nothing in the style sheet dresses %s", c)
		}
	}
	for _, m := range regexp.MustCompile(`\.((?:dr|ch)-[a-z0-9-]+)`).FindAllStringSubmatch(sheet, -1) {
		if !used[m[1]] {
			t.Errorf("the style sheet dresses %s, which no picture has", m[1])
		}
	}
}

// group says whether a class only names a layer.
func group(c string) bool {
	switch c {
	case "dr-back", "dr-water", "dr-shore", "dr-dress", "dr-over", "dr-pipes", "dr-rim", "dr-marks", "dr-labels", "dr-measures", "dr-section", "dr-stones",
		"dr-rocks", "dr-fall", "dr-plants", "dr-pebbles", "dr-decking", "dr-trees", "dr-people", "dr-pins", "dr-still", "dr-full", "dr-treads", "dr-phone", "dr-thumb", "dr-pin", "dr-ticks", "w", "p", "t":
		return true
	}
	return false
}

func sortedKeys(m map[string]bool) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
