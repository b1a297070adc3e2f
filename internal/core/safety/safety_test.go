package safety_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
)

type figures map[sheet.ID]float64

func sheetOf(f figures) *sheet.Sheet {
	s := &sheet.Sheet{}
	for id, v := range f {
		s.Add(sheet.Figure{ID: id, Value: v})
	}
	return s
}

// pair is one sheet that raises a rule and one, as near to it as can be, that
// clears it. The limits are typed here in the unit that the code states them in
// and turned to metres apart from the rules.
type pair struct {
	id             string
	raises, clears figures
}

const (
	ft   = 0.3048
	inch = 0.0254
	hair = 1e-6
)

func pairs() []pair {
	return []pair{
		{"over_head_height", figures{"pond.max_depth": 1.75 + hair}, figures{"pond.max_depth": 1.75}},
		{"hard_to_stand", figures{"pond.max_depth": 1.5 + hair}, figures{"pond.max_depth": 1.5}},
		{"hard_to_stand", figures{"pond.max_depth": 1.75}, figures{"pond.max_depth": 1.75 + hair}},
		{"no_diving_deck", figures{"deck.area": 7, "deck.water_depth": 9*ft - hair}, figures{"deck.area": 7, "deck.water_depth": 9 * ft}},
		{"no_diving_deck", figures{"deck.area": 7, "deck.water_depth": 0.6}, figures{"deck.area": 0, "deck.water_depth": 0}},
		{"pump_near_water", figures{"pump.distance": 6*ft - hair}, figures{"pump.distance": 6 * ft}},
		{"pump_near_water", figures{"pump.distance": 4 * ft}, figures{"pump.distance": 0}},
		{"pump_in_water", figures{"pump.distance": 0}, figures{"pump.distance": hair}},
		{"fence_missing", figures{"site.fence": 0, "pond.max_depth": 2}, figures{"site.fence": 1, "pond.max_depth": 2}},
		{"fence_missing", figures{"site.fence": 0, "pond.max_depth": 18*inch + hair}, figures{"site.fence": 0, "pond.max_depth": 18 * inch}},
		{"beach_easy", figures{"beach.run_per_rise": 5}, figures{"beach.run_per_rise": 5 - hair}},
		{"beach_steep", figures{"beach.run_per_rise": 5 - hair}, figures{"beach.run_per_rise": 5}},
		{"beach_steep", figures{"beach.run_per_rise": 3}, figures{"beach.run_per_rise": 0}},
		{"intake_gentle", figures{"intake.velocity": 0.5 * ft}, figures{"intake.velocity": 0.5*ft + hair}},
		{"intake_gentle", figures{"intake.velocity": 0.05}, figures{"intake.velocity": 0}},
		{"intake_fast", figures{"intake.velocity": 0.5*ft + hair}, figures{"intake.velocity": 0.5 * ft}},
		{"speed_rule", figures{"pump.one_speed": 1, "pump.in_water": 0}, figures{"pump.one_speed": 0, "pump.in_water": 0}},
		{"speed_rule", figures{"pump.one_speed": 1, "pump.in_water": 0}, figures{"pump.one_speed": 1, "pump.in_water": 1}},
		{"speed_rule_states", figures{"pump.one_speed": 1, "pump.in_water": 0}, figures{"pump.one_speed": 0, "pump.in_water": 0}},
		{"speed_rule_met", figures{"pump.one_speed": 0, "pump.in_water": 0}, figures{"pump.one_speed": 1, "pump.in_water": 0}},
		{"speed_rule_met", figures{"pump.one_speed": 0, "pump.in_water": 0}, figures{}},
		{"speed_rule_apart", figures{"pump.in_water": 1}, figures{"pump.in_water": 0}},
		{"exits_both_sides", figures{"pond.width": 30*ft + hair, "pond.max_depth": 2}, figures{"pond.width": 30 * ft, "pond.max_depth": 2}},
		{"exits_both_sides", figures{"pond.width": 12, "pond.max_depth": 2}, figures{"pond.width": 12, "pond.max_depth": 1.2}},
		{"steep_sides", figures{"wall.run_per_rise": 0.35, "pond.max_depth": 1.9, "steps.count": 0}, figures{"wall.run_per_rise": 1, "pond.max_depth": 1.9, "steps.count": 0}},
		{"steep_sides", figures{"wall.run_per_rise": 0, "pond.max_depth": 1.9, "steps.count": 0}, figures{"wall.run_per_rise": 0, "pond.max_depth": 1.2, "steps.count": 0}},
		{"steep_sides", figures{"wall.run_per_rise": 0.35, "pond.max_depth": 1.9, "steps.count": 0}, figures{"wall.run_per_rise": 0.35, "pond.max_depth": 1.9, "steps.count": 6}},
		{"steps_in", figures{"steps.count": 6, "steps.riser": 0.3048, "steps.tread": 0.254}, figures{"steps.count": 6, "steps.riser": 0.31, "steps.tread": 0.254}},
		{"steps_in", figures{"steps.count": 6, "steps.riser": 0.18, "steps.tread": 0.35}, figures{"steps.count": 6, "steps.riser": 0.18, "steps.tread": 0.25}},
		{"steps_in", figures{"steps.count": 1, "steps.riser": 0.18, "steps.tread": 0.35}, figures{"steps.count": 0, "steps.riser": 0.18, "steps.tread": 0.35}},
		{"steps_high", figures{"steps.riser": 0.31}, figures{"steps.riser": 0.3048}},
		{"steps_short", figures{"steps.tread": 0.25}, figures{"steps.tread": 0.254}},
		{"steps_rail", figures{"steps.count": 1}, figures{"steps.count": 0}},
		{"steep_drop", figures{"beach.toe_depth": 0.45, "beach.descent_run_per_rise": 2.4}, figures{"beach.toe_depth": 0.45, "beach.descent_run_per_rise": 3}},
		{"steep_drop", figures{"beach.toe_depth": 0.45, "beach.descent_run_per_rise": 2.4}, figures{"beach.toe_depth": 0, "beach.descent_run_per_rise": 2.4}},
		{"ledge_to_rest", figures{"wall.shelf_depth": 0.3}, figures{"wall.shelf_depth": 0}},
		{"ledge_to_rest", figures{"wall.shelf_depth": 0.6}, figures{"wall.shelf_depth": 0.7}},
		{"no_diving_edge", figures{"pond.max_depth": 0.5}, figures{"pond.max_depth": 0.3}},
		{"depth_marks", figures{"pond.deeper_1_2": 0.4}, figures{"pond.deeper_1_2": 0}},
		{"slippery_stone", figures{"cascade.lip": 1.5}, figures{"cascade.lip": 0}},
		{"bare_feet", figures{"takeoff.rim_length": 20}, figures{"takeoff.rim_length": 0}},
		{"walls_close_by", figures{"takeoff.dig_depth": 0.6}, figures{"takeoff.dig_depth": 0.6 - hair}},
		{"tools_by_the_water", figures{"takeoff.dig_bank": 80}, figures{"takeoff.dig_bank": 0}},
		{"cascade_climb", figures{"cascade.rise": 0.76}, figures{"cascade.rise": 0.6}},
		{"deck_edge", figures{"deck.area": 7}, figures{"deck.area": 0}},
		{"children_and_pets", figures{"pond.max_depth": 0.1}, figures{"pond.max_depth": 0}},
		{"gate_and_climbing", figures{"site.fence": 1}, figures{"site.fence": 0}},
		{"intake_must_not_hold", figures{"pump.count": 1}, figures{"pump.count": 0}},
		{"ice", figures{"site.coldest_month": -0.1}, figures{"site.coldest_month": 0}},
		{"bond_and_protect", figures{"pump.count": 1}, figures{"pump.count": 0}},
		{"outlet_places", figures{"pump.count": 2}, figures{"pump.count": 0}},
		{"lights_in_water", figures{"site.lights": 1}, figures{"site.lights": 0}},
		{"wires_overhead", figures{"pond.area": 50}, figures{"pond.area": 0}},
		{"uv_lamp", figures{"site.uv": 1}, figures{"site.uv": 0}},
		{"power_off_to_work", figures{"pump.count": 1}, figures{"pump.count": 0}},
		{"call_before_digging", figures{"takeoff.dig_bank": 80}, figures{"takeoff.dig_bank": 0}},
		{"dig_may_cave_in", figures{"takeoff.dig_depth": 5*ft + hair}, figures{"takeoff.dig_depth": 5 * ft}},
		{"spoil_and_ladder", figures{"takeoff.dig_depth": 4 * ft}, figures{"takeoff.dig_depth": 4*ft - hair}},
		{"ground_water", figures{"takeoff.dig_depth": 0.5}, figures{"takeoff.dig_depth": 0}},
		{"zone_little", figures{"zone.area": 14, "zone.share": 0.21}, figures{"zone.area": 14, "zone.share": 0.3}},
		{"zone_little", figures{"zone.area": 14, "zone.share": 0.21}, figures{"zone.area": 0, "zone.share": 0}},
		{"zone_enough", figures{"zone.share": 0.5}, figures{"zone.share": 0.5 - hair}},
		{"zone_none", figures{"zone.area": 0}, figures{"zone.area": 1}},
		{"test_the_water", figures{"pond.area": 50}, figures{"pond.area": 0}},
		{"warm_water", figures{"site.water_temp": 25 + hair}, figures{"site.water_temp": 25}},
		{"slow_turnover", figures{"turnover.time": 12 + hair}, figures{"turnover.time": 12}},
		{"no_pool_chemicals", figures{"zone.area": 14}, figures{"zone.area": 0}},
		{"hose_backflow", figures{"water.net_volume": 60}, figures{"water.net_volume": 0}},
	}
}

// What a swim pond's notes must speak of, and the rules that do.
func TestCore_SpeaksOfAllThatSwimPondsNeed(t *testing.T) {
	t.Parallel()
	known := map[string]bool{}
	for _, r := range safety.Core() {
		known[r.ID] = true
	}
	if len(known) < 24 {
		t.Errorf("%d rules, want 24 or more", len(known))
	}
	for subject, ids := range map[string][]string{
		"barrier": {"fence_missing"}, "gates and what can be climbed": {"gate_and_climbing"}, "depth marks": {"depth_marks"},
		"diving from edge, deck and boulder": {"no_diving_edge", "no_diving_deck"}, "slope break and beach slope": {"steep_drop", "beach_steep", "beach_easy"},
		"steps, handholds, ways out": {"steep_sides", "exits_both_sides", "ledge_to_rest"}, "head height": {"over_head_height", "hard_to_stand"},
		"entrapment and intake speed": {"intake_must_not_hold", "intake_gentle", "intake_fast"}, "bonding and ground-fault protection": {"bond_and_protect"},
		"outlets, lights, overhead lines": {"outlet_places", "lights_in_water", "wires_overhead"}, "pump distance": {"pump_near_water", "pump_in_water"},
		"digging over 5 ft": {"dig_may_cave_in"}, "buried lines": {"call_before_digging"}, "spoil and walls": {"spoil_and_ladder", "walls_close_by"},
		"bare feet and slippery stone": {"bare_feet", "slippery_stone"}, "electricity near water during works": {"tools_by_the_water", "power_off_to_work"},
		"water quality and regeneration share": {"test_the_water", "zone_little", "zone_enough", "zone_none"}, "warm stagnant water": {"warm_water", "slow_turnover"},
		"ice": {"ice"}, "children, non-swimmers, pets": {"children_and_pets"}, "backflow on fill": {"hose_backflow"},
		"flood and ground water under a liner": {"ground_water"}, "decks and overhangs": {"deck_edge"}, "chemicals and UV service": {"no_pool_chemicals", "uv_lamp"},
	} {
		for _, id := range ids {
			if !known[id] {
				t.Errorf("nothing speaks of %s: no rule %s", subject, id)
			}
		}
	}
}

// The adult of the drawing is the mean of men in the source, 69.0 in, and the
// section shows the same one.
func TestAdultHeight_IsTheMeanOfMen(t *testing.T) {
	t.Parallel()
	if got := safety.AdultHeightM; math.Abs(got-69.0*inch) > 0.005 {
		t.Errorf("the adult is %g m, want 69.0 in, %g m", got, 69.0*inch)
	}
}

func raised(found []sheet.Finding, id string) bool {
	for _, f := range found {
		if f.Code == id {
			return true
		}
	}
	return false
}

func TestCore_EachRuleIsRaisedAndCleared(t *testing.T) {
	t.Parallel()
	for _, p := range pairs() {
		if !raised(safety.Evaluate(safety.Core(), sheetOf(p.raises)), p.id) {
			t.Errorf("%s is not raised by %v", p.id, p.raises)
		}
		if raised(safety.Evaluate(safety.Core(), sheetOf(p.clears)), p.id) {
			t.Errorf("%s is not cleared by %v", p.id, p.clears)
		}
	}
}

func TestCore_EveryRuleHasAPairASourceAndATurn(t *testing.T) {
	t.Parallel()
	paired := map[string]bool{}
	for _, p := range pairs() {
		paired[p.id] = true
	}
	seen := map[string]bool{}
	for _, r := range safety.Core() {
		if !paired[r.ID] {
			t.Errorf("%s has no pair of sheets", r.ID)
		}
		if seen[r.ID] {
			t.Errorf("%s stands twice", r.ID)
		}
		seen[r.ID] = true
		if _, ok := source.Find(r.Source); !ok {
			t.Errorf("%s names the source %q, which the register does not have", r.ID, r.Source)
		}
		if r.Title != "" || r.Text != "" {
			t.Errorf("%s is worded in the core", r.ID)
		}
	}
	if len(seen) < 24 {
		t.Errorf("%d rules, want 24 at the least", len(seen))
	}
	for id := range paired {
		if !seen[id] {
			t.Errorf("%s has a pair and is no rule", id)
		}
	}
}

// A figure that is not there raises nothing: silence, not a guess.
func TestEvaluate_AnEmptySheetIsSilent(t *testing.T) {
	t.Parallel()
	if found := safety.Evaluate(safety.Core(), &sheet.Sheet{}); len(found) != 0 {
		t.Errorf("findings %v on an empty sheet", found)
	}
}

func own() safety.Rule {
	limit := 2.0
	return safety.Rule{
		ID: "town_deep", Severity: sheet.Care, Title: "Deeper than {limit.none}", Text: "It is {pond.max_depth} deep over {pond.area}, so {pond.max_depth} counts.",
		Place: sheet.AtDeepEnd, Figures: []sheet.ID{"pond.area"}, Defers: "Ask the town.",
		When:  []sheet.Clause{{Figure: "pond.max_depth", AtLeast: &limit}},
		Cited: safety.Citation{Code: "Alder County bylaw", Edition: "2024", Section: "7", Known: "read"},
	}
}

func TestEvaluate_FillsABuildersWords(t *testing.T) {
	t.Parallel()
	r := own()
	r.Title = "Deep water"
	found := safety.Evaluate([]safety.Rule{r}, sheetOf(figures{"pond.max_depth": 2, "pond.area": 50}))
	if len(found) != 1 {
		t.Fatalf("findings %v, want one", found)
	}
	f := found[0]
	if f.Text != "It is {1} deep over {0}, so {1} counts." || f.Title != "Deep water" || len(f.Figures) != 2 || f.Figures[1] != "pond.max_depth" {
		t.Errorf("finding %+v", f)
	}
	if f.Cited != "Alder County bylaw, 2024, 7, read" || f.Defers != "Ask the town." || f.Source != "builder" {
		t.Errorf("finding %+v", f)
	}
	if len(r.Figures) != 1 {
		t.Error("the rule itself grew")
	}
}

func TestAll_ABuilderAddsAndNeverTakesAway(t *testing.T) {
	t.Parallel()
	never := 1e9
	quiet := own()
	quiet.ID, quiet.When = "over_head_height", []sheet.Clause{{Figure: "pond.max_depth", Above: &never}}
	all := safety.All([]safety.Rule{quiet, own(), own()})
	if len(all) != len(safety.Core())+1 {
		t.Errorf("%d rules, want the core's %d and one", len(all), len(safety.Core()))
	}
	if !raised(safety.Evaluate(all, sheetOf(figures{"pond.max_depth": 1.9})), "over_head_height") {
		t.Error("a builder's rule has silenced one of the core")
	}
}

func TestFaults_SeeEachSlip(t *testing.T) {
	t.Parallel()
	if f := safety.Faults([]safety.Rule{own()}); len(f) != 0 {
		t.Fatalf("a sound rule has faults %v", f)
	}
	for _, c := range []struct {
		why, path, code string
		spoil           func(r *safety.Rule)
	}{
		{"no id", "rules[0].id", "missing", func(r *safety.Rule) { r.ID = "" }},
		{"a core rule's id", "rules[0].id", "taken", func(r *safety.Rule) { r.ID = "ice" }},
		{"severity", "rules[0].severity", "severity", func(r *safety.Rule) { r.Severity = "bad" }},
		{"no title", "rules[0].title", "missing", func(r *safety.Rule) { r.Title = "" }},
		{"no text", "rules[0].text", "missing", func(r *safety.Rule) { r.Text = "" }},
		{"defers to no one", "rules[0].defers", "missing", func(r *safety.Rule) { r.Defers = "" }},
		{"no code", "rules[0].source.code", "missing", func(r *safety.Rule) { r.Cited.Code = "" }},
		{"known how", "rules[0].source.known", "missing", func(r *safety.Rule) { r.Cited.Known = "" }},
		{"place", "rules[0].place", "place", func(r *safety.Rule) { r.Place = "roof" }},
		{"no condition", "rules[0].when", "missing", func(r *safety.Rule) { r.When = nil }},
		{"a condition without a bound", "rules[0].when[0]", "unbounded", func(r *safety.Rule) { r.When[0].AtLeast = nil }},
		{"a brace left open", "rules[0].text", "brace", func(r *safety.Rule) { r.Text = "deep {pond.max_depth" }},
		{"an empty brace", "rules[0].title", "brace", func(r *safety.Rule) { r.Title = "deep {}" }},
	} {
		r := own()
		c.spoil(&r)
		if f := safety.Faults([]safety.Rule{r}); len(f) != 1 || f[0] != (safety.Fault{Path: c.path, Code: c.code}) {
			t.Errorf("%s: faults %v, want %s %s alone", c.why, f, c.path, c.code)
		}
	}
	if f := safety.Faults([]safety.Rule{own(), own()}); len(f) != 1 || f[0].Code != "twice" {
		t.Errorf("two rules of one id: %v", f)
	}
}

func TestUnmet_SeesFiguresThatAreNotThere(t *testing.T) {
	t.Parallel()
	got := safety.Unmet([]safety.Rule{own()}, sheetOf(figures{"pond.max_depth": 2, "pond.area": 50}))
	if len(got) != 1 || got[0].Code != "unknown_figure" {
		t.Errorf("unmet %v, want limit.none alone", got)
	}
}
