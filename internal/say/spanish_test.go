package say_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarnwright/internal/measure"
	"tarnwright/internal/say"
)

func placeholders(text string) []string {
	found := regexp.MustCompile(`\{[^}]*\}`).FindAllString(text, -1)
	slices.Sort(found)
	return found
}

// Every key has a Spanish text of its own, with the same figures in it.
func TestSpanish_SaysAllThatEnglishSays(t *testing.T) {
	t.Parallel()
	en, es := say.English(), say.SpanishAlone()
	if en.Language() != "en" || es.Language() != "es" || say.Spanish().Language() != "es" {
		t.Fatalf("languages %q, %q", en.Language(), es.Language())
	}
	for _, key := range en.Keys() {
		if !es.Has(key) {
			t.Errorf("no Spanish for %s: %s", key, en.Say(key))
			continue
		}
		if e, s := placeholders(en.Say(key)), placeholders(es.Say(key)); !slices.Equal(e, s) {
			t.Errorf("%s: figures %v in English, %v in Spanish", key, e, s)
		}
	}
}

// same are texts that are one in both languages: signs, names, numbers.
func same(text string) bool {
	bare := regexp.MustCompile(`\{[^}]*\}|[\d\W_]`).ReplaceAllString(text, "")
	return len(bare) < 4 || slices.Contains([]string{
		"Variable", "Variable {power.variable_cost}", "12 ft 6 in", "158 sq ft", "Valve", "{0}, kWh", "{0} in",
	}, text)
}

func TestSpanish_HasNoEnglishLeft(t *testing.T) {
	t.Parallel()
	en, es := say.English(), say.SpanishAlone()
	english := regexp.MustCompile(`(?i)\b(the|and|of|with|water|pond|your|pump|from|this|is|are|that|year|pipe|depth|not)\b`)
	for _, key := range es.Keys() {
		text := es.Say(key)
		plain := regexp.MustCompile(`\{[^}]*\}|application/json|Idempotency-Key|tarnwright leads`).ReplaceAllString(text, "")
		if m := english.FindString(plain); m != "" && key != "page.other.name" {
			t.Errorf("%s holds the English word %q: %s", key, m, text)
		}
		if en.Has(key) && en.Say(key) == text && !same(text) && !strings.HasPrefix(key, "example.") {
			t.Errorf("%s is the same in both: %s", key, text)
		}
	}
}

// What a figure is shown as keeps its number; only units that are words change.
func TestShown_WordsUnitsInTheReadersLanguage(t *testing.T) {
	t.Parallel()
	en, es := say.English(), say.Spanish()
	for _, c := range []struct{ number, unit, want string }{
		{"5", "days", "5\u00a0días"}, {"1", "month", "1\u00a0mes"}, {"13,000", "gal", "13,000\u00a0gal"},
		{"1,773", "h a year", "1,773\u00a0h al año"}, {"1\u00a0in\u00a05", "", "1\u00a0en\u00a05"},
		{"158", "sq\u00a0ft", "158\u00a0ft²"}, {"57", "cu\u00a0yd", "57\u00a0yd³"}, {"0.6", "gal/min a sq\u00a0ft", "0.6\u00a0gal/min por ft²"}, {"6\u00a0ft\u00a06\u00a0in", "", "6\u00a0ft\u00a06\u00a0in"},
	} {
		s := measure.Shown{Number: c.number, Unit: c.unit}
		if got := es.Shown(s).String(); got != c.want {
			t.Errorf("%v in Spanish is %q, want %q", s, got, c.want)
		}
		if got := en.Shown(s); got != s {
			t.Errorf("%v in English became %v", s, got)
		}
	}
}

// The page says usted to everyone, and writes its accents.
func TestSpanish_SaysUstedAndWritesAccents(t *testing.T) {
	t.Parallel()
	familiar := regexp.MustCompile(`(?i)(^|[^\p{L}])(tú|tu|tus|te|contigo|ti|eres|tienes|puedes|quieres|debes|haz|pon|vosotros|vuestro)([^\p{L}]|$)`)
	bare := regexp.MustCompile(`(?i)(^|[^\p{L}])(tambien|pagina|numero|ultimo|ultima|codigo|electrico|electrica|linea|area|aqui|asi|despues|estan|sera|segun|traves|calculo de|boton|telefono|correo electronico|ningun|algun|facil|dificil|rapido|valvula|succion|excavacion|regeneracion|renovacion|friccion|inspeccion|proteccion|opcion|medicion|atencion|informacion|arbol|maquina|anos?|dias?|pequeno|pequena|nino|ninos|dueno|senal|manana)([^\p{L}]|$)`)
	es := say.SpanishAlone()
	for _, key := range es.Keys() {
		text := regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(es.Say(key), "")
		// “Te” is the fitting as well: a tee.
		if m := familiar.FindStringSubmatch(text); m != nil && !(strings.EqualFold(m[2], "te") && (strings.HasPrefix(key, "part.tee") || key == "part.priming_tee" || strings.Contains(text, "una te "))) {
			t.Errorf("%s says %q: %s", key, m[2], text)
		}
		if m := bare.FindStringSubmatch(text); m != nil {
			t.Errorf("%s writes %q without its accent: %s", key, m[2], text)
		}
	}
}
