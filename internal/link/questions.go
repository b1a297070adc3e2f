package link

// question is the code of a question and the answer that a link of this
// version starts from.
type question struct {
	code        byte
	name, start string
}

// questions is the first version's table. It only ever grows, at its end: a
// new question starts from what a pond had before it was asked.
func questions() []question {
	return []question{
		{1, "units", "us"},
		{2, "shape", "bean"}, {3, "length", "10.3632m"}, {4, "width", "6.4008m"}, {5, "handles", ""},
		{6, "deep", "1.9812m"}, {7, "beach", "w"}, {8, "beach_at", ""}, {9, "beach_slope", "5"}, {10, "shelf", "on"},
		{11, "zone", "on"}, {12, "zone_area", "14.68m2"},
		{13, "cascade", "on"}, {14, "lip", "1.524m"}, {15, "rise", "0.76m"}, {16, "deck", "on"},
		{17, "power", "0.16"}, {18, "water", "1.6378667246/m3"}, {19, "from", "3"}, {20, "to", "11"},
		{21, "pump", "single"}, {22, "model", "auto"}, {23, "pumps", "1"}, {24, "pipe", "3"}, {25, "discharge", "3"},
		{26, "fence", "off"}, {27, "patio", "off"}, {28, "fire_pit", "off"},
		{29, "zone_at", ""}, {30, "cascade_at", ""}, {31, "deck_at", ""}, {32, "pump_at", ""}, {33, "intake_at", ""},
		{34, "cut", ""}, {35, "state", "us"}, {36, "stairs", "off"}, {37, "stairs_at", ""},
		{50, "sheet", "0.025m"}, {51, "jets", "0"}, {52, "nozzle", "10"}, {53, "jet_pipe", "1.5"},
		{54, "cascade_hours", "8"}, {55, "night", "quiet"}, {56, "winter", "off"}, {57, "bill", "average"}, {58, "home_use", "900"},
		{59, "stand", "pad"}, {60, "mouth", "0.6096m"}, {61, "grate", "0.12m2"},
	}
}
