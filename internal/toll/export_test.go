package toll

import "encoding/binary"

// Sum is the hash of a text as bytes.
func Sum(text string) (out [32]byte) {
	for i, w := range sum(text) {
		binary.BigEndian.PutUint32(out[4*i:], w)
	}
	return out
}
