package say

// printEnglish words the depth marks and the printed page.
func printEnglish() map[string]string {
	return map[string]string{
		"marks.title": "Depth marks round the edge",
		"marks.mark":  "Mark",
		"marks.reads": "Reads",
		"marks.says":  "Each mark reads the water one step out from the edge. Mark 1 is by the deep end. The rest follow against the clock.",
	}
}
