// Package toll is the small work that a page does for an enquiry while the
// person writes it: cheap for one, dear for ten thousand. It is bound to the
// enquiry's key, which stands for one enquiry only, so it needs no word from
// the server and waits on a tablet as long as the enquiry does. What it proves
// is weighed by package sieve.
package toll

import (
	"math/bits"
	"strconv"
)

// TrapField is a form field that people neither see nor reach, and that browsers
// have nothing to fill in for. A program that fills in every field gives itself
// away.
const TrapField = "topic"

// Bits is how many zero bits a hash must begin with: 65,536 tries on average,
// a tenth of a second on a laptop and half a second on a slow phone. Common
// practice, no source.
const Bits = 16

// Work looks for the number that pays for a key.
type Work struct {
	seed [8]uint32 // makes the tries of one key worthless for every other
	k    block
	next uint64
}

// For starts the work for a key.
func For(key string) *Work { return &Work{seed: sum("tarnwright enquiry\n" + key), k: rounds()} }

// Try makes some tries and returns the proof once it is found.
func (w *Work) Try(times int) (proof string, found bool) {
	for range times {
		n := w.next
		w.next++
		if w.zeros(n) >= Bits {
			return strconv.FormatUint(n, 10), true
		}
	}
	return "", false
}

// Paid tells whether a proof pays for a key.
func Paid(key, proof string) bool {
	n, err := strconv.ParseUint(proof, 10, 64)
	return err == nil && For(key).zeros(n) >= Bits
}

// zeros is how many zero bits the hash of a try begins with: that of the seed
// and the number, 40 bytes, which one block holds.
func (w *Work) zeros(n uint64) int {
	m := block{8: uint32(n >> 32), 9: uint32(n), 10: 0x80000000, 15: 40 * 8}
	copy(m[:8], w.seed[:])
	h := step(begin(), &m, &w.k)
	return bits.LeadingZeros64(uint64(h[0])<<32 | uint64(h[1]))
}
