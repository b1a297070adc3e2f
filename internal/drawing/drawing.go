// Package drawing turns the plan and the sheet into pictures: the plan and the
// section of a pond at one scale, the charts, the shape icons and the mark. A
// picture is a tree of SVG elements with class names and no colours of its own;
// web/css/drawing.css dresses it on the screen and in black ink. Words and
// lengths come in as text from the caller. The same input gives the same
// picture to the last byte.
package drawing

import (
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/markup"
)

// Look says how much of the drawing there is room for.
type Look string

// The looks. The zero value is the whole drawing.
const (
	Full      Look = ""
	Phone     Look = "phone"
	Thumbnail Look = "thumb" // no words and no measures
)

// Detail says how much of it is worked out.
type Detail string

// The details. The zero value is everything.
const (
	Settled Detail = ""
	// Moving draws what follows a finger: bands, rim, words and rings. Stones,
	// stipple and planting stay as they were in Options.Last.
	Moving Detail = "moving"
	// Following draws like Moving in the scale of Options.Last, and in another
	// where the pond no longer fits there.
	Following Detail = "following"
	// Quiet leaves out what only dresses the ground: stipple, grit, tufts and
	// the shadows of stones. It is for a picture that carries numbers, and
	// weighs half as much.
	Quiet Detail = "quiet"
)

// Colour says what the picture is printed with.
type Colour string

// The colours. The zero value is the screen's.
const (
	Painted Colour = ""
	Ink     Colour = "ink" // black on white
)

// Rings says whether the outline can be pulled.
type Rings string

// The rings. The zero value shows none.
const (
	Still Rings = ""
	Drag  Rings = "drag"
)

// State says whether the outline can be a pond.
type State string

// The states. The zero value is a pond.
const (
	Sound State = ""
	Wrong State = "wrong"
)

// Options are how a plan is to be drawn.
type Options struct {
	// ID starts every id in the picture, so that two may stand on one page.
	ID      string
	Look    Look
	Detail  Detail
	Colour  Colour
	Rings   Rings
	Words   Words
	WidthPx float64 // of the picture's own space; 0 takes the look's usual one
	// MaxPlanHeightPx bounds the plan; 0 takes 0.74 of the width.
	MaxPlanHeightPx float64
	// MaxHeightPx bounds the whole picture; 0 leaves it as high as it comes.
	MaxHeightPx float64
	// DepthStepM is the distance of two contours, ScaleStepM the unit of the
	// scale bar; zero takes a foot.
	DepthStepM, ScaleStepM float64
	RiseM                  float64 // of the cascade above the water; 0 takes 0.7
	// State withdraws the bands of an outline that cannot be a pond; Crossing is
	// where it crosses itself, nil where it does not.
	State    State
	Crossing *sheet.XY
	// Window is the part of the picture that is seen: left, top, width and
	// height in px; zero shows all of it. Rings keep their size on the screen.
	Window [4]float64
	// Near is the same, as a share of the picture.
	Near Near
	// Grips are what the things round the water are moved by.
	Grips []Grip
	// Chosen is the number of the selected ring counted from 1; 0 for none.
	Chosen int
	Pins   []Pin
	// DepthTicks are the depth marks round the rim.
	DepthTicks []DepthTick
	// View holds an earlier picture's scale and place, so that nothing moves
	// under a finger; nil fits the plan.
	View *View
	// Last is the picture whose stones and planting are kept while moving.
	Last *Picture
	// Ground is a picture of the same pond in the same view, with the same ID:
	// its stones and planting are used again. Nil draws them.
	Ground *Picture
}

// Words are the texts in a picture. An empty one is left out.
type Words struct {
	Title, Description           string
	Zone, ZoneNote               string
	Cascade, CascadeNote         string
	Deck, DeckNote               string
	Steps                        string
	Beach, Pump, Intake, DeepEnd string
	Jets, JetsNote               string
	North, Depth                 string
	Section                      string
	// DepthEvery says how far apart the depths under the section stand.
	DepthEvery                    func(m float64) string
	Adult, Child                  string
	WaterLine, Liner, Gravel      string
	LengthText, WidthText, DeepAt string
	// Ring names the ring with an index for those who cannot see it.
	Ring func(index int) string
	// Length writes a length with its unit, Number without.
	Length, Number func(m float64) string
}

// Pin is a numbered mark of a note: a diamond for care, round for fine.
type Pin struct {
	Number int
	Place  sheet.Place
	Mark   sheet.Severity
	Name   string // for those who cannot see it
}

// View is where a plan lies in its picture: x px = EastPx + x·ScalePxPerM, and
// y px = NorthPx − y·ScalePxPerM.
type View struct {
	ScalePxPerM       float64
	EastPx, NorthPx   float64
	WidthPx, HeightPx float64
	PlanHeightPx      float64 // the plan's share of HeightPx, from the top
	WaterLinePx       float64 // of the section
}

// Picture is a finished drawing with the view it was drawn in.
type Picture struct {
	Node markup.Node
	View View
	// Back lies behind the water and Dress before it.
	back, shore, dress, beyond markup.Node
	sown                       sowing // of back, shore and dress
}

// PlanPoint returns the place on the plan under a point of the picture.
func (v View) PlanPoint(xPx, yPx float64) sheet.XY {
	return sheet.XY{X: (xPx - v.EastPx) / v.ScalePxPerM, Y: (v.NorthPx - yPx) / v.ScalePxPerM}
}

// At returns where a place on the plan lies in the picture.
func (v View) At(p sheet.XY) (xPx, yPx float64) {
	return v.EastPx + p.X*v.ScalePxPerM, v.NorthPx - p.Y*v.ScalePxPerM
}

// Sheet draws the plan with the section below it at the same scale.
func Sheet(p sheet.Plan, o Options) Picture { return draw(p, o, partPlan|partSection) }

// Plan draws the plan alone.
func Plan(p sheet.Plan, o Options) Picture { return draw(p, o, partPlan) }

// Section draws the section alone, at the scale that the plan has.
func Section(p sheet.Plan, o Options) Picture { return draw(p, o, partSection) }

type parts int

const (
	partPlan parts = 1 << iota
	partSection
)

func draw(p sheet.Plan, o Options, which parts) Picture {
	if len(p.Rim) < 3 {
		return Picture{Node: blank(o)}
	}
	o = o.filled()
	d := newDrawer(p, o, which)
	var layers []markup.Node
	pic := Picture{View: d.view}
	if which&partPlan != 0 {
		pic.back, pic.shore, pic.dress, pic.sown = d.kept()
		back, shore, dress := d.carried(pic.back, pic.sown), d.carried(pic.shore, pic.sown), d.carried(pic.dress, pic.sown)
		if o.State == Wrong {
			back, shore, dress = layer("dr-back"), layer("dr-shore"), layer("dr-dress")
		}
		layers = append(layers, back, d.water(), shore, d.rim(), d.run(), dress, d.fixtures())
		if o.Look != Thumbnail {
			layers = append(layers, d.measures(), d.marks(), d.ticks(), d.labels())
		}
	}
	if which&partSection != 0 && o.State == Wrong && o.Last != nil {
		pic.beyond = o.Last.beyond
	}
	if which&partSection != 0 && o.State == Sound {
		pic.beyond = d.beyond()
		layers = append(layers, d.section(pic.beyond))
	}
	pic.Node = d.frame(layers)
	return pic
}

func (o Options) filled() Options {
	if o.DepthStepM == 0 {
		o.DepthStepM = 0.3048
	}
	if o.ScaleStepM == 0 {
		o.ScaleStepM = 0.3048
	}
	if o.RiseM == 0 {
		o.RiseM = 0.7
	}
	if o.WidthPx == 0 {
		o.WidthPx = map[Look]float64{Full: 704, Phone: 390, Thumbnail: 240}[o.Look]
	}
	if o.MaxPlanHeightPx == 0 {
		o.MaxPlanHeightPx = 0.74 * o.WidthPx
	}
	if (o.Detail == Moving || o.Detail == Following) && o.Last != nil && o.View == nil {
		o.View = &o.Last.View
	}
	if o.ID == "" {
		o.ID = "pond"
	}
	none := func(float64) string { return "" }
	if o.Words.Length == nil {
		o.Words.Length = none
	}
	if o.Words.Number == nil {
		o.Words.Number = none
	}
	if o.Words.Ring == nil {
		o.Words.Ring = func(int) string { return "" }
	}
	return o
}

// blank is the picture of a plan without water.
func blank(o Options) markup.Node {
	return markup.E("svg", markup.Class("dr"), markup.A("viewBox", "0 0 704 420"), markup.A("role", "img"),
		markup.A("aria-label", o.Words.Title))
}

// frame puts the layers into one picture: a group with the words that name it,
// the still part as an image, and what can be pulled beside it.
func (d *drawer) frame(layers []markup.Node) markup.Node {
	o := d.o
	class := "dr"
	if o.Look != Full {
		class += " dr-" + string(o.Look)
	}
	if o.Colour == Ink {
		class += " dr-ink"
	}
	if o.State == Wrong {
		class += " dr-wrong"
	}
	if d.moving() {
		class += " dr-moving"
	}
	seen := [4]float64{0, 0, d.view.WidthPx, d.view.HeightPx}
	if o.Window[2] > 0 && o.Window[3] > 0 {
		seen = o.Window
	}
	named := []markup.Attr{markup.A("aria-hidden", "true")}
	var words []markup.Node
	if o.Words.Title != "" {
		title, desc := d.id("title"), d.id("desc")
		words = append(words, markup.E("title", markup.A("id", title), o.Words.Title))
		said := title
		if o.Words.Description != "" {
			words = append(words, markup.E("desc", markup.A("id", desc), o.Words.Description))
			said += " " + desc
		}
		named = []markup.Attr{markup.A("role", "img"), markup.A("aria-labelledby", said)}
	}
	still := markup.E("g", markup.Class("dr-still"), named, words, d.defs(), layers)
	return markup.E("svg", markup.Class(class), markup.A("id", o.ID), markup.A("focusable", "false"),
		markup.A("viewBox", px(seen[0])+" "+px(seen[1])+" "+px(seen[2])+" "+px(seen[3])), still, d.grips(), d.rings(), d.pins())
}
