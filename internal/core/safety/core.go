package safety

import (
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
)

// Core returns the rules that every builder's page has, in the order a person
// should read them: first those that are seen on the drawing, then how people
// get in and out, children and fences, electricity, the works, the water.
// Those with a place are pinned on the plan.
func Core() []Rule {
	var all []Rule
	for _, part := range [][]Rule{onTheDrawing(), inAndOut(), peopleRound(), electric(), motors(), works(), waterCare()} {
		all = append(all, part...)
	}
	return all
}

// Limits of the rules. Where a code states it in feet it is turned to metres
// exactly; the register says where each is from.
const (
	hardToStandM    = 1.5    // short adults are over their head
	divingM         = 2.7432 // 9 ft, commonly asked before a head-first entry
	pumpAwayM       = 1.8288 // 6 ft
	barrierDepthM   = 0.4572 // 18 in
	easyBeachRatio  = 5.0
	breakRatio      = 3.0
	standM          = 1.2
	bothSidesM      = 9.144  // 30 ft
	caveInM         = 1.524  // 5 ft
	egressM         = 1.2192 // 4 ft
	littleZoneShare = 0.3
	enoughZoneShare = 0.5
	warmDegC        = 25.0
	slowTurnoverH   = 12.0
	climbM          = 0.6
	footingM        = 0.6    // deeper than the footings of a garden wall, by practice
	riserM          = 0.3048 // 12 in
	treadM          = 0.254  // 10 in
)

// GentleIntakeMPerS is the most that a grate may draw at: 0.5 ft/s, common
// practice, no source.
const GentleIntakeMPerS = 0.1524

// AdultHeightM is the adult of the section drawing: where the water is deeper,
// that adult is over head height.
//
// Source: nchs46.
// Checked: 69.0 in, the mean of men in the source, to half a centimetre.
const AdultHeightM = 1.75

func care(id string, key source.Key, figures ...sheet.ID) Rule {
	return Rule{ID: id, Severity: sheet.Care, Source: key, Figures: figures}
}

func fine(id string, key source.Key, figures ...sheet.ID) Rule {
	return Rule{ID: id, Severity: sheet.Fine, Source: key, Figures: figures}
}

func (r Rule) at(p sheet.Place) Rule { r.Place = p; return r }

func (r Rule) when(c ...sheet.Clause) Rule { r.When = append(r.When, c...); return r }

func above(id sheet.ID, x float64) sheet.Clause   { return sheet.Clause{Figure: id, Above: &x} }
func below(id sheet.ID, x float64) sheet.Clause   { return sheet.Clause{Figure: id, Below: &x} }
func atLeast(id sheet.ID, x float64) sheet.Clause { return sheet.Clause{Figure: id, AtLeast: &x} }
func atMost(id sheet.ID, x float64) sheet.Clause  { return sheet.Clause{Figure: id, AtMost: &x} }
func is(id sheet.ID, x float64) sheet.Clause      { return sheet.Clause{Figure: id, Equals: &x} }

func onTheDrawing() []Rule {
	return []Rule{
		care("over_head_height", "nchs46", "pond.max_depth", "safety.adult_height").at(sheet.AtDeepEnd).when(above("pond.max_depth", AdultHeightM)),
		care("hard_to_stand", "practice", "pond.max_depth").at(sheet.AtDeepEnd).when(above("pond.max_depth", hardToStandM), atMost("pond.max_depth", AdultHeightM)),
		care("no_diving_deck", "ispsc804", "deck.water_depth").at(sheet.AtDeck).when(above("deck.area", 0), below("deck.water_depth", divingM)),
		care("pump_near_water", "nec680", "pump.distance").at(sheet.AtPump).when(above("pump.distance", 0), below("pump.distance", pumpAwayM)),
		care("pump_in_water", "nec682").at(sheet.AtPump).when(atMost("pump.distance", 0)),
		care("fence_missing", "cpsc362").at(sheet.AroundGround).when(is("site.fence", 0), above("pond.max_depth", barrierDepthM)),
		fine("beach_easy", "ispsc_slopes", "beach.run_per_rise").at(sheet.AtBeach).when(atLeast("beach.run_per_rise", easyBeachRatio)),
		care("beach_steep", "ispsc_slopes", "beach.run_per_rise").at(sheet.AtBeach).when(above("beach.run_per_rise", 0), below("beach.run_per_rise", easyBeachRatio)),
		fine("intake_gentle", "practice", "intake.velocity").at(sheet.AtIntake).when(above("intake.velocity", 0), atMost("intake.velocity", GentleIntakeMPerS)),
		care("intake_fast", "usc8003", "intake.velocity", "intake.velocity_limit", "intake.least_open").at(sheet.AtIntake).when(above("intake.velocity", GentleIntakeMPerS)),
		care("exits_both_sides", "ispsc809", "pond.width").at(sheet.AtRim).when(above("pond.width", bothSidesM), above("pond.max_depth", hardToStandM)),
	}
}

func inAndOut() []Rule {
	return []Rule{
		care("steep_sides", "ispsc809", "pond.max_depth").when(below("wall.run_per_rise", 1), above("pond.max_depth", standM), atMost("steps.count", 0)),
		fine("steps_in", "ispsc411", "steps.count", "steps.foot_depth").when(above("steps.count", 0), atMost("steps.riser", riserM), atLeast("steps.tread", treadM)),
		care("steps_high", "ispsc411", "steps.riser").when(above("steps.riser", riserM)),
		care("steps_short", "ispsc411", "steps.tread").when(above("steps.tread", 0), below("steps.tread", treadM)),
		care("steps_rail", "practice", "steps.foot_depth", "pond.max_depth").when(above("steps.count", 0)),
		care("steep_drop", "ispsc_slopes", "beach.toe_depth", "beach.descent_run_per_rise").
			when(above("beach.toe_depth", 0), above("beach.descent_run_per_rise", 0), below("beach.descent_run_per_rise", breakRatio)),
		fine("ledge_to_rest", "practice", "wall.shelf_depth").when(above("wall.shelf_depth", 0), atMost("wall.shelf_depth", climbM)),
		care("no_diving_edge", "ispsc804", "pond.max_depth").when(above("pond.max_depth", 0.3)),
		care("depth_marks", "ispsc409", "pond.deeper_1_2").when(above("pond.deeper_1_2", 0)),
		care("slippery_stone", "practice").when(above("cascade.lip", 0)),
		care("bare_feet", "practice").when(above("takeoff.rim_length", 0)),
		care("cascade_climb", "practice", "cascade.rise").when(above("cascade.rise", climbM)),
		care("deck_edge", "irc_r312").when(above("deck.area", 0)),
	}
}

func peopleRound() []Rule {
	return []Rule{
		care("children_and_pets", "cdc_drowning").when(above("pond.max_depth", 0)),
		care("gate_and_climbing", "irc_ag105").when(is("site.fence", 1)),
		care("intake_must_not_hold", "usc8003").when(above("pump.count", 0)),
		care("ice", "practice", "site.coldest_month").when(below("site.coldest_month", 0)),
	}
}

func electric() []Rule {
	return []Rule{
		care("bond_and_protect", "nec680_26").when(above("pump.count", 0)),
		care("outlet_places", "nec680").when(above("pump.count", 0)),
		care("lights_in_water", "nec680_23").when(is("site.lights", 1)),
		care("wires_overhead", "nec680_9").when(above("pond.area", 0)),
		care("uv_lamp", "practice").when(is("site.uv", 1)),
		care("power_off_to_work", "osha147").when(above("pump.count", 0)),
	}
}

// motors are the rules on motors of pool pumps. They change with the years: each
// names its own source, and the words leave the last say to it.
func motors() []Rule {
	return []Rule{
		care("speed_rule", "cfr431_485").when(is("pump.one_speed", 1), is("pump.in_water", 0)),
		care("speed_rule_states", "title20pump").when(is("pump.one_speed", 1), is("pump.in_water", 0)),
		fine("speed_rule_met", "cfr431_485").when(is("pump.one_speed", 0), is("pump.in_water", 0)),
		fine("speed_rule_apart", "cfr431_scope").when(is("pump.in_water", 1)),
	}
}

func works() []Rule {
	return []Rule{
		care("call_before_digging", "cfr196").when(above("takeoff.dig_bank", 0)),
		care("dig_may_cave_in", "osha652", "takeoff.dig_depth").when(above("takeoff.dig_depth", caveInM)),
		care("spoil_and_ladder", "osha651", "takeoff.dig_depth").when(atLeast("takeoff.dig_depth", egressM)),
		care("walls_close_by", "osha651_i", "takeoff.dig_depth").when(atLeast("takeoff.dig_depth", footingM)),
		care("tools_by_the_water", "osha404").when(above("takeoff.dig_bank", 0)),
		care("ground_water", "ufc3220", "takeoff.dig_depth").when(above("takeoff.dig_depth", 0)),
	}
}

func waterCare() []Rule {
	return []Rule{
		care("zone_little", "fll2011", "zone.share").when(above("zone.area", 0), below("zone.share", littleZoneShare)),
		fine("zone_enough", "fll2011", "zone.share").when(atLeast("zone.share", enoughZoneShare)),
		care("zone_none", "fll2011").when(atMost("zone.area", 0)),
		care("test_the_water", "epa_rwqc2012").when(above("pond.area", 0)),
		care("warm_water", "fll2011", "site.water_temp").when(above("site.water_temp", warmDegC)),
		care("slow_turnover", "ispsc810", "turnover.time").when(above("turnover.time", slowTurnoverH)),
		care("no_pool_chemicals", "practice").when(above("zone.area", 0)),
		care("hose_backflow", "ipc608", "water.net_volume").when(above("water.net_volume", 0)),
	}
}
