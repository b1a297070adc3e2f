// Package form is the page's questions: what a person typed, field by field,
// and the design it means. Typed text is kept as typed; a field that cannot be
// read keeps its text, raises a fault, and the last good value stands in.
package form

// Field names a question; it is the name in the page's address and in HTML.
type Field string

// The questions.
const (
	Units      Field = "units" // "us" or "metric"
	Shape      Field = "shape" // bean, oval, long, free, rect, round, ell
	Length     Field = "length"
	Width      Field = "width"
	Handles    Field = "handles" // free shape: "x,y;x,y" in centimetres
	Deep       Field = "deep"
	Beach      Field = "beach"       // n, e, s, w, none
	BeachAt    Field = "beach_at"    // bearing of its middle, where that is not the side's own
	BeachSlope Field = "beach_slope" // n of 1:n
	Shelf      Field = "shelf"       // on, off
	Steps      Field = "stairs"      // on, off: a flight of steps into the water
	Zone       Field = "zone"        // on, off
	ZoneArea   Field = "zone_area"
	Cascade    Field = "cascade"   // on, off
	Lip        Field = "lip"       // cascade lip length
	Rise       Field = "rise"      // cascade height
	Deck       Field = "deck"      // on, off
	Place      Field = "state"     // a state of the country, for its average price of electricity
	Power      Field = "power"     // price per kWh
	Water      Field = "water"     // price per 1,000 gal, or per m³
	From       Field = "from"      // first month of running, 1–12
	To         Field = "to"        // last month
	Pump       Field = "pump"      // single, variable
	Model      Field = "model"     // a pump of the book, or auto
	Pumps      Field = "pumps"     // how many side by side, 1–3
	Pipe       Field = "pipe"      // suction pipe, a nominal size of the book: "3"
	Discharge  Field = "discharge" // discharge pipe, likewise
	Fence      Field = "fence"     // on, off: a barrier is in the budget
	Patio      Field = "patio"     // on, off: a sitting place is in the budget
	FirePit    Field = "fire_pit"  // on, off: a fire pit is in the budget

	Sheet        Field = "sheet"         // depth of water over the cascade's lip
	Jets         Field = "jets"          // how many jets, 0 for none
	Nozzle       Field = "nozzle"        // mouth of a jet, in millimetres
	JetPipe      Field = "jet_pipe"      // pipe to the jets, a nominal size of the book
	Stand        Field = "stand"         // pad, pit: where the pump stands
	Mouth        Field = "mouth"         // how far under the water the suction mouths lie
	Grate        Field = "grate"         // open area of the intake's grate
	CascadeHours Field = "cascade_hours" // the cascade's hours on a day of high season
	Night        Field = "night"         // quiet, slow, off
	Winter       Field = "winter"        // off, slow
	Bill         Field = "bill"          // average, own, tariff: how electricity is priced
	HomeUse      Field = "home_use"      // the home's own electricity a month

	// Where things stand along the edge, in whole degrees from north; empty
	// leaves them where they were.
	ZoneAt    Field = "zone_at"
	CascadeAt Field = "cascade_at"
	StepsAt   Field = "stairs_at"
	DeckAt    Field = "deck_at"
	PumpAt    Field = "pump_at"
	IntakeAt  Field = "intake_at"
	// Cut is where the section runs: the bearings of its two ends, "270,95";
	// empty runs it through the deepest place.
	Cut Field = "cut"
)

// kind is how the text of a question is read and shown.
type kind int

const (
	choice kind = iota
	length
	thin
	area
	slope
	electricity
	waterPrice
	month
	points
	bearing
	cut
	hours
	energy
)

// question is what the form knows about one field.
type question struct {
	field Field
	kind  kind
	// choices are the words a choice may be, in the order they are shown.
	choices []string
	// paths are the places in a design that this field decides; a fault there
	// is a fault of this field.
	paths []string
	// stepUS and stepMetric are what plus and minus do, in SI, or in hundredths
	// of the price.
	stepUS, stepMetric float64
}

// questions is the form, top to bottom.
func questions() []question {
	onOff := []string{"on", "off"}
	return []question{
		{field: Shape, choices: []string{"bean", "oval", "long", "free", "rect", "round", "ell"}, paths: []string{"outline.shape"}},
		{field: Length, kind: length, paths: []string{"outline.length_m"}, stepUS: foot, stepMetric: 0.25},
		{field: Width, kind: length, paths: []string{"outline.width_m"}, stepUS: foot, stepMetric: 0.25},
		{field: Handles, kind: points, paths: []string{"outline.handles"}},
		{field: Deep, kind: length, paths: []string{"bowl.deep_m", "bowl.wall"}, stepUS: foot / 2, stepMetric: 0.1},
		{field: Beach, choices: []string{"n", "e", "s", "w", "none"}, paths: []string{"bowl.beach"}},
		{field: BeachAt, kind: bearing, stepUS: 5, stepMetric: 5},
		{field: BeachSlope, kind: slope, paths: []string{"bowl.beach.run_per_rise_ratio"}, stepUS: 1, stepMetric: 1},
		{field: Shelf, choices: onOff},
		{field: Steps, choices: onOff, paths: []string{"bowl.steps"}},
		{field: Zone, choices: onOff},
		{field: ZoneArea, kind: area, paths: []string{"regeneration_zone.area_m2"}, stepUS: 10 * foot * foot, stepMetric: 1},
		{field: Cascade, choices: onOff},
		{field: Lip, kind: length, paths: []string{"cascade.lip_m"}, stepUS: foot / 2, stepMetric: 0.1},
		{field: Rise, kind: length, paths: []string{"cascade.rise_m"}, stepUS: foot / 4, stepMetric: 0.05},
		{field: Sheet, kind: thin, paths: []string{"cascade.sheet_m"}, stepUS: foot / 48, stepMetric: 0.005},
		{field: Jets, choices: []string{"0", "2", "4", "6", "8"}, paths: []string{"circulation.jets"}},
		{field: Nozzle, choices: []string{"8", "10", "12", "16", "20"}, paths: []string{"circulation.jets.nozzle_m"}},
		{field: Deck, choices: onOff},
		{field: Place},
		{field: Power, kind: electricity, paths: []string{"site.electricity_per_kwh"}, stepUS: 1, stepMetric: 1},
		{field: Bill},
		{field: HomeUse, kind: energy, paths: []string{"site.household_kwh_per_month"}, stepUS: 100, stepMetric: 100},
		{field: Water, kind: waterPrice, paths: []string{"site.water_per_m3"}, stepUS: 10, stepMetric: 5},
		{field: From, kind: month, paths: []string{"running.spans"}, stepUS: 1, stepMetric: 1},
		{field: To, kind: month, stepUS: 1, stepMetric: 1},
		{field: CascadeHours, kind: hours, stepUS: 1, stepMetric: 1},
		{field: Night, choices: []string{"quiet", slowly, "off"}},
		{field: Winter, choices: []string{"off", slowly}},
		{field: Pump, choices: []string{"single", "variable"}, paths: []string{"circulation.drive"}},
		{field: Model, paths: []string{"circulation.pump"}},
		{field: Pumps, choices: []string{"1", "2", "3"}, paths: []string{"circulation.pump_count"}},
		{field: Pipe, paths: []string{"circulation.suction"}},
		{field: Discharge, paths: []string{"circulation.discharge"}},
		{field: JetPipe, paths: []string{"circulation.jets.line"}},
		{field: Stand, choices: []string{"pad", inPit}, paths: []string{"circulation.pump_above_water_m"}},
		{field: Mouth, kind: length, paths: []string{"circulation.intake_depth_m"}, stepUS: foot / 4, stepMetric: 0.05},
		{field: Grate, kind: area, paths: []string{"circulation.intake_open_area_m2"}, stepUS: foot * foot / 4, stepMetric: 0.02},
		{field: Fence, choices: onOff},
		{field: Patio, choices: onOff},
		{field: FirePit, choices: onOff},
		{field: ZoneAt, kind: bearing, paths: []string{"regeneration_zone.bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: CascadeAt, kind: bearing, paths: []string{"cascade.bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: StepsAt, kind: bearing, paths: []string{"bowl.steps.bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: DeckAt, kind: bearing, paths: []string{"deck.bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: PumpAt, kind: bearing, paths: []string{"circulation.pump_bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: IntakeAt, kind: bearing, paths: []string{"circulation.intake_bearing_deg"}, stepUS: 5, stepMetric: 5},
		{field: Cut, kind: cut},
	}
}

// foot is the step of plus and minus in US customary, in metres; measure does
// the reading and showing.
const foot = 0.3048

// asks is the form with the builder's own pumps and pipes as choices.
func (d Defaults) asks() []question {
	qs := questions()
	for i := range qs {
		switch qs[i].field {
		case Pipe, Discharge, JetPipe:
			qs[i].choices = d.pipeNames()
		case Bill:
			qs[i].choices = d.bills()
		case Model:
			qs[i].choices = d.pumpNames()
		case Place:
			qs[i].choices = d.regionCodes()
		}
	}
	return qs
}
