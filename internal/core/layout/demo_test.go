package layout_test

import "tarnwright/internal/core/design"

// demoDesign is the bean of the demo, for tests.
func demoDesign() design.Design {
	return design.Design{
		Version: 1,
		Outline: design.Outline{Shape: design.Bean, LengthM: 10.3632, WidthM: 6.4008},
		Bowl: design.Bowl{
			DeepM: 1.9812,
			Wall: []design.Knot{
				{InsetM: 0, DepthM: 0}, {InsetM: 0.10, DepthM: 0.30}, {InsetM: 0.45, DepthM: 0.30}, {InsetM: 1.03842, DepthM: 1.9812},
			},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 3.6, RunPerRiseRatio: 5, ToeDepthM: 0.45, DescentRunPerRiseRatio: 2.4},
		},
		Zone:    &design.Zone{AreaM2: 14.68, DepthM: 0.9144, PoreRatio: 0.38, BearingDeg: 0, LoadingMPerH: 1.5},
		Cascade: &design.Cascade{LipM: 1.524, RiseM: 0.76, SheetM: 0.025, Lip: design.BroadLip, BearingDeg: 10},
		Deck:    &design.Deck{LengthM: 11 * 0.3048, WidthM: 7 * 0.3048, BearingDeg: 140},
		Circulation: design.Circulation{
			TurnoverH: 2, PumpFromWaterM: 1.2, PumpBearingDeg: 75, IntakeBearingDeg: 95, PumpCount: 1, Drive: design.SingleSpeed,
			QuietFlowRatio: 0.4,
		},
	}
}
