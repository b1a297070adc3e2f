package core

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

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

// starves raises a finding when the pumps need more suction head than there is,
// with the first of the ways that give them enough: a wider suction pipe, a
// place below the water line, more pumps.
func (c *circuit) starves() {
	has, needs := c.s.Value("pump.npsh_available"), c.s.Value("pump.npsh_required")
	if !(has < needs) {
		return
	}
	ways := c.enough()
	if len(ways) == 0 {
		c.care("npsh_short_else", "npsh", sheet.AtPump, "pump.npsh_available", "pump.npsh_required")
		return
	}
	c.metres("pump.npsh_mended", ways[0].headM, "the suction head there is, worked out again with the change that is offered", "npsh")
	f := c.care("npsh_short", "npsh", sheet.AtPump, "pump.npsh_available", "pump.npsh_required", "pump.npsh_mended")
	f.Mend = ways[0].change
	if len(ways) > 1 {
		f.Else = ways[1].change
	}
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
	f := c.care(code, "practice", sheet.AtPump, "pump.above_water", "pump.prime_lift")
	f.Severity = severity
	if severity == sheet.Fine {
		return
	}
	f.Mend = inPit()
	if c.checked() {
		if other := c.primer(); len(other) > 0 {
			f.Mend, f.Else = other, f.Mend
		}
	}
}

// inPit is a pump that stands below the water line and fills by itself.
func inPit() []sheet.Change { return []sheet.Change{{Field: "stand", Value: "pit"}} }

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

// whirls says whether the mouth of each suction line lies deep enough that no whirl
// draws air into it; nothing where nobody has stated how deep it lies.
func (c *circuit) whirls(eachM3PerS float64) {
	asked, deep := c.d.Circulation.IntakeDepthM, c.s.Value("pond.max_depth")
	if asked <= 0 {
		return
	}
	bore := c.suction.InsideDiameterM
	c.metres("suction.mouth_depth", math.Min(asked, deep), with("as asked for, %s, and no deeper than the pond, %s", asked, deep), "asked")
	least := hydraulics.Mouth{DiameterM: bore}.LeastDepthM(eachM3PerS)
	c.metres("suction.mouth_least", least, with("= D (1 + 2.3 v / √(g D)) = %s × (1 + 2.3 × %s / √(9.80665 × %s))", bore, c.s.Value("suction.velocity"), bore), "hi98")
	figures := []sheet.ID{"suction.mouth_depth", "suction.mouth_least"}
	if c.s.Value("suction.mouth_depth") >= c.s.Value("suction.mouth_least") {
		f := c.care("air_kept", "hi98", sheet.AtIntake, figures...)
		f.Severity = sheet.Fine
		return
	}
	wider, leastWider := c.calmer(c.s.Value("suction.mouth_depth"))
	code := "air_drawn_no_wider"
	if len(wider) > 0 {
		code = "air_drawn"
		c.metres("suction.mouth_wider", leastWider, "the same rule in the next suction pipe in which this mouth is deep enough", "hi98")
		figures = append(figures, "suction.mouth_wider")
	}
	f := c.care(code, "hi98", sheet.AtIntake, figures...)
	f.Mend = wider
	const inchM = 0.0254
	if want := math.Ceil(c.s.Value("suction.mouth_least")/inchM) * inchM; want+bore <= deep {
		f.Mend, f.Else = []sheet.Change{{Field: "mouth", Value: num.Decimal(want, 4) + "m"}}, wider
	}
}
