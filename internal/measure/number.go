package measure

import (
	"math"
	"strconv"
	"strings"
)

// plain brings a typed text to lower-case ASCII where it can: spaces of every
// width, full-width signs, primes, dashes, vulgar fractions, superscripts.
func plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		if s, ok := spelled(r); ok {
			b.WriteString(s)
			continue
		}
		if r >= 0xFF01 && r <= 0xFF5E { // full-width forms of ASCII
			r -= 0xFEE0
		}
		b.WriteRune(r)
	}
	t := strings.ToLower(b.String())
	t = strings.ReplaceAll(t, "''", `"`)
	return strings.TrimSpace(strings.Join(strings.Fields(t), " "))
}

// spelled writes one rune in ASCII.
func spelled(r rune) (string, bool) {
	switch r {
	case '\u00a0', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f', '\u3000', '\t', '\n', '\r':
		return " ", true
	case '\u200b', '\u200e', '\u200f', '\ufeff':
		return "", true
	case '′', '’', '‘', '´', '`', 'ʹ':
		return "'", true
	case '″', '”', '“', '〃':
		return `"`, true
	case '−', '–', '—', '‐', '‑':
		return "-", true
	case '⁄', '∕', '÷':
		return "/", true
	case '²':
		return "2", true
	case '³':
		return "3", true
	case '∶':
		return ":", true
	case '٫':
		return ".", true
	}
	return vulgar(r)
}

// vulgar spells the fractions that have a sign of their own; the blank keeps
// 6½ apart from 61/2.
func vulgar(r rune) (string, bool) {
	const signs = "½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒"
	if !strings.ContainsRune(signs, r) {
		return "", false
	}
	texts := strings.Fields("1/2 1/4 3/4 1/8 3/8 5/8 7/8 1/3 2/3 1/5 2/5 3/5 4/5 1/6 5/6 1/7 1/9 1/10")
	i := 0
	for _, s := range signs {
		if s == r {
			return " " + texts[i] + " ", true
		}
		i++
	}
	return "", false
}

// decimal reads one number without sign or fraction: 12, 12.5, 12,5, .5,
// 1,234.5, 1.234,5, 1,234,567, 1 234 567. A single comma before three digits
// can be either sign, so it is ambiguous.
func decimal(t string) (float64, Fault) {
	text, fault := decimalText(t)
	if fault != OK {
		return 0, fault
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, NotANumber
	}
	return x, OK
}

// decimalText is decimal, as text with a dot, for money.
func decimalText(t string) (string, Fault) {
	if t == "" {
		return "", Empty
	}
	for _, r := range t {
		if (r < '0' || r > '9') && r != '.' && r != ',' && r != ' ' {
			return "", NotANumber
		}
	}
	if !strings.ContainsAny(t, "0123456789") || len(t) > 24 {
		return "", NotANumber
	}
	if strings.Contains(t, " ") {
		head, tail, _ := strings.Cut(strings.ReplaceAll(t, ",", "."), ".")
		if !grouped(head, " ") || strings.ContainsAny(tail, " .") {
			return "", NotANumber
		}
		t = strings.ReplaceAll(t, " ", "")
	}
	dots, commas := strings.Count(t, "."), strings.Count(t, ",")
	switch {
	case dots > 0 && commas > 0:
		return bothSigns(t)
	case dots > 1:
		return oneGroup(t, ".")
	case commas > 1:
		return oneGroup(t, ",")
	case commas == 1:
		head, tail, _ := strings.Cut(t, ",")
		if len(tail) == 3 && len(head) >= 1 && len(head) <= 3 && head != "0" {
			return "", Ambiguous
		}
		return dotted(head, tail)
	}
	head, tail, _ := strings.Cut(t, ".")
	return dotted(head, tail)
}

func dotted(head, tail string) (string, Fault) {
	if head == "" {
		head = "0"
	}
	if tail == "" {
		return head, OK
	}
	return head + "." + tail, OK
}

// bothSigns reads 1,234.5 and 1.234,5: the last sign is the decimal one.
func bothSigns(t string) (string, Fault) {
	group, point := ",", "."
	if strings.LastIndex(t, ",") > strings.LastIndex(t, ".") {
		group, point = ".", ","
	}
	head, tail, _ := strings.Cut(t, point)
	if strings.ContainsAny(tail, ".,") || !grouped(head, group) {
		return "", NotANumber
	}
	return dotted(strings.ReplaceAll(head, group, ""), tail)
}

func oneGroup(t, sign string) (string, Fault) {
	if !grouped(t, sign) {
		return "", NotANumber
	}
	return strings.ReplaceAll(t, sign, ""), OK
}

// grouped tells whether the parts between signs are one to three digits and
// then threes.
func grouped(t, sign string) bool {
	parts := strings.Split(t, sign)
	for i, p := range parts {
		if (i > 0 && len(p) != 3) || (i == 0 && (p == "" || (len(parts) > 1 && len(p) > 3))) {
			return false
		}
	}
	return true
}

// number reads a decimal, a fraction or both: 6 1/2.
func number(t string) (float64, Fault) {
	t = strings.TrimSpace(t)
	if t == "" {
		return 0, Empty
	}
	slash := strings.Index(t, "/")
	if slash < 0 {
		return decimal(t)
	}
	head, top := "", strings.TrimSpace(t[:slash])
	if i := strings.LastIndex(top, " "); i >= 0 {
		head, top = top[:i], top[i+1:]
	}
	num, ok1 := whole(top)
	den, ok2 := whole(strings.TrimSpace(t[slash+1:]))
	if !ok1 || !ok2 || den == 0 || num >= den {
		return 0, NotANumber
	}
	part := float64(num) / float64(den)
	if head == "" {
		return part, OK
	}
	units, ok := whole(strings.TrimSpace(head))
	if !ok {
		return 0, NotANumber
	}
	return float64(units) + part, OK
}

func whole(t string) (int, bool) {
	if t == "" || len(t) > 9 {
		return 0, false
	}
	n := 0
	for _, r := range t {
		if r < '0' || r > '9' {
			return 0, false
		}
		n = n*10 + int(r-'0')
	}
	return n, true
}

// sign cuts a leading sign.
func sign(t string) (factor float64, rest string) {
	switch {
	case strings.HasPrefix(t, "-"):
		return -1, strings.TrimSpace(t[1:])
	case strings.HasPrefix(t, "+"):
		return 1, strings.TrimSpace(t[1:])
	}
	return 1, t
}

// tidy rounds to a billionth, which takes away what multiplying by a
// definition added in the last bits: 6.5 × 0.3048 is 1.9812.
func tidy(x float64) float64 {
	const steps = 1e9
	if math.Abs(x) > 1e6 {
		return x
	}
	return math.Round(x*steps) / steps
}
