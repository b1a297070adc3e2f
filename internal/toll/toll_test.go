package toll_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"tarnwright/internal/toll"
)

func paid(t *testing.T, key string) (proof string, tries int) {
	t.Helper()
	const slice = 1000
	for w := toll.For(key); tries < 40<<toll.Bits; tries += slice {
		if proof, found := w.Try(slice); found {
			return proof, tries + slice
		}
	}
	t.Fatalf("%s: nothing found in %d tries; one key in 10^17 is so unlucky", key, tries)
	return "", 0
}

func TestToll_IsPaidForOneKeyOnly(t *testing.T) {
	t.Parallel()
	const key = "8e03978e-40d5-43dd-bc93-6894a57f9324"
	proof, _ := paid(t, key)
	if !toll.Paid(key, proof) {
		t.Errorf("%s does not pay for %s", proof, key)
	}
	for _, c := range [][2]string{{key + "x", proof}, {"", proof}, {key, ""}, {key, proof + "0"}, {key, "-" + proof}, {key, "x"}, {key, strings.Repeat("9", 40)}, {key, proof + " "}} {
		if toll.Paid(c[0], c[1]) {
			t.Errorf("%q pays for %q", c[1], c[0])
		}
	}
}

// The work is what it is said to be: 2^16 tries on average. Of 60 keys the
// mean's standard deviation is 13 %, so half and double are four and more away.
func TestToll_CostsWhatItShould(t *testing.T) {
	t.Parallel()
	const keys = 60
	sum := 0
	for n := range keys {
		_, tries := paid(t, fmt.Sprintf("key-number-%04d-of-them", n))
		sum += tries
	}
	if mean := sum / keys; mean < 1<<(toll.Bits-1) || mean > 1<<(toll.Bits+1) {
		t.Errorf("%d tries on average, want about %d", mean, 1<<toll.Bits)
	}
}

// The hash is the one that everybody else computes: the system's own program
// finds the same zeros in the same bytes.
func TestToll_IsSHA256(t *testing.T) {
	t.Parallel()
	const key = "a-key-for-the-other-program"
	proof, _ := paid(t, key)
	seed := sha256.Sum256([]byte("tarnwright enquiry\n" + key))
	script := fmt.Sprintf(`printf '%%s%%016x' %s %s | tr a-f A-F | sed 's/../\\x&/g' | xargs -0 printf '%%b' | sha256sum`, hex.EncodeToString(seed[:]), proof)
	out, err := exec.Command("bash", "-c", script).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if zeros := strings.Repeat("0", toll.Bits/4); !strings.HasPrefix(string(out), zeros) {
		t.Errorf("the hash of %s is %s, want it to begin with %s", proof, out, zeros)
	}
}

// Texts of every length around the edges of a block have the library's hash.
func TestSum_IsTheLibrarys(t *testing.T) {
	t.Parallel()
	for n := range 300 {
		text := strings.Repeat("é∑x", n)[:n]
		if got, want := toll.Sum(text), sha256.Sum256([]byte(text)); got != want {
			t.Errorf("%d bytes hash to %x, want %x", n, got, want)
		}
	}
}

func FuzzSum_IsTheLibrarys(f *testing.F) {
	f.Add("abc")
	f.Add(strings.Repeat("a", 119))
	f.Fuzz(func(t *testing.T, text string) {
		if got, want := toll.Sum(text), sha256.Sum256([]byte(text)); got != want {
			t.Errorf("%q hashes to %x, want %x", text, got, want)
		}
	})
}

func FuzzPaid_NeverBreaks(f *testing.F) {
	f.Add("8e03978e-40d5-43dd-bc93-6894a57f9324", "12")
	f.Add("", "18446744073709551616")
	f.Fuzz(func(_ *testing.T, key, proof string) { toll.Paid(key, proof) })
}

func BenchmarkTry(b *testing.B) {
	w := toll.For("a-key-to-try-and-try-again")
	for b.Loop() {
		w.Try(1)
	}
}
