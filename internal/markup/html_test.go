package markup_test

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"tarnwright/internal/markup"
)

func TestHTML_WritesWhatABrowserReads(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why  string
		node markup.Node
		want string
	}{
		{"text is escaped", markup.E("p", `<b>&"'`), `<p>&lt;b&gt;&amp;&#34;&#39;</p>`},
		{"an attribute cannot end early", markup.E("a", markup.A("title", `"><i>`)), `<a title="&#34;&gt;&lt;i&gt;"></a>`},
		{"a void element has no end", markup.E("input", markup.A("value", "3")), `<input value="3">`},
		{"a flag is bare", markup.E("input", markup.Flag("checked", true), markup.Flag("disabled", false)), `<input checked>`},
		{"the first of two like attributes stands", markup.E("p", markup.A("id", "a"), markup.A("ID", "b")), `<p id="a"></p>`},
		{"a textarea keeps its first line break", markup.E("textarea", "\na"), "<textarea>\n\na</textarea>"},
		{"names of drawings keep their case", markup.E("linearGradient", markup.A("viewBox", "0 0 1 1")), `<linearGradient viewBox="0 0 1 1"></linearGradient>`},
		{"nothing is nothing", markup.E("p", markup.None()), `<p></p>`},
		{"a script is left out", markup.E("p", markup.E("SCRIPT", "x")), `<p></p>`},
		{"a broken name is left out", markup.E("p", markup.E("b onload=x", "x"), markup.A("a b", "c")), `<p></p>`},
		{"a handler is left out", markup.E("p", markup.A("onLoad", "x")), `<p></p>`},
		{"an address that runs is left out", markup.E("a", markup.A("href", "JavaScript:x")), `<a></a>`},
		{"a hidden scheme is left out", markup.E("a", markup.A("href", "java\tscript:x")), `<a></a>`},
		{"an address with a colon further on stays", markup.E("a", markup.A("href", "/?a=b:c")), `<a href="/?a=b:c"></a>`},
		{"control characters are replaced", markup.T("a\x00\x1b"), "a\uFFFD\uFFFD"},
	} {
		if got := markup.HTML(c.node); got != c.want {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
	}
}

// An independent parser must read back exactly the tree that was written,
// whatever the strings are.
func FuzzHTML(f *testing.F) {
	f.Add("class", `"><script>alert(1)</script>`, "<!--")
	f.Add("data-arg", "' onload='x", "]]>&#x3c;/p>")
	f.Add("href", "javascript:x", "\x00\r\n\xff")
	f.Add("a b", "", "&lt;")
	f.Fuzz(func(t *testing.T, attr, value, text string) {
		out := markup.HTML(markup.E("p", markup.E("b", markup.A(attr, value), text), markup.E("i", markup.A("title", value))))
		d := xml.NewDecoder(strings.NewReader(out))
		d.Entity = xml.HTMLEntity
		var tags []string
		var read strings.Builder
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("does not parse: %v\n%q", err, out)
			}
			switch v := tok.(type) {
			case xml.StartElement:
				tags = append(tags, v.Name.Local)
				if len(v.Attr) > 1 {
					t.Fatalf("attributes broke out: %v in %q", v.Attr, out)
				}
			case xml.CharData:
				read.Write(v)
			case xml.EndElement:
			default:
				t.Fatalf("a %T broke out of %q", tok, out)
			}
		}
		if got := strings.Join(tags, " "); got != "p b i" {
			t.Fatalf("elements %q in %q", got, out)
		}
		want := strings.ToValidUTF8(text, "")
		if plain(want) && read.String() != want && plain(text) {
			t.Fatalf("text %q came back as %q", text, read.String())
		}
	})
}

func plain(s string) bool {
	for _, r := range s {
		if r < 0x20 || r == '\uFFFD' || r >= 0x7f && r < 0xa0 || r&0xfffe == 0xfffe {
			return false
		}
	}
	return true
}
