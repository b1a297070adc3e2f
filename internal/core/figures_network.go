package core

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/core/water"
)

// trickleStep is the step of flows in a network, where one branch may carry a
// millionth of another.
const trickleStep = 1e-12

// networkFigures solves the network that a design file states, if any, and adds
// what every link and node does. It stands beside the circulation and changes
// nothing there.
func networkFigures(s *sheet.Sheet, d design.Design) {
	if d.Network == nil {
		return
	}
	n, unknown := network(*d.Network, d.Site.WaterTempDegC)
	if unknown {
		s.Findings = append(s.Findings, sheet.Finding{Code: "fitting_unknown", Severity: sheet.Care, Source: "crane410"})
	}
	a, err := hydraulics.Solve(n)
	if err != nil { // design.Validate lets none through
		s.Findings = append(s.Findings, sheet.Finding{Code: "network_unsolved", Severity: sheet.Care, Source: "todini1988"})
		return
	}
	how, key := viscosity(*d.Network)
	s.Add(sheet.Figure{ID: "network.viscosity", Value: n.Settings.ViscosityM2PerS, Step: 1e-13, Unit: sheet.M2PerS, Working: how, Source: key})
	s.Add(sheet.Figure{ID: "network.pumped", Value: a.PumpedM3PerS, Step: trickleStep, Unit: sheet.CubicMPerS, Working: with("= sum of the pumps' flows = %s", a.PumpedM3PerS), Source: "todini1988"})
	worst := imbalance(n, a)
	s.Add(sheet.Figure{ID: "network.imbalance", Value: worst, Step: trickleStep, Unit: sheet.CubicMPerS, Working: "the most that flows into a junction and does not flow out", Source: "definition"})
	networkStates(s, n, a)
	s.Tables = append(s.Tables, linkTable(n, a), nodeTable(a))
}

// network restates a design's network for the solver; unknown says that a
// fitting's name means nothing, and counts for nothing.
func network(n design.Network, waterDegC float64) (out hydraulics.Network, unknown bool) {
	out.Settings = hydraulics.Settings{Law: hydraulics.Law(n.Law), ViscosityM2PerS: n.ViscosityM2PerS,
		FrictionGravityMPerS2: n.FrictionGravityMPerS2, MinorGravityMPerS2: n.MinorGravityMPerS2}
	if n.Law == "" {
		out.Settings.Law = hydraulics.Colebrook
	}
	if n.ViscosityM2PerS == 0 {
		out.Settings.ViscosityM2PerS = water.ViscosityM2PerS(waterDegC)
	}
	for _, v := range n.Nodes {
		out.Nodes = append(out.Nodes, hydraulics.Node{ID: v.ID, Surface: v.Surface, HeadM: v.HeadM})
	}
	for _, p := range n.Pipes {
		t, err := hydraulics.LineTerms(design.Line{InsideDiameterM: p.InsideDiameterM, Fittings: p.Fittings, OtherLossCoef: p.LossCoef})
		k := t.SumCoef()
		if err != nil || math.IsNaN(k) {
			k, unknown = p.LossCoef, true
		}
		out.Pipes = append(out.Pipes, hydraulics.Pipe{ID: p.ID, From: p.From, To: p.To, LengthM: p.LengthM, InsideDiameterM: p.InsideDiameterM,
			RoughnessM: p.RoughnessM, CCoef: p.CCoef, LossCoef: k, CheckValve: p.CheckValve})
	}
	for _, p := range n.Pumps {
		u := hydraulics.Pump{ID: p.ID, From: p.From, To: p.To, SpeedRatio: p.SpeedRatio, Off: p.Off, Curve: hydraulics.HeadCurve{Form: hydraulics.CurveForm(p.Curve.Form)}}
		for _, q := range p.Curve.Points {
			u.Curve.Points = append(u.Curve.Points, hydraulics.CurvePoint{FlowM3PerS: q.FlowM3PerS, HeadM: q.HeadM})
		}
		out.Pumps = append(out.Pumps, u)
	}
	return out, unknown
}

func viscosity(n design.Network) (working string, key source.Key) {
	if n.ViscosityM2PerS != 0 {
		return "as stated", "asked"
	}
	return "μ/ρ of water at the site's temperature", "iapwssr6"
}

// imbalance returns the most, of all junctions, that flows in and not out.
func imbalance(n hydraulics.Network, a hydraulics.Solution) (mostM3PerS float64) {
	gain := make(map[string]float64, len(n.Nodes))
	for i, p := range n.Pipes {
		gain[p.From] -= a.Links[i].FlowM3PerS
		gain[p.To] += a.Links[i].FlowM3PerS
	}
	for i, p := range n.Pumps {
		l := a.Links[len(n.Pipes)+i]
		gain[p.From] -= l.FlowM3PerS
		gain[p.To] += l.FlowM3PerS
	}
	for _, v := range n.Nodes {
		if !v.Surface {
			mostM3PerS = math.Max(mostM3PerS, math.Abs(gain[v.ID]))
		}
	}
	return mostM3PerS
}

// networkStates counts the links that do nothing, or nothing that anybody has
// tested, and says so.
func networkStates(s *sheet.Sheet, n hydraulics.Network, a hydraulics.Solution) {
	deadHeaded, beyond, dry := 0, 0, 0
	for i, l := range a.Links {
		switch {
		case l.State == hydraulics.DeadHead:
			deadHeaded++
		case l.State == hydraulics.Beyond:
			beyond++
		case i < len(n.Pipes) && (l.State == hydraulics.Still || l.State == hydraulics.Checked):
			dry++
		}
	}
	for _, c := range []struct {
		id      sheet.ID
		code    string
		working string
		count   int
	}{
		{"network.dead_headed", "network_dead_headed", "pumps whose head at no flow is less than what stands against them", deadHeaded},
		{"network.beyond", "network_beyond", "pumps past the last point of their curve", beyond},
		{"network.dry", "network_dry", "pipes in which nothing flows", dry},
	} {
		s.Add(sheet.Figure{ID: c.id, Value: float64(c.count), Step: 1, Unit: sheet.Count, Working: c.working, Source: "todini1988"})
		if c.count > 0 {
			s.Findings = append(s.Findings, sheet.Finding{Code: c.code, Severity: sheet.Care, Source: "todini1988", Place: sheet.AtPump, Figures: []sheet.ID{c.id}})
		}
	}
}

// linkTable says what every pipe and pump does: a row's name is the link's own,
// with its state.
func linkTable(n hydraulics.Network, a hydraulics.Solution) sheet.Table {
	t := sheet.Table{ID: "network.links", Columns: []sheet.Column{
		{ID: "flow", Unit: sheet.CubicMPerS}, {ID: "head_lost", Unit: sheet.Metre}, {ID: "head_gained", Unit: sheet.Metre}, {ID: "velocity", Unit: sheet.MetrePerS},
	}}
	for i, l := range a.Links {
		lost, gained := l.HeadM, 0.0
		if i >= len(n.Pipes) {
			lost, gained = 0, l.HeadM
		}
		cells := make([]sheet.Cell, 0, len(t.Columns))
		for _, x := range [][2]float64{{l.FlowM3PerS, trickleStep}, {lost, headStep}, {gained, headStep}, {l.VelocityMPerS, speedStep}} {
			cells = append(cells, sheet.Cell{Value: sheet.Quantise(x[0], x[1])})
		}
		t.Rows = append(t.Rows, sheet.Row{Name: string(l.State), Plain: l.ID + ": " + string(l.State), Cells: cells})
	}
	return t
}

// nodeTable gives the head at every node that open links join to a water
// surface.
func nodeTable(a hydraulics.Solution) sheet.Table {
	t := sheet.Table{ID: "network.nodes", Columns: []sheet.Column{{ID: "head", Unit: sheet.Metre}}}
	for _, v := range a.Nodes {
		row := sheet.Row{Name: "known", Plain: v.ID, Cells: []sheet.Cell{{Value: sheet.Quantise(v.HeadM, headStep)}}}
		if !v.Known {
			row = sheet.Row{Name: "cut_off", Plain: v.ID + ": cut_off"}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
