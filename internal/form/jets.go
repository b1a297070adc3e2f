package form

import (
	"strconv"

	"tarnwright/internal/core/design"
)

// The usual branch to jets: common practice, no source.
const (
	nozzleHeadM    = 1.5
	jetPipeM       = 8.0
	nightFlowRatio = 0.35
	winterFlow     = 0.3
)

// jets is the branch that the answers mean, or none.
func jets(s State) *design.Jets {
	n, err := strconv.Atoi(s.Word(Jets))
	mm, err2 := strconv.Atoi(s.Word(Nozzle))
	if err != nil || err2 != nil || n == 0 {
		return nil
	}
	return &design.Jets{Count: n, NozzleM: float64(mm) / 1000, NozzleHeadM: nozzleHeadM,
		Line: bored(s, JetPipe, design.Line{LengthM: jetPipeM, Fittings: []design.Fitting{
			{Kind: "tee_branch", Count: 1}, {Kind: "ball_valve", Count: 1}, {Kind: "bend_90_long", Count: 3}}})}
}

// running is the pump's year, and the share of the flow in its slower hours.
func running(s State, d *design.Design) {
	y := year{from: int(s.Value(From)), to: int(s.Value(To)), number: d.Running.Year,
		cascadeH: s.Value(CascadeHours), night: s.Word(Night), winter: s.Word(Winter)}
	d.Running.Spans = y.spans()
	if y.night == slowly {
		d.Circulation.NightFlowRatio = nightFlowRatio
	}
	if y.winter == slowly {
		d.Circulation.WinterFlowRatio = winterFlow
	}
}
