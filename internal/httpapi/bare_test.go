package httpapi

import "testing"

// A style sheet is served without what only its writer reads.
func TestBare_KeepsEveryRule(t *testing.T) {
	t.Parallel()
	in := "/* Ground\n   and ink. */\n.a { color: red; } /* why */ .b { color: blue; }\n\n@media print {\n  .c { background: url(\"data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg'/%3E\"); }\n}\n/* end"
	want := ".a { color: red; }  .b { color: blue; }\n@media print {\n.c { background: url(\"data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg'/%3E\"); }\n}\n"
	if got := string(bare([]byte(in))); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
