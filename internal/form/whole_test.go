package form_test

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/measure"
)

// wander makes a pond by pressing buttons at random.
func wander(r *rand.Rand) form.State {
	s := form.New(form.Demo())
	fields := every()
	for range 60 {
		f := fields[r.IntN(len(fields))]
		if choices := s.Choices(f); len(choices) > 0 {
			s = s.With(f, choices[r.IntN(len(choices))])
			continue
		}
		s = s.Step(f, 1-2*r.IntN(2))
	}
	if r.IntN(2) == 0 {
		s = s.With(form.Units, string(measure.Metric))
	}
	return s.With(form.ZoneAt, "12").With(form.Cut, "270,95")
}

func TestOpened_IsTheSamePond(t *testing.T) {
	t.Parallel()
	for seed := range uint64(300) {
		s := wander(rand.New(rand.NewPCG(seed, 1)))
		got, whole := form.Opened(form.Demo(), s.Answers())
		want, _ := s.Design()
		have, faults := got.Design()
		if !whole || len(faults) > 0 || !reflect.DeepEqual(have, want) || got.System != s.System {
			t.Fatalf("seed %d: whole %v, faults %v\n%+v\nwant\n%+v", seed, whole, faults, have, want)
		}
		if !reflect.DeepEqual(got.Answers(), s.Answers()) {
			t.Fatalf("seed %d: %v", seed, got.Answers())
		}
	}
}

// A small pond cannot be reached from the large one by one answer at a time.
func TestOpened_TakesTheAnswersTogether(t *testing.T) {
	t.Parallel()
	got, whole := form.Opened(form.Demo(), []form.Pair{{Name: "length", Value: "3.6m"}, {Name: "width", Value: "3.2m"},
		{Name: "deep", Value: "1m"}, {Name: "beach", Value: "none"}})
	if !whole || got.Value(form.Length) != 3.6 || got.Value(form.Deep) != 1 {
		t.Errorf("whole %v, %v m long, %v m deep", whole, got.Value(form.Length), got.Value(form.Deep))
	}
}

func TestOpened_TakesWhatItCan(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, name, value string
	}{
		{"a name it does not know", "moon", "full"},
		{"a pump the builder no longer has", "model", "gone_7"},
		{"text that is no length", "width", "wide"},
		{"a size that cannot be", "width", "9000m"},
	} {
		got, whole := form.Opened(form.Demo(), []form.Pair{{Name: "length", Value: "12m"}, {Name: c.name, Value: c.value}})
		d, faults := got.Design()
		if whole || len(faults) > 0 || d.Outline.LengthM != 12 {
			t.Errorf("%s: whole %v, faults %v, %v m long", c.why, whole, faults, d.Outline.LengthM)
		}
	}
}
