package hydraulics_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
)

func curve(h0, most float64) hydraulics.HeadCurve {
	return hydraulics.HeadCurve{Form: hydraulics.Power, Points: []hydraulics.CurvePoint{
		{HeadM: h0}, {FlowM3PerS: most / 2, HeadM: 0.78 * h0}, {FlowM3PerS: most, HeadM: 0.15 * h0}}}
}

func pipe(id, from, to string, lengthM, boreM float64) hydraulics.Pipe {
	return hydraulics.Pipe{ID: id, From: from, To: to, LengthM: lengthM, InsideDiameterM: boreM, RoughnessM: 1.5e-6, LossCoef: 2}
}

// random builds a valid network: pumps side by side, some with check valves and
// of different strength, and a tree of outlets at different heights with a few
// cross links.
func random(r *rand.Rand) hydraulics.Network {
	n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1.0e-6}}
	n.Nodes = append(n.Nodes, hydraulics.Node{ID: "pond", Surface: true, HeadM: r.Float64()}, hydraulics.Node{ID: "all"})
	bore := func() float64 { return 0.02 + 0.1*r.Float64() }
	for i := range 1 + r.IntN(4) {
		k := strconv.Itoa(i)
		n.Nodes = append(n.Nodes, hydraulics.Node{ID: "s" + k}, hydraulics.Node{ID: "d" + k})
		n.Pipes = append(n.Pipes, pipe("suction"+k, "pond", "s"+k, 1+10*r.Float64(), bore()))
		n.Pumps = append(n.Pumps, hydraulics.Pump{ID: "pump" + k, From: "s" + k, To: "d" + k, SpeedRatio: 0.5 + 0.6*r.Float64(), Curve: curve(1+10*r.Float64(), 0.001+0.02*r.Float64())})
		out := pipe("riser"+k, "d"+k, "all", 1+5*r.Float64(), bore())
		out.CheckValve = r.IntN(2) == 0
		n.Pipes = append(n.Pipes, out)
	}
	last := "all"
	for i := range 1 + r.IntN(8) {
		k := strconv.Itoa(i)
		n.Nodes = append(n.Nodes, hydraulics.Node{ID: "j" + k}, hydraulics.Node{ID: "o" + k, Surface: true, HeadM: -1 + 5*r.Float64()})
		n.Pipes = append(n.Pipes, pipe("main"+k, last, "j"+k, 1+20*r.Float64(), bore()))
		outlet := pipe("outlet"+k, "j"+k, "o"+k, 1+20*r.Float64(), bore())
		outlet.CheckValve = r.IntN(2) == 0
		n.Pipes = append(n.Pipes, outlet)
		if i > 1 && r.IntN(3) == 0 {
			n.Pipes = append(n.Pipes, pipe("cross"+k, "j"+strconv.Itoa(i-2), "j"+k, 5, bore()))
		}
		if r.IntN(2) == 0 {
			last = "j" + k
		}
	}
	return n
}

// The laws themselves, whatever solver: water in balance at every junction; the
// fall in head along every open link is its own loss; a shut link leans the
// way it is shut.
func TestSolve_AnyValidNetworkKeepsTheLaws(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2026, 11))
	shut, most := 0, 0
	for k := range 400 {
		n := random(r)
		s, err := hydraulics.Solve(n)
		if err != nil {
			t.Fatalf("network %d: %v", k, err)
		}
		most = max(most, s.Steps)
		heads := map[string]hydraulics.NodeHead{}
		for _, v := range s.Nodes {
			heads[v.ID] = v
		}
		scale := 0.0
		for _, l := range s.Links {
			scale = math.Max(scale, math.Abs(l.FlowM3PerS))
		}
		balance := map[string]float64{}
		look := func(l hydraulics.LinkFlow, from, to string, rises float64) {
			balance[from] -= l.FlowM3PerS
			balance[to] += l.FlowM3PerS
			a, b := heads[from], heads[to]
			switch l.State {
			case hydraulics.Checked, hydraulics.DeadHead:
				shut++
				if a.Known && b.Known && a.HeadM+rises*l.HeadM > b.HeadM+1e-6 {
					t.Errorf("network %d: %s is shut though %.6f m would push it open to %.6f m", k, l.ID, a.HeadM+rises*l.HeadM, b.HeadM)
				}
				if l.FlowM3PerS != 0 {
					t.Errorf("network %d: %s is shut and passes %v m³/s", k, l.ID, l.FlowM3PerS)
				}
				return
			}
			if d := a.HeadM + rises*l.HeadM - b.HeadM; math.Abs(d) > 1e-8 {
				t.Errorf("network %d: head along %s is out by %.1e m", k, l.ID, d)
			}
		}
		for _, p := range n.Pipes {
			l, _ := s.Link(p.ID)
			look(l, p.From, p.To, -1)
		}
		for _, p := range n.Pumps {
			l, _ := s.Link(p.ID)
			look(l, p.From, p.To, 1)
		}
		for _, v := range n.Nodes {
			if !v.Surface && math.Abs(balance[v.ID]) > 1e-10*math.Max(scale, 1e-4) {
				t.Errorf("network %d: %s gains %.1e m³/s", k, v.ID, balance[v.ID])
			}
		}
	}
	if shut < 50 {
		t.Errorf("only %d links were shut: the cases are too tame", shut)
	}
	if most > 120 {
		t.Errorf("a network took %d steps", most)
	}
	t.Logf("%d shut links, at most %d steps", shut, most)
}

func TestSolve_NamesWhatStandsStill(t *testing.T) {
	t.Parallel()
	n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1e-6},
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "s1"}, {ID: "s2"}, {ID: "m"}, {ID: "end"}, {ID: "lip", Surface: true, HeadM: 1}, {ID: "high", Surface: true, HeadM: 9}},
		Pipes: []hydraulics.Pipe{pipe("in1", "pond", "s1", 3, 0.08), pipe("in2", "pond", "s2", 3, 0.08), pipe("out", "m", "lip", 3, 0.03), pipe("closed_end", "m", "end", 3, 0.05)},
		Pumps: []hydraulics.Pump{
			{ID: "strong", From: "s1", To: "m", SpeedRatio: 1, Curve: curve(8, 0.01)},
			{ID: "weak", From: "s2", To: "m", SpeedRatio: 1, Curve: curve(2, 0.01)},
		}}
	up := pipe("up", "m", "high", 3, 0.05)
	up.CheckValve = true
	n.Pipes = append(n.Pipes, up)
	s, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]hydraulics.State{"strong": hydraulics.Flowing, "weak": hydraulics.DeadHead, "closed_end": hydraulics.Still, "up": hydraulics.Checked, "in2": hydraulics.Still, "out": hydraulics.Flowing} {
		if l, ok := s.Link(id); !ok || l.State != want {
			t.Errorf("%s is %s, want %s", id, l.State, want)
		}
	}
	n.Pumps[1].Off = true
	if s, _ = hydraulics.Solve(n); s.Links[len(s.Links)-1].State != hydraulics.Off {
		t.Errorf("a pump switched off is %s", s.Links[len(s.Links)-1].State)
	}
	n.Pipes[2].InsideDiameterM, n.Nodes[5].HeadM = 0.4, -3
	if s, _ = hydraulics.Solve(n); s.Links[len(s.Links)-2].State != hydraulics.Beyond {
		t.Errorf("a pump past its curve is %s", s.Links[len(s.Links)-2].State)
	}
}

func TestSolve_SaysWhatIsWrongWithANetwork(t *testing.T) {
	t.Parallel()
	good := func() hydraulics.Network {
		return hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1e-6},
			Nodes: []hydraulics.Node{{ID: "a", Surface: true}, {ID: "b"}, {ID: "c", Surface: true}},
			Pipes: []hydraulics.Pipe{pipe("p", "b", "c", 3, 0.05)},
			Pumps: []hydraulics.Pump{{ID: "u", From: "a", To: "b", SpeedRatio: 1, Curve: curve(5, 0.01)}}}
	}
	if _, err := hydraulics.Solve(good()); err != nil {
		t.Fatal(err)
	}
	for why, spoil := range map[string]func(*hydraulics.Network){
		"no surface":        func(n *hydraulics.Network) { n.Nodes[0].Surface, n.Nodes[2].Surface = false, false },
		"node twice":        func(n *hydraulics.Network) { n.Nodes[1].ID = "a" },
		"end nowhere":       func(n *hydraulics.Network) { n.Pipes[0].To = "z" },
		"no bore":           func(n *hydraulics.Network) { n.Pipes[0].InsideDiameterM = 0 },
		"length not known":  func(n *hydraulics.Network) { n.Pipes[0].LengthM = math.NaN() },
		"no viscosity":      func(n *hydraulics.Network) { n.Settings.ViscosityM2PerS = 0 },
		"no such law":       func(n *hydraulics.Network) { n.Settings.Law = "guess" },
		"curve that rises":  func(n *hydraulics.Network) { n.Pumps[0].Curve.Points[1].HeadM = 9 },
		"no speed":          func(n *hydraulics.Network) { n.Pumps[0].SpeedRatio = 0 },
		"link twice":        func(n *hydraulics.Network) { n.Pumps[0].ID = "p" },
		"no C where wanted": func(n *hydraulics.Network) { n.Settings.Law = hydraulics.HazenWilliams },
	} {
		n := good()
		spoil(&n)
		if _, err := hydraulics.Solve(n); !errors.Is(err, hydraulics.ErrNetwork) {
			t.Errorf("%s: error %v", why, err)
		}
	}
}

// A closed end on a wide pipe comes nearer to rest by sixteen digits a step, and
// must not end as no number.
func TestSolve_AWideClosedEndStandsStill(t *testing.T) {
	t.Parallel()
	n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1e-6},
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "s"}, {ID: "m"}, {ID: "end"}, {ID: "lip", Surface: true, HeadM: 1}},
		Pipes: []hydraulics.Pipe{pipe("in", "pond", "s", 5, 0.06), pipe("out", "m", "lip", 5, 0.06), pipe("closed", "m", "end", 5, 1)},
		Pumps: []hydraulics.Pump{{ID: "pump", From: "s", To: "m", SpeedRatio: 1, Curve: curve(8, 0.01)}}}
	for _, still := range []float64{1e-300, 1e-310, 5e-324} {
		r := hydraulics.NewResistance(design.Line{LengthM: 5, InsideDiameterM: 1}, 2, 1e-6)
		if h := r.LossM(still); math.IsNaN(h) || h < 0 || h > still {
			t.Errorf("a flow of %v loses %v m", still, h)
		}
	}
	s, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if in, _ := s.Link("in"); !(in.FlowM3PerS > 0.005) {
		t.Errorf("the pump moves %v m³/s beside a closed end", in.FlowM3PerS)
	}
	if l, _ := s.Link("closed"); l.State != hydraulics.Still {
		t.Errorf("the closed end is %s", l.State)
	}
}
