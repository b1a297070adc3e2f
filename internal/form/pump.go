package form

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
)

// inPit is a pump that stands below the water line, pitM deep: common practice,
// no source.
const (
	inPit = "pit"
	pitM  = 0.3
)

// Auto leaves the choice of the pump to the check.
const Auto = "auto"

// Listed is a pump of the book that a person may choose.
type Listed struct {
	ID, Name string
	Drive    design.Drive
}

func (d Defaults) pumpNames() []string {
	names := []string{Auto}
	for _, p := range d.Pumps {
		names = append(names, p.ID)
	}
	return names
}

func (d Defaults) pump(id string) (Listed, bool) {
	for _, p := range d.Pumps {
		if p.ID == id {
			return p, true
		}
	}
	return Listed{}, false
}

// kindOf is a drive as the question of the pump's kind says it.
func kindOf(d design.Drive) string {
	if d == design.VariableSpeed {
		return "variable"
	}
	return "single"
}

// agreed makes the pump's kind and the pump from the list agree after one of
// the two was answered.
func (s State) agreed(f Field) State {
	p, named := s.base.pump(s.Word(Model))
	if !named || kindOf(p.Drive) == s.Word(Pump) {
		return s
	}
	switch f {
	case Model:
		return s.put(Pump, value{word: kindOf(p.Drive)})
	case Pump:
		return s.put(Model, value{word: Auto})
	}
	return s
}

func circulation(s State, c *design.Circulation) {
	c.Drive = design.SingleSpeed
	if s.Word(Pump) == "variable" {
		c.Drive = design.VariableSpeed
	}
	if p, ok := s.base.pump(s.Word(Model)); ok {
		c.Pump, c.Drive = p.ID, p.Drive
	}
	if n, err := strconv.Atoi(s.Word(Pumps)); err == nil {
		c.PumpCount = n
	}
	c.Suction = bored(s, Pipe, c.Suction)
	c.Discharge = bored(s, Discharge, c.Discharge)
	c.Jets = jets(s)
	c.IntakeDepthM, c.IntakeOpenAreaM2 = s.Value(Mouth), s.Value(Grate)
	if s.Word(Stand) == inPit {
		c.PumpAboveWaterM = math.Min(c.PumpAboveWaterM, -pitM)
	}
	if !s.On(Zone) {
		c.Discharge.OtherLossCoef = 0 // no manifold under gravel
	}
}

// bored is a line in the pipe that was chosen.
func bored(s State, f Field, l design.Line) design.Line {
	if p, ok := s.base.pipe(s.Word(f)); ok {
		l.InsideDiameterM, l.RoughnessM = p.InsideDiameterM, p.RoughnessM
	}
	l.Fittings = append([]design.Fitting(nil), l.Fittings...)
	return l
}
