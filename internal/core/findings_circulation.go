package core

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

// judge adds the findings of the circulation.
func (c *circuit) judge(p picked) {
	if k := c.d.Cascade; k != nil && k.SheetM < hydraulics.LeastBroadM {
		c.metres("weir.least_head", hydraulics.LeastBroadM, "the least head the weir formula is calibrated for", "kindsvatercarter1957")
		c.metres("weir.sheet", k.SheetM, "as asked for", "asked")
		f := c.care("weir_thin", "kindsvatercarter1957", sheet.AtCascade, "weir.sheet", "weir.least_head")
		f.Mend, f.Else = thicker(*k)
	}
	if !p.found {
		return
	}
	c.motor(p)
	switch p.wanted().State {
	case hydraulics.DeadHead:
		f := c.care("no_duty_point", "affinity", sheet.AtPump, "pump.head_static", "pump.shutoff_head")
		f.Mend = first(c.betterPump, c.lowerFall)
		return
	case hydraulics.Beyond:
		f := c.care("outside_curve", "builder", sheet.AtPump, "flow.wanted")
		f.Mend = first(c.betterPump, c.narrowerPipe)
		return
	}
	if p.fault == pump.TooSmall {
		f := c.care("flow_short", "affinity", sheet.AtPump, "flow.duty", "flow.wanted")
		f.Mend = first(c.betterPump, c.betterPipe, c.morePumps, c.lowerFall)
	}
	q := c.s.Value("flow.duty")
	c.fast(fastLine{"suction", "pipe", "suction_fast", c.suction, q / float64(c.system.Count), suctionLimitMPerS, c.inTerms.SumCoef()})
	c.fast(fastLine{"discharge", "discharge", "discharge_fast", c.discharge, c.mainFlow(), dischargeLimitMPerS, c.outTerms.SumCoef()})
	c.judgeJets()
	c.starves()
	c.prime(p)
	c.whirls(q / float64(c.system.Count))
}

// motor adds what the rules on motors of pool pumps ask about: whether the pump
// has one speed, and whether it stands in the water. A builder's own rule may
// ask for them as well.
func (c *circuit) motor(p picked) {
	is := func(id sheet.ID, yes bool, working string) {
		x := 0.0
		if yes {
			x = 1
		}
		c.add(id, x, 1, sheet.Figure{Unit: sheet.Count, Working: working, Source: "builder"})
	}
	is("pump.one_speed", p.drive() != design.VariableSpeed, "1 for a pump of one speed, 0 for one that can change it")
	is("pump.in_water", p.machine.Model.Class == pump.Submersible, "1 for a pump that stands in the water, 0 for any other")
}

// schedule lists pipes and fittings in order of flow.
func (c *circuit) schedule(p picked) sheet.Table {
	t := sheet.Table{ID: "circulation.schedule", Columns: []sheet.Column{
		{ID: "count", Unit: sheet.Count}, {ID: "length", Unit: sheet.Metre}, {ID: "bore", Unit: sheet.Millimetre},
		{ID: "flow", Unit: sheet.CubicMPerS}, {ID: "velocity", Unit: sheet.MetrePerS},
	}}
	q := c.s.Value("flow.duty")
	n := float64(c.system.Count)
	add := func(name string, count, length, bore, flow float64) {
		v := 0.0
		if bore > 0 {
			v = hydraulics.VelocityMPerS(flow, bore)
		}
		cells := make([]sheet.Cell, 0, 5)
		for _, x := range [][2]float64{{count, 1}, {length, headStep}, {bore * 1000, 1e-3}, {flow, flowStep}, {v, speedStep}} {
			cells = append(cells, sheet.Cell{Value: sheet.Quantise(x[0], x[1])})
		}
		t.Rows = append(t.Rows, sheet.Row{Name: name, Cells: cells})
	}
	add("intake", 1, 0, 0, q)
	add("suction_pipe", n, c.suction.LengthM, c.suction.InsideDiameterM, q/n)
	for _, f := range c.suction.Fittings {
		add(f.Kind, n*float64(f.Count), 0, c.suction.InsideDiameterM, q/n)
	}
	if p.found {
		add("pump_"+string(p.machine.Model.Class), n, 0, 0, q/n)
		t.Rows[len(t.Rows)-1].Plain = p.machine.Model.Name
	}
	main := c.mainFlow()
	add("discharge_pipe", 1, c.discharge.LengthM, c.discharge.InsideDiameterM, main)
	for _, f := range c.discharge.Fittings {
		add(f.Kind, float64(f.Count), 0, c.discharge.InsideDiameterM, main)
	}
	if c.d.Zone != nil {
		add("zone", 1, 0, 0, main)
	}
	if c.d.Cascade != nil {
		add("cascade", 1, 0, 0, main)
	}
	if j := c.d.Circulation.Jets; j != nil {
		at := c.s.Value("jets.flow")
		add("jets_pipe", 1, j.Line.LengthM, j.Line.InsideDiameterM, at)
		for _, f := range j.Line.Fittings {
			add(f.Kind, float64(f.Count), 0, j.Line.InsideDiameterM, at)
		}
		add("jets", float64(j.Count), 0, j.NozzleM, at/float64(j.Count))
	}
	if jets := c.d.Circulation.JetsFlowM3PerS; jets > 0 {
		add("jets", 1, 0, 0, jets)
	}
	return t
}
