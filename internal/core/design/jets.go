package design

import "strconv"

// Jets is a branch of the discharge with nozzles under water. It leaves the
// main line at the pumps, has a valve of its own, and is shut whenever the
// cascade rests.
type Jets struct {
	Count   int     `json:"count"`
	NozzleM float64 `json:"nozzle_m"` // inside diameter of each mouth
	// NozzleHeadM is the head at the nozzles that the flow wanted goes by.
	NozzleHeadM float64 `json:"nozzle_head_m"`
	Line        Line    `json:"line"` // from the pumps to the nozzles
}

// Limits of jets: common practice, no source.
const (
	maxJets                    = 40
	minNozzleM, maxNozzleM     = 0.003, 0.06
	minNozzleHead, maxNozzleHd = 0.1, 10.0
)

func (v *checker) jets(c Circulation) {
	if c.Jets == nil {
		return
	}
	v.count("circulation.jets.count", c.Jets.Count, 1, maxJets)
	v.within("circulation.jets.nozzle_m", c.Jets.NozzleM, limits{minNozzleM, maxNozzleM, "m"})
	v.within("circulation.jets.nozzle_head_m", c.Jets.NozzleHeadM, limits{minNozzleHead, maxNozzleHd, "m"})
	v.line("circulation.jets.line", c.Jets.Line)
	if c.JetsFlowM3PerS != 0 {
		v.fault("circulation.jets_flow_m3_per_s", "jets_twice")
	}
}

// slower checks the flow of the modes that the year has.
func (v *checker) slower(d Design) {
	for _, m := range []struct {
		mode  Mode
		path  string
		ratio float64
	}{
		{NightMode, "circulation.night_flow_ratio", d.Circulation.NightFlowRatio},
		{WinterMode, "circulation.winter_flow_ratio", d.Circulation.WinterFlowRatio},
	} {
		if d.Running.has(m.mode) || m.ratio != 0 {
			v.within(m.path, m.ratio, limits{0.1, 1, ""})
		}
	}
}

// has says whether any window of the year is of a mode.
func (r Running) has(m Mode) bool {
	for _, s := range r.Spans {
		for _, run := range s.Runs {
			if run.Mode == m {
				return true
			}
		}
	}
	return false
}

// Modes lists the modes, in the order of the sheet.
func Modes() []Mode { return []Mode{CascadeMode, QuietMode, NightMode, WinterMode} }

func modeNames() []string {
	var names []string
	for _, m := range Modes() {
		names = append(names, string(m))
	}
	return names
}

// runPath is where a window of a span stands in a file.
func runPath(span string, j int) string { return span + ".runs[" + strconv.Itoa(j) + "]" }
