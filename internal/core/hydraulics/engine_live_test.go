//go:build !js

package hydraulics_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// engineNetwork is a network as the engine's script reads it.
type engineNetwork struct {
	Viscosity float64 `json:"viscosity_m2_per_s"`
	hydraulics.Network
}

type engineAnswer struct {
	FlowsM3PerS map[string]float64 `json:"flows_m3_per_s"`
	Trials      float64
	ErrorRatio  float64 `json:"error_ratio"`
	Error       string
}

// engine solves networks in one process of the open EPANET engine. That it can
// not be run is a failure: the check is worth nothing when it is skipped.
func engine(t testing.TB, networks []hydraulics.Network) []engineAnswer {
	t.Helper()
	var ask struct {
		Networks []engineNetwork `json:"networks"`
	}
	for _, n := range networks {
		ask.Networks = append(ask.Networks, engineNetwork{n.Settings.ViscosityM2PerS, n})
	}
	text, err := json.Marshal(ask)
	if err != nil {
		t.Fatal(err)
	}
	factor, err := json.Marshal(engineM3PerH)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", "testdata/engine.mjs", "../../../.tools", string(factor))
	cmd.Stdin = bytes.NewReader(text)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("the engine does not run (make tools installs it): %v\n%s", err, errs.String())
	}
	var answer struct{ Networks []engineAnswer }
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
		t.Fatalf("the engine's answer cannot be read: %v\n%s", err, out.String())
	}
	if len(answer.Networks) != len(networks) {
		t.Fatalf("the engine answered %d networks of %d", len(answer.Networks), len(networks))
	}
	return answer.Networks
}

// leakM3PerS is how far the engine's own flows are out of balance at its
// junctions: what seeps through the links it has shut.
func leakM3PerS(n hydraulics.Network, flows map[string]float64) float64 {
	gain := map[string]float64{}
	for _, p := range n.Pipes {
		gain[p.From] -= flows[p.ID]
		gain[p.To] += flows[p.ID]
	}
	for _, p := range n.Pumps {
		gain[p.From] -= flows[p.ID]
		gain[p.To] += flows[p.ID]
	}
	sum := 0.0
	for _, v := range n.Nodes {
		if !v.Surface {
			sum += math.Abs(gain[v.ID])
		}
	}
	return sum
}

// Two hundred networks made at random, solved here by the engine's friction law
// and constants and by the engine itself: pumps side by side, check valves,
// outlets at different heights, loops. The engine goes to and fro for ever over
// the valves of about one network in twenty and says so; those prove nothing
// either way, so some more than two hundred are drawn. What is allowed is 1e-8
// of the network's largest flow, and the engine's own leak where it has one.
func TestSolve_AgreesWithTheEngineLive(t *testing.T) {
	t.Parallel()
	const drawn, count, mostTrials, tolerance, mostLeakM3PerS = 216, 200, 500, 1e-8, 1e-7
	r := rand.New(rand.NewPCG(200, 235))
	networks := make([]hydraulics.Network, drawn)
	for i := range networks {
		networks[i] = random(r)
		viscosity := networks[i].Settings.ViscosityM2PerS
		networks[i].Settings = engineSettings()
		networks[i].Settings.ViscosityM2PerS = viscosity
	}
	settled, flows, shut, worst := 0, 0, 0, 0.0
	for k, want := range engine(t, networks) {
		if want.Error != "" {
			t.Errorf("network %d: the engine says %s", k, want.Error)
			continue
		}
		if want.Trials > mostTrials {
			continue
		}
		settled++
		got, err := hydraulics.Solve(networks[k])
		if err != nil {
			t.Fatalf("network %d: %v", k, err)
		}
		most, leak := 1e-6, leakM3PerS(networks[k], want.FlowsM3PerS)
		if leak > mostLeakM3PerS {
			t.Errorf("network %d: the engine leaks %.1e m³/s", k, leak)
		}
		for _, l := range got.Links {
			most = math.Max(most, math.Abs(l.FlowM3PerS))
		}
		for _, l := range got.Links {
			w, ok := want.FlowsM3PerS[l.ID]
			flows++
			if l.State == hydraulics.Checked || l.State == hydraulics.DeadHead {
				shut++
			}
			d := math.Max(0, math.Abs(l.FlowM3PerS-w)-leak) / most
			worst = math.Max(worst, d)
			if !ok || !(d <= tolerance) {
				t.Errorf("network %d: %s (%s) flows %.9f m³/s, want %.9f (%.1e of the most)", k, l.ID, l.State, l.FlowM3PerS, w, d)
			}
		}
	}
	if settled < count || flows < 10*count || shut < count {
		t.Errorf("%d networks, %d flows and %d shut links compared: too few or too tame", settled, flows, shut)
	}
	t.Logf("%d networks, %d flows, %d shut links, worst %.1e of the network's largest flow", settled, flows, shut, worst)
}
