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
	BeachSlope Field = "beach_slope" // n of 1:n
	Shelf      Field = "shelf"       // on, off
	Zone       Field = "zone"
	Cascade    Field = "cascade"
	Lip        Field = "lip"  // cascade lip length
	Rise       Field = "rise" // cascade height
	Deck       Field = "deck"
	Power      Field = "power" // price per kWh
	Water      Field = "water" // price per 1,000 gal, or per m³
	From       Field = "from"  // first month of running, 1–12
	To         Field = "to"    // last month
	Pump       Field = "pump"  // single, variable
	Pipe       Field = "pipe"  // suction pipe, a nominal size of the book: "3"
)
