package office

import (
	"bufio"
	"crypto/rand"
	"crypto/subtle"
	_ "embed"
	"encoding/base64"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
)

// cost is what a hash takes. Argon2id with 19 MiB, two passes and one lane is
// the first of the settings that the OWASP Password Storage Cheat Sheet calls
// equal in strength. Source: OWASP Cheat Sheet Series, Password Storage,
// "Argon2id"; from memory.
type cost struct {
	memoryKiB uint32
	passes    uint32
	lanes     uint8
}

func today() cost { return cost{memoryKiB: 19 << 10, passes: 2, lanes: 1} }

const (
	saltBytes = 16 // RFC 9106 §3.1 recommends 16 bytes
	hashBytes = 32
)

// Hash is a password as it is kept: Argon2id (RFC 9106) with a salt of its
// own, in the usual text form, so that the cost can be raised later.
func Hash(password string) string {
	salt := make([]byte, saltBytes)
	_, _ = rand.Read(salt) // never fails; it stops the program instead
	return written(today(), salt, derived(password, salt, today(), hashBytes))
}

func derived(password string, salt []byte, c cost, bytes uint32) []byte {
	return argon2.IDKey([]byte(password), salt, c.passes, c.memoryKiB, c.lanes, bytes)
}

func written(c cost, salt, sum []byte) string {
	b64 := base64.RawStdEncoding
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memoryKiB, c.passes, c.lanes, b64.EncodeToString(salt), b64.EncodeToString(sum))
}

// Matches tells whether a password is the one that was hashed, in a time that
// does not depend on how much of it is right. A text that is no hash matches
// nothing, and takes as long as one.
func Matches(hash, password string) bool {
	c, salt, sum, ok := parts(hash)
	if !ok {
		derived(password, make([]byte, saltBytes), today(), hashBytes)
		return false
	}
	return subtle.ConstantTimeCompare(sum, derived(password, salt, c, uint32(len(sum)))) == 1
}

// The most that a stored hash may ask for, so that a broken one cannot stop
// the program.
const (
	mostMemoryKiB = 256 << 10
	mostPasses    = 10
)

func parts(hash string) (c cost, salt, sum []byte, ok bool) {
	f := strings.Split(hash, "$")
	if len(f) != 6 || f[0] != "" || f[1] != "argon2id" || f[2] != "v="+strconv.Itoa(argon2.Version) {
		return c, nil, nil, false
	}
	if n, err := fmt.Sscanf(f[3], "m=%d,t=%d,p=%d", &c.memoryKiB, &c.passes, &c.lanes); err != nil || n != 3 {
		return c, nil, nil, false
	}
	salt, err := base64.RawStdEncoding.DecodeString(f[4])
	if err != nil {
		return c, nil, nil, false
	}
	sum, err = base64.RawStdEncoding.DecodeString(f[5])
	bounded := c.memoryKiB > 0 && c.memoryKiB <= mostMemoryKiB && c.passes > 0 && c.passes <= mostPasses && c.lanes > 0
	return c, salt, sum, err == nil && bounded && len(sum) >= 16 && len(sum) <= 64
}

// Fault is what is wrong with a new password; package say words it.
type Fault string

// The faults.
const (
	TooShort  Fault = "too_short"
	TooLong   Fault = "too_long"
	TooCommon Fault = "too_common"
	OwnName   Fault = "own_name"
	NotSame   Fault = "not_same"
)

// The bounds of a password in characters: the least is the owner's wish, above
// the 8 of NIST SP 800-63B §5.1.1.2; the most keeps a hash from being given a
// book.
const (
	ShortestPassword = 12
	longestPassword  = 256
)

// CheckPassword returns what is wrong with a new password for an address, or
// nothing. No rule asks for kinds of characters: NIST SP 800-63B §5.1.1.2
// advises against it.
func CheckPassword(password, email string) Fault {
	n := utf8.RuneCountInString(password)
	switch {
	case n < ShortestPassword:
		return TooShort
	case n > longestPassword || !utf8.ValidString(password):
		return TooLong
	case ownName(password, email):
		return OwnName
	case common(password):
		return TooCommon
	}
	return ""
}

// ownName tells whether a password holds the address or most of its name.
func ownName(password, email string) bool {
	p := plain(password)
	name, _, _ := strings.Cut(email, "@")
	for _, own := range []string{email, name} {
		if own = plain(own); len(own) >= 4 && strings.Contains(p, own) && len(p)-len(own) < ShortestPassword-4 {
			return true
		}
	}
	return false
}

// plain is a text in small letters and digits, as a guesser folds it.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r >= utf8.RuneSelf:
			return r
		}
		return -1
	}, strings.ToLower(s))
}

//go:embed common.txt
var commonText string

// common tells whether a password is one that is tried first: a run of keys or
// digits, or nothing but words of the list, one after the other, with digits
// between and round them. So the words stand for all their pairs and threes
// as well, which are some millions.
func common(password string) bool {
	p := plain(password)
	bare := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, p)
	if run(p) || bare == "" {
		return true
	}
	words := commonWords()
	return made(p, words, 0) || made(bare, words, 0)
}

func commonWords() []string {
	var out []string
	for s := bufio.NewScanner(strings.NewReader(commonText)); s.Scan(); {
		if word := strings.TrimSpace(s.Text()); word != "" && !strings.HasPrefix(word, "#") {
			out = append(out, word)
		}
	}
	return out
}

// mostInARow is how many words of the list in a row are still one guess; a text
// that says one word again and again may be longer.
const mostInARow = 3

// made tells whether a text is nothing but words of the list.
func made(text string, words []string, used int) bool {
	if text == "" {
		return used > 0
	}
	for _, w := range words {
		rest, ok := strings.CutPrefix(text, w)
		if !ok {
			continue
		}
		if strings.Repeat(w, len(text)/len(w)) == text || used < mostInARow && made(rest, words, used+1) {
			return true
		}
	}
	// Digits may stand anywhere between.
	rest := strings.TrimLeft(text, "0123456789")
	return rest != text && (rest != "" || used > 0) && made(rest, words, used)
}

// run tells whether each character follows from the one before it by the same
// step: aaaaaaaaaaaa, 123456789012, abcdefghijkl.
func run(p string) bool {
	if len(p) < 3 {
		return true
	}
	for step := -1; step <= 1; step++ {
		same := true
		for i := 1; i < len(p) && same; i++ {
			d := int(p[i]) - int(p[i-1])
			same = d == step || step != 0 && p[i-1] == '9' && p[i] == '0' || step != 0 && p[i-1] == '0' && p[i] == '9'
		}
		if same {
			return true
		}
	}
	return false
}
