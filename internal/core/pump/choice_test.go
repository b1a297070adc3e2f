package pump_test

import (
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/pump"
)

// shop is a catalogue of n pumps, weak to strong, each third of them variable.
func shop(t testing.TB, n int) []pump.Model {
	var all []pump.Model
	for i := range n {
		m := parabola(30+float64(i)*60/float64(n), 0.004, 300+float64(i)*900/float64(n))
		m.ID = "M" + strconv.Itoa(i)
		m.Price = amount(t, strconv.Itoa(200+20*i))
		if i%3 != 0 {
			m.Drive, m.LeastSpeedRatio = design.SingleSpeed, 1
		}
		all = append(all, m)
	}
	return all
}

func question(t testing.TB, models int) pump.Question {
	q := pump.Question{Models: shop(t, models), Counts: []int{1, 2, 3}, FlowM3PerS: 80 * gpm, QuietFlowM3PerS: 40 * gpm, NPSHBeforeLossM: 10,
		Limits: pump.Limits{SuctionMPerS: 1.83, DischargeMPerS: 2.44}}
	for _, bore := range []float64{0.0409, 0.0525, 0.0627, 0.0779, 0.1023, 0.1541} {
		q.Systems = append(q.Systems, pump.System{StaticM: 1, DensityKgPerM3: 998.2,
			Suction:   hydraulics.NewResistance(design.Line{LengthM: 5, InsideDiameterM: bore, RoughnessM: 1.5e-6}, 4, 1e-6),
			Discharge: hydraulics.NewResistance(design.Line{LengthM: 14, InsideDiameterM: bore, RoughnessM: 1.5e-6}, 6, 1e-6)})
	}
	q.Cost = func(o pump.Option) money.Amount {
		w, _ := money.ParseQuantity(strconv.FormatFloat(2.5*o.Wanted.PowerW+5*o.Quiet.PowerW, 'f', 3, 64))
		n, _ := money.ParseQuantity(strconv.Itoa(o.Count))
		one, _ := money.ParsePrice("1")
		return q.Models[o.Model].Price.Times(n).Add(one.Times(w))
	}
	return q
}

// Against looking at every combination one by one with no sorting and no
// memory: the cheapest of the fit must be the first.
func TestChoose_FindsTheCheapestOfTheFit(t *testing.T) {
	t.Parallel()
	q := question(t, 12)
	c := pump.Choose(q)
	if c.Tried != 12*3*6 || len(c.Fit) == 0 {
		t.Fatalf("tried %d, fit %d", c.Tried, len(c.Fit))
	}
	fit := 0
	var best money.Amount
	for i := range q.Models {
		for _, n := range q.Counts {
			for j := range q.Systems {
				one := q
				one.Models, one.Counts, one.Systems = q.Models[i:i+1], []int{n}, q.Systems[j:j+1]
				one.Cost = func(o pump.Option) money.Amount { o.Model = i; return q.Cost(o) }
				if a := pump.Choose(one); len(a.Fit) == 1 {
					fit++
					if best == (money.Amount{}) || a.Fit[0].Cost.Cmp(best) < 0 {
						best = a.Fit[0].Cost
					}
				}
			}
		}
	}
	if fit != len(c.Fit) || best.Cmp(c.Fit[0].Cost) != 0 {
		t.Errorf("%d fit at best %s, want %d at %s", len(c.Fit), c.Fit[0].Cost, fit, best)
	}
	for i, o := range c.Fit {
		if i > 0 && o.Cost.Cmp(c.Fit[i-1].Cost) < 0 {
			t.Errorf("option %d is cheaper than the one before", i)
		}
		if o.Wanted.FlowM3PerS < q.FlowM3PerS*(1-1e-9) || o.SuctionMPerS > q.Limits.SuctionMPerS || o.DischargeMPerS > q.Limits.DischargeMPerS || o.NPSHAvailableM < o.Wanted.NPSHRequiredM {
			t.Errorf("option %d is not fit: %+v", i, o)
		}
		if o.Wanted.PowerW < c.Fit[c.ToRun].Wanted.PowerW {
			t.Errorf("option %d draws less than the one named cheapest to run", i)
		}
	}
}

func TestChoose_SaysWhyNothingIsFit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why   string
		spoil func(*pump.Question)
		want  pump.Fault
	}{
		{"too much flow", func(q *pump.Question) { q.FlowM3PerS = 1 }, pump.TooSmall},
		{"no air", func(q *pump.Question) { q.NPSHBeforeLossM = 1 }, pump.NPSHShort},
		{"too high above the water", func(q *pump.Question) { q.PumpAboveWaterM = 5 }, pump.NoPrime},
		{"narrow suction", func(q *pump.Question) { q.Limits.SuctionMPerS = 0.01 }, pump.SuctionFast},
		{"narrow return", func(q *pump.Question) { q.Limits.DischargeMPerS = 0.01 }, pump.ReturnFast},
		{"far too easy", func(q *pump.Question) {
			for i := range q.Systems {
				q.Systems[i] = quadratic(0, 1e-6)
			}
		}, pump.OutsideCurve},
	} {
		q := question(t, 6)
		q.Models = q.Models[1:2] // single speed
		q.Counts, q.Systems = []int{1}, q.Systems[3:4]
		q.Models[0].MostLiftM = 2
		q.FlowM3PerS /= 4
		c.spoil(&q)
		a := pump.Choose(q)
		if len(a.Fit) != 0 || a.Nearest.Fault != c.want || a.ToBuy != -1 || a.ToRun != -1 {
			t.Errorf("%s: %d fit, fault %q, want %q", c.why, len(a.Fit), a.Nearest.Fault, c.want)
		}
	}
}
