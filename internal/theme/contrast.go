package theme

import "math"

// rgb is a colour as a browser takes it, a byte each.
type rgb struct{ red, green, blue uint8 }

// hex reads "#16342F"; no other way to write a colour is taken.
func hex(s string) (rgb, bool) {
	if len(s) != 7 || s[0] != '#' {
		return rgb{}, false
	}
	var v uint32
	for i := 1; i < len(s); i++ {
		d, ok := digit(s[i])
		if !ok {
			return rgb{}, false
		}
		v = v<<4 | d
	}
	return rgb{uint8(v >> 16), uint8(v >> 8), uint8(v)}, true
}

func digit(c byte) (uint32, bool) {
	switch {
	case c >= '0' && c <= '9':
		return uint32(c - '0'), true
	case c >= 'a' && c <= 'f':
		return uint32(c-'a') + 10, true
	case c >= 'A' && c <= 'F':
		return uint32(c-'A') + 10, true
	}
	return 0, false
}

// luminance is how bright a colour looks beside white, from 0 to 1:
// 0.2126 R + 0.7152 G + 0.0722 B, each c/12.92 up to 0.04045 and
// ((c + 0.055)/1.055)^2.4 above, with c the byte over 255.
//
// Source: WCAG 2.2, definition of relative luminance, with the threshold of
// sRGB (IEC 61966-2-1); for bytes the older 0.03928 gives the same.
// Checked: TestContrast_AgreesWithPublishedPairs.
func luminance(c rgb) float64 {
	return 0.2126*linear(c.red) + 0.7152*linear(c.green) + 0.0722*linear(c.blue)
}

func linear(b uint8) float64 {
	c := float64(b) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// contrast is (L1 + 0.05)/(L2 + 0.05), the brighter first: 1 for two colours
// that are the same, 21 for black on white.
//
// Source: WCAG 2.2, definition of contrast ratio.
// Checked: TestContrast_AgreesWithPublishedPairs.
func contrast(a, b rgb) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}
