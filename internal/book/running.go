package book

import (
	"tarnwright/internal/core"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/waterbill"
	"tarnwright/internal/jsonfile"
)

// coded reads a file into a value that a package of the core finds faults in,
// each by its path and a code alone.
func coded[F ~struct{ Path, Code string }](s source, into any, faults func() []F) []Fault {
	return s.into(into, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range faults() {
			one := struct{ Path, Code string }(f)
			c.coded(one.Path, one.Code)
		}
		return c.faults
	})
}

func readTariff(s source, b *core.Book) []Fault {
	return coded(s, &b.Tariff, func() []tariff.Fault { return b.Tariff.Faults() })
}

func readWater(s source, b *core.Book) []Fault {
	return coded(s, &b.WaterTariff, func() []waterbill.Fault { return b.WaterTariff.Faults() })
}

func readClimate(s source, b *core.Book) []Fault {
	var file waterbill.File
	faults := coded(s, &file, func() []waterbill.Fault { return file.Faults() })
	b.Climates = file.Climates
	return faults
}

func readGrid(s source, b *core.Book) []Fault {
	return coded(s, &b.Grid, func() []power.Fault { return b.Grid.Faults() })
}
