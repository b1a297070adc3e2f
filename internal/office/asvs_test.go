package office_test

import (
	"encoding/base64"
	"encoding/hex"
	"testing"

	"tarnwright/internal/office"
)

// A token of an invitation, of a session or of a form has at least 128 bits,
// and of a thousand no two are alike and every bit changes.
func TestASVS_TokensHave128RandomBits(t *testing.T) {
	t.Parallel()
	seen, ones, zeros := map[string]bool{}, make([]byte, 64), make([]byte, 64)
	size := 0
	for range 1000 {
		token := office.NewToken()
		raw, err := base64.RawURLEncoding.DecodeString(token)
		if err != nil {
			raw, err = hex.DecodeString(token)
		}
		if err != nil || len(raw) < 16 || seen[token] {
			t.Fatalf("the token %q: %v", token, err)
		}
		seen[token], size = true, len(raw)
		for i, b := range raw {
			ones[i] |= b
			zeros[i] |= ^b
		}
	}
	for i := range size {
		if ones[i] != 0xff || zeros[i] != 0xff {
			t.Errorf("byte %d of a token does not change in every bit", i)
		}
	}
}
