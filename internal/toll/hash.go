package toll

import (
	"encoding/binary"
	"math/bits"
)

// The hash is SHA-256 (FIPS 180-4 §6.2), written out because the library's
// brings 40 kB of other ciphers and their self-tests into the page. Nothing
// secret depends on it, and the tests hold it against the library's.

// block is the 512 bits that one step takes, as 16 words, with room for what
// the step derives from them.
type block [64]uint32

// begin is the state that every hash starts from (§5.3.3).
func begin() [8]uint32 {
	return [8]uint32{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}
}

// rounds are the 64 constants of the rounds (§4.2.2).
func rounds() block {
	return block{
		0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
		0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
		0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
		0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
		0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
		0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
		0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
		0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
	}
}

// step takes one block into a state (§6.2.2).
func step(state [8]uint32, w, k *block) [8]uint32 {
	for i := 16; i < 64; i++ {
		x, y := w[i-2], w[i-15]
		w[i] = w[i-16] + w[i-7] +
			(bits.RotateLeft32(x, -17) ^ bits.RotateLeft32(x, -19) ^ x>>10) +
			(bits.RotateLeft32(y, -7) ^ bits.RotateLeft32(y, -18) ^ y>>3)
	}
	a, b, c, d, e, f, g, h := state[0], state[1], state[2], state[3], state[4], state[5], state[6], state[7]
	for i := range 64 {
		t1 := h + (bits.RotateLeft32(e, -6) ^ bits.RotateLeft32(e, -11) ^ bits.RotateLeft32(e, -25)) + (e&f ^ ^e&g) + k[i] + w[i]
		t2 := (bits.RotateLeft32(a, -2) ^ bits.RotateLeft32(a, -13) ^ bits.RotateLeft32(a, -22)) + (a&b ^ a&c ^ b&c)
		h, g, f, e, d, c, b, a = g, f, e, d+t1, c, b, a, t1+t2
	}
	return [8]uint32{state[0] + a, state[1] + b, state[2] + c, state[3] + d, state[4] + e, state[5] + f, state[6] + g, state[7] + h}
}

// sum is the hash of a text, as words.
func sum(text string) [8]uint32 {
	const size, tail = 64, 9 // bytes of a block; of the mark and the length after the text
	padded := make([]byte, (len(text)+tail+size-1)/size*size)
	copy(padded, text)
	padded[len(text)] = 0x80
	binary.BigEndian.PutUint64(padded[len(padded)-8:], uint64(len(text))*8)
	state, k := begin(), rounds()
	for ; len(padded) > 0; padded = padded[size:] {
		var w block
		for i := range 16 {
			w[i] = binary.BigEndian.Uint32(padded[4*i:])
		}
		state = step(state, &w, &k)
	}
	return state
}
