package say_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/say"
)

// syllables counts groups of vowels, less a silent e. It is rough, and errs
// towards more.
func syllables(word string) int {
	word = strings.ToLower(word)
	n, before := 0, false
	for _, r := range word {
		vowel := strings.ContainsRune("aeiouy", r)
		if vowel && !before {
			n++
		}
		before = vowel
	}
	silent := strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") ||
		strings.HasSuffix(word, "es") && !regexp.MustCompile(`(ses|xes|zes|ches|shes|ges|ces)$`).MatchString(word) ||
		strings.HasSuffix(word, "ed") && !regexp.MustCompile(`[td]ed$`).MatchString(word)
	if silent && n > 1 {
		n--
	}
	return max(n, 1)
}

// grade is the Flesch–Kincaid grade level (Kincaid and others, 1975; the
// formula is from memory):
//
//	0.39 words/sentences + 11.8 syllables/words − 15.59
func grade(text string) (level float64, words int) {
	text = regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(text, "4 ft")
	sentences := 0
	for _, s := range regexp.MustCompile(`[.!?]+(\s|$)`).Split(text, -1) {
		if strings.TrimSpace(s) != "" {
			sentences++
		}
	}
	sound := 0
	for _, w := range regexp.MustCompile(`[\p{L}\p{N}’'-]+`).FindAllString(text, -1) {
		words++
		for _, p := range strings.Split(w, "-") {
			if p != "" {
				sound += syllables(p)
			}
		}
	}
	if words == 0 || sentences == 0 {
		return 0, 0
	}
	return 0.39*float64(words)/float64(sentences) + 11.8*float64(sound)/float64(words) - 15.59, words
}

// The known sentence and its grade, worked out by hand: 15 words, 1 sentence,
// 17 syllables.
func TestGrade_OfAKnownSentence(t *testing.T) {
	t.Parallel()
	got, words := grade("The cat sat on the mat by the door and looked at the garden outside.")
	want := 0.39*15 + 11.8*17/15 - 15.59
	if words != 15 || got < want-0.01 || got > want+0.01 {
		t.Errorf("grade = %.2f over %d words, want %.2f over 15", got, words, want)
	}
}

// texts joins what is read together: a finding's title, sentence and last
// word. Figures' names and other labels have no sentence to grade.
func texts(w say.Words) map[string]string {
	out := map[string]string{}
	for _, key := range w.Keys() {
		text := w.Say(key)
		if !strings.HasSuffix(text, ".") {
			text += "."
		}
		whole, last := strings.CutSuffix(key, ".title")
		if !last {
			whole, last = strings.CutSuffix(key, ".text")
		}
		if !last {
			whole, last = strings.CutSuffix(key, ".defers")
		}
		if last && strings.HasPrefix(key, "finding.") {
			out[whole] += text + " "
			continue
		}
		out[key] = text
	}
	return out
}

// apart are texts said to programs and to engineers, and answers to copy.
func apart(key string) bool {
	return strings.HasPrefix(key, "example.") || slices.Contains([]string{"server.key", "server.not_json", "sheet.rough", "sheet.rough.2"}, key)
}

func TestEnglish_ReadsAtGradeEight(t *testing.T) {
	t.Parallel()
	const most = 8.0
	var all strings.Builder
	for key, text := range texts(say.English()) {
		level, words := grade(text)
		if words < 8 || apart(key) {
			continue
		}
		all.WriteString(text + " ")
		if math.Round(level*10)/10 > most {
			t.Errorf("%s reads at grade %.1f, more than %.0f: %s", key, level, most, text)
		}
	}
	level, words := grade(all.String())
	t.Logf("%d words at grade %.1f", words, level)
	if words < 500 || level > most {
		t.Errorf("%d words at grade %.1f, want at least 500 and at most %.0f", words, level, most)
	}
}
