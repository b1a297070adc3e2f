package office_test

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"tarnwright/internal/office"
)

func TestCheckPassword_FindsWhatIsGuessedFirst(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		password string
		want     office.Fault
	}{
		{"", office.TooShort}, {"elevenchars", office.TooShort}, {"four herons", office.TooShort},
		{strings.Repeat("heron ", 50), office.TooLong}, {"four herons \xff", office.TooLong},
		{"passwordpassword", office.TooCommon}, {"Password12345678", office.TooCommon}, {"P-a-s-s-w-o-r-d 2026", office.TooCommon},
		{"aaaaaaaaaaaaaa", office.TooCommon}, {"123456789012", office.TooCommon}, {"abcdefghijklm", office.TooCommon}, {"987654321098", office.TooCommon},
		{"QwertyUiopAsdfghjkl", office.TooCommon}, {"letmeinletmein", office.TooCommon}, {"correct horse battery staple", office.TooCommon},
		{"sunshine and princess", ""}, {"Sunshine-Princess-12", office.TooCommon}, {"monkey99dragon99shadow", office.TooCommon}, {"2026summer2026", office.TooCommon},
		{"201120262026", office.TooCommon}, {"swimpond2026!", office.TooCommon}, {"contraseña1234", office.TooCommon},
		{"anna.wells2026", office.OwnName}, {"anna.wells@fernhollow.example", office.OwnName},
		{"four herons by the weir", ""}, {"cuatro garzas en la cascada", ""}, {"anna.wells keeps four herons", ""}, {"Ka7-mulberry-Trowel", ""},
		{"水のある庭が好きです本当に", ""},
	} {
		if got := office.CheckPassword(c.password, "anna.wells@fernhollow.example"); got != c.want {
			t.Errorf("%q: %q, want %q", c.password, got, c.want)
		}
	}
}

// The list is short, but every two words of it in a row are refused as well,
// which makes a set of more than 3,000 that are long enough.
func TestCheckPassword_RefusesEveryPairOfCommonWords(t *testing.T) {
	t.Parallel()
	raw, err := os.ReadFile("common.txt")
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, l := range strings.Split(string(raw), "\n") {
		if l = strings.TrimSpace(l); l != "" && !strings.HasPrefix(l, "#") {
			words = append(words, l)
		}
	}
	refused := map[string]bool{}
	for _, a := range words {
		for _, b := range words {
			p := a + b
			if utf8.RuneCountInString(p) < office.ShortestPassword {
				continue
			}
			if got := office.CheckPassword(p, "anna@fernhollow.example"); got != office.TooCommon {
				t.Fatalf("%q: %q", p, got)
			}
			refused[p] = true
		}
	}
	if len(refused) < 3000 {
		t.Errorf("%d passwords of 12 letters and more are known to be common, want 3,000", len(refused))
	}
}

func TestHash_IsSaltedAndMatchesOnlyItsPassword(t *testing.T) {
	t.Parallel()
	a, b := office.Hash(words), office.Hash(words)
	if a == b {
		t.Error("two hashes of one password are alike")
	}
	if !strings.HasPrefix(a, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("the hash does not say what it took: %s", a)
	}
	if !office.Matches(a, words) || !office.Matches(b, words) {
		t.Error("a password does not match its hash")
	}
	for _, other := range []string{"", words + " ", strings.ToUpper(words)} {
		if office.Matches(a, other) {
			t.Errorf("%q matches", other)
		}
	}
	for _, broken := range []string{"", "$", words, strings.Replace(a, "argon2id", "argon2i", 1), strings.Replace(a, "m=19456", "m=0", 1),
		strings.Replace(a, "m=19456", "m=4000000000", 1), strings.Replace(a, "t=2", "t=0", 1), strings.Replace(a, "p=1", "p=0", 1), a[:len(a)-30], "$argon2id$v=19$m=19456,t=2,p=1$$"} {
		if office.Matches(broken, words) || office.Matches(broken, "") {
			t.Errorf("%q matches", broken)
		}
	}
}

// Checked: both sums are from another implementation of RFC 9106, in another
// language (@noble/hashes 2.4.0, JavaScript).
func TestMatches_ReadsAHashMadeElsewhere(t *testing.T) {
	t.Parallel()
	for _, hash := range []string{
		"$argon2id$v=19$m=1024,t=3,p=2$c2l4dGVlbiBieXRlcyBvaw$tKjpZnfN1zjA0DdYYMOzvXMlnaTCRFQrBfJxdByEJPs",
		"$argon2id$v=19$m=19456,t=2,p=1$c2l4dGVlbiBieXRlcyBvaw$uIG+gbN5P7ty0RqmBNnFfSGCO80Es3NerGo8WUPxHhI",
	} {
		if !office.Matches(hash, words) || office.Matches(hash, "other") {
			t.Errorf("%s is not read", hash)
		}
	}
}

// Whatever stands where a hash should, it is refused without trouble.
func FuzzMatches(f *testing.F) {
	f.Add("$argon2id$v=19$m=8,t=1,p=1$c2FsdHNhbHQ$c2FsdHNhbHRzYWx0c2FsdA")
	f.Add("$argon2id$v=19$m=8,t=1,p=255$$")
	f.Add("$argon2id$v=19$m=99999999999,t=-1,p=0$!$!")
	f.Fuzz(func(t *testing.T, hash string) {
		if len(hash) > 80 {
			return // a cost near the most allowed takes seconds
		}
		if office.Matches(hash, words) {
			t.Errorf("%q matches", hash)
		}
	})
}
