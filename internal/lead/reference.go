package lead

import (
	"errors"
	"strings"
)

// ErrReference says that a text is not a reference, or has a slip in it.
var ErrReference = errors.New("not a reference, such as AR-7F3K2Q")

// alphabet is Crockford's base 32: no I, L, O, U, so that a reference read
// over the phone is heard right.
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

const symbols = 5 // before the check symbol: 33,554,432 references

// Reference writes a number below 2^25 as a reference: the builder's two
// letters, five symbols and a check symbol. Any one wrong symbol, and any two
// swapped, make the check fail, because the check is a sum over GF(32) with a
// different weight for each place.
func Reference(prefix string, number uint32) string {
	var s [symbols + 1]byte
	check := byte(0)
	for i := symbols - 1; i >= 0; i-- {
		v := byte(number & 31)
		number >>= 5
		check ^= times(v, weight(i))
		s[i] = alphabet[v]
	}
	s[symbols] = alphabet[check]
	return prefix + "-" + string(s[:])
}

// ReadReference takes a reference as people write it: small letters, O for 0,
// I or L for 1, with or without the dash, and gives it in the one way it is
// stored.
func ReadReference(prefix, typed string) (string, error) {
	heard := strings.NewReplacer("-", "", " ", "", "O", "0", "I", "1", "L", "1")
	s := heard.Replace(strings.ToUpper(strings.TrimSpace(typed)))
	if start := heard.Replace(prefix); len(s) > symbols+1 {
		s = strings.TrimPrefix(s, start)
	}
	if len(s) != symbols+1 {
		return "", ErrReference
	}
	sum := byte(0)
	for i := range symbols + 1 {
		v := strings.IndexByte(alphabet, s[i])
		if v < 0 {
			return "", ErrReference
		}
		if i < symbols {
			sum ^= times(byte(v), weight(i))
		} else {
			sum ^= byte(v)
		}
	}
	if sum != 0 {
		return "", ErrReference
	}
	return prefix + "-" + s, nil
}

// weight is α^(place+1), α a root of x⁵ + x² + 1; the check symbol's own
// weight is 1. All are different, so two swapped symbols cannot cancel.
func weight(place int) byte {
	w := byte(1)
	for range place + 1 {
		w = times(w, 2)
	}
	return w
}

// times multiplies in GF(32) modulo x⁵ + x² + 1.
func times(a, b byte) byte {
	const modulus = 0b100101
	p := byte(0)
	for ; b > 0; b >>= 1 {
		if b&1 == 1 {
			p ^= a
		}
		if a <<= 1; a&32 != 0 {
			a ^= modulus
		}
	}
	return p
}

// Prefix is the two letters of a builder's references: the initials of the
// name's first two words, or its first two letters.
func Prefix(name string) string {
	var initials, all []rune
	for _, word := range strings.Fields(strings.ToUpper(name)) {
		first := true
		for _, r := range word {
			if r < 'A' || r > 'Z' {
				continue
			}
			if all = append(all, r); first {
				initials, first = append(initials, r), false
			}
		}
	}
	letters := append(initials[:min(len(initials), 2)], 'P', 'D')
	if len(initials) < 2 && len(all) >= 2 {
		letters = all
	}
	return string(letters[:2])
}
