// Package qr turns a text into a QR code as the outline of its dark modules.
package qr

import (
	"errors"
	"fmt"
	"strconv"

	"rsc.io/qr/coding"
)

// Code is a QR code. Path fills its dark modules, each one unit wide, and
// leaves the quiet zone around them free; Size is the width of the whole.
type Code struct {
	Path string
	Size int
}

// ErrLong says that a text does not fit any code.
var ErrLong = errors.New("too long for a QR code")

// quiet is the width of the quiet zone in modules (ISO/IEC 18004).
const quiet = 4

// Draw makes the smallest code of a text that still reads with a seventh of
// it spoilt (level M).
func Draw(text string) (Code, error) {
	const level = coding.M
	words := coding.String(text)
	v := coding.Version(coding.MinVersion)
	for words.Bits(v) > v.DataBytes(level)*8 {
		if v++; v > coding.MaxVersion {
			return Code{}, ErrLong
		}
	}
	var best *coding.Code
	least := 0
	for mask := coding.Mask(0); mask < 8; mask++ {
		plan, err := coding.NewPlan(v, level, mask)
		if err != nil {
			return Code{}, fmt.Errorf("lay out a QR code: %w", err)
		}
		c, err := plan.Encode(words)
		if err != nil {
			return Code{}, fmt.Errorf("fill a QR code: %w", err)
		}
		if p := blemishes(c); best == nil || p < least {
			best, least = c, p
		}
	}
	return Code{Path: outline(best), Size: best.Size + 2*quiet}, nil
}

// blemishes counts what makes a code hard to read: long runs and full squares
// of one colour (the first two rules of ISO/IEC 18004 for choosing a mask).
func blemishes(c *coding.Code) int {
	total := 0
	for i := range c.Size {
		total += runs(c.Size, func(k int) bool { return c.Black(k, i) }) + runs(c.Size, func(k int) bool { return c.Black(i, k) })
	}
	for y := 1; y < c.Size; y++ {
		for x := 1; x < c.Size; x++ {
			if b := c.Black(x, y); b == c.Black(x-1, y) && b == c.Black(x, y-1) && b == c.Black(x-1, y-1) {
				total += 3
			}
		}
	}
	return total
}

// runs charges 3 for five modules of one colour in a row and 1 for each more.
func runs(n int, dark func(int) bool) int {
	total, length := 0, 1
	for k := 1; k < n; k++ {
		if dark(k) != dark(k-1) {
			length = 1
			continue
		}
		switch length++; {
		case length == 5:
			total += 3
		case length > 5:
			total++
		}
	}
	return total
}

// outline draws each run of dark modules in a row as one rectangle.
func outline(c *coding.Code) string {
	var b []byte
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			from := x
			for c.Black(x, y) {
				x++
			}
			if x == from {
				continue
			}
			b = append(b, 'M')
			b = strconv.AppendInt(b, int64(from+quiet), 10)
			b = append(b, ' ')
			b = strconv.AppendInt(b, int64(y+quiet), 10)
			b = append(b, 'h')
			b = strconv.AppendInt(b, int64(x-from), 10)
			b = append(b, "v1h-"...)
			b = strconv.AppendInt(b, int64(x-from), 10)
			b = append(b, 'z')
		}
	}
	return string(b)
}
