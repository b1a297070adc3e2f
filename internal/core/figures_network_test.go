package core_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
)

// stated is a network of testdata/reference/hydraulics.json as a design file
// states it, and what an independent scipy solver found, see the README there.
type stated struct {
	id   string
	n    design.Network
	want map[string]map[string]float64 // by law, then link, m³/h
	all  map[string]float64            // pumped, m³/h
}

func statedNetworks(t *testing.T) []stated {
	t.Helper()
	data, err := os.ReadFile("../../testdata/reference/hydraulics.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []struct {
			ID        string
			Viscosity float64 `json:"kinematic_viscosity_m2_s"`
			Inputs    struct {
				Nodes []struct {
					ID, Type string
					HeadM    float64 `json:"head_m"`
				}
				Links []struct {
					ID, Type, From, To, Curve, Status string
					LengthM                           float64 `json:"length_m"`
					BoreMM                            float64 `json:"id_mm"`
					K, C, Speed                       float64
					RoughnessMM                       float64 `json:"roughness_mm"`
					CheckValve                        bool    `json:"check_valve"`
				}
				Curves map[string]struct {
					Interpolation string
					PointsSI      [][2]float64 `json:"points_si"`
				}
			}
			Alt map[string]struct {
				TotalM3H float64            `json:"total_pumped_m3h"`
				LinksM3H map[string]float64 `json:"links_m3h"`
			} `json:"alt_conventions"`
		}
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	var all []stated
	for _, c := range file.Cases {
		s := stated{id: c.ID, n: design.Network{ViscosityM2PerS: c.Viscosity}, want: map[string]map[string]float64{}, all: map[string]float64{}}
		for law, a := range c.Alt {
			s.want[law], s.all[law] = a.LinksM3H, a.TotalM3H
		}
		for _, v := range c.Inputs.Nodes {
			s.n.Nodes = append(s.n.Nodes, design.NetworkNode{ID: v.ID, Surface: v.Type == "reservoir", HeadM: v.HeadM})
		}
		for _, l := range c.Inputs.Links {
			if l.Type == "pipe" {
				s.n.Pipes = append(s.n.Pipes, design.NetworkPipe{ID: l.ID, From: l.From, To: l.To, LengthM: l.LengthM, InsideDiameterM: l.BoreMM / 1000,
					RoughnessM: l.RoughnessMM / 1000, CCoef: l.C, LossCoef: l.K, CheckValve: l.CheckValve})
				continue
			}
			curve := c.Inputs.Curves[l.Curve]
			p := design.NetworkPump{ID: l.ID, From: l.From, To: l.To, SpeedRatio: l.Speed, Off: l.Status == "CLOSED", Curve: design.NetworkCurve{Form: design.PowerCurve}}
			if curve.Interpolation == "piecewise-linear" {
				p.Curve.Form = design.StraightCurve
			}
			for _, xy := range curve.PointsSI {
				p.Curve.Points = append(p.Curve.Points, design.NetworkCurvePoint{FlowM3PerS: xy[0] / 3600, HeadM: xy[1]})
			}
			s.n.Pumps = append(s.n.Pumps, p)
		}
		all = append(all, s)
	}
	if len(all) < 40 {
		t.Fatalf("%d networks, want 40", len(all))
	}
	return all
}

// The whole way from a design with a network to the table of its links, against
// the independent solver in each law.
func TestNetworkFigures_AgreeWithTheIndependentSolver(t *testing.T) {
	t.Parallel()
	flows, worst := 0, 0.0
	for _, c := range statedNetworks(t) {
		for alt, law := range map[string]design.Law{"dw_colebrook_exact_g9.80665": "", "dw_swamee_jain_g9.80665": design.SwameeJain, "hw_SI_10.67_4.8704": design.HazenWilliams, "hw_4.727_exact_conversions_g9.80665": design.HazenWilliamsUS} {
			want, ok := c.want[alt]
			if !ok {
				continue
			}
			d := circulationDemo()
			n := c.n
			n.Law = law
			d.Network = &n
			if faults := core.Check(d); len(faults) > 0 {
				t.Errorf("%s: %v", c.id, faults)
				continue
			}
			s := core.Compute(d, core.Book{})
			rows := s.Table("network.links").Rows
			if len(rows) != len(n.Pipes)+len(n.Pumps) {
				t.Fatalf("%s: %d rows for %d links", c.id, len(rows), len(n.Pipes)+len(n.Pumps))
			}
			for _, r := range rows {
				id, state, _ := strings.Cut(r.Plain, ": ")
				q := r.Cells[0].Value * 3600
				off := math.Abs(q-want[id]) / c.all[alt]
				worst = math.Max(worst, off)
				if flows++; !(off <= 1e-6) || state != r.Name {
					t.Errorf("%s by %s: %s (%s) flows %.7f m³/h, want %.7f", c.id, alt, id, state, q, want[id])
				}
			}
			if got := s.Value("network.pumped") * 3600; math.Abs(got/c.all[alt]-1) > 1e-6 {
				t.Errorf("%s by %s: %.7f m³/h are pumped, want %.7f", c.id, alt, got, c.all[alt])
			}
			if got := s.Value("network.imbalance"); got > 1e-9 {
				t.Errorf("%s by %s: %v m³/s go astray", c.id, alt, got)
			}
		}
	}
	if flows < 200 {
		t.Errorf("only %d flows were compared", flows)
	}
	t.Logf("%d flows, worst %.1e of what is pumped", flows, worst)
}

// weakBeside is two pumps of which one cannot open, a check valve that holds, a
// closed end, and a joint that nothing reaches.
func weakBeside() *design.Network {
	pipe := func(id, from, to string) design.NetworkPipe {
		return design.NetworkPipe{ID: id, From: from, To: to, LengthM: 5, InsideDiameterM: 0.06, LossCoef: 2}
	}
	curve := func(headM float64) design.NetworkCurve {
		return design.NetworkCurve{Points: []design.NetworkCurvePoint{{HeadM: headM}, {FlowM3PerS: 0.005, HeadM: headM * 0.7}, {FlowM3PerS: 0.01, HeadM: headM * 0.2}}}
	}
	up := pipe("up", "all", "high")
	up.CheckValve = true
	return &design.Network{
		Nodes: []design.NetworkNode{{ID: "pond", Surface: true}, {ID: "s1"}, {ID: "s2"}, {ID: "all"}, {ID: "end"}, {ID: "lip", Surface: true, HeadM: 1}, {ID: "high", Surface: true, HeadM: 9}, {ID: "far"}},
		Pipes: []design.NetworkPipe{pipe("in1", "pond", "s1"), pipe("in2", "pond", "s2"), pipe("out", "all", "lip"), pipe("closed", "all", "end"), up},
		Pumps: []design.NetworkPump{{ID: "strong", From: "s1", To: "all", SpeedRatio: 1, Curve: curve(8)}, {ID: "weak", From: "s2", To: "all", SpeedRatio: 1, Curve: curve(2)}},
	}
}

func TestNetworkFigures_FindingsComeAndGo(t *testing.T) {
	t.Parallel()
	compute := func(change func(*design.Network)) *sheet.Sheet {
		d := circulationDemo()
		d.Network = weakBeside()
		change(d.Network)
		if faults := core.Check(d); len(faults) > 0 {
			t.Fatal(faults)
		}
		return core.Compute(d, core.Book{})
	}
	as := compute(func(*design.Network) {})
	better := compute(func(n *design.Network) {
		n.Pumps[1].Curve = n.Pumps[0].Curve
		n.Nodes[6].HeadM = 1 // low enough to be reached
		n.Pipes = append(n.Pipes[:3], n.Pipes[4])
		n.Nodes = append(n.Nodes[:4], n.Nodes[5], n.Nodes[6])
		n.Pipes[2].LossCoef, n.Pipes[3].LossCoef = 20, 20
	})
	easy := compute(func(n *design.Network) {
		n.Nodes[5].HeadM, n.Pipes[2].InsideDiameterM, n.Pipes[0].InsideDiameterM, n.Pumps[1].Off = -6, 0.2, 0.2, true
	})
	for _, c := range []struct {
		code   string
		figure sheet.ID
		raises *sheet.Sheet
		want   float64
	}{
		{"network_dead_headed", "network.dead_headed", as, 1},
		{"network_dry", "network.dry", as, 3}, // in2, closed, up
		{"network_beyond", "network.beyond", easy, 1},
	} {
		if f := find(c.raises, c.code); f == nil || c.raises.Value(c.figure) != c.want || len(f.Figures) != 1 || f.Figures[0] != c.figure {
			t.Errorf("%s: %+v with %s %v, want %v", c.code, f, c.figure, c.raises.Value(c.figure), c.want)
		}
		if find(better, c.code) != nil || better.Value(c.figure) != 0 {
			t.Errorf("%s does not go away", c.code)
		}
	}
	if rows := as.Table("network.nodes").Rows; len(rows) != 8 || rows[7].Name != "cut_off" || rows[7].Plain != "far: cut_off" || rows[3].Name != "known" {
		t.Errorf("joints: %+v", rows)
	}
	plain := core.Compute(circulationDemo(), core.Book{})
	if _, ok := plain.Find("network.pumped"); ok || len(plain.Table("network.links").Rows) != 0 {
		t.Error("a design without a network has figures of one")
	}
	named := compute(func(n *design.Network) { n.Pipes[0].Fittings = []design.Fitting{{Kind: "elbow_90", Count: 2}} })
	if a, b := named.Value("network.pumped"), as.Value("network.pumped"); !(a < b) {
		t.Errorf("two elbows more and %v m³/s against %v", a, b)
	}
	if find(compute(func(n *design.Network) { n.Pipes[0].Fittings = []design.Fitting{{Kind: "gizmo", Count: 2}} }), "fitting_unknown") == nil {
		t.Error("a fitting nobody knows is passed over")
	}
	// Water at 20 °C is 1.0034e-6 m²/s (IAPWS, reference/thermo.json).
	if v := as.Value("network.viscosity"); math.Abs(v/1.0034e-6-1) > 1e-3 {
		t.Errorf("viscosity %v m²/s", v)
	}
}

// Whatever a network is, what Check lets through is solved, with numbers in
// every cell; the rest has faults.
func TestNetworkFigures_WhatHasNoFaultIsSolved(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(61, 7))
	solved, refused := 0, 0
	odd := func() float64 {
		values := []float64{0, -1, 1e-9, 1e-4, 0.05, 1, 40, 2000, math.NaN(), math.Inf(1)}
		return values[r.IntN(len(values))]
	}
	ids := []string{"", "pond", "s1", "s2", "all", "end", "lip", "up", "far"}
	for k := range 1500 {
		d := circulationDemo()
		n := weakBeside()
		for range 1 + r.IntN(3) {
			switch p, q := &n.Pipes[r.IntN(len(n.Pipes))], &n.Pumps[r.IntN(2)]; r.IntN(10) {
			case 0:
				p.LengthM = odd()
			case 1:
				p.InsideDiameterM = odd()
			case 2:
				p.LossCoef = odd()
			case 3:
				p.RoughnessM = odd()
			case 4:
				p.From = ids[r.IntN(len(ids))]
			case 5:
				q.SpeedRatio = odd()
			case 6:
				q.Curve.Points[r.IntN(3)].HeadM = odd()
			case 7:
				q.Curve.Form = []design.CurveForm{"", design.StraightCurve, design.PowerCurve}[r.IntN(3)]
			case 8:
				v := &n.Nodes[r.IntN(len(n.Nodes))]
				v.Surface, v.HeadM = !v.Surface, odd()
			case 9:
				n.ViscosityM2PerS = odd()
			}
		}
		d.Network = n
		if len(core.Check(d)) > 0 {
			refused++
			continue
		}
		solved++
		s := core.Compute(d, core.Book{})
		if find(s, "network_unsolved") != nil {
			t.Fatalf("network %d has no fault and is not solved: %+v", k, n)
		}
		for _, row := range append(s.Table("network.links").Rows, s.Table("network.nodes").Rows...) {
			for _, c := range row.Cells {
				if math.IsNaN(c.Value) || math.IsInf(c.Value, 0) {
					t.Fatalf("network %d: %s holds %v: %+v", k, row.Plain, c.Value, n)
				}
			}
		}
		// Pipes of no length and wide closed ends cost digits; a tenth of a
		// millilitre a second is still nothing.
		if v := s.Value("network.imbalance"); v > 1e-7 {
			t.Fatalf("network %d: %v m³/s go astray: %+v", k, v, n)
		}
	}
	if solved < 250 || refused < 250 {
		t.Errorf("%d solved and %d refused: too tame", solved, refused)
	}
}
