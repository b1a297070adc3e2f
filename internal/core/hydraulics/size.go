package hydraulics

import "tarnwright/internal/core/money"

// Size is a pipe the builder stocks.
type Size struct {
	ID              string      `json:"id"`
	NominalIn       string      `json:"nominal_in"` // as said in the trade: "3", "1-1/2"
	InsideDiameterM float64     `json:"inside_diameter_m"`
	PricePerM       money.Price `json:"price_per_m"`
}

// Bore is a pipe of a standard: outside diameter and least wall in inches.
type Bore struct {
	NominalIn                 string
	OutsideInches, WallInches string
	InsideDiameterM           float64
}

// Schedule40 lists the sizes of PVC schedule 40 from 1 to 6 in. The inside
// diameter is the outside one less twice the least wall, the largest the bore
// can be; an average pipe is a little narrower.
//
// Source: astmd1785.
// Checked: published bores in inches, 1.049 to 6.065.
func Schedule40() []Bore {
	const inch = 0.0254
	return []Bore{
		{"1", "1.315", "0.133", (1.315 - 2*0.133) * inch},
		{"1-1/4", "1.660", "0.140", (1.660 - 2*0.140) * inch},
		{"1-1/2", "1.900", "0.145", (1.900 - 2*0.145) * inch},
		{"2", "2.375", "0.154", (2.375 - 2*0.154) * inch},
		{"2-1/2", "2.875", "0.203", (2.875 - 2*0.203) * inch},
		{"3", "3.500", "0.216", (3.500 - 2*0.216) * inch},
		{"4", "4.500", "0.237", (4.500 - 2*0.237) * inch},
		{"6", "6.625", "0.280", (6.625 - 2*0.280) * inch},
	}
}
