// Package link packs the answers of one pond into the fragment of an address,
// "d=1.…", and unpacks them: short, versioned and checked, so that a link that
// a messaging app cut off is found out. A version's codes and starting answers
// never change, so every old link keeps its pond. Nothing about a person has a
// code.
package link

import (
	"encoding/base64"
	"errors"
	"strings"
)

// Pair is the name of a question and its answer, exact and in SI.
type Pair struct{ Name, Value string }

// Name is what stands before a link's text in a fragment.
const Name = "d="

// What can be wrong with a link.
var (
	ErrDamaged = errors.New("the link is damaged")
	ErrNewer   = errors.New("the link is of a later version")
)

const (
	version  = "1."
	maxText  = 4096 // characters of a link that are read
	maxValue = 2000 // bytes of one answer
	sumBytes = 4
)

// Encode is the fragment of the answers. Answers that are the version's own
// are left out, and so is a name without a code.
func Encode(pairs []Pair) string {
	var body []byte
	for _, q := range questions() {
		for _, p := range pairs {
			if p.Name == q.name && p.Value != q.start && len(p.Value) <= maxValue {
				body = append(body, q.code)
				body = appendLength(body, len(p.Value))
				body = append(body, p.Value...)
				break
			}
		}
	}
	// Programs that find links in a text leave out a mark at the end.
	for {
		text := version + base64.RawURLEncoding.EncodeToString(append(sum(body), body...))
		if last := text[len(text)-1]; last != '-' && last != '_' {
			return Name + text
		}
		body = append(body, padding)
	}
}

// padding is a code without an answer.
const padding = 0

// Decode gives every answer of a fragment, those that the version starts from
// among them. Codes that this program does not know yet are left out, and
// known is false.
func Decode(fragment string) (pairs []Pair, known bool, err error) {
	text, ok := strings.CutPrefix(strings.TrimPrefix(fragment, "#"), Name)
	if !ok || len(text) > maxText {
		return nil, false, ErrDamaged
	}
	packed, ok := strings.CutPrefix(text, version)
	if !ok {
		if laterVersion(text) {
			return nil, false, ErrNewer
		}
		return nil, false, ErrDamaged
	}
	raw, err := base64.RawURLEncoding.Strict().DecodeString(packed)
	if err != nil || len(raw) < sumBytes || string(sum(raw[sumBytes:])) != string(raw[:sumBytes]) {
		return nil, false, ErrDamaged
	}
	return answers(raw[sumBytes:])
}

// laterVersion tells a version's number from anything else.
func laterVersion(text string) bool {
	number, _, ok := strings.Cut(text, ".")
	if !ok || number == "" || len(number) > 3 {
		return false
	}
	return strings.Trim(number, "0123456789") == "" && number[0] != '0'
}

func answers(body []byte) (pairs []Pair, known bool, err error) {
	told := map[byte]string{}
	known = true
	for len(body) > 0 {
		code := body[0]
		body = body[1:]
		if code == padding {
			continue
		}
		n, rest, ok := readLength(body)
		if !ok || n > maxValue || n > len(rest) {
			return nil, false, ErrDamaged
		}
		if _, twice := told[code]; twice {
			return nil, false, ErrDamaged
		}
		told[code] = string(rest[:n])
		body = rest[n:]
	}
	for _, q := range questions() {
		value, changed := told[q.code]
		if !changed {
			value = q.start
		}
		delete(told, q.code)
		pairs = append(pairs, Pair{q.name, value})
	}
	return pairs, known && len(told) == 0, nil
}

// appendLength writes a length in sevens of bits, the lowest first.
func appendLength(b []byte, n int) []byte {
	for ; n >= 0x80; n >>= 7 {
		b = append(b, byte(n)|0x80)
	}
	return append(b, byte(n))
}

func readLength(b []byte) (n int, rest []byte, ok bool) {
	for i := 0; i < len(b) && i < 2; i++ {
		n |= int(b[i]&0x7f) << (7 * i)
		if b[i] < 0x80 {
			return n, b[i+1:], true
		}
	}
	return 0, nil, false
}

// sum is the CRC-32 of ISO 3309, the lowest byte last.
func sum(body []byte) []byte {
	const polynomial = 0xedb88320
	crc := ^uint32(0)
	for _, b := range body {
		crc ^= uint32(b)
		for range 8 {
			crc = crc>>1 ^ polynomial&-(crc&1)
		}
	}
	crc = ^crc
	return []byte{byte(crc >> 24), byte(crc >> 16), byte(crc >> 8), byte(crc)}
}
