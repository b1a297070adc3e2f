package theme_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/theme"
)

// ours is the whole file of a theme that says everything.
func ours() theme.Theme {
	return theme.Theme{FileVersion: 1, Colours: theme.Usual(), Logo: "logo.svg",
		Fonts: theme.Fonts{Serif: []string{"Georgia", "Noto Serif", "serif"}, Sans: []string{"system-ui", "sans-serif"}}}
}

func TestFaults_TheUsualLookHasNone(t *testing.T) {
	t.Parallel()
	for _, th := range []theme.Theme{{}, ours()} {
		for _, f := range th.Faults() {
			t.Error(f)
		}
	}
}

// The usual colours are those of the style sheets.
func TestUsual_IsWhatTheStyleSheetsHave(t *testing.T) {
	t.Parallel()
	for _, s := range []struct{ file, selector string }{{"app.css", ":root {"}, {"drawing.css", ".dr {"}} {
		raw, err := os.ReadFile("../../web/css/" + s.file)
		if err != nil {
			t.Fatal(err)
		}
		_, after, _ := strings.Cut(string(raw), s.selector)
		block, _, _ := strings.Cut(after, "}")
		text := strings.ToUpper(block)
		sheet := map[string]string{}
		for _, m := range regexp.MustCompile(`(--[A-Z0-9-]+): (#[0-9A-F]{6});`).FindAllStringSubmatch(text, -1) {
			sheet[m[1]] = m[2]
		}
		_, mine, _ := strings.Cut(strings.ToUpper(string(ours().CSS())), strings.ToUpper(map[string]string{"app.css": ":root{", "drawing.css": "{"}[s.file]))
		if s.file == "drawing.css" {
			_, mine, _ = strings.Cut(strings.ToUpper(string(ours().CSS())), ".CH:NOT(.CH-INK){")
		}
		mine, _, _ = strings.Cut(mine, "}")
		n := 0
		for _, m := range regexp.MustCompile(`(--[A-Z0-9-]+):(#[0-9A-F]{6});`).FindAllStringSubmatch(mine, -1) {
			n++
			if sheet[m[1]] != m[2] {
				t.Errorf("%s: %s is %s in the style sheet and %s here", s.file, m[1], sheet[m[1]], m[2])
			}
		}
		if n < 8 {
			t.Errorf("%s: %d colours compared", s.file, n)
		}
		for i, d := range theme.Depths() {
			if got := sheet["--D"+strconv.Itoa(i)]; got != d {
				t.Errorf("%s: depth %d is %s in the style sheet and %s here", s.file, i, got, d)
			}
		}
	}
}

// Contrasts published elsewhere, to the two decimals they are given with:
// black on white is 21 by definition (WCAG 2.2); #767676 on white is 4.54 and
// #777777 4.48 (W3C, technique G18 and its examples, from memory), #949494 on
// white 3.03 (from memory).
func TestContrast_AgreesWithPublishedPairs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, b      string
		wantRatio float64
	}{{"#000000", "#FFFFFF", 21}, {"#767676", "#ffffff", 4.54}, {"#777777", "#FFFFFF", 4.48}, {"#949494", "#FFFFFF", 3.03}, {"#16342F", "#16342f", 1}} {
		if got := theme.ContrastRatio(c.a, c.b); math.Abs(got-c.wantRatio) > 0.005 {
			t.Errorf("%s on %s: %.4f, want %.2f", c.a, c.b, got, c.wantRatio)
		}
		if ab, ba := theme.ContrastRatio(c.a, c.b), theme.ContrastRatio(c.b, c.a); ab != ba {
			t.Errorf("%s on %s: %v one way and %v the other", c.a, c.b, ab, ba)
		}
	}
}

func TestFaults_NameThePair(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why    string
		change func(*theme.Theme)
		want   string
	}{
		{"pale text", func(th *theme.Theme) { th.Colours.InkFaint = "#8A9A94" }, "ink_faint (#8A9A94) on paper (#FBF7EF) has a contrast of 2.7"},
		{"pale edges", func(th *theme.Theme) { th.Colours.Control = "#A9B4AF" }, "control (#A9B4AF) on paper"},
		{"a dark ground", func(th *theme.Theme) { th.Colours.Paper = "#101418" }, "ink (#16342F) on paper (#101418)"},
		{"paper that fails on deep water", func(th *theme.Theme) { th.Colours.Paper = "#E2D8C4" }, "paper (#E2D8C4) on #317980"},
		{"ink that fails on shallow water", func(th *theme.Theme) { th.Colours.Ink = "#3D5C57" }, "ink (#3D5C57) on #74B7B9"},
		{"a box of faults", func(th *theme.Theme) { th.Colours.CareGround = "#D08A66" }, "care_ink (#7E2F0E) on care_ground (#D08A66)"},
		{"a word for a colour", func(th *theme.Theme) { th.Colours.Ink = "teal" }, `colours.ink must be a colour like "#16342F", and is "teal"`},
		{"a short colour", func(th *theme.Theme) { th.Colours.Ink = "#123" }, "colours.ink must be a colour"},
		{"a way out of the sheet", func(th *theme.Theme) { th.Colours.Ink = "#1;}x{" }, "colours.ink must be a colour"},
		{"a font that ends the sheet", func(th *theme.Theme) { th.Fonts.Sans = []string{`x"}*{`, "sans-serif"} }, "fonts.sans[0] must be the name of a font"},
		{"no general font", func(th *theme.Theme) { th.Fonts.Serif = []string{"Georgia"} }, "fonts.serif must end with a general font"},
		{"a logo elsewhere", func(th *theme.Theme) { th.Logo = "../secret.svg" }, "logo must name a file beside this one"},
		{"a logo that is a page", func(th *theme.Theme) { th.Logo = "logo.html" }, "logo must name a file beside this one"},
	} {
		th := ours()
		c.change(&th)
		var all []string
		for _, f := range th.Faults() {
			all = append(all, f.Text)
		}
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s: %q, want %s", c.why, all, c.want)
		}
	}
}

// Any theme that passes can be read: each pair is worked out once more here,
// with its own arithmetic, and the style sheet holds nothing but properties.
func TestFaults_PassNoThemeThatCannotBeRead(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(20261125, 1))
	passed, refused := 0, 0
	for range 20_000 {
		th := random(rnd)
		if len(th.Faults()) > 0 {
			refused++
			continue
		}
		passed++
		c := th.Colours
		for _, p := range []struct {
			a, b       string
			leastRatio float64
		}{
			{c.Ink, c.Paper, 4.5}, {c.InkSoft, c.Paper, 4.5}, {c.InkFaint, c.Paper, 4.5}, {c.Care, c.Paper, 4.5}, {c.Fine, c.Paper, 4.5},
			{c.Ink, c.Field, 4.5}, {c.CareInk, c.CareGround, 4.5}, {c.Control, c.Paper, 3}, {c.Control, c.Field, 3},
			{c.Ink, theme.Depths()[0], 4.5}, {c.Ink, theme.Depths()[3], 4.5}, {c.Paper, theme.Depths()[4], 4.5}, {c.Paper, theme.Depths()[6], 4.5},
		} {
			if got := byHand(p.a) / byHand(p.b); max(got, 1/got) < p.leastRatio {
				t.Fatalf("%s on %s is %.3f and passed: %+v", p.a, p.b, max(got, 1/got), c)
			}
		}
		css := string(th.CSS())
		if !regexp.MustCompile(`^:root\{(--[a-z0-9-]+:[^;{}<>\\]+;)+\}\n\.dr:not\(\.dr-ink\),\.ch:not\(\.ch-ink\)\{(--[a-z0-9]+:#[0-9a-f]{6};)+\}\n$`).MatchString(css) || regexp.MustCompile(`--d[0-6]`).MatchString(css) {
			t.Fatalf("a style sheet with more in it:\n%s", css)
		}
	}
	if passed < 100 || refused < 100 {
		t.Errorf("%d passed, %d refused: the themes are too much alike", passed, refused)
	}
}

// random is the usual look, each colour moved a way of its own.
func random(rnd *rand.Rand) theme.Theme {
	th := ours()
	reach := rnd.IntN(60) + 2
	move := func(s string) string {
		v, _ := strconv.ParseUint(s[1:], 16, 32)
		out := uint64(0)
		for shift := 16; shift >= 0; shift -= 8 {
			b := int(v>>shift&255) + rnd.IntN(2*reach+1) - reach
			out = out<<8 | uint64(min(max(b, 0), 255))
		}
		return fmt.Sprintf("#%06x", out)
	}
	c := &th.Colours
	for _, s := range []*string{&c.Paper, &c.Field, &c.Ink, &c.InkSoft, &c.InkFaint, &c.Control, &c.Hairline, &c.Care, &c.CareInk, &c.CareGround, &c.Fine} {
		*s = move(*s)
	}
	return th
}

// byHand is luminance and a twentieth, by the letter of WCAG 2.2.
func byHand(s string) float64 {
	sum := 0.05
	for i, w := range []float64{0.2126, 0.7152, 0.0722} {
		b, _ := strconv.ParseUint(s[1+2*i:3+2*i], 16, 8)
		v := float64(b) / 255
		if v <= 0.03928 {
			sum += w * v / 12.92
		} else {
			sum += w * math.Exp(2.4*math.Log((v+0.055)/1.055))
		}
	}
	return sum
}

func TestCSS_SaysOnlyWhatTheThemeSays(t *testing.T) {
	t.Parallel()
	if got := (theme.Theme{}).CSS(); len(got) != 0 {
		t.Errorf("an empty theme gives %q", got)
	}
	th := theme.Theme{Colours: theme.Colours{Ink: "#102A40"}, Fonts: theme.Fonts{Serif: []string{"Noto Serif", "serif"}}}
	want := ":root{--ink:#102A40;--serif:\"Noto Serif\",serif;}\n.dr:not(.dr-ink),.ch:not(.ch-ink){--ink:#102A40;}\n"
	if got := string(th.CSS()); got != want {
		t.Errorf("got %s want %s", got, want)
	}
}
