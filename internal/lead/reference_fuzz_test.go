package lead_test

import (
	"testing"

	"tarnwright/internal/lead"
)

// What is read as a reference is written in one way only, and reads so again.
func FuzzReadReference(f *testing.F) {
	f.Add("FP", "FP-7F3K2Q")
	f.Add("OL", "ol 0i1lo0")
	f.Add("", "ééééééé")
	f.Fuzz(func(t *testing.T, builder, typed string) {
		prefix := lead.Prefix(builder)
		ref, err := lead.ReadReference(prefix, typed)
		if err != nil {
			return
		}
		if again, err := lead.ReadReference(prefix, ref); err != nil || again != ref {
			t.Errorf("%q reads as %q, and that as %q, %v", typed, ref, again, err)
		}
	})
}
