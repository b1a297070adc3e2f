package core

import (
	"math"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/core/water"
)

// Steps of the circulation's figures.
const (
	flowStep     = 1e-9
	headStep     = 1e-6
	speedStep    = 1e-6
	powerStep    = 1e-4
	frictionStep = 1e-9
)

// Limits of velocity in the lines, 6 and 8 ft/s.
const (
	suctionLimitMPerS   = 1.8288
	dischargeLimitMPerS = 2.4384
)

// sharpCrestM is how high a sharp lip stands over the basin behind it, where
// the design says nothing.
const sharpCrestM = 0.3

// duty is what the running figures need of the circulation.
type duty struct {
	Drive design.Drive
	// Single and Variable are the pump of each kind that serves this pond at
	// the least cost; Found is false where the catalogue has none.
	Single, Variable pumpDuty
}

// pumpDuty is a set of equal pumps at work.
type pumpDuty struct {
	Found, Fits bool // Fits says that nothing is wrong with it here
	Model       string
	Count       int
	// PowerW is drawn in each of the modes, in their order.
	PowerW [modes]float64
	Price  money.Amount // of all of them
}

// modes is how many modes there are; design.Modes has their order.
const modes = 4

// circuit is the circulation made ready to solve.
type circuit struct {
	s      *sheet.Sheet
	d      design.Design
	b      Book
	wanted float64
	// jets is what the jets want on a branch of their own, out of wanted.
	jets               float64
	held               hold
	static             float64
	nu, rho            float64
	air, vapour        float64
	inTerms, outTerms  hydraulics.Terms
	system             pump.System
	suction, discharge design.Line
	perKWh             money.Price
	hours              [modes]float64 // of a year, by mode
}

// circulationFigures adds the flow wanted, the duty point, where the head
// goes, velocities, suction head and the pumps of each kind.
func circulationFigures(s *sheet.Sheet, d design.Design, b Book) duty {
	c := newCircuit(s, d, b)
	c.flows()
	c.pipes()
	single := c.pick(design.SingleSpeed)
	variable := c.pick(design.VariableSpeed)
	chosen := single
	if d.Circulation.Drive == design.VariableSpeed {
		chosen = variable
	}
	if d.Circulation.Pump != "" {
		chosen = c.named(d.Circulation.Pump, chosen)
		if chosen.drive() == design.VariableSpeed {
			variable = chosen
		} else {
			single = chosen
		}
	}
	c.count()
	c.settle(chosen)
	c.kinds(single, variable)
	c.curves(chosen, variable)
	c.judge(chosen)
	choice := c.choice()
	c.mendRest(choice)
	s.Tables = append(s.Tables, c.schedule(chosen), choice)
	return duty{Drive: d.Circulation.Drive, Single: single.duty(), Variable: variable.duty()}
}

func newCircuit(s *sheet.Sheet, d design.Design, b Book) *circuit {
	t := d.Site.WaterTempDegC
	c := &circuit{
		s: s, d: d, b: b, nu: water.ViscosityM2PerS(t), rho: water.DensityKgPerM3(t),
		air: water.AirPressurePa(d.Site.AltitudeM), vapour: water.VapourPressurePa(t),
		suction: d.Circulation.Suction, discharge: d.Circulation.Discharge, perKWh: pricePerKWh(d, b),
	}
	for i, m := range design.Modes() {
		c.hours[i] = float64(power.PumpTimes(d.Running, m).YearMin()) / power.HourMin
	}
	if d.Cascade != nil {
		c.static = d.Cascade.RiseM + d.Cascade.SheetM
	}
	return c
}

func (c *circuit) add(id sheet.ID, x, step float64, f sheet.Figure) {
	f.ID, f.Value, f.Step = id, x, step
	c.s.Add(f)
}

func (c *circuit) flow(id sheet.ID, x float64, working string, key source.Key) {
	c.add(id, x, flowStep, sheet.Figure{Unit: sheet.CubicMPerS, Working: working, Source: key})
}

func (c *circuit) metres(id sheet.ID, x float64, working string, key source.Key) {
	c.add(id, x, headStep, sheet.Figure{Unit: sheet.Metre, Working: working, Source: key})
}

func (c *circuit) velocity(id sheet.ID, x float64, working string, key source.Key) {
	c.add(id, x, speedStep, sheet.Figure{Unit: sheet.MetrePerS, Working: working, Source: key})
}

func (c *circuit) ratio(id sheet.ID, x float64, working string, key source.Key) {
	c.add(id, x, frictionStep, sheet.Figure{Unit: sheet.Ratio, Working: working, Source: key})
}

func (c *circuit) watts(id sheet.ID, x float64, working string, key source.Key) {
	c.add(id, x, powerStep, sheet.Figure{Unit: sheet.Watt, Working: working, Source: key})
}

// flows adds what each part wants and takes the greatest.
func (c *circuit) flows() {
	k := c.d.Circulation
	v := c.s.Value("water.net_volume")
	c.flow("flow.turnover", v/(k.TurnoverH*3600), with("= V / t = %s / (%s × 3600)", v, k.TurnoverH), "definition")
	cascade, how, key := c.cascade()
	c.flow("flow.cascade", cascade, how, key)
	zone, how := 0.0, "no regeneration zone"
	if z := c.d.Zone; z != nil {
		zone, how = z.AreaM2*z.LoadingMPerH/3600, with("= A u / 3600 = %s × %s / 3600", z.AreaM2, z.LoadingMPerH)
	}
	c.flow("flow.zone", zone, how, "definition")
	c.jetsWanted()
	c.flow("flow.intake", 0, "an intake takes what the others want; its grate must be wide enough for it", "definition")
	most := 0.0
	for _, id := range []sheet.ID{"flow.turnover", "flow.cascade", "flow.zone", "flow.jets", "flow.together"} {
		most = math.Max(most, c.s.Value(id))
	}
	how = with("= greatest of turnover %s, cascade %s, zone %s, jets %s", c.s.Value("flow.turnover"),
		c.s.Value("flow.cascade"), c.s.Value("flow.zone"), c.s.Value("flow.jets"))
	if k.Jets != nil {
		how += with(", jets beside the rest %s", c.s.Value("flow.together"))
	}
	c.flow("flow.wanted", most, how, "definition")
	c.wanted = c.s.Value("flow.wanted")
}

// cascade returns the flow that lays the sheet asked for over the lip. The
// crest is taken as ideal (Cd 1), the most a lip passes at that depth, so the
// pump is not chosen too small.
func (c *circuit) cascade() (flowM3PerS float64, working string, key source.Key) {
	k := c.d.Cascade
	switch {
	case k == nil:
		return 0, "no cascade", "definition"
	case k.Lip == design.SharpLip:
		w := hydraulics.Sharp{LipM: k.LipM, CrestM: sharpCrestM}
		return w.FlowM3PerS(k.SheetM), with("= (0.602 + 0.075 × %s / %s) ⅔ √(2 × 9.80665) (%s − 0.0009) (%s + 0.001)^1.5",
			k.SheetM, sharpCrestM, k.LipM, k.SheetM), "kindsvatercarter1957"
	}
	w := hydraulics.Broad{LipM: k.LipM, DischargeCoef: 1}
	return w.FlowM3PerS(k.SheetM), with("= Cd (2/3)^1.5 √9.80665 b h^1.5 = 1 × 1.7046038 × %s × %s^1.5", k.LipM, k.SheetM), "broadcrest"
}

// pipes makes the lines ready; an entry and an exit are there whether named or
// not.
func (c *circuit) pipes() {
	c.inTerms = c.terms(c.suction)
	if c.inTerms.EntryCoef == 0 {
		c.inTerms.EntryCoef, _ = hydraulics.FittingCoef(hydraulics.EntranceSharp, c.suction.InsideDiameterM)
	}
	c.outTerms = c.terms(c.discharge)
	if c.outTerms.ExitCoef == 0 {
		c.outTerms.ExitCoef, _ = hydraulics.FittingCoef(hydraulics.Exit, c.discharge.InsideDiameterM)
	}
	c.system = pump.System{
		Count: max(1, c.d.Circulation.PumpCount), StaticM: c.static, DensityKgPerM3: c.rho,
		Suction: hydraulics.NewResistance(c.suction, c.inTerms.SumCoef(), c.nu),
	}
	if j := c.d.Circulation.Jets; j != nil {
		c.terms(j.Line) // for what it says of names nobody knows
	}
	c.system, c.held = c.branched(c.system, c.discharge, c.outTerms.SumCoef())
}

// terms adds up a line's fittings; one with a name that nobody knows is a
// finding, and counts for nothing.
func (c *circuit) terms(l design.Line) hydraulics.Terms {
	t, err := hydraulics.LineTerms(l)
	if err != nil {
		c.care("fitting_unknown", "crane410", sheet.AtPump)
		return hydraulics.Terms{OtherCoef: l.OtherLossCoef}
	}
	return t
}

func (c *circuit) care(code string, key source.Key, at sheet.Place, figures ...sheet.ID) *sheet.Finding {
	c.s.Findings = append(c.s.Findings, sheet.Finding{Code: code, Severity: sheet.Care, Source: key, Place: at, Figures: figures})
	return &c.s.Findings[len(c.s.Findings)-1]
}
