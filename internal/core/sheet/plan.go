package sheet

// Plan is where everything stands, as polylines in metres, x east and y north.
// It comes from the same depth field as the figures.
type Plan struct {
	// Rim is the water's edge, closed, anticlockwise; the last point is not
	// the first again.
	Rim []XY
	// BeachFrom and BeachTo are indexes into Rim: the beach runs anticlockwise
	// from one to the other (it may pass index 0). Equal when there is none.
	BeachFrom, BeachTo int
	// Handles are the rings that reshape the outline.
	Handles []XY
	// Bands are the areas deeper than each level, shallowest first.
	Bands []Band
	Deep  XY // the deepest point
	DeepM float64
	// CutFrom and CutTo are where the section line meets the rim; Section is
	// the bottom along it.
	CutFrom, CutTo XY
	Section        []SectionPoint
	Treads         []Tread
	Zone           []XY // outline of the regeneration zone, empty when none
	Cascade        []XY // four corners: lip left, lip right, foot right, foot left
	Deck           []XY // four corners, the first two at the water's side
	Pump, Intake   XY
	Suction        []XY // intake to pump
	Discharge      []XY // pump to outlet
	Jets           []Jet
	JetPipe        []XY  // pump to the jets, empty without any
	Lengthwise     [2]XY // ends of the length dimension
	Widthwise      [2]XY // ends of the width dimension
}

// Jet is a mouth in the wall, and the way it blows: into the water, square to
// the edge.
type Jet struct{ At, In XY }

// Tread is one step of the flight into the water: its corners, the first two at
// its upper end, and its depth. The first reaches back over the rim.
type Tread struct {
	Corners [4]XY
	DepthM  float64
}

// Band is everything deeper than a level.
type Band struct {
	LevelM float64
	Rings  [][]XY // closed; holes run clockwise
}

// SectionPoint is the bottom at a distance along the cut.
type SectionPoint struct{ AlongM, DepthM float64 }
