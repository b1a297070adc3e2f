package live

import (
	"slices"

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
	sheets []kept[*sheet.Sheet]
	plans  []kept[sheet.Plan]
}

type kept[T any] struct {
	pond string
	of   T
}

// mostKept is how many answers are kept: three ponds, a step of each answer of
// one, and some that were looked at before.
const mostKept = 32

func look[T any](all []kept[T], pond string, make func() T) ([]kept[T], T) {
	for _, k := range all {
		if k.pond == pond {
			return all, k.of
		}
	}
	k := kept[T]{pond, make()}
	all = append([]kept[T]{k}, all...)
	return all[:min(len(all), mostKept)], k.of
}

func has[T any](all []kept[T], pond string) bool {
	return slices.ContainsFunc(all, func(k kept[T]) bool { return k.pond == pond })
}

// answer is what is known of a pond. Where the figures are new as well as the
// place of everything, both come of one measuring; in other units only the
// depths that are drawn are others.
func (x *Answers) answer(f form.State, quick bool) page.Answered {
	pond := f.Pond()
	var a page.Answered
	if x.Quick {
		if moving := string(f.System) + pond; x.latest.pond != moving {
			a.Sheet, a.Plan = core.Answer(x.asked(f, true))
			x.latest = kept[page.Answered]{moving, a}
		}
		return x.latest.of
	}
	x.plans, a.Plan = look(x.plans, flag(quick)+string(f.System)+pond, func() sheet.Plan {
		if has(x.sheets, pond) {
			d, _, see := x.asked(f, quick)
			return core.Plan(d, see)
		}
		figures, plan := core.Answer(x.asked(f, quick))
		x.sheets, _ = look(x.sheets, pond, func() *sheet.Sheet { return figures })
		return plan
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
	x.sheets, out = look(x.sheets, pond, func() *sheet.Sheet {
		d, _ := f.Design()
		return core.Compute(d, x.Book)
	})
	return out
}

// Of is the answer to all that a page shows.
func (x *Answers) Of(s page.State) page.Answered {
	// Ponds beside each other are drawn small, where finer contours look the
	// same; none of them is one of many.
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
		a.Beside = append(a.Beside, x.answer(o.Form, quick))
	}
	for _, st := range s.StepsAsked() {
		st.Sheet = x.figures(st.Form, st.Form.Pond())
		a.Steps = append(a.Steps, st)
	}
	return a
}
