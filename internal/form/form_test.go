package form_test

import (
	"net/url"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
)

func TestNew_IsASoundDesign(t *testing.T) {
	t.Parallel()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Errorf("faults = %v, want none", faults)
	}
	if faults := design.Validate(d); len(faults) > 0 {
		t.Errorf("the demo design has faults: %+v", faults)
	}
	if d.Outline.LengthM != 10.3632 || d.Outline.WidthM != 6.4008 || d.Bowl.DeepM != 1.9812 {
		t.Errorf("size = %v × %v × %v m, want 10.3632 × 6.4008 × 1.9812", d.Outline.LengthM, d.Outline.WidthM, d.Bowl.DeepM)
	}
}

func TestUnits_ToggledAHundredTimesLoseNothing(t *testing.T) {
	t.Parallel()
	first := form.New(form.Demo()).With(form.Length, "33 ft 7 1/2 in").With(form.Water, "6.35").With(form.Deep, "abc")
	s := first
	for range 100 {
		s = s.With(form.Units, "metric")
		// The page was sent as a plain form: what it showed comes back.
		v := url.Values{"units": {"us"}}
		for _, p := range s.Hidden() {
			v.Set(p.Name, p.Value)
		}
		for _, f := range []form.Field{form.Shape, form.Length, form.Width, form.Deep, form.Beach, form.BeachSlope, form.Shelf,
			form.Zone, form.ZoneArea, form.Cascade, form.Lip, form.Rise, form.Deck, form.Power, form.Water, form.From, form.To, form.Pump, form.Pipe} {
			v.Set(string(f), s.Text(f))
		}
		s = form.Read(v, form.Demo())
	}
	if a, b := first.Value(form.Length), s.Value(form.Length); a != b {
		t.Errorf("length = %v m after a hundred toggles, want %v m", b, a)
	}
	if a, b := first.Word(form.Water), s.Word(form.Water); a != b {
		t.Errorf("water = %v, want %v", b, a)
	}
	if got := s.Text(form.Deep); got != "abc" {
		t.Errorf("deep shows %q, want what was typed", got)
	}
	t.Log(first.Values().Encode(), s.System, measure.US)
}
