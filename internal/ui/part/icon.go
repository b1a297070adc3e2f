package part

import "tarnwright/internal/markup"

// Mark names a small picture beside words.
type Mark string

// The marks. Care is a diamond and fine is round, so that they differ in shape
// as well as in colour.
const (
	MarkNone    Mark = ""
	MarkPlus    Mark = "plus"
	MarkMinus   Mark = "minus"
	MarkEquals  Mark = "equals"
	MarkCare    Mark = "care"
	MarkFine    Mark = "fine"
	MarkUndo    Mark = "undo"
	MarkRedo    Mark = "redo"
	MarkUp      Mark = "up"
	MarkFit     Mark = "fit"
	MarkBuilder Mark = "builder"
	MarkOffline Mark = "offline"
	MarkWait    Mark = "wait"
)

// Icon draws a mark. It is hidden from assistive software: the words beside it
// say the same.
func Icon(m Mark) markup.Node {
	box, paths := strokes(m)
	if box == "" {
		return markup.None()
	}
	kids := make([]markup.Node, 0, len(paths))
	for _, p := range paths {
		kids = append(kids, markup.E("path", markup.A("d", p.d), markup.Class(p.class)))
	}
	return markup.E("svg", markup.Class(ClassIcon+" ic-"+string(m)), markup.A("viewBox", box),
		markup.A("aria-hidden", "true"), markup.A("focusable", "false"), kids)
}

type stroke struct{ d, class string }

func strokes(m Mark) (string, []stroke) {
	switch m {
	case MarkPlus:
		return "0 0 32 32", []stroke{{"M1 16a15 15 0 1 0 30 0a15 15 0 1 0-30 0z", "ring"}, {"M11 16h10M16 11v10", "pen"}}
	case MarkMinus:
		return "0 0 32 32", []stroke{{"M1 16a15 15 0 1 0 30 0a15 15 0 1 0-30 0z", "ring"}, {"M11 16h10", "pen"}}
	case MarkEquals:
		return "0 0 22 22", []stroke{{"M1.5 11a9.5 9.5 0 1 0 19 0a9.5 9.5 0 1 0-19 0z", "ring"}, {"M7 9h8M7 13h8", "pen"}}
	case MarkCare:
		return "0 0 14 14", []stroke{{"M7 .7L13.3 7 7 13.3.7 7z", "body"}, {"M7 3.9v3.6M7 9.6v.3", "cut"}}
	case MarkFine:
		return "0 0 14 14", []stroke{{"M.8 7a6.2 6.2 0 1 0 12.4 0a6.2 6.2 0 1 0-12.4 0z", "body"}, {"M4.1 7.200l2.1 2.1 3.8-4.3", "cut"}}
	case MarkUndo:
		return "0 0 22 22", []stroke{{"M7 5L3.5 8.5 7 12", "pen"}, {"M4 8.500h9a4.5 4.5 0 0 1 0 9H9", "pen"}}
	case MarkRedo:
		return "0 0 22 22", []stroke{{"M15 5l3.5 3.500L15 12", "pen"}, {"M18 8.500H9a4.5 4.5 0 0 0 0 9h4", "pen"}}
	case MarkFit:
		return "0 0 22 22", []stroke{{"M3.5 8V3.500H8M14 3.500h4.5V8M18.5 14v4.500H14M8 18.500H3.5V14", "pen"}}
	case MarkUp:
		return "0 0 22 22", []stroke{{"M5.5 13.500L11 8l5.5 5.5", "pen"}}
	case MarkWait:
		return "0 0 22 22", []stroke{{"M11 2.500a8.5 8.5 0 1 1 0 17a8.5 8.5 0 1 1 0-17z", "pen dash"}, {"M11 6.500V11l3 2", "pen"}}
	case MarkOffline:
		return "0 0 22 22", []stroke{{"M3 9c4.5-4.5 11.5-4.5 16 0M6 12.500c3-3 7-3 10 0M9.5 16c1-.9 2-.9 3 0M4 19L18 4", "pen"}}
	case MarkBuilder:
		return "0 0 28 28", []stroke{
			{"M2.5 14C2.5 8 7 5 12 6.200c3 .7 5.2.3 8-.7 4-1.4 6 2.8 5.6 7.7-.4 6.3-4 9.4-8 8-2.6-.9-4.3-1.7-6.6-.5C6.8 23 2.5 20 2.5 14z", "pen"},
			{"M7 14c.2-3.3 2.8-4.9 6-4.2 2.6.5 4.3.1 6.3-.6 2.2-.7 3.3 1.7 3.1 4.5-.3 3.3-2.1 5-4.4 4.2-2.4-.8-4.1-1.3-6.3-.3C9 18.8 6.8 17.3 7 14z", "pen thin"},
			{"M15 13.800c.2-1.2 1.5-1.4 2.7-1.7 1.1-.3 1.7.6 1.6 1.8-.1 1.3-.8 1.8-1.8 1.5-1.2-.3-2.7-.3-2.5-1.600z", "body"}}
	}
	return "", nil
}
