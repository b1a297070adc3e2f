// Package design is what a person may ask for: one pond, its circulation, its
// hours and its site. Values are SI with the unit in the name, in Go and in
// the file alike. The package knows limits and reports every fault; it
// calculates nothing else.
package design

// Version is the design file's version. A reader refuses any other.
const Version = 1

// Design is one pond as asked for. The zero value is not valid; start from
// a file or from the form's defaults.
type Design struct {
	Version     int         `json:"design_version"`
	Name        string      `json:"name"`
	Outline     Outline     `json:"outline"`
	Bowl        Bowl        `json:"bowl"`
	Zone        *Zone       `json:"regeneration_zone,omitempty"`
	Cascade     *Cascade    `json:"cascade,omitempty"`
	Deck        *Deck       `json:"deck,omitempty"`
	Circulation Circulation `json:"circulation"`
	Running     Running     `json:"running"`
	Site        Site        `json:"site"`
	// Network is solved beside the circulation, when a file states one.
	Network *Network `json:"network,omitempty"`
}

// Point is a place on the plan: x to the east, y to the north.
type Point struct {
	XM float64 `json:"x_m"`
	YM float64 `json:"y_m"`
}

// Shape names an outline.
type Shape string

// The outlines a design may ask for.
const (
	Rectangle        Shape = "rectangle"
	RoundedRectangle Shape = "rounded_rectangle"
	Circle           Shape = "circle"
	Ellipse          Shape = "ellipse"
	Bean             Shape = "bean"
	LShape           Shape = "l_shape"
	Freehand         Shape = "freehand"
	Polygon          Shape = "polygon"
)

// Outline is the water's edge. Length runs east–west and width north–south
// before rotation; both are the size of the bounding box. Freehand and polygon
// take their size from their points and need neither.
type Outline struct {
	Shape         Shape   `json:"shape"`
	LengthM       float64 `json:"length_m,omitempty"`
	WidthM        float64 `json:"width_m,omitempty"`
	CornerRadiusM float64 `json:"corner_radius_m,omitempty"`
	NotchLengthM  float64 `json:"notch_length_m,omitempty"`
	NotchWidthM   float64 `json:"notch_width_m,omitempty"`
	// Handles are joined by a closed smooth curve (uniform Catmull–Rom).
	Handles []Point `json:"handles,omitempty"`
	// Vertices are joined by straight edges.
	Vertices    []Point `json:"vertices,omitempty"`
	CentreXM    float64 `json:"centre_x_m,omitempty"`
	CentreYM    float64 `json:"centre_y_m,omitempty"`
	RotationDeg float64 `json:"rotation_deg,omitempty"` // anticlockwise
}

// Bowl is the shape under water. The depth at a point is the least of the
// greatest depth, the wall profile at the point's distance from the walled
// part of the edge, the beach profile at its distance from the beach part, and
// the floor along its axis. Where steps stand it is no deeper than their treads.
type Bowl struct {
	DeepM float64 `json:"deep_m"`
	// Wall is depth against distance from the edge; two knots with the same
	// inset make a vertical face.
	Wall  []Knot `json:"wall"`
	Floor *Floor `json:"floor,omitempty"`
	Beach *Beach `json:"beach,omitempty"`
	Steps *Steps `json:"steps,omitempty"`
}

// Knot is one corner of a wall profile.
type Knot struct {
	InsetM float64 `json:"inset_m"`
	DepthM float64 `json:"depth_m"`
}

// Floor is depth along an axis, in the outline's own frame (before it is
// moved and turned). Beyond its ends the depth stays.
type Floor struct {
	AxisDeg float64     `json:"axis_deg"` // anticlockwise from east
	Knots   []FloorKnot `json:"knots"`
}

// FloorKnot is one break of the floor; AlongM is measured from the frame's
// origin along the axis.
type FloorKnot struct {
	AlongM float64 `json:"along_m"`
	DepthM float64 `json:"depth_m"`
}

// Beach replaces the wall along part of the edge.
type Beach struct {
	// BearingDeg is the compass bearing of the beach's middle seen from the
	// centroid of the water (0 north, 90 east).
	BearingDeg float64 `json:"bearing_deg"`
	// WidthM is measured along the edge.
	WidthM float64 `json:"width_m"`
	// RunPerRiseRatio is n in a slope of 1:n from the water line.
	RunPerRiseRatio float64 `json:"run_per_rise_ratio"`
	// ToeDepthM is where the beach ends and the descent to the deep part
	// begins; zero means the beach slope goes on to the floor.
	ToeDepthM float64 `json:"toe_depth_m,omitempty"`
	// DescentRunPerRiseRatio is the slope below the toe.
	DescentRunPerRiseRatio float64 `json:"descent_run_per_rise_ratio,omitempty"`
}

// Steps is a straight flight of steps into the water, shaped in the ground like
// a shelf, under the liner. Its upper end lies along the edge; the first tread
// is one riser below the water line and each further one a riser deeper.
type Steps struct {
	// BearingDeg is the compass bearing of the flight's middle at the edge, seen
	// from the centroid of the water (0 north, 90 east).
	BearingDeg float64 `json:"bearing_deg"`
	WidthM     float64 `json:"width_m"` // square to the way down
	TreadM     float64 `json:"tread_m"` // from one riser to the next
	RiserM     float64 `json:"riser_m"`
	Count      int     `json:"count"`
}

// Zone is the regeneration zone: a planted gravel filter beside the pond.
type Zone struct {
	AreaM2     float64 `json:"area_m2"`
	DepthM     float64 `json:"depth_m"`
	PoreRatio  float64 `json:"pore_ratio"`
	BearingDeg float64 `json:"bearing_deg"`
	// LoadingMPerH is the flow each square metre of the zone should take.
	LoadingMPerH float64 `json:"loading_m_per_h"`
}

// Lip names the edge that the cascade falls over.
type Lip string

// The lips.
const (
	BroadLip Lip = "broad" // a flat stone, broad-crested
	SharpLip Lip = "sharp" // a plate or thin edge, sharp-crested
)

// Cascade is a fall of water into the pond.
type Cascade struct {
	LipM       float64 `json:"lip_m"`
	RiseM      float64 `json:"rise_m"`
	SheetM     float64 `json:"sheet_m"` // depth of water over the lip
	Lip        Lip     `json:"lip"`
	BearingDeg float64 `json:"bearing_deg"`
}

// Deck is a timber deck at the water's edge.
type Deck struct {
	LengthM    float64 `json:"length_m"`
	WidthM     float64 `json:"width_m"`
	BearingDeg float64 `json:"bearing_deg"`
}

// Drive says how the pump's speed is set.
type Drive string

// The drives.
const (
	SingleSpeed   Drive = "single_speed"
	VariableSpeed Drive = "variable_speed"
)

// Circulation is the pump, its lines and the flow it must make.
type Circulation struct {
	TurnoverH float64 `json:"turnover_h"` // one full turn wanted in at most this
	// Pump is an id of the builder's catalogue; empty lets the check choose.
	Pump      string `json:"pump,omitempty"`
	Drive     Drive  `json:"drive"`
	PumpCount int    `json:"pump_count"`
	Suction   Line   `json:"suction"`   // from the intake to each pump
	Discharge Line   `json:"discharge"` // from the pumps to the outlet
	// PumpAboveWaterM is the pump's eye above the water; negative is flooded.
	PumpAboveWaterM float64 `json:"pump_above_water_m"`
	// PumpFromWaterM is the pump's distance from the water's edge.
	PumpFromWaterM   float64 `json:"pump_from_water_m"`
	PumpBearingDeg   float64 `json:"pump_bearing_deg"`
	IntakeBearingDeg float64 `json:"intake_bearing_deg"`
	// IntakeOpenAreaM2 is the clear area of the intake grate.
	IntakeOpenAreaM2 float64 `json:"intake_open_area_m2"`
	// IntakeDepthM is how far under the water the suction mouths lie; zero is a
	// depth that nobody has stated.
	IntakeDepthM float64 `json:"intake_depth_m,omitempty"`
	// JetsFlowM3PerS is wanted by jets that the main line itself feeds; Jets are
	// a branch of their own. A design has one or the other.
	JetsFlowM3PerS float64 `json:"jets_flow_m3_per_s,omitempty"`
	Jets           *Jets   `json:"jets,omitempty"`
	// QuietFlowRatio is the flow in quiet hours over the flow wanted, that of
	// jets on a branch left out; the other two are the same for their modes.
	QuietFlowRatio  float64 `json:"quiet_flow_ratio"`
	NightFlowRatio  float64 `json:"night_flow_ratio,omitempty"`
	WinterFlowRatio float64 `json:"winter_flow_ratio,omitempty"`
}

// Line is one run of pipe with its fittings.
type Line struct {
	LengthM         float64   `json:"length_m"`
	InsideDiameterM float64   `json:"inside_diameter_m"`
	RoughnessM      float64   `json:"roughness_m"`
	Fittings        []Fitting `json:"fittings,omitempty"`
	// OtherLossCoef is a K beyond the named fittings, such as the manifold
	// under the gravel.
	OtherLossCoef float64 `json:"other_loss_coef,omitempty"`
}

// Fitting is a named fitting and how many of it.
type Fitting struct {
	Kind  string `json:"kind"`
	Count int    `json:"count"`
}

// Mode names what the pump does in a window.
type Mode string

// The modes.
const (
	CascadeMode Mode = "cascade" // the whole flow wanted
	QuietMode   Mode = "quiet"   // the quiet share of it
	NightMode   Mode = "night"   // the night's share
	WinterMode  Mode = "winter"  // the winter's share
)

// Running is when the pump and the other loads run.
type Running struct {
	// Year fixes the hours, leap day and all.
	Year  int    `json:"year"`
	Spans []Span `json:"spans"`
	Loads []Load `json:"loads,omitempty"`
	// YearsAhead and PriceRiseRatio look forward; PriceRiseRatio 0.03 is 3 % a year.
	PriceRiseRatio float64 `json:"price_rise_ratio"`
	DiscountRatio  float64 `json:"discount_ratio"`
}

// Span is part of the year, from and to inclusive, "MM-DD"; from after to
// goes round the year's end.
type Span struct {
	From string `json:"from"`
	To   string `json:"to"`
	Runs []Run  `json:"runs"`
}

// Run is a window of each day, half-open, "HH:MM"; an end at or before the
// start goes past midnight.
type Run struct {
	Mode  Mode   `json:"mode"`
	Start string `json:"start"`
	End   string `json:"end"`
}

// Load is something else that draws power: aeration, lights, a UV lamp.
type Load struct {
	Name    string       `json:"name"`
	PowerKW float64      `json:"power_kw"`
	Spans   []LoadWindow `json:"spans"`
}

// Dusk and Dawn stand for the sun's times in a load's window: lights go by the
// hours of dark at the site's latitude, month by month.
const (
	Dusk = "dusk"
	Dawn = "dawn"
)

// LoadWindow is when a load is on, from Start to End of each day: "HH:MM",
// "dusk" or "dawn".
type LoadWindow struct {
	From  string `json:"from"`
	To    string `json:"to"`
	Start string `json:"start"`
	End   string `json:"end"`
}

// Site is where the pond is.
type Site struct {
	AltitudeM     float64 `json:"altitude_m"`
	WaterTempDegC float64 `json:"water_temp_deg_c"`
	Climate       string  `json:"climate"` // an id of the builder's climate file
	Soil          string  `json:"soil"`    // a swell class of the takeoff
	// ElectricityPerKWh and WaterPerM3 are what this home pays, as decimal
	// text ("0.16"); empty takes the builder's tariff.
	ElectricityPerKWh    string  `json:"electricity_per_kwh,omitempty"`
	WaterPerM3           string  `json:"water_per_m3,omitempty"`
	HouseholdKWhPerMonth float64 `json:"household_kwh_per_month,omitempty"`
	// SizeToleranceRatio is how far each length may be off; 0.05 is 5 %.
	SizeToleranceRatio float64 `json:"size_tolerance_ratio"`
	SplashRatio        float64 `json:"splash_ratio"`       // of the cascade's flow hours, share of evaporation
	CleanOutRatio      float64 `json:"clean_out_ratio"`    // of the net volume, a year
	Fence              bool    `json:"fence"`              // a barrier is in the budget
	Patio              bool    `json:"patio,omitempty"`    // a sitting place by the water is in the budget
	FirePit            bool    `json:"fire_pit,omitempty"` // a fire pit is in the budget
}
