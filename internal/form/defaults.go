package form

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/measure"
)

// Defaults is what the form holds before anyone has typed: the answers, and
// everything a design needs that the form does not ask.
type Defaults struct {
	System   measure.System
	Currency string
	// Base is the design that the answers change.
	Base design.Design
	// Answers holds a text for every question, each with its unit.
	Answers map[Field]string
	Pipes   []Size
	// Regions have an average price of electricity each, the form's own first.
	Regions []Region
	Pumps   []Listed
	// Tariff is the name of the builder's tariff; empty where there is none.
	Tariff string
	// Check lists what is wrong with a design; nil asks design.Validate, which
	// does not see an outline that crosses itself.
	Check func(design.Design) []design.Fault
}

func (d Defaults) faults(asked design.Design) []design.Fault {
	if d.Check == nil {
		return design.Validate(asked)
	}
	return d.Check(asked)
}

// Size is a nominal pipe size that a person may choose.
type Size struct {
	Name            string // "3", in the address
	InsideDiameterM float64
	RoughnessM      float64
}

func (d Defaults) pipeNames() []string {
	names := make([]string, len(d.Pipes))
	for i, p := range d.Pipes {
		names[i] = p.Name
	}
	return names
}

func (d Defaults) pipe(name string) (Size, bool) {
	for _, p := range d.Pipes {
		if p.Name == name {
			return p, true
		}
	}
	return Size{}, false
}

// Demo is the invented pond that the page opens with: project "Alder Reach".
func Demo() Defaults {
	return Defaults{
		System:   measure.US,
		Currency: "USD",
		Base:     demoBase(),
		Answers: map[Field]string{
			Shape: "bean", Length: "34 ft", Width: "21 ft", Handles: "", Deep: "6 ft 6 in",
			Beach: "w", BeachSlope: "5", Shelf: "on", Steps: "off",
			Zone: "on", ZoneArea: "14.68 m2",
			Cascade: "on", Lip: "5 ft", Rise: "0.76 m", Sheet: "0.025 m",
			Jets: "0", Nozzle: "10", JetPipe: "1.5", CascadeHours: "8", Night: "quiet", Winter: "off", Bill: byAverage, HomeUse: "900",
			Deck:  "on",
			Place: everywhere, Power: "0.16/kWh", Water: "6.20 / 1,000 gal",
			From: "3", To: "11", Pump: "single", Model: Auto, Pumps: "1", Pipe: "3", Discharge: "3", Stand: "pad", Mouth: "2 ft", Grate: "0.12 m2", Fence: "off", Patio: "off", FirePit: "off",
		},
		// Schedule 40 pipe, as in the demo's catalogue of pipes.
		Pipes: []Size{
			{"1.5", 0.04089, plasticRoughnessM}, {"2", 0.05250, plasticRoughnessM}, {"2.5", 0.06271, plasticRoughnessM},
			{"3", 0.07793, plasticRoughnessM}, {"4", 0.10226, plasticRoughnessM}, {"6", 0.15405, plasticRoughnessM},
		},
	}
}

// plasticRoughnessM is the usual roughness of drawn plastic pipe, 0.0015 mm.
const plasticRoughnessM = 0.0000015

// demoBase is what the demo's questions leave open.
func demoBase() design.Design {
	return design.Design{
		Version: design.Version,
		Name:    "Alder Reach",
		Outline: design.Outline{},
		Bowl: design.Bowl{Beach: &design.Beach{
			WidthM: 3.6, ToeDepthM: 0.45, DescentRunPerRiseRatio: 2.4,
		}, Steps: &design.Steps{
			// 4 ft wide, treads of 14 in and risers of 7 in, down to where most
			// people stand.
			BearingDeg: 45, WidthM: 1.2192, TreadM: 0.3556, RiserM: 0.1778, Count: 6,
		}},
		Zone:    &design.Zone{DepthM: 0.9144, PoreRatio: 0.38, BearingDeg: 0, LoadingMPerH: 1.5},
		Cascade: &design.Cascade{SheetM: 0.025, Lip: design.BroadLip, BearingDeg: 10},
		Deck:    &design.Deck{LengthM: 3.3528, WidthM: 2.1336, BearingDeg: 150},
		Circulation: design.Circulation{
			TurnoverH: 3,
			PumpCount: 1,
			Suction: design.Line{LengthM: 5, Fittings: []design.Fitting{
				{Kind: "entrance", Count: 1}, {Kind: "bend_90_long", Count: 2}, {Kind: "ball_valve", Count: 1},
				{Kind: "check_valve", Count: 1}, {Kind: "priming_tee", Count: 1}, {Kind: "union", Count: 1},
			}},
			// The other loss is the distribution manifold under the gravel.
			Discharge: design.Line{LengthM: 14, Fittings: []design.Fitting{
				{Kind: "bend_90_long", Count: 4}, {Kind: "ball_valve", Count: 1}, {Kind: "union", Count: 1}, {Kind: "exit", Count: 1},
			}, OtherLossCoef: 2},
			PumpAboveWaterM:  0.3,
			PumpFromWaterM:   1.2192,
			PumpBearingDeg:   75,
			IntakeBearingDeg: 95,
			QuietFlowRatio:   0.5,
		},
		Running: design.Running{Year: 2026, PriceRiseRatio: 0.03},
		Site: design.Site{
			AltitudeM: 120, WaterTempDegC: 20, Climate: "alder_reach", Soil: "common_earth",
			SizeToleranceRatio: 0.05, SplashRatio: 0.1, CleanOutRatio: 0.1,
		},
	}
}
