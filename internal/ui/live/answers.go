package live

import (
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/ui/page"
)

// Answers works ponds out and keeps the latest by their address, so that of
// several only the one that changed is worked out again. It is for one page.
type Answers struct {
	Book core.Book
	// Quick draws the contours coarser, for a pond that follows a finger. Of
	// those the latest alone is kept: the next is another one, and what is kept
	// has to be gone through whenever the memory is cleared up.
	Quick  bool
	latest kept[page.Answered]
	moved  *kept[core.Dug] // what the latest is of
	sheets []kept[*sheet.Sheet]
	plans  []kept[sheet.Plan]
	dug    []kept[core.Dug]
}

type kept[T any] struct {
	pond string
	of   T
}

// mostKept is how many answers are kept: three ponds, a step of each answer of
// one, and some that were looked at before. Of what was dug only so many as are
// shown at a time: it is large.
const (
	mostKept = 32
	mostDug  = 3
)

func look[T any](all []kept[T], most int, pond string, make func() T) ([]kept[T], T) {
	for _, k := range all {
		if k.pond == pond {
			return all, k.of
		}
	}
	k := kept[T]{pond, make()}
	all = append([]kept[T]{k}, all...)
	return all[:min(len(all), most)], k.of
}

// answer is what is known of a pond. Where the figures are new as well as the
// place of everything, both come of one measuring; in other units only the
// depths that are drawn are others.
func (x *Answers) answer(f form.State, quick bool) page.Answered {
	pond := f.Pond()
	var a page.Answered
	if x.Quick {
		if moving := string(f.System) + pond; x.latest.pond != moving {
			d, book, see := x.asked(f, true)
			x.moved = &kept[core.Dug]{pond, x.dig(d)}
			a.Sheet, a.Plan = x.moved.of.Sheet(book), x.moved.of.Plan(see)
			x.latest = kept[page.Answered]{moving, a}
		}
		return x.latest.of
	}
	x.plans, a.Plan = look(x.plans, mostKept, flag(quick)+string(f.System)+f.Ground(), func() sheet.Plan {
		d, book, see := x.asked(f, quick)
		var dug core.Dug
		x.dug, dug = look(x.dug, mostDug, pond, func() core.Dug {
			if x.moved != nil && x.moved.pond == pond {
				return x.moved.of
			}
			return x.dig(d)
		})
		x.sheets, _ = look(x.sheets, mostKept, pond, func() *sheet.Sheet { return dug.Sheet(book) })
		return dug.Plan(see)
	})
	a.Sheet = x.figures(f, pond)
	return a
}

// asked is what the core is asked for.
func (x *Answers) asked(f form.State, quick bool) (design.Design, core.Book, core.Sight) {
	d, _ := f.Design()
	return d, x.Book, core.Sight{LevelsM: page.Levels(page.State{Form: f}), CutDeg: f.CutDeg(), Quick: quick}
}

// figures are the same without the plan.
func (x *Answers) figures(f form.State, pond string) *sheet.Sheet {
	var out *sheet.Sheet
	x.sheets, out = look(x.sheets, mostKept, pond, func() *sheet.Sheet {
		d, _ := f.Design()
		return x.dig(d).Sheet(x.Book)
	})
	return out
}

// dig measures a pond, or takes the hole of one that was dug before: a price, a
// pipe and a cascade change nothing under water.
func (x *Answers) dig(d design.Design) core.Dug {
	if x.moved != nil {
		if again, ok := x.moved.of.Again(d); ok {
			return again
		}
	}
	for _, k := range x.dug {
		if again, ok := k.of.Again(d); ok {
			return again
		}
	}
	return core.Dig(d)
}

// Beside is the answer to one of several ponds beside each other. They are drawn
// small, where finer contours look the same; none of them is one of many.
func (x *Answers) Beside(f form.State) page.Answered {
	x.Quick = false
	return x.answer(f, true)
}

// Of is the answer to all that a page shows.
func (x *Answers) Of(s page.State) page.Answered {
	quick := x.Quick || s.View == page.CompareView
	x.Quick = x.Quick && s.View != page.CompareView
	a := x.answer(s.Form, quick)
	if pts, _, ok := s.Form.Attempt(); ok {
		a.Trial = core.Trial(design.Outline{Shape: design.Freehand, Handles: pts})
	}
	if s.View != page.CompareView {
		return a
	}
	for _, o := range s.Options() {
		a.Beside = append(a.Beside, x.Beside(o.Form))
	}
	for _, st := range s.StepsAsked() {
		st.Sheet = x.figures(st.Form, st.Form.Pond())
		a.Steps = append(a.Steps, st)
	}
	return a
}
