package core

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
)

// picked is a pump of the catalogue at work in this pond.
type picked struct {
	found   bool
	fault   pump.Fault
	machine *pump.Machine
	count   int
	full    pump.Duty
	at      [modes]pump.Duty // by mode; those nobody asks for are empty
}

func (p picked) wanted() pump.Duty { return p.at[0] }
func (p picked) quiet() pump.Duty  { return p.at[1] }

func (p picked) drive() design.Drive {
	if !p.found {
		return ""
	}
	return p.machine.Model.Drive
}

func (p picked) duty() pumpDuty {
	if !p.found {
		return pumpDuty{}
	}
	q, _ := money.ParseQuantity(strconv.Itoa(p.count))
	u := pumpDuty{Found: true, Fits: p.fault == "", Model: p.machine.Model.ID, Count: p.count, Price: p.machine.Model.Price.Times(q)}
	for i, d := range p.at {
		u.PowerW[i] = sheet.Quantise(d.PowerW, powerStep)
	}
	return u
}

// question is the choice that this design sets, on the pipes it names.
func (c *circuit) question(models []pump.Model) pump.Question {
	return pump.Question{
		Models: models, Systems: []pump.System{c.system}, Counts: []int{c.system.Count},
		FlowM3PerS: c.wanted, QuietFlowM3PerS: c.slowFlow(1), NightFlowM3PerS: c.slowFlow(2), WinterFlowM3PerS: c.slowFlow(3),
		NPSHBeforeLossM: c.npshBeforeLoss(), PumpAboveWaterM: c.d.Circulation.PumpAboveWaterM,
		Cost: func(o pump.Option) money.Amount { return c.tenYears(models[o.Model], o) },
	}
}

// slowFlow is the flow of a mode in which the jets rest; none where the year has
// no hour of it. Quiet hours are always worked out.
func (c *circuit) slowFlow(mode int) float64 {
	k := c.d.Circulation
	ratios := [modes]float64{1, k.QuietFlowRatio, k.NightFlowRatio, k.WinterFlowRatio}
	if mode > 1 && c.hours[mode] == 0 {
		return 0
	}
	return (c.wanted - c.jets) * ratios[mode]
}

func (c *circuit) npshBeforeLoss() float64 {
	return pump.NPSHAvailableM(pump.Intake{AirPressurePa: c.air, VapourPressurePa: c.vapour, DensityKgPerM3: c.rho,
		PumpAboveWaterM: c.d.Circulation.PumpAboveWaterM})
}

// pick takes the pump of one kind that serves at the least ten-year cost, or
// the one that comes nearest when none does.
func (c *circuit) pick(kind design.Drive) picked {
	var models []pump.Model
	for _, m := range c.b.Pumps {
		if m.Drive == kind {
			models = append(models, m)
		}
	}
	answer := pump.Choose(c.question(models))
	if len(answer.Fit) > 0 {
		return at(answer.Fit[0])
	}
	return at(answer.Nearest)
}

// at is the pump of an option, or none.
func at(o pump.Option) picked {
	if o.Machine() == nil {
		return picked{}
	}
	return picked{found: true, fault: o.Fault, machine: o.Machine(), count: o.Count, full: o.Full, at: [modes]pump.Duty{o.Wanted, o.Quiet, o.Night, o.Winter}}
}

// named takes the pump that the design names.
func (c *circuit) named(id string, instead picked) picked {
	for _, m := range c.b.Pumps {
		if m.ID == id {
			models := []pump.Model{m}
			answer := pump.Choose(c.question(models))
			if len(answer.Fit) > 0 {
				return at(answer.Fit[0])
			}
			return at(answer.Nearest)
		}
	}
	c.care("pump_unknown", "builder", sheet.AtPump)
	return instead
}

func (c *circuit) count() {
	c.add("pump.count", float64(c.system.Count), 1, sheet.Figure{Unit: sheet.Count, Working: "as asked for", Source: "asked"})
}

// settle adds the duty point of the chosen pump and where the head goes.
func (c *circuit) settle(p picked) {
	if !p.found {
		c.care("no_pump", "builder", sheet.AtPump, "flow.wanted")
		return
	}
	m, d := p.machine, p.wanted()
	c.metres("pump.shutoff_head", m.ShutOffM(m.Model.MostSpeedRatio), with("= h(0) at full speed = %s", m.ShutOffM(m.Model.MostSpeedRatio)), "builder")
	c.metres("pump.head_static", c.static, c.lift(), "definition")
	c.easy(m)
	if d.State != hydraulics.Flowing {
		return
	}
	q := sheet.Quantise(d.FlowM3PerS, flowStep)
	c.flow("flow.duty", q, c.crossing(p), "affinity")
	v := c.s.Value("water.net_volume")
	c.add("turnover.time", v/q/3600, 1e-7, sheet.Figure{Unit: sheet.Hour, Working: with("= V / Q / 3600 = %s / %s / 3600", v, q), Source: "definition"})
	main := c.parted(q)
	if main <= 0 {
		return
	}
	c.heads(q, main)
	c.suctionHead(p, q)
	c.ratio("pump.efficiency", d.EfficiencyRatio, with("= ρ g Q H / P = %s × 9.80665 × %s × %s / %s", c.rho, q, c.s.Value("pump.head"), d.PowerW), "definition")
	if k := c.d.Cascade; k != nil {
		c.lipHead(*k, main)
	}
}

// easy adds the range of flow in which the pumps run easily at full speed.
func (c *circuit) easy(m *pump.Machine) {
	n, full := float64(c.system.Count), m.Model.MostSpeedRatio
	best := n * m.BestM3PerS(full)
	c.flow("pump.best_flow", best, "where Q H / P is greatest on the pump's own curve at full speed", "definition")
	best = c.s.Value("pump.best_flow")
	c.flow("pump.easy_from", pump.EasyFromRatio*best, with("= %s × %s", pump.EasyFromRatio, best), "practice")
	end := n * m.MostM3PerS(full)
	c.flow("pump.easy_to", min(pump.EasyToRatio*best, end), with("= %s × %s, or the end of the curve, %s", pump.EasyToRatio, best, end), "practice")
}

func (c *circuit) crossing(p picked) string {
	if p.drive() == design.VariableSpeed && p.fault != pump.TooSmall {
		return with("= flow wanted; the speed that gives it is %s of full", p.wanted().SpeedRatio)
	}
	return with("where the pump's head is what the pipes ask: %s = %s", p.wanted().HeadM, c.system.HeadM(p.wanted().FlowM3PerS))
}

func (c *circuit) lipHead(k design.Cascade, q float64) {
	if k.Lip == design.SharpLip {
		w := hydraulics.Sharp{LipM: k.LipM, CrestM: sharpCrestM}
		c.metres("weir.head", w.HeadM(q), with("the h at which Ce ⅔ √(2g) (b − 0.0009) (h + 0.001)^1.5 = %s, b = %s", q, k.LipM), "kindsvatercarter1957")
		return
	}
	w := hydraulics.Broad{LipM: k.LipM, DischargeCoef: 1}
	c.metres("weir.head", w.HeadM(q), with("= (Q / (1.7046038 b))^(2/3) = (%s / (1.7046038 × %s))^(2/3)", q, k.LipM), "broadcrest")
}

// lineAt is one line at a flow, with its figures' common names.
type lineAt struct {
	name  sheet.ID
	line  design.Line
	ready hydraulics.Resistance
	flow  float64
}

// heads adds the parts of the head, which add up to it.
func (c *circuit) heads(q, main float64) {
	each := q / float64(c.system.Count)
	in := lineAt{"suction", c.suction, c.system.Suction, each}
	out := lineAt{"discharge", c.discharge, c.system.Discharge, main}
	vIn, vOut := c.lineFigures(in), c.lineFigures(out)
	c.pipeHead(in, vIn)
	c.pipeHead(out, vOut)
	hIn, hOut := hydraulics.MinorLossM(1, vIn), hydraulics.MinorLossM(1, vOut)
	fit := c.inTerms.FittingCoef*hIn + (c.outTerms.FittingCoef+c.outTerms.ExitCoef)*hOut
	c.metres("pump.head_fittings", fit, with("= Σ K v²/2g = %s × %s + %s × %s", c.inTerms.FittingCoef, hIn, c.outTerms.FittingCoef+c.outTerms.ExitCoef, hOut), "crane410")
	c.metres("pump.head_gravel", c.outTerms.OtherCoef*hOut, with("= K v²/2g = %s × %s", c.outTerms.OtherCoef, hOut), "asked")
	k := c.inTerms.EntryCoef + c.inTerms.OtherCoef
	c.metres("pump.head_intake", k*hIn, with("= K v²/2g = %s × %s", k, hIn), "crane410")
	sum := 0.0
	parts := []sheet.ID{"pump.head_static", "pump.head_suction", "pump.head_discharge", "pump.head_fittings", "pump.head_gravel", "pump.head_intake"}
	if c.held.mainCoef > 0 {
		c.metres("pump.head_held", c.held.mainCoef*hOut, with("= K v²/2g = %s × %s, the valve set for the jets", c.held.mainCoef, hOut), "definition")
		parts = append(parts, "pump.head_held")
	}
	how := "="
	for i, id := range parts {
		if i > 0 {
			how += " +"
		}
		how += with(" %s", c.s.Value(id))
		sum += c.s.Value(id)
	}
	c.metres("pump.head", sum, how, "definition")
	c.grate(q)
}

// grateStepM2 is the step in which an open area is asked for.
const grateStepM2 = 0.01

// grate adds how fast the intake's grate draws, and how wide it must be to draw
// gently.
func (c *circuit) grate(q float64) {
	open := c.d.Circulation.IntakeOpenAreaM2
	c.velocity("intake.velocity", q/open, with("= Q / A = %s / %s", q, open), "definition")
	c.velocity("intake.velocity_limit", safety.GentleIntakeMPerS, "half a foot a second", "practice")
	c.add("intake.least_open", math.Ceil(q/safety.GentleIntakeMPerS/grateStepM2-1e-6)*grateStepM2, 1e-4,
		sheet.Figure{Unit: sheet.SquareMetre, Working: with("= Q / v, rounded up = %s / %s", q, safety.GentleIntakeMPerS), Source: "definition"})
}

func (c *circuit) lift() string {
	if c.d.Cascade == nil {
		return "the water comes back at the pond's own level"
	}
	return with("= rise + sheet = %s + %s", c.d.Cascade.RiseM, c.d.Cascade.SheetM)
}

// lineFigures adds a line's velocity, Reynolds number and friction factor.
func (c *circuit) lineFigures(l lineAt) (velocityMPerS float64) {
	d := l.line.InsideDiameterM
	c.velocity(l.name+".velocity", hydraulics.VelocityMPerS(l.flow, d), with("= 4 Q / (π D²) = 4 × %s / (π × %s²)", l.flow, d), "definition")
	v := c.s.Value(l.name + ".velocity")
	re := hydraulics.ReynoldsRatio(hydraulics.PipeFlow{FlowM3PerS: l.flow, DiameterM: d, ViscosityM2PerS: c.nu})
	c.add(l.name+".reynolds", re, 0.01, sheet.Figure{Unit: sheet.Ratio, Working: with("= v D / ν = %s × %s / ", v, d) + num.Decimal(c.nu*1e6, 8) + "e-6", Source: "definition"})
	rr := l.line.RoughnessM / d
	f := hydraulics.FrictionRatio(re, rr)
	c.ratio(l.name+".friction", f, "Colebrook–White, ε/D = "+num.Decimal(rr*1e6, 6)+"e-6", "colebrook1939")
	return v
}

func (c *circuit) pipeHead(l lineAt, v float64) {
	friction, _ := l.ready.Parts(l.flow)
	c.metres("pump.head_"+l.name, friction, with("= f (L/D) v²/2g = %s × (%s / %s) × %s² / 19.6133", c.s.Value(l.name+".friction"), l.line.LengthM, l.line.InsideDiameterM, v), "darcyweisbach")
}

// suctionHead adds the suction head available and required at each pump.
func (c *circuit) suctionHead(p picked, q float64) {
	loss := c.system.Suction.LossM(q / float64(c.system.Count))
	z := c.d.Circulation.PumpAboveWaterM
	a := pump.NPSHAvailableM(pump.Intake{AirPressurePa: c.air, VapourPressurePa: c.vapour, DensityKgPerM3: c.rho, PumpAboveWaterM: z, LossM: loss})
	c.metres("pump.npsh_available", a, with("= (p air − p vapour) / (ρ g) − z − h = (%s − %s) / (%s × 9.80665) − %s − %s", c.air, c.vapour, c.rho, z, loss), "npsh")
	c.metres("pump.npsh_required", p.wanted().NPSHRequiredM, with("by the pump's own curve at %s of full speed", p.wanted().SpeedRatio), "builder")
}

// kinds adds the power of a single-speed pump and of a variable one, in both
// modes.
func (c *circuit) kinds(single, variable picked) {
	if single.found && single.wanted().State == hydraulics.Flowing {
		d := single.wanted()
		c.watts("pump.power", d.PowerW, c.powerWorking(single, d), "builder")
		if q := single.quiet(); c.jets > 0 && q.State == hydraulics.Flowing {
			c.watts("pump.alone_power", q.PowerW, c.powerWorking(single, q), "builder")
		}
	}
	if !variable.found || variable.wanted().State != hydraulics.Flowing || variable.quiet().State != hydraulics.Flowing {
		return
	}
	w := variable.wanted()
	c.watts("pump.variable_power", w.PowerW, c.powerWorking(variable, w), "affinity")
	c.mode("quiet", variable, 1)
	if c.hours[2] > 0 {
		c.mode("night", variable, 2)
	}
	if c.hours[3] > 0 {
		c.mode("winter", variable, 3)
	}
}

// mode adds what a variable pump does in one of the slower modes.
func (c *circuit) mode(name sheet.ID, p picked, mode int) {
	q, base := p.at[mode], "flow wanted"
	if c.jets > 0 {
		base = "flow wanted less the jets'"
	}
	share := 0.0
	if wanted := c.wanted - c.jets; wanted > 0 {
		share = c.slowFlow(mode) / wanted
	}
	c.flow(name+".flow", q.FlowM3PerS, "= "+string(name)+with(" share × "+base+" = %s × %s, at least what the slowest speed gives", share, c.wanted-c.jets), "asked")
	c.metres(name+".head", q.HeadM, with("= what the pipes ask at %s", q.FlowM3PerS), "darcyweisbach")
	c.ratio(name+".speed", q.SpeedRatio, with("the s at which s² h(Q/s) = %s at Q = %s", q.HeadM, q.FlowM3PerS), "affinity")
	c.watts(name+".power", q.PowerW, c.powerWorking(p, q), "affinity")
}

// powerWorking shows the pump's own curve read at Q/s, brought to the speed.
func (c *circuit) powerWorking(p picked, d pump.Duty) string {
	n, drive := float64(p.count), p.machine.Model.DriveLossW
	at := pump.Working{FlowM3PerS: d.FlowM3PerS / n / d.SpeedRatio, SpeedRatio: 1}
	return p.machine.Model.ID + with(": = n (s³ P + drive) = %s × (%s³ × %s + %s), P read at %s m³/s",
		n, d.SpeedRatio, p.machine.PowerW(at)-drive, drive, at.FlowM3PerS)
}

// curvePoints is how many points a drawn curve has.
const curvePoints = 41

// curves adds the lines of the pump chart.
func (c *circuit) curves(chosen, variable picked) {
	if !chosen.found {
		return
	}
	full := c.pumpCurve("pump.full", chosen, chosen.machine.Model.MostSpeedRatio)
	quiet := chosen
	if chosen.drive() != design.VariableSpeed {
		quiet = variable
	}
	c.s.Curves = append(c.s.Curves, full)
	if quiet.found && quiet.quiet().State == hydraulics.Flowing {
		c.s.Curves = append(c.s.Curves, c.pumpCurve("pump.quiet", quiet, quiet.quiet().SpeedRatio))
	}
	top := 1.1 * chosen.machine.ShutOffM(chosen.machine.Model.MostSpeedRatio)
	end := full.Points[len(full.Points)-1].X
	system := sheet.Curve{ID: "pump.system", XUnit: sheet.CubicMPerS, YUnit: sheet.Metre}
	for i := range curvePoints {
		x := end * float64(i) / (curvePoints - 1)
		y := c.system.HeadM(x)
		if y > top && i > 0 {
			break
		}
		system.Points = append(system.Points, sheet.XY{X: sheet.Quantise(x, flowStep), Y: sheet.Quantise(y, headStep)})
	}
	c.s.Curves = append(c.s.Curves, system)
}

func (c *circuit) pumpCurve(id string, p picked, speed float64) sheet.Curve {
	n := float64(p.count)
	out := sheet.Curve{ID: id, XUnit: sheet.CubicMPerS, YUnit: sheet.Metre}
	end := n * p.machine.MostM3PerS(speed)
	for i := range curvePoints {
		x := end * float64(i) / (curvePoints - 1)
		y := p.machine.HeadM(pump.Working{FlowM3PerS: x / n, SpeedRatio: speed})
		out.Points = append(out.Points, sheet.XY{X: sheet.Quantise(x, flowStep), Y: sheet.Quantise(y, headStep)})
	}
	return out
}
