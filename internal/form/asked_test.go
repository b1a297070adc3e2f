package form_test

import (
	"net/url"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/wire"
)

func flat(t *testing.T) func(form.State) form.Leaves {
	return func(s form.State) form.Leaves {
		d, _ := s.Design()
		out, err := wire.Leaves(d)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
}

// Whatever was answered, the answers are found again from the design alone.
func TestAsked_FindsTheAnswersOfADesign(t *testing.T) {
	t.Parallel()
	for _, address := range []string{
		"", "length=30+ft&width=18+ft&deep=7+ft", "shape=round&length=24+ft&beach=none&zone=off", "shape=ell&shelf=off&deck=off&cascade=off",
		"shape=long&units=metric&length=12.5+m&pump=variable&pipe=1.5&discharge=4", "from=Apr&to=Oct&power=0.31&water=9.10", "from=Nov&to=Feb",
		"beach=e&beach_at=80&deck_at=200&zone_at=15&pump_at=300&intake_at=120&cascade_at=40", "fence=on&patio=on&fire_pit=on&pumps=2&beach_slope=7&zone_area=200+sq+ft&lip=6+ft&rise=2+ft",
		"jets=4&nozzle=16&jet_pipe=2", "cascade_hours=5&night=slow&winter=slow", "night=off&from=Apr&to=Oct&cascade_hours=11", "sheet=1.5+in&home_use=900", "bill=average",
		"stairs=on&stairs_at=200", "shape=free&length=30+ft&width=20+ft", "shape=free&handles=520,60%3B360,300%3B40,330%3B-260,250%3B-500,-20%3B-330,-290%3B30,-190%3B340,-280&length=11m&width=6.5m",
	} {
		v, err := url.ParseQuery(address)
		if err != nil {
			t.Fatal(err)
		}
		asked := form.Read(v, form.Demo())
		if faults := asked.Faults(); len(faults) > 0 {
			t.Fatalf("%s: %v", address, faults)
		}
		wanted := flat(t)(asked)
		got, same := form.Asked(form.Demo(), wanted, flat(t))
		if !same {
			t.Errorf("%s: not found again", address)
			back := flat(t)(got)
			for path, text := range wanted {
				if back[path] != text {
					t.Logf("%s is %s, want %s", path, back[path], text)
				}
			}
		}
		// The page is given the answers, and takes them all.
		if opened, whole := form.Opened(form.Demo(), got.Answers()); !whole {
			t.Errorf("%s: the page does not take the answers", address)
		} else if n := len(flat(t)(opened)); n != len(wanted) {
			t.Errorf("%s: opened, it has %d leaves, want %d", address, n, len(wanted))
		}
	}
}

// A design that the questions cannot say is said to be another.
func TestAsked_OwnsUpWhenADesignIsAnother(t *testing.T) {
	t.Parallel()
	d, _ := form.New(form.Demo()).Design()
	d.Bowl.Wall[1].InsetM = 0.5
	wanted, err := wire.Leaves(d)
	if err != nil {
		t.Fatal(err)
	}
	if _, same := form.Asked(form.Demo(), wanted, flat(t)); same {
		t.Error("a wall that nobody can ask for was found")
	}
}

func BenchmarkAsked(b *testing.B) {
	v, _ := url.ParseQuery("shape=ell&shelf=off&from=Apr&to=Oct&units=metric&pipe=4&zone_area=200+sq+ft")
	asked := form.Read(v, form.Demo())
	leaves := func(s form.State) form.Leaves {
		d, _ := s.Design()
		out, _ := wire.Leaves(d)
		return out
	}
	for b.Loop() {
		form.Asked(form.Demo(), leaves(asked), leaves)
	}
}
