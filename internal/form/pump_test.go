package form_test

import (
	"net/url"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
)

func listed() form.Defaults {
	d := form.Demo()
	d.Pumps = []form.Listed{
		{ID: "P-100", Name: "Pump P-100", Drive: design.SingleSpeed},
		{ID: "V-100", Name: "Pump V-100", Drive: design.VariableSpeed},
	}
	return d
}

// The pump from the list and its kind are two answers to one question, so that
// whichever was given last must win, with script and without.
func TestPump_TheListAndTheKindAgree(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, address    string
		model, kind, id string
		drive           design.Drive
	}{
		{"nothing asked", "", "auto", "single", "", design.SingleSpeed},
		{"a pump from the list brings its kind", "model=V-100", "V-100", "variable", "V-100", design.VariableSpeed},
		{"also beside the kind that stood there", "sent=1&had=auto&pump=single&model=V-100", "V-100", "variable", "V-100", design.VariableSpeed},
		{"a kind that does not go with it lets it go", "sent=1&had=V-100&pump=single&model=V-100", "auto", "single", "", design.SingleSpeed},
		{"a kind that goes with it leaves it", "sent=1&had=P-100&pump=single&model=P-100", "P-100", "single", "P-100", design.SingleSpeed},
		{"small letters will do", "model=v-100", "V-100", "variable", "V-100", design.VariableSpeed},
		{"a pump that nobody knows is a fault", "model=Q-1", "auto", "single", "", design.SingleSpeed},
		{"an offered change of all", "set=model%3DV-100%3Bpumps%3D2%3Bpipe%3D4", "V-100", "variable", "V-100", design.VariableSpeed},
	} {
		v, err := url.ParseQuery(c.address)
		if err != nil {
			t.Fatal(err)
		}
		s := form.Read(v, listed())
		d, _ := s.Design()
		if s.Word(form.Model) != c.model || s.Word(form.Pump) != c.kind || d.Circulation.Pump != c.id || d.Circulation.Drive != c.drive {
			t.Errorf("%s: %s of kind %s, pump %q of drive %s", c.why, s.Word(form.Model), s.Word(form.Pump), d.Circulation.Pump, d.Circulation.Drive)
		}
		again := form.Read(s.Values(), listed())
		if len(s.Faults()) == 0 && (again.Word(form.Model) != c.model || again.Word(form.Pump) != c.kind) {
			t.Errorf("%s: its address %q reads back as %s, %s", c.why, s.Values().Encode(), again.Word(form.Model), again.Word(form.Pump))
		}
	}
	s := form.New(listed()).With(form.Model, "V-100").With(form.Pump, "single").With(form.Pumps, "2")
	d, _ := s.Design()
	if s.Word(form.Model) != form.Auto || d.Circulation.PumpCount != 2 || d.Circulation.Drive != design.SingleSpeed {
		t.Errorf("one after the other: %s, %+v", s.Word(form.Model), d.Circulation)
	}
}
