package form_test

import (
	"bytes"
	"flag"
	"math"
	"os"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/form"
	"tarnwright/internal/wire"
)

var update = flag.Bool("update", false, "rewrite the demo design")

// What the page opens with and what the command line's demo case holds are one
// design.
func TestDemo_IsTheDemoCase(t *testing.T) {
	t.Parallel()
	const name = "../../testdata/cases/demo/design.json"
	d, _ := form.New(form.Demo()).Design()
	got, err := wire.WriteDesign(d)
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(name, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the form's default design is not %s; got\n%s", name, got)
	}
}

func TestDemo_RunsTheHoursOfItsSeason(t *testing.T) {
	t.Parallel()
	d, _ := form.New(form.Demo()).Design()
	hours := map[design.Mode]int{}
	for _, s := range d.Running.Spans {
		for _, r := range s.Runs {
			hours[r.Mode] += spanDays(t, s) * runHours(t, r)
		}
	}
	// 2026: 153 days of May to September, 61 of April and October, 61 of March
	// and November.
	if want := 153*8 + 61*6 + 61*3; hours[design.CascadeMode] != want {
		t.Errorf("cascade hours = %d a year, want %d", hours[design.CascadeMode], want)
	}
	if want := 153*16 + 61*10 + 61*5; hours[design.QuietMode] != want {
		t.Errorf("quiet hours = %d a year, want %d", hours[design.QuietMode], want)
	}
}

func spanDays(t *testing.T, s design.Span) int {
	t.Helper()
	long := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	m1, d1, ok1 := design.MonthDay(s.From)
	m2, d2, ok2 := design.MonthDay(s.To)
	if !ok1 || !ok2 || m2 < m1 || d1 != 1 {
		t.Fatalf("span %+v is not whole months in order", s)
	}
	n := d2
	for m := m1; m < m2; m++ {
		n += long[m-1]
	}
	return n
}

func runHours(t *testing.T, r design.Run) int {
	t.Helper()
	a, ok1 := design.Minute(r.Start)
	b, ok2 := design.Minute(r.End)
	if !ok1 || !ok2 {
		t.Fatalf("run %+v has no times", r)
	}
	if b <= a {
		b += 24 * 60
	}
	return (b - a) / 60
}

func TestDemo_PipesHaveTheBoreOfTheirStandard(t *testing.T) {
	t.Parallel()
	bores := map[string]float64{}
	for _, b := range hydraulics.Schedule40() {
		bores[strings.Replace(b.NominalIn, "-1/2", ".5", 1)] = b.InsideDiameterM
	}
	for _, p := range form.Demo().Pipes {
		// Held to a hundredth of a millimetre, as printed.
		if want := bores[p.Name]; math.Abs(p.InsideDiameterM-want) > 0.5e-5 {
			t.Errorf("%s in pipe is %v m inside, want %v m", p.Name, p.InsideDiameterM, want)
		}
	}
}

func TestDemo_NamesKnownFittings(t *testing.T) {
	t.Parallel()
	d, _ := form.New(form.Demo()).Design()
	for _, l := range []design.Line{d.Circulation.Suction, d.Circulation.Discharge} {
		for _, f := range l.Fittings {
			if _, ok := hydraulics.FittingCoef(f.Kind, l.InsideDiameterM); !ok {
				t.Errorf("no fitting is called %q", f.Kind)
			}
		}
	}
}
