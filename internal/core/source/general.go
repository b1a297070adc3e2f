package source

func general() []Entry {
	return []Entry{
		{"definition", "", "Definition", "", "", Defined},
		{"practice", "", "Common practice", "", "", Practice},
		{"builder", "", "The builder's own figure", "", "", Builder},
		{"asked", "", "As asked for in the design", "", "", Defined},
		{"cgpm1901", "CGPM", "Standard gravity", "3rd meeting, 1901", "g = 9.80665 m/s2", FromMemory},
	}
}
