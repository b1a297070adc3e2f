package say_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/say"
)

// sounds counts the syllables of a Spanish word: each vowel begins one, but for
// those that run together with the vowel before.
func sounds(word string) int {
	letters := []rune(strings.ToLower(word))
	if last := len(letters) - 1; last > 0 && letters[last] == 'y' {
		letters[last] = 'i' // muy, hay
	}
	n, before := 0, 'x'
	for _, r := range letters {
		if vowel(r) && (!vowel(before) || parted(before, r)) {
			n++
		}
		before = r
	}
	return max(n, 1)
}

func vowel(r rune) bool { return strings.ContainsRune("aeiouáéíóúü", r) }

// parted tells whether two vowels belong to two syllables: both strong, or one
// of them weak with an accent beside a strong one.
func parted(a, b rune) bool {
	strong := func(r rune) bool { return strings.ContainsRune("aeoáéó", r) }
	stressed := func(r rune) bool { return r == 'í' || r == 'ú' }
	return strong(a) && strong(b) || strong(a) && stressed(b) || stressed(a) && strong(b)
}

// ease is how easy a Spanish text is to read by Fernández Huerta (1959), with
// words a sentence as later authors read it; formula and bands are from memory:
//
//	206.84 − 0.60 syllables/100 words − 1.02 words/sentence
//
// 60 to 70 is what grades seven and eight read, 70 to 80 grade six.
func ease(text string) (score float64, words int) {
	text = regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(text, "4 ft")
	sentences, sound := 0, 0
	for _, s := range regexp.MustCompile(`[.!?]+(\s|$)`).Split(text, -1) {
		if strings.TrimSpace(s) != "" {
			sentences++
		}
	}
	for _, w := range regexp.MustCompile(`[\p{L}\p{N}]+`).FindAllString(text, -1) {
		words++
		sound += sounds(w)
	}
	if words == 0 || sentences == 0 {
		return 100, 0
	}
	return 206.84 - 60*float64(sound)/float64(words) - 1.02*float64(words)/float64(sentences), words
}

// Words and a sentence parted by hand: 10 words, 15 syllables, 1 sentence.
func TestEase_OfKnownWords(t *testing.T) {
	t.Parallel()
	for word, want := range map[string]int{"agua": 2, "día": 2, "estanque": 3, "muy": 1, "guijarros": 3, "aéreo": 4, "renovación": 4, "playa": 2, "raíz": 2, "y": 1, "cuidado": 3, "leer": 2, "oeste": 3, "ahora": 3} {
		if got := sounds(word); got != want {
			t.Errorf("%s has %d syllables, want %d", word, got, want)
		}
	}
	got, words := ease("El gato duerme en la casa y mira el jardín.")
	if want := 206.84 - 0.60*150 - 1.02*10; words != 10 || math.Abs(got-want) > 0.01 {
		t.Errorf("%.2f over %d words, want %.2f over 10", got, words, want)
	}
}

func TestSpanish_ReadsAtGradeEight(t *testing.T) {
	t.Parallel()
	const least = 60.0
	var all strings.Builder
	for key, text := range texts(say.SpanishAlone()) {
		score, words := ease(text)
		if words < 8 || apart(key) {
			continue
		}
		all.WriteString(text + " ")
		if score < least {
			t.Errorf("%s reads at %.0f, less than %.0f: %s", key, score, least, text)
		}
	}
	score, words := ease(all.String())
	t.Logf("%d words at %.0f", words, score)
	if words < 500 || score < least {
		t.Errorf("%d words at %.0f, want at least 500 words and %.0f", words, score, least)
	}
}
