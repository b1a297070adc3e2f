package say

// compareEnglish is what stands where ponds are set side by side.
func compareEnglish() map[string]string {
	return map[string]string{
		"figure.value.ten_years": "Ten years, all told",
		"how.value.ten_years":    "The likely budget, ten years of the better pump and ten years of water at today’s price. Repairs and care are left out.",
		"figure.value.per_m2":    "Ten years, for each part of the surface",
		"how.value.per_m2":       "Ten years, all told, by the surface of the water.",
	}
}
