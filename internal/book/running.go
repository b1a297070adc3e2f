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

// The names of the files that are read against each other.
const (
	pricesName = "prices.json"
	rulesName  = "rules.json"
)

func parts() []part {
	return []part{
		{"builder.json", readBuilder},
		{pricesName, readPrices},
		{"rates.json", readRates},
		{rulesName, readRules},
		{"pumps.json", readPumps},
		{"pipes.json", readPipes},
		{"tariff.json", readTariff},
		{"water.json", readWater},
		{"climate.json", readClimate},
		{"grid.json", readGrid},
	}
}
