package theme

// Depths are the tones of depth, for tests.
func Depths() []string { return depths() }

// ContrastRatio is the contrast of two colours as a file writes them.
func ContrastRatio(a, b string) float64 {
	x, _ := hex(a)
	y, _ := hex(b)
	return contrast(x, y)
}
