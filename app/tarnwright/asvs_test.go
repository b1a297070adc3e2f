package main

import (
	"encoding/hex"
	"testing"
)

// What nobody may guess, an id of a request or of a form, has 128 random bits.
func TestASVS_IDsHave128RandomBits(t *testing.T) {
	t.Parallel()
	var ones, zeros [16]byte
	for range 1000 {
		raw, err := hex.DecodeString(randomID())
		if err != nil || len(raw) != len(ones) {
			t.Fatalf("%x, %v", raw, err)
		}
		for i, b := range raw {
			ones[i] |= b
			zeros[i] |= ^b
		}
	}
	for i := range ones {
		if ones[i] != 0xff || zeros[i] != 0xff {
			t.Errorf("byte %d does not change in every bit", i)
		}
	}
}
