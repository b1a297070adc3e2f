package book

import (
	"tarnwright/internal/core"
	"tarnwright/internal/core/waterbill"
	"tarnwright/internal/jsonfile"
)

func readTariff(s source, b *core.Book) []Fault {
	return s.into(&b.Tariff, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.Tariff.Faults() {
			c.coded(f.Path, f.Code)
		}
		return c.faults
	})
}

func readWater(s source, b *core.Book) []Fault {
	return s.into(&b.WaterTariff, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.WaterTariff.Faults() {
			c.coded(f.Path, f.Code)
		}
		return c.faults
	})
}

func readClimate(s source, b *core.Book) []Fault {
	var file waterbill.File
	faults := s.into(&file, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range file.Faults() {
			c.coded(f.Path, f.Code)
		}
		return c.faults
	})
	b.Climates = file.Climates
	return faults
}

func readGrid(s source, b *core.Book) []Fault {
	return s.into(&b.Grid, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range b.Grid.Faults() {
			c.coded(f.Path, f.Code)
		}
		return c.faults
	})
}
