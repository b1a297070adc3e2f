// Package part is the page's controls and readings as small functions of plain
// values: what is shown comes in as text, what a person does goes out as an act
// with its name. It knows no pond and no browser, and every control works in a
// form without script.
package part

// The class names of the style sheet, in one place so that a test can hold the
// two against each other.
const (
	ClassRow      = "row"
	ClassKey      = "k"
	ClassNote     = "note"
	ClassFault    = "fault"
	ClassStep     = "step"
	ClassStepBtn  = "stepbtn"
	ClassValue    = "val"
	ClassFaulty   = "faulty"
	ClassSeg      = "seg"
	ClassSegOne   = "seg-one"
	ClassShapes   = "shapes"
	ClassShape    = "shape"
	ClassTile     = "tile"
	ClassSwitch   = "switch"
	ClassSlider   = "slider"
	ClassScale    = "scale"
	ClassReading  = "rd"
	ClassTitle    = "rd-t"
	ClassFigures  = "rd-v"
	ClassBig      = "big"
	ClassUnit     = "unit"
	ClassHow      = "how"
	ClassWork     = "work"
	ClassSource   = "src"
	ClassButton   = "btn"
	ClassGhost    = "ghost"
	ClassLink     = "lnk"
	ClassCare     = "care"
	ClassFine     = "fine"
	ClassHidden   = "vh"
	ClassNumber   = "num"
	ClassField    = "fld"
	ClassHalf     = "half"
	ClassOptional = "opt"
	ClassCheck    = "check"
	ClassTable    = "tbl"
	ClassIcon     = "ic"
	ClassPin      = "pin"
	ClassTabs     = "tabs"
	ClassStrip    = "strip"
	ClassSummary  = "summary"
	ClassNotice   = "notice"
	ClassTool     = "tool"
)

// DesignForm is the id of the form that holds the pond; controls may stand
// anywhere on the page and name it.
const DesignForm = "design"
