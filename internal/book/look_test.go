package book_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"tarnwright/internal/book"
)

const aTheme = `{
  "file_version": 1,
  "colours": {
    "ink": "#102A40",
    "ink_faint": "#54677A"
  },
  "fonts": {"serif": ["Noto Serif", "serif"]},
  "logo": "mark.svg"
}
`

const aLogo = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 84 36"><path d="M0 0h84v36H0z"/></svg>`

func themed(t *testing.T, text string) fstest.MapFS {
	t.Helper()
	dir := folder(t)
	dir[book.ThemeName] = &fstest.MapFile{Data: []byte(text)}
	dir["mark.svg"] = &fstest.MapFile{Data: []byte(aLogo)}
	return dir
}

func TestLoadLook_TakesAFolderWithAndWithoutOne(t *testing.T) {
	t.Parallel()
	if l, faults := book.LoadLook(folder(t)); len(faults) > 0 || len(l.Theme.CSS()) > 0 || l.LogoName != "" {
		t.Errorf("a folder without: %+v, %v", l, faults)
	}
	dir := themed(t, aTheme)
	l, faults := book.LoadLook(dir)
	if len(faults) > 0 || string(l.Logo) != aLogo || !bytes.Contains(l.Theme.CSS(), []byte("--ink:#102A40;")) {
		t.Errorf("%+v, %v", l, faults)
	}
	if _, faults := book.Load(dir); len(faults) > 0 {
		t.Errorf("the book beside it: %v", faults)
	}
	if raw, known, err := book.Schema(book.ThemeName); err != nil || !known || !bytes.Contains(raw, []byte(`"care_ground"`)) {
		t.Errorf("the schema: %s, %v, %v", raw, known, err)
	}
}

func TestLoadLook_NamesEachSlipAtItsLine(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, from, to, want string }{
		{"text that is too pale", `"#54677A"`, `"#8FA0B0"`, "theme.json:5:18: ink_faint (#8FA0B0) on paper (#FBF7EF) has a contrast of 2.5"},
		{"a depth of one's own", `"ink":`, `"d4":`, "theme.json:4:5: colours.d4 is not a key here"},
		{"a word", `"#102A40"`, `"navy"`, `theme.json:4:12: colours.ink must be a colour like "#16342F"`},
		{"another version", `"file_version": 1`, `"file_version": 2`, "theme.json:2:19: file_version must be 1"},
		{"a font in tags", `"Noto Serif"`, `"<b>"`, "theme.json:7:"},
		{"a logo that is not there", `"mark.svg"`, `"other.svg"`, "theme.json:8:11: logo names other.svg, which is not beside this file"},
		{"a logo elsewhere", `"mark.svg"`, `"../mark.svg"`, "theme.json:8:11: logo must name a file beside this one"},
	} {
		text := strings.Replace(aTheme, c.from, c.to, 1)
		if text == aTheme {
			t.Fatalf("%s: nothing to change", c.why)
		}
		_, faults := book.LoadLook(themed(t, text))
		if len(faults) == 0 || !strings.Contains(fmt.Sprint(faults), c.want) {
			t.Errorf("%s: %v, want %s", c.why, faults, c.want)
		}
	}
}

func TestLoadLook_TakesNoPictureThatIsNone(t *testing.T) {
	t.Parallel()
	for name, data := range map[string]string{
		"script":   `<svg xmlns="http://www.w3.org/2000/svg"><SCRIPT>alert(1)</SCRIPT></svg>`,
		"entities": `<!DOCTYPE svg [<!ENTITY a "b">]><svg/>`,
		"no svg":   `<html></html>`,
		"too big":  aLogo + strings.Repeat(" ", 48<<10),
	} {
		dir := themed(t, aTheme)
		dir["mark.svg"] = &fstest.MapFile{Data: []byte(data)}
		if _, faults := book.LoadLook(dir); len(faults) != 1 || faults[0].Code != "logo" {
			t.Errorf("%s: %v", name, faults)
		}
	}
	dir := themed(t, strings.Replace(aTheme, "mark.svg", "mark.png", 1))
	dir["mark.png"] = &fstest.MapFile{Data: []byte(aLogo)}
	if _, faults := book.LoadLook(dir); len(faults) != 1 {
		t.Errorf("an svg by the name of png: %v", faults)
	}
}
