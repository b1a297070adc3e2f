package core_test

import (
	"reflect"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
)

// A hole that was dug before gives what one dug afresh does, and is taken for
// no other pond.
func TestDug_AgainIsTheSameHoleOrNone(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	before := core.Dig(circulationDemo())
	for why, c := range map[string]struct {
		change func(*design.Design)
		same   bool
	}{
		"nothing":           {func(*design.Design) {}, true},
		"price":             {func(d *design.Design) { d.Site.ElectricityPerKWh = "0.31" }, true},
		"pump":              {func(d *design.Design) { d.Circulation.Pump = "P-100" }, true},
		"cascade":           {func(d *design.Design) { d.Cascade.RiseM = 1.2 }, true},
		"no cascade":        {func(d *design.Design) { d.Cascade = nil }, true},
		"place of the deck": {func(d *design.Design) { d.Deck = &design.Deck{LengthM: 3, WidthM: 2, BearingDeg: 150} }, true},
		"length":            {func(d *design.Design) { d.Outline.LengthM = 10.4 }, false},
		"turned":            {func(d *design.Design) { d.Outline.RotationDeg = 90 }, false},
		"depth":             {func(d *design.Design) { d.Bowl.DeepM = 1.9 }, false},
		"wall": {func(d *design.Design) {
			d.Bowl.Wall = append([]design.Knot(nil), d.Bowl.Wall...)
			d.Bowl.Wall[2].InsetM = 0.5
		}, false},
		"beach":           {func(d *design.Design) { beach := *d.Bowl.Beach; beach.BearingDeg = 90; d.Bowl.Beach = &beach }, false},
		"what is no pond": {func(d *design.Design) { d.Circulation.TurnoverH = -1 }, false},
	} {
		d := circulationDemo()
		c.change(&d)
		again, ok := before.Again(d)
		if ok != c.same {
			t.Errorf("%s: the hole is taken again: %v, want %v", why, ok, c.same)
			continue
		}
		see := core.Sight{LevelsM: []float64{0.3, 1}}
		if ok && (!reflect.DeepEqual(again.Sheet(b), core.Compute(d, b)) || !reflect.DeepEqual(again.Plan(see), core.Plan(d, see))) {
			t.Errorf("%s: figures or plan are others than of a pond dug afresh", why)
		}
	}
	faulty := circulationDemo()
	faulty.Outline.LengthM = -1
	if _, ok := core.Dig(faulty).Again(faulty); ok {
		t.Error("a pond that could not be dug gives a hole")
	}
}
