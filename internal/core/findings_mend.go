package core

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
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

// serves says whether the pump that the design names, or else one of its kind,
// gives the flow wanted on a system.
func (c *circuit) serves(s pump.System) bool {
	var models []pump.Model
	for _, m := range c.b.Pumps {
		if m.ID == c.d.Circulation.Pump || c.d.Circulation.Pump == "" && m.Drive == c.d.Circulation.Drive {
			models = append(models, m)
		}
	}
	q := c.question(models)
	q.Systems, q.Counts = []pump.System{s}, []int{s.Count}
	return len(pump.Choose(q).Fit) > 0
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
