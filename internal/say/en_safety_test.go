package say

import (
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/safety"
)

// Every rule of the core has its words, they name no figure that the rule does
// not rest on, each figure is named, and nothing is worded that is no rule.
func TestSafetyEnglish_WordsEachRule(t *testing.T) {
	t.Parallel()
	words := safetyEnglish()
	spare := map[string]bool{}
	for key := range words {
		spare[key] = true
	}
	for _, r := range safety.Core() {
		all := ""
		for _, part := range []string{".title", ".text", ".defers"} {
			key := "finding." + r.ID + part
			if words[key] == "" {
				t.Errorf("%s has no words", key)
			}
			delete(spare, key)
			all += words[key]
		}
		for i := range 5 {
			if named := strings.Contains(all, "{"+strconv.Itoa(i)+"}"); named != (i < len(r.Figures)) {
				t.Errorf("%s: figure %d is named %v, and the rule has %d", r.ID, i, named, len(r.Figures))
			}
		}
		if n := len([]rune(words["finding."+r.ID+".title"])); n > 36 {
			t.Errorf("%s: a title of %d letters", r.ID, n)
		}
	}
	for key := range spare {
		t.Errorf("%s words no rule", key)
	}
}
