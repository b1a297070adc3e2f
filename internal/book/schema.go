package book

import (
	"slices"

	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/takeoff"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/waterbill"
	"tarnwright/internal/jsonfile"
	"tarnwright/internal/theme"
)

// Schema is the JSON Schema of one of a builder's files, by its name; ok is
// false for a name that no file has.
func Schema(name string) (schema []byte, ok bool, err error) {
	for _, p := range parts() {
		if p.name == name {
			raw, err := jsonfile.Schema(name, p.shape, p.limits())
			return raw, true, err
		}
	}
	if slices.Contains(ids(Languages(), WordsName), name) {
		raw, err := jsonfile.Schema(name, wordsFile{}, wordLimits())
		return raw, true, err
	}
	if name == ThemeName {
		raw, err := jsonfile.Schema(name, theme.Theme{}, lookLimits())
		return raw, true, err
	}
	return nil, false, nil
}

// part is one file of the folder: how it is read, its shape, its limits.
type part struct {
	name   string
	read   reader
	shape  any
	limits func() []jsonfile.Limit
}

// The names of the files that are read against each other.
const (
	pricesName = "prices.json"
	rulesName  = "rules.json"
)

func parts() []part {
	return []part{
		{"builder.json", readBuilder, builderFile{}, builderLimits},
		{pricesName, readPrices, budget.PriceBook{}, priceLimits},
		{"rates.json", readRates, takeoff.Rates{}, rateLimits},
		{rulesName, readRules, rulesFile{}, ruleLimits},
		{"pumps.json", readPumps, pumpsFile{}, pumpLimits},
		{"pipes.json", readPipes, pipesFile{}, pipeLimits},
		{"tariff.json", readTariff, tariff.Tariff{}, tariffLimits},
		{"water.json", readWater, waterbill.Tariff{}, waterLimits},
		{"climate.json", readClimate, waterbill.File{}, climateLimits},
		{"grid.json", readGrid, power.Grid{}, gridLimits},
	}
}
