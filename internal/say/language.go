package say

import (
	"strings"

	"tarnwright/internal/core/source"
	"tarnwright/internal/measure"
)

// Of is a catalogue made of texts by key, as All gives them.
func Of(text map[string]string) Words { return Words{text, source.ByKey()} }

// All is the catalogue as texts by key.
func (w Words) All() map[string]string {
	out := make(map[string]string, len(w.text))
	for k, t := range w.text {
		out[k] = t
	}
	return out
}

// Spanish is the catalogue in Spanish. What it has no words for is in English.
func Spanish() Words { return gathered(append(spanish(), english()...)) }

// SpanishAlone is the catalogue in Spanish with nothing standing in.
func SpanishAlone() Words { return gathered(spanish()) }

// Language is the language's code: "en", "es".
func (w Words) Language() string { return w.text["page.lang"] }

// Shown words the units that are words: 5 days, 1 in 5. Signs of units are the
// same in every language.
func (w Words) Shown(s measure.Shown) measure.Shown {
	tight := strings.Contains(s.Unit, nbsp) && !strings.Contains(s.Unit, " ")
	if text, ok := w.text["unit."+strings.ReplaceAll(s.Unit, nbsp, " ")]; ok && s.Unit != "" {
		s.Unit = text
	}
	if tight {
		s.Unit = strings.ReplaceAll(s.Unit, " ", nbsp)
	}
	if rest, ok := strings.CutSuffix(s.Unit, nbsp+"a"+nbsp+"day"); ok {
		s.Unit = rest + nbsp + strings.ReplaceAll(w.Say("unit.a day"), " ", nbsp)
	}
	if rest, ok := strings.CutPrefix(s.Number, "1"+nbsp+"in"+nbsp); ok {
		s.Number = strings.ReplaceAll(w.Say("unit.one_in", rest), " ", nbsp)
	}
	return s
}

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"
