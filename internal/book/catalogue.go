package book

import (
	"fmt"
	"strconv"

	"tarnwright/internal/core"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/jsonfile"
)

// pumpsFile is pumps.json.
type pumpsFile struct {
	FileVersion int          `json:"file_version"`
	Invented    bool         `json:"invented"`
	Note        string       `json:"note,omitempty"`
	Pumps       []pump.Model `json:"pumps"`
}

func readPumps(s source, b *core.Book) []Fault {
	var f pumpsFile
	faults := s.into(&f, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		seen := map[string]bool{}
		for i, m := range f.Pumps {
			at := "pumps[" + strconv.Itoa(i) + "]"
			c.id(at+".id", m.ID, seen)
			for _, err := range m.Check() {
				c.that(false, at, "pump", fmt.Sprintf("%s: %v", at, err))
			}
		}
		return c.faults
	})
	b.Pumps = f.Pumps
	return faults
}

// pipesFile is pipes.json.
type pipesFile struct {
	FileVersion int               `json:"file_version"`
	Invented    bool              `json:"invented"`
	Note        string            `json:"note,omitempty"`
	Pipes       []hydraulics.Size `json:"pipes"`
}

// The bores of pipe that a garden may have.
const leastBoreM, mostBoreM = 0.010, 0.400

func readPipes(s source, b *core.Book) []Fault {
	var f pipesFile
	faults := s.into(&f, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		ids, sizes := map[string]bool{}, map[string]bool{}
		for i, p := range f.Pipes {
			at := "pipes[" + strconv.Itoa(i) + "]."
			c.id(at+"id", p.ID, ids)
			c.id(at+"nominal_in", p.NominalIn, sizes)
			c.notNegative(at+"price_per_m", p.PricePerM)
		}
		return c.faults
	})
	b.Pipes = f.Pipes
	return faults
}
