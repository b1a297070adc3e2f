package say

import (
	"sort"
	"testing"
)

func TestEnglish_NoKeyHasTwoTexts(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	var twice []string
	for _, part := range english() {
		for key := range part {
			if seen[key] {
				twice = append(twice, key)
			}
			seen[key] = true
		}
	}
	sort.Strings(twice)
	for _, key := range twice {
		t.Errorf("two parts have a text for %s", key)
	}
}
