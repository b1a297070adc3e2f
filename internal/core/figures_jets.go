package core

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

// leastReturnRatio is the share of the turnover's flow that a plain return keeps
// beside jets, where neither cascade nor zone wants more. Common practice.
const leastReturnRatio = 0.1

// hold is how the two ways from the pumps are brought to the same head at the
// flows wanted: by the valve of the one that asks less.
type hold struct{ mainCoef, jetsCoef float64 }

// jetsWanted adds what the jets want, and what they and the rest want together
// where they have a branch of their own.
func (c *circuit) jetsWanted() {
	k := c.d.Circulation
	j := k.Jets
	if j == nil {
		c.flow("flow.jets", k.JetsFlowM3PerS, "as asked for", "asked")
		return
	}
	each := hydraulics.Nozzle{DiameterM: j.NozzleM}.FlowM3PerS(j.NozzleHeadM)
	c.flow("flow.jets", float64(j.Count)*each, with("= n 0.9 (π/4) d² √(2 × 9.80665 h) = %s × 0.9 × (π/4) × %s² × √(2 × 9.80665 × %s)",
		float64(j.Count), j.NozzleM, j.NozzleHeadM), "nfpa291")
	c.jets = c.s.Value("flow.jets")
	rest := math.Max(math.Max(c.s.Value("flow.cascade"), c.s.Value("flow.zone")), leastReturnRatio*c.s.Value("flow.turnover"))
	c.flow("flow.together", rest+c.jets, with("= jets + the greatest of cascade, zone and a tenth of the turnover = %s + %s", c.jets, rest), "definition")
}

// jetLine is the branch with its nozzles and so much K of its valve.
func (c *circuit) jetLine(heldCoef float64) (hydraulics.Resistance, hydraulics.Terms) {
	j := c.d.Circulation.Jets
	t, err := hydraulics.LineTerms(j.Line)
	if err != nil {
		t = hydraulics.Terms{OtherCoef: j.Line.OtherLossCoef}
	}
	t.ExitCoef += hydraulics.Nozzle{DiameterM: j.NozzleM}.LossCoef(j.Count, j.Line.InsideDiameterM)
	return hydraulics.NewResistance(j.Line, t.SumCoef()+heldCoef, c.nu), t
}

// branched gives a system its discharge line, and the jets' branch beside it
// with the valves set so that each gets what it wants.
func (c *circuit) branched(s pump.System, out design.Line, outCoef float64) (pump.System, hold) {
	s.Discharge = hydraulics.NewResistance(out, outCoef, c.nu)
	j := c.d.Circulation.Jets
	if j == nil {
		return s, hold{}
	}
	beside, _ := c.jetLine(0)
	main := c.wanted - c.jets
	var h hold
	if over := s.StaticM + s.Discharge.LossM(main) - beside.LossM(c.jets); over > 0 {
		h.jetsCoef = over / hydraulics.MinorLossM(1, hydraulics.VelocityMPerS(c.jets, j.Line.InsideDiameterM))
		beside, _ = c.jetLine(h.jetsCoef)
	} else {
		h.mainCoef = -over / hydraulics.MinorLossM(1, hydraulics.VelocityMPerS(main, out.InsideDiameterM))
		s.Discharge = hydraulics.NewResistance(out, outCoef+h.mainCoef, c.nu)
	}
	s.Beside = &beside
	return s, h
}

// mainFlow is what the discharge line carries at the duty point.
func (c *circuit) mainFlow() float64 {
	if c.d.Circulation.Jets == nil {
		return c.s.Value("flow.duty")
	}
	return c.s.Value("flow.main")
}

// parted adds how the flow of the pumps divides, and what the jets do with
// their share; it returns what the discharge line carries.
func (c *circuit) parted(q float64) (mainM3PerS float64) {
	j := c.d.Circulation.Jets
	if j == nil {
		return q
	}
	at := c.system.Split(q)
	c.flow("flow.main", at.MainM3PerS, with("the share of %s at which this way and the jets' ask the same head, %s", q, at.HeadM), "todini1988")
	c.flow("jets.flow", at.BesideM3PerS, with("= %s − %s", q, c.s.Value("flow.main")), "todini1988")
	own := c.s.Value("jets.flow")
	line, terms := c.jetLine(c.held.jetsCoef)
	v := c.lineFigures(lineAt{"jets", j.Line, line, own})
	h := hydraulics.MinorLossM(1, v)
	mouth := hydraulics.Nozzle{DiameterM: j.NozzleM}
	n := float64(j.Count)
	c.velocity("jets.mouth_velocity", mouth.VelocityMPerS(own/n), with("= 4 Q / (n π d²) = 4 × %s / (%s × π × %s²)", own, n, j.NozzleM), "definition")
	coef := mouth.LossCoef(j.Count, j.Line.InsideDiameterM)
	c.metres("jets.head", coef*h, with("= (A / (n 0.9 a))² v²/2g = %s × %s", coef, h), "nfpa291")
	friction, _ := line.Parts(own)
	rest := terms.SumCoef() - coef
	c.metres("jets.line_head", friction+rest*h, with("= f (L/D) v²/2g + Σ K v²/2g = %s + %s × %s", friction, rest, h), "darcyweisbach")
	c.metres("jets.held", c.held.jetsCoef*h, with("= what the other way asks more = %s × %s", c.held.jetsCoef, h), "definition")
	return at.MainM3PerS
}

// judgeJets says what is amiss with the jets' branch.
func (c *circuit) judgeJets() {
	j := c.d.Circulation.Jets
	if j == nil {
		return
	}
	if c.s.Value("flow.main") <= 0 {
		f := c.care("jets_take_all", "todini1988", sheet.AtPump)
		f.Mend = []sheet.Change{{Field: "jets", Value: "0"}}
		return
	}
	_, terms := c.jetLine(0)
	c.fast(fastLine{"jets", "jet_pipe", "jets_fast", j.Line, c.s.Value("jets.flow"), dischargeLimitMPerS, terms.SumCoef()})
	if c.s.Value("pump.head_held") > heldLimitM {
		f := c.care("jets_hold", "definition", sheet.AtPump, "pump.head_held")
		f.Mend = c.wider(j.Line, "jet_pipe")
	}
}

// heldLimitM is how much head a valve may hold back before it is worth a word:
// a foot. Common practice, no source.
const heldLimitM = 0.3048
