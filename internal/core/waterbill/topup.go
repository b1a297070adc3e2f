package waterbill

// Basin is what a month's water depends on.
type Basin struct {
	SurfaceM2 float64 // open water, planted gravel with it
	NetM3     float64
	// SplashRatio is the share of evaporation that a cascade loses on top while
	// it runs. Source: practice; no published value was found.
	SplashRatio float64
	// CleanOutRatio is the share of the water let out in a year's clean-out.
	CleanOutRatio float64
}

// Flow is one month's water.
type Flow struct {
	EvaporationM3, SplashM3, CleanOutM3, RainM3 float64
	// TopUpM3 is what comes from the tap.
	TopUpM3 float64
}

// Hours says how much of a month the cascade runs and whether the clean-out
// falls into it.
type Hours struct {
	CascadeShare float64
	CleanOut     bool
}

// Month returns a month's water.
//
//	top-up = max(0, evaporation + splash − rain) + clean-out
//
// Rain beyond the losses goes over the edge and helps no later month. Rain is
// what falls on the surface; nothing runs in from the ground around.
func (b Basin) Month(evaporationMmPerMonth, rainMmPerMonth float64, h Hours) Flow {
	f := Flow{EvaporationM3: b.SurfaceM2 * evaporationMmPerMonth / 1000, RainM3: b.SurfaceM2 * rainMmPerMonth / 1000}
	f.SplashM3 = f.EvaporationM3 * b.SplashRatio * h.CascadeShare
	if h.CleanOut {
		f.CleanOutM3 = b.NetM3 * b.CleanOutRatio
	}
	f.TopUpM3 = max(0, f.EvaporationM3+f.SplashM3-f.RainM3) + f.CleanOutM3
	return f
}

// Rule of the level-hold check.
const (
	// nightShare is the part of a day's evaporation that falls between evening
	// and morning: half, which is on the high side for still nights. Source:
	// practice.
	nightShare = 0.5
	// readingMm is how well two people read a mark on a wet wall, twice.
	// Source: practice.
	readingMm = 3.0
)

// OvernightMm returns the fall of level to expect in twelve hours overnight.
//
// Source: practice.
// Checked: half of the day by hand.
func OvernightMm(evaporationMmPerDay float64) float64 { return nightShare * evaporationMmPerDay }

// LeakMm returns the fall overnight that points to a leak: twice what the air
// should take, and what reading a mark may miss.
//
// Source: practice.
// Checked: by hand.
func LeakMm(overnightMm float64) float64 { return 2*overnightMm + readingMm }
