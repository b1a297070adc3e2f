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
	if c.s.Value("pump.npsh_available") < c.s.Value("pump.npsh_required") {
		f := c.care("npsh_short", "npsh", sheet.AtPump, "pump.npsh_available", "pump.npsh_required")
		f.Mend = c.wider(c.suction, "pipe")
	}
	c.prime(p)
}

// fastLine is a line whose velocity is looked at.
type fastLine struct {
	name, field, code string
	line              design.Line
	flow, limit, coef float64
}

// fast raises a finding when the water in a line moves faster than the limit,
// with what the next size that suits would do.
func (c *circuit) fast(l fastLine) {
	v := sheet.ID(l.name + ".velocity")
	if c.s.Value(v) <= l.limit {
		return
	}
	limit := sheet.ID(l.name + ".velocity_limit")
	c.velocity(limit, l.limit, "most that the rule for pool piping lets through", "title24pool")
	figures := []sheet.ID{v, limit}
	for _, size := range c.b.Pipes {
		if size.InsideDiameterM <= l.line.InsideDiameterM {
			continue
		}
		better := hydraulics.VelocityMPerS(l.flow, size.InsideDiameterM)
		if better > l.limit {
			continue
		}
		id := sheet.ID(l.name + ".velocity_wider")
		c.velocity(id, better, with("= 4 Q / (π D²) = 4 × %s / (π × %s²)", l.flow, size.InsideDiameterM), "definition")
		wide := l.line
		wide.InsideDiameterM = size.InsideDiameterM
		narrow, wider := hydraulics.NewResistance(l.line, l.coef, c.nu), hydraulics.NewResistance(wide, l.coef, c.nu)
		now, then := narrow.LossM(l.flow), wider.LossM(l.flow)
		saved := sheet.ID(l.name + ".head_saved")
		c.metres(saved, now-then, with("= %s − %s, the line's loss now and in the wider pipe, K unchanged", now, then), "darcyweisbach")
		f := c.care(l.code, "title24pool", sheet.AtPump, append(figures, id, saved)...)
		f.Mend = []sheet.Change{{Field: l.field, Value: size.NominalIn}}
		return
	}
	f := c.care(l.code+"_no_wider", "title24pool", sheet.AtPump, figures...)
	f.Mend = c.slower(l)
}

// piped is the circuit's system with both lines in one size of pipe; K of
// named fittings follows the bore.
func (c *circuit) piped(size hydraulics.Size) pump.System {
	s := c.system
	in, out := c.suction, c.discharge
	in.InsideDiameterM, out.InsideDiameterM = size.InsideDiameterM, size.InsideDiameterM
	ti, _ := hydraulics.LineTerms(in)
	to, _ := hydraulics.LineTerms(out)
	ti.EntryCoef, to.ExitCoef = c.inTerms.EntryCoef, c.outTerms.ExitCoef
	s.Suction = hydraulics.NewResistance(in, ti.SumCoef(), c.nu)
	s, _ = c.branched(s, out, to.SumCoef())
	return s
}

// prime says what keeps water in a pump that stands above the pond.
func (c *circuit) prime(p picked) {
	z := c.d.Circulation.PumpAboveWaterM
	if z <= 0 {
		return
	}
	c.metres("pump.above_water", z, "as asked for", "asked")
	c.metres("pump.prime_lift", p.machine.Model.MostLiftM, "as the builder's list says", "builder")
	code, severity := "prime_needed", sheet.Care
	if p.machine.Model.Class == pump.SelfPriming && z <= p.machine.Model.MostLiftM && c.checked() {
		code, severity = "prime_kept", sheet.Fine
	}
	f := c.care(code, "practice", sheet.AtPump, "pump.above_water")
	f.Severity = severity
	if severity == sheet.Care && c.checked() {
		f.Mend = c.primer()
	}
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

// checked says whether a check or foot valve stands in the suction line.
func (c *circuit) checked() bool {
	for _, f := range c.suction.Fittings {
		switch f.Kind {
		case hydraulics.SwingCheck, hydraulics.StraightCheck, hydraulics.FootHinged, hydraulics.FootPoppet:
			return true
		}
	}
	return false
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
