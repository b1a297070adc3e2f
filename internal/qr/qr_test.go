package qr_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"tarnwright/internal/qr"
)

// dots fills the outline into a square of 0 and 1.
func dots(t *testing.T, c qr.Code) []byte {
	t.Helper()
	out := []byte(strings.Repeat("0", c.Size*c.Size))
	for _, run := range strings.Split(strings.TrimSuffix(c.Path, "z"), "z") {
		var x, y, n, back int
		if _, err := fmt.Sscanf(run, "M%d %dh%dv1h-%d", &x, &y, &n, &back); err != nil || n != back || n < 1 {
			t.Fatalf("the path holds %q: %v", run, err)
		}
		for i := range n {
			out[y*c.Size+x+i] = '1'
		}
	}
	return out
}

// What is drawn is read back by jsQR, a decoder that shares nothing with the
// encoder.
func TestDraw_IsReadByAnotherProgram(t *testing.T) {
	t.Parallel()
	texts := []string{
		"https://ponds.example/#d=1.AAAAAA",
		"https://ponds.example/#d=1.OiCzkwEGbWV0cmljAgRmcmVlBRc1MDAsNjA7LTM2MCwyOTA7NDAsLTMzMBEGMC4yOTQ1EgYyLjEvbTMVCHZhcmlhYmxlIgYyNzAsOTU",
		"https://ponds.example/#d=1." + strings.Repeat("aZ09_-", 100),
		"Grüße, 池",
	}
	var in strings.Builder
	for _, text := range texts {
		c, err := qr.Draw(text)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&in, "%d %s\n", c.Size, dots(t, c))
	}
	cmd := exec.Command("node", "testdata/read.mjs", "../../.tools")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v (run make tools)\n%s", err, out)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(texts) {
		t.Fatalf("%d codes read, want %d:\n%s", len(lines), len(texts), out)
	}
	for i, want := range texts {
		var got *struct{ Text string }
		if err := json.Unmarshal([]byte(lines[i]), &got); err != nil || got == nil || got.Text != want {
			t.Errorf("code %d reads %s, want %q", i, lines[i], want)
		}
	}
}

func TestDraw_KeepsTheQuietZone(t *testing.T) {
	t.Parallel()
	c, err := qr.Draw("https://ponds.example/#d=1.AAAAAA")
	if err != nil {
		t.Fatal(err)
	}
	d := dots(t, c)
	for i, b := range d {
		x, y := i%c.Size, i/c.Size
		if b == '1' && (x < 4 || y < 4 || x >= c.Size-4 || y >= c.Size-4) {
			t.Fatalf("a dark module at %d, %d of %d", x, y, c.Size)
		}
	}
}

func TestDraw_RefusesWhatIsTooLong(t *testing.T) {
	t.Parallel()
	// Version 40 at level M holds 2,331 bytes (ISO/IEC 18004, table 7).
	if _, err := qr.Draw(strings.Repeat("a", 2331)); err != nil {
		t.Error(err)
	}
	if _, err := qr.Draw(strings.Repeat("a", 2332)); !errors.Is(err, qr.ErrLong) {
		t.Errorf("2332 bytes: %v", err)
	}
}
