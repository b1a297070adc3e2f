package core

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

// first is what the first of some ways to mend a thing comes to.
func first(ways ...func() []sheet.Change) []sheet.Change {
	for _, way := range ways {
		if found := way(); len(found) > 0 {
			return found
		}
	}
	return nil
}

// outcome is what the pump that the design names, or else the best of its kind,
// does on a system; its eye stands so far above the water.
func (c *circuit) outcome(s pump.System, aboveM float64) pump.Option {
	var models []pump.Model
	for _, m := range c.b.Pumps {
		if m.ID == c.d.Circulation.Pump || c.d.Circulation.Pump == "" && m.Drive == c.d.Circulation.Drive {
			models = append(models, m)
		}
	}
	q := c.question(models)
	q.Systems, q.Counts = []pump.System{s}, []int{s.Count}
	q.NPSHBeforeLossM += q.PumpAboveWaterM - aboveM
	q.PumpAboveWaterM = aboveM
	answer := pump.Choose(q)
	if len(answer.Fit) > 0 {
		return answer.Fit[0]
	}
	return answer.Nearest
}

// serves says whether that pump gives the flow wanted and keeps its own limits.
func (c *circuit) serves(s pump.System) bool {
	o := c.outcome(s, c.d.Circulation.PumpAboveWaterM)
	return o.Count > 0 && o.Fault == ""
}

// pitM is how far below the water line a pump in a pit has its eye. Common
// practice, no source.
const pitM = 0.3

// enoughHead is a change after which the pumps have enough suction head, and
// how much that is.
type enoughHead struct {
	change []sheet.Change
	headM  float64
}

// enough lists the changes of one thing after which the pumps have enough
// suction head: the narrowest pipe that will do, a place below the water line,
// and the least number of pumps.
func (c *circuit) enough() []enoughHead {
	var out []enoughHead
	above := c.d.Circulation.PumpAboveWaterM
	try := func(s pump.System, aboveM float64, change sheet.Change) bool {
		o := c.outcome(s, aboveM)
		if o.Full.State != hydraulics.Flowing || o.NPSHAvailableM < o.Wanted.NPSHRequiredM {
			return false
		}
		out = append(out, enoughHead{[]sheet.Change{change}, o.NPSHAvailableM})
		return true
	}
	for _, size := range c.b.Pipes {
		if size.InsideDiameterM > c.suction.InsideDiameterM*1.001 && try(c.sucking(size), above, sheet.Change{Field: "pipe", Value: size.NominalIn}) {
			break
		}
	}
	if above > -pitM {
		try(c.system, -pitM, inPit()[0])
	}
	for n := c.system.Count + 1; n <= mostPumps; n++ {
		s := c.system
		s.Count = n
		if try(s, above, sheet.Change{Field: "pumps", Value: strconv.Itoa(n)}) {
			break
		}
	}
	return out
}

// calmer is the narrowest wider suction pipe in which a mouth so deep draws no
// air, and how deep it would have to lie.
func (c *circuit) calmer(depthM float64) (change []sheet.Change, leastM float64) {
	for _, size := range c.b.Pipes {
		if size.InsideDiameterM <= c.suction.InsideDiameterM*1.001 {
			continue
		}
		o := c.outcome(c.sucking(size), c.d.Circulation.PumpAboveWaterM)
		if o.Count == 0 {
			continue
		}
		leastM = hydraulics.Mouth{DiameterM: size.InsideDiameterM}.LeastDepthM(o.Wanted.FlowM3PerS / float64(o.Count))
		if leastM <= depthM {
			return []sheet.Change{{Field: "pipe", Value: size.NominalIn}}, leastM
		}
	}
	return nil, 0
}

// mendRest offers, to each limit that no single change keeps, what does: the
// best of all pumps and pipes of the builder, which keeps every limit, or else
// less flow.
func (c *circuit) mendRest(choice sheet.Table) {
	for i := range c.s.Findings {
		f := &c.s.Findings[i]
		if len(f.Mend) > 0 {
			continue
		}
		switch f.Code {
		case "suction_fast_no_wider", "discharge_fast_no_wider", "npsh_short_else", "air_drawn_no_wider", "no_duty_point", "outside_curve", "flow_short":
			if len(choice.Rows) > 0 {
				f.Mend = choice.Rows[0].Mend
				continue
			}
			if len(f.Figures) > 1 {
				f.Mend = c.lessFlow(c.s.Value(f.Figures[1]) / c.s.Value(f.Figures[0]))
			}
		}
	}
}

// lessFlow is a shorter lip, a smaller zone or a pump less, whichever part asks
// for the flow: to so much of what flows now.
func (c *circuit) lessFlow(ratio float64) []sheet.Change {
	const inchM, zoneStepM2 = 0.0254, 0.1
	k, z, rest := c.d.Cascade, c.d.Zone, c.wanted-c.jets-flowStep
	switch {
	case !(ratio < 1):
		return nil
	case k != nil && c.s.Value("flow.cascade") >= rest:
		if lipM := math.Floor(k.LipM*ratio/inchM) * inchM; lipM >= leastLipM {
			return []sheet.Change{{Field: "lip", Value: num.Decimal(lipM, 4) + "m"}}
		}
		return []sheet.Change{{Field: "lip", Value: num.Decimal(leastLipM, 4) + "m"}}
	case z != nil && c.s.Value("flow.zone") >= rest:
		return []sheet.Change{{Field: "zone_area", Value: num.Decimal(math.Floor(z.AreaM2*ratio/zoneStepM2)*zoneStepM2, 4) + "m2"}}
	case c.system.Count > 1:
		return []sheet.Change{{Field: "pumps", Value: strconv.Itoa(c.system.Count - 1)}}
	}
	return nil
}

// morePumps is the least number of pumps side by side that serve.
func (c *circuit) morePumps() []sheet.Change {
	for n := c.system.Count + 1; n <= mostPumps; n++ {
		s := c.system
		s.Count = n
		if c.serves(s) {
			return []sheet.Change{{Field: "pumps", Value: strconv.Itoa(n)}}
		}
	}
	return nil
}

// fallStepM is by how much a fall is lowered until a pump serves: half a foot.
const fallStepM = 0.1524

// lowerFall is the highest fall, by half feet, that a pump of the catalogue
// serves.
func (c *circuit) lowerFall() []sheet.Change {
	if c.d.Cascade == nil {
		return nil
	}
	for n := math.Ceil(c.d.Cascade.RiseM/fallStepM) - 1; n >= 1; n-- {
		s := c.system
		s.StaticM = n*fallStepM + c.d.Cascade.SheetM
		if c.serves(s) {
			return []sheet.Change{{Field: "rise", Value: num.Decimal(n*fallStepM, 4) + "m"}}
		}
	}
	return nil
}

// narrowerPipe is the widest of the narrower pipes on which a pump keeps to its
// curve.
func (c *circuit) narrowerPipe() []sheet.Change {
	for i := len(c.b.Pipes) - 1; i >= 0; i-- {
		size := c.b.Pipes[i]
		if size.InsideDiameterM < c.discharge.InsideDiameterM && c.serves(c.piped(size)) {
			return []sheet.Change{{Field: "pipe", Value: size.NominalIn}, {Field: "discharge", Value: size.NominalIn}}
		}
	}
	return nil
}

// slower is what slows the water in a line that no wider pipe is stocked for: a
// pump more on its own suction line, a shorter lip, or fewer jets.
func (c *circuit) slower(l fastLine) []sheet.Change {
	const inchM = 0.0254
	j, k := c.d.Circulation.Jets, c.d.Cascade
	switch {
	case l.name == "suction" && c.system.Count < mostPumps:
		return []sheet.Change{{Field: "pumps", Value: strconv.Itoa(c.system.Count + 1)}}
	case l.name == "discharge" && k != nil && c.s.Value("flow.cascade") >= c.wanted-c.jets-flowStep:
		if lipM := math.Floor(k.LipM*l.limit/c.s.Value("discharge.velocity")/inchM) * inchM; lipM >= leastLipM {
			return []sheet.Change{{Field: "lip", Value: num.Decimal(lipM, 4) + "m"}}
		}
	case l.name == "jets" && j != nil && j.Count > 2:
		return []sheet.Change{{Field: "jets", Value: strconv.Itoa((j.Count - 1) / 2 * 2)}}
	}
	return nil
}

// goodSheetM is a depth over the lip that the weir formulas are sure of, and
// that reads well: an inch and a quarter.
const goodSheetM = 0.03175

// thicker is a shorter lip under a deeper sheet, at the same flow, where the lip
// does not get too short for a cascade; and the deeper sheet alone, which asks
// for more flow.
func thicker(k design.Cascade) (shorter, deeper []sheet.Change) {
	deep := sheet.Change{Field: "sheet", Value: num.Shortest(goodSheetM) + "m"}
	lipM := k.LipM * math.Pow(k.SheetM/goodSheetM, 1.5)
	if lipM < leastLipM {
		return []sheet.Change{deep}, nil
	}
	const inchM = 0.0254
	lipM = math.Round(lipM/inchM) * inchM
	return []sheet.Change{{Field: "lip", Value: num.Decimal(lipM, 4) + "m"}, deep}, []sheet.Change{deep}
}

// leastLipM is the shortest lip that is offered. Common practice, no source.
const leastLipM = 0.6

// wider is the change to the next wider pipe that the builder stocks.
func (c *circuit) wider(l design.Line, field string) []sheet.Change {
	for _, size := range c.b.Pipes {
		if size.InsideDiameterM > l.InsideDiameterM*1.001 {
			return []sheet.Change{{Field: field, Value: size.NominalIn}}
		}
	}
	return nil
}

// betterPipe is the narrowest pipe, in both lines, on which a pump of the
// catalogue gives the flow wanted.
func (c *circuit) betterPipe() []sheet.Change {
	for _, size := range c.b.Pipes {
		if size.InsideDiameterM <= c.suction.InsideDiameterM && size.InsideDiameterM <= c.discharge.InsideDiameterM {
			continue
		}
		if c.serves(c.piped(size)) {
			return []sheet.Change{{Field: "pipe", Value: size.NominalIn}, {Field: "discharge", Value: size.NominalIn}}
		}
	}
	return nil
}

// betterPump leaves the choice to the check where the design names a pump, and
// is otherwise the other kind of pump; either only if one of those suits.
func (c *circuit) betterPump() []sheet.Change {
	if c.d.Circulation.Pump != "" {
		if p := c.pick(c.d.Circulation.Drive); p.found && p.fault == "" {
			return []sheet.Change{{Field: "model", Value: "auto"}}
		}
	}
	kind, word := design.VariableSpeed, "variable"
	if c.d.Circulation.Drive == design.VariableSpeed {
		kind, word = design.SingleSpeed, "single"
	}
	if p := c.pick(kind); p.found && p.fault == "" {
		return []sheet.Change{{Field: "pump", Value: word}}
	}
	return nil
}

// primer is the pump that primes itself at this height and serves at the least
// cost, if there is one.
func (c *circuit) primer() []sheet.Change {
	var models []pump.Model
	for _, m := range c.b.Pumps {
		if m.Class == pump.SelfPriming {
			models = append(models, m)
		}
	}
	answer := pump.Choose(c.question(models))
	if len(answer.Fit) == 0 {
		return nil
	}
	return []sheet.Change{{Field: "model", Value: models[answer.Fit[0].Model].ID}}
}

// piped is the circuit's system with both lines in one size of pipe; K of
// named fittings follows the bore.
func (c *circuit) piped(size hydraulics.Size) pump.System {
	out := c.discharge
	out.InsideDiameterM = size.InsideDiameterM
	to, _ := hydraulics.LineTerms(out)
	to.ExitCoef = c.outTerms.ExitCoef
	s, _ := c.branched(c.sucking(size), out, to.SumCoef())
	return s
}

// sucking is the circuit's system with its suction lines in a size of pipe.
func (c *circuit) sucking(size hydraulics.Size) pump.System {
	s, in := c.system, c.suction
	in.InsideDiameterM = size.InsideDiameterM
	ti, _ := hydraulics.LineTerms(in)
	ti.EntryCoef = c.inTerms.EntryCoef
	s.Suction = hydraulics.NewResistance(in, ti.SumCoef(), c.nu)
	return s
}
