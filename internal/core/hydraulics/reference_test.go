package hydraulics_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// The networks of testdata/reference/hydraulics.json were solved by the open
// EPANET 2.3.5 engine and, for each friction law, by an independent scipy
// solver to 1e-14; see testdata/reference/README.md.

type refNode struct {
	ID, Type string
	HeadM    float64 `json:"head_m"`
}

type refLink struct {
	ID, Type, From, To, Curve, Status string
	LengthM                           float64 `json:"length_m"`
	BoreMM                            float64 `json:"id_mm"`
	K, C, Speed                       float64
	RoughnessMM                       float64 `json:"roughness_mm"`
	CheckValve                        bool    `json:"check_valve"`
}

type refCase struct {
	ID, Title, Formula string
	Units              string   `json:"canonical_units"`
	Viscosity          *float64 `json:"kinematic_viscosity_m2_s"`
	Inputs             struct {
		Nodes  []refNode
		Links  []refLink
		Curves map[string]struct {
			Interpolation string
			PointsSI      [][2]float64 `json:"points_si"`
		}
	}
	Solution struct {
		TotalM3H float64 `json:"total_pumped_m3h"`
		Links    map[string]struct {
			FlowM3H   float64 `json:"flow_m3h"`
			HeadLossM float64 `json:"headloss_m"`
			HeadGainM float64 `json:"head_gain_m"`
			Open      *bool
			State     string
		}
		Nodes map[string]struct {
			HeadM float64 `json:"head_m"`
		}
	}
	Alt map[string]struct {
		TotalM3H float64            `json:"total_pumped_m3h"`
		LinksM3H map[string]float64 `json:"links_m3h"`
	} `json:"alt_conventions"`
	Beyond []string `json:"beyond_last_curve_point"`
}

func readReference(t testing.TB, name string, into any) {
	t.Helper()
	data, err := os.ReadFile("../../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func readCases(t testing.TB) []refCase {
	t.Helper()
	var file struct{ Cases []refCase }
	readReference(t, "hydraulics.json", &file)
	if len(file.Cases) < 40 {
		t.Fatalf("%d networks, want 40", len(file.Cases))
	}
	return file.Cases
}

// network restates a case; m3PerH is how many m³/h its source counts as one
// m³/s.
func (c refCase) network(set hydraulics.Settings, m3PerH float64) hydraulics.Network {
	n := hydraulics.Network{Settings: set}
	if c.Viscosity != nil {
		n.Settings.ViscosityM2PerS = *c.Viscosity
	}
	for _, v := range c.Inputs.Nodes {
		n.Nodes = append(n.Nodes, hydraulics.Node{ID: v.ID, Surface: v.Type == "reservoir", HeadM: v.HeadM})
	}
	for _, l := range c.Inputs.Links {
		if l.Type == "pipe" {
			n.Pipes = append(n.Pipes, hydraulics.Pipe{ID: l.ID, From: l.From, To: l.To, LengthM: l.LengthM, InsideDiameterM: l.BoreMM / 1000,
				RoughnessM: l.RoughnessMM / 1000, CCoef: l.C, LossCoef: l.K, CheckValve: l.CheckValve})
			continue
		}
		curve := c.Inputs.Curves[l.Curve]
		form := hydraulics.Power
		if curve.Interpolation == "piecewise-linear" {
			form = hydraulics.Straight
		}
		p := hydraulics.Pump{ID: l.ID, From: l.From, To: l.To, SpeedRatio: l.Speed, Off: l.Status == "CLOSED", Curve: hydraulics.HeadCurve{Form: form}}
		for _, xy := range curve.PointsSI {
			p.Curve.Points = append(p.Curve.Points, hydraulics.CurvePoint{FlowM3PerS: xy[0] / m3PerH, HeadM: xy[1]})
		}
		n.Pumps = append(n.Pumps, p)
	}
	return n
}

func relative(got, want, scale float64) float64 {
	return math.Abs(got-want) / math.Max(math.Abs(want), scale)
}

// Every case against the independent solver, in each law the house has.
func TestSolve_AgreesWithTheIndependentSolver(t *testing.T) {
	t.Parallel()
	laws := []struct {
		alt string
		set hydraulics.Settings
	}{
		{"dw_colebrook_exact_g9.80665", hydraulics.Settings{Law: hydraulics.Colebrook}},
		{"dw_swamee_jain_g9.80665", hydraulics.Settings{Law: hydraulics.SwameeJain}},
		{"hw_SI_10.67_4.8704", hydraulics.Settings{Law: hydraulics.HazenWilliams}},
		{"hw_4.727_exact_conversions_g9.80665", hydraulics.Settings{Law: hydraulics.HazenWilliamsUS}},
	}
	const tolerance = 1e-6
	compared, worst := 0, 0.0
	for _, c := range readCases(t) {
		for _, law := range laws {
			want, ok := c.Alt[law.alt]
			if !ok {
				continue
			}
			got, err := hydraulics.Solve(c.network(law.set, 3600))
			if err != nil {
				t.Errorf("%s: %v", c.ID, err)
				continue
			}
			for _, l := range got.Links {
				w := want.LinksM3H[l.ID]
				d := relative(l.FlowM3PerS*3600, w, want.TotalM3H/100)
				worst = math.Max(worst, d)
				if compared++; !(d <= tolerance) {
					t.Errorf("%s %s by %s: %s flows %.9f m³/h, want %.9f (%.1e)", c.ID, c.Title, law.alt, l.ID, l.FlowM3PerS*3600, w, d)
				}
			}
		}
	}
	if compared < 200 {
		t.Errorf("only %d flows were compared", compared)
	}
	t.Logf("%d flows, worst %.1e", compared, worst)
}

// How the engine counts: its rounded cubic feet a second in a cubic metre an
// hour, here as m³/h in one m³/s.
const (
	engineFoot   = 0.3048
	engineM3PerH = 101.94 / (engineFoot * engineFoot * engineFoot)
)

// engineSettings are the engine's friction law, and its gravity in pipes and in
// fittings.
func engineSettings() hydraulics.Settings {
	return hydraulics.Settings{Law: hydraulics.SwameeJain, FrictionGravityMPerS2: 32.2 * engineFoot,
		MinorGravityMPerS2: 8 / (math.Pi * math.Pi * 0.02517) * engineFoot}
}

// The engine's own answers, with its own friction law, gravity and rounded
// conversion of flow.
func TestSolve_AgreesWithTheEngine(t *testing.T) {
	t.Parallel()
	const tolerance = 1e-5
	worst := 0.0
	for _, c := range readCases(t) {
		set := engineSettings()
		if c.Formula == "H-W" {
			set.Law = hydraulics.HazenWilliamsUS
		}
		m3PerH := engineM3PerH
		if c.Units == "US" {
			m3PerH = 3600 / 1.0000003757 // 448.831 gal/min for a cubic foot a second
		}
		got, err := hydraulics.Solve(c.network(set, m3PerH))
		if err != nil {
			t.Errorf("%s: %v", c.ID, err)
			continue
		}
		for _, l := range got.Links {
			w := c.Solution.Links[l.ID]
			d := relative(l.FlowM3PerS*m3PerH, w.FlowM3H, c.Solution.TotalM3H)
			worst = math.Max(worst, d)
			if !(d <= tolerance) {
				t.Errorf("%s %s: %s flows %.7f m³/h, want %.7f (%.1e)", c.ID, c.Title, l.ID, l.FlowM3PerS*m3PerH, w.FlowM3H, d)
			}
		}
		for _, v := range got.Nodes {
			if w := c.Solution.Nodes[v.ID].HeadM; v.Known && relative(v.HeadM, w, 10) > tolerance {
				t.Errorf("%s: head at %s %.6f m, want %.6f", c.ID, v.ID, v.HeadM, w)
			}
		}
	}
	t.Logf("worst %.1e", worst)
}
