package link_test

import (
	"encoding/base64"
	"errors"
	"flag"
	"fmt"
	"hash/crc32"
	"os"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/link"
)

// pairs are the answers a link starts from, with some changed: "length=4m".
func pairs(t testing.TB, changes ...string) []link.Pair {
	t.Helper()
	all, known, err := link.Decode(link.Encode(nil))
	if err != nil || !known {
		t.Fatalf("a link without answers: %v", err)
	}
	for _, c := range changes {
		name, value, _ := strings.Cut(c, "=")
		i := slices.IndexFunc(all, func(p link.Pair) bool { return p.Name == name })
		if i < 0 {
			t.Fatalf("no code for %s", name)
		}
		all[i].Value = value
	}
	return all
}

func cases() []struct {
	why     string
	changes []string
} {
	rings := strings.TrimSuffix(strings.Repeat("-1234,5678;", 40), ";")
	return []struct {
		why     string
		changes []string
	}{
		{"nothing changed", nil},
		{"one length", []string{"length=12.192m"}},
		{"an answer taken away", []string{"handles="}},
		{"every kind of answer", []string{"units=metric", "shape=free", "handles=500,60;-360,290;40,-330", "power=0.2945", "water=2.1/m3", "cut=270,95", "pump=variable"}},
		{"the largest outline", []string{"shape=free", "handles=" + rings}},
		{"steps into the water", []string{"stairs=on", "stairs_at=215"}},
		{"not ASCII", []string{"model=Größe 3 ½"}},
	}
}

func TestEncode_ComesBackAsItWas(t *testing.T) {
	t.Parallel()
	for _, c := range cases() {
		want := pairs(t, c.changes...)
		text := link.Encode(want)
		got, known, err := link.Decode(text)
		if err != nil || !known || !slices.Equal(got, want) {
			t.Errorf("%s: %s gives %v (known %v, %v)", c.why, text, got, known, err)
		}
		if again := link.Encode(got); again != text {
			t.Errorf("%s: packed again it is %s, not %s", c.why, again, text)
		}
		if last := text[len(text)-1]; strings.ContainsRune("-_.", rune(last)) {
			t.Errorf("%s: %s ends in a mark that a messaging app may cut off", c.why, text)
		}
	}
}

// The checksum is compared with the standard library's.
func TestEncode_SumsAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	for _, c := range cases() {
		raw, err := base64.RawURLEncoding.DecodeString(strings.TrimPrefix(link.Encode(pairs(t, c.changes...)), "d=1."))
		if err != nil {
			t.Fatal(err)
		}
		want := fmt.Sprintf("%08x", crc32.ChecksumIEEE(raw[4:]))
		if got := fmt.Sprintf("%x", raw[:4]); got != want {
			t.Errorf("%s: the sum is %s, want %s", c.why, got, want)
		}
	}
}

func TestDecode_FindsEverySlip(t *testing.T) {
	t.Parallel()
	whole := link.Encode(pairs(t, "length=12.192m", "beach=s"))
	for i := len("d=1."); i < len(whole); i++ {
		for _, b := range []byte("A7z_-") {
			if b == whole[i] {
				continue
			}
			if _, _, err := link.Decode(whole[:i] + string(b) + whole[i+1:]); !errors.Is(err, link.ErrDamaged) {
				t.Fatalf("character %d as %c: %v", i, b, err)
			}
		}
		if _, _, err := link.Decode(whole[:i]); !errors.Is(err, link.ErrDamaged) {
			t.Fatalf("cut off at %d: %v", i, err)
		}
	}
	for _, c := range []struct {
		why, text string
		want      error
	}{
		{"nothing", "", link.ErrDamaged},
		{"another fragment", "#figures", link.ErrDamaged},
		{"a later version", "#d=2.abc", link.ErrNewer},
		{"no version", "#d=abc", link.ErrDamaged},
		{"no number", "#d=x.abc", link.ErrDamaged},
		{"a mark added at the end", whole + ".", link.ErrDamaged},
		{"far too long", "d=1." + strings.Repeat("A", 5000), link.ErrDamaged},
	} {
		if _, _, err := link.Decode(c.text); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.why, err, c.want)
		}
	}
}

// packed makes a link of bytes, with a right sum.
func packed(body ...byte) string {
	sum := crc32.ChecksumIEEE(body)
	return "d=1." + base64.RawURLEncoding.EncodeToString(append([]byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)}, body...))
}

func TestDecode_ReadsWhatItKnows(t *testing.T) {
	t.Parallel()
	got, known, err := link.Decode(packed(200, 2, 'o', 'k', 2, 4, 'o', 'v', 'a', 'l'))
	if err != nil || known || !slices.Equal(got, pairs(t, "shape=oval")) {
		t.Errorf("a question of a later page: %v, known %v, %v", got, known, err)
	}
	for why, text := range map[string]string{
		"an answer said twice":        packed(2, 1, 'a', 2, 1, 'b'),
		"an answer longer than it is": packed(2, 9, 'a'),
		"a length without an end":     packed(2, 0xff, 0xff, 0xff),
		"a code without a length":     packed(2),
	} {
		if _, _, err := link.Decode(text); !errors.Is(err, link.ErrDamaged) {
			t.Errorf("%s: %v", why, err)
		}
	}
}

// A link must be short enough to be read from a screen by a phone.
func TestEncode_IsShort(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why  string
		most int
		all  []link.Pair
	}{
		{"the demo", 20, nil},
		{"every answer of the demo changed", 600, pairs(t, "units=metric", "shape=free", "length=12.3456m", "width=7.8901m",
			"handles=500,60;360,290;40,330;-260,250;-490,-20;-330,-290;30,-190;340,-280", "deep=2.1336m", "beach=s", "beach_at=181", "beach_slope=6",
			"shelf=off", "zone=off", "zone_area=18.58m2", "cascade=off", "lip=1.8288m", "rise=0.9144m", "deck=off", "power=0.2945", "water=2.1134/m3",
			"from=4", "to=10", "pump=variable", "model=willow_2", "pumps=2", "pipe=4", "discharge=4", "fence=on", "patio=on", "fire_pit=on",
			"stairs=on", "stairs_at=215", "zone_at=10", "cascade_at=20", "deck_at=160", "pump_at=80", "intake_at=100", "cut=270,95")},
	} {
		if n := len(link.Encode(c.all)); n > c.most {
			t.Errorf("%s takes %d characters, more than %d", c.why, n, c.most)
		}
	}
}

// Each question of the form has a code, and starts from the demo's answer.
func TestEncode_KnowsEveryQuestion(t *testing.T) {
	t.Parallel()
	start := pairs(t)
	for _, p := range form.New(form.Demo()).Answers() {
		if !slices.Contains(start, link.Pair{Name: p.Name, Value: p.Value}) {
			t.Errorf("no code starts from %s %q", p.Name, p.Value)
		}
	}
}

var add = flag.Bool("add", false, "add this version's links to the golden list; lines that stand there are never changed")

// TestDecode_OpensOldLinks reads the golden list: fragment, a tab, and what
// differs from the start. A line is a promise and is never edited.
func TestDecode_OpensOldLinks(t *testing.T) {
	t.Parallel()
	const name = "../../testdata/links/v1.tsv"
	if *add {
		var b strings.Builder
		for _, c := range cases() {
			fmt.Fprintf(&b, "%s\t%s\n", link.Encode(pairs(t, c.changes...)), strings.Join(c.changes, " & "))
		}
		if err := os.WriteFile(name, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	raw, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(raw)), "\n")
	if len(lines) < 6 {
		t.Fatalf("%d links in the list", len(lines))
	}
	for _, l := range lines {
		text, changes, _ := strings.Cut(l, "\t")
		var list []string
		if changes != "" {
			list = strings.Split(changes, " & ")
		}
		got, _, err := link.Decode(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		for _, want := range pairs(t, list...) {
			if !slices.Contains(got, want) {
				t.Errorf("%s: %s is not %q", text, want.Name, want.Value)
			}
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, c := range cases() {
		f.Add(link.Encode(pairs(f, c.changes...)))
	}
	f.Add("d=1.")
	f.Add("#d=9.x")
	f.Fuzz(func(t *testing.T, text string) {
		got, known, err := link.Decode(text)
		if err != nil {
			return
		}
		again, _, err := link.Decode(link.Encode(got))
		if err != nil || (known && !slices.Equal(again, got)) {
			t.Errorf("%q gives %v and then %v (%v)", text, got, again, err)
		}
	})
}

// FuzzDecodeBody gives the decoder bodies whose sum is right.
func FuzzDecodeBody(f *testing.F) {
	f.Add([]byte{2, 4, 'o', 'v', 'a', 'l', 0, 0})
	f.Add([]byte{5, 0x80, 0x0f})
	f.Fuzz(func(t *testing.T, body []byte) {
		got, _, err := link.Decode(packed(body...))
		if err == nil && len(got) != len(pairs(t)) {
			t.Errorf("%d answers", len(got))
		}
	})
}
