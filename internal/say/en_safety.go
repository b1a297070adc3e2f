package say

// Who has the last word.
const (
	townDecides        = "Your town’s code has the last word."
	electricianDecides = "A licensed electrician and your local code have the last word."
	builderDecides     = "Your builder has the last word on site."
	plumberDecides     = "A licensed plumber and your local code have the last word."
	youDecide          = "You decide, day by day. No law replaces a watchful eye."
)

// safetyEnglish words the safety rules of the core. Each is worded so that it
// stays right where a town has another edition of a code.
func safetyEnglish() map[string]string {
	words := map[string]string{}
	for _, part := range []map[string]string{safetyOnTheDrawing(), safetyInAndOut(), safetyElectric(), safetyMotors(), safetyWorks(), safetyWater()} {
		for key, text := range part {
			words["finding."+key] = text
		}
	}
	return words
}

func safetyOnTheDrawing() map[string]string {
	return map[string]string{
		"over_head_height.title":  "Over head height",
		"over_head_height.text":   "{0} at the deep end. An adult of {1} is under water there. Keep the ladder, and mark the drop with pale stones.",
		"over_head_height.defers": builderDecides,
		"hard_to_stand.title":     "Too deep for many to stand",
		"hard_to_stand.text":      "{0} at the deep end. Short adults and most children cannot keep their heads out of the water there.",
		"hard_to_stand.defers":    builderDecides,
		"no_diving_deck.title":    "No diving from the deck",
		"no_diving_deck.text":     "The water here is {0} deep, too shallow to dive into. Plan a sign and a low bench along this edge.",
		"no_diving_deck.defers":   townDecides,
		"pump_near_water.title":   "Pump is {0} from the water",
		"pump_near_water.text":    "Many electrical codes ask for more. Move it back, or ask your electrician.",
		"pump_near_water.defers":  electricianDecides,
		"pump_in_water.title":     "Pump in the water",
		"pump_in_water.text":      "A mains pump in water where people swim can kill. Set it on dry ground, away from the edge.",
		"pump_in_water.defers":    electricianDecides,
		"fence_missing.title":     "Fence and gate",
		"fence_missing.text":      "Most towns want a barrier round open water. One is not in this budget yet.",
		"fence_missing.defers":    townDecides,
		"beach_easy.title":        "Beach slopes {0}",
		"beach_easy.text":         "Easy to walk in and out, with small round pebbles underfoot. Some towns ask for a gentler slope.",
		"beach_easy.defers":       townDecides,
		"beach_steep.title":       "Steep beach, {0}",
		"beach_steep.text":        "Feet can slip on a slope like this. A gentler one is easier to walk, and some towns ask for it.",
		"beach_steep.defers":      townDecides,
		"intake_gentle.title":     "Gentle intake",
		"intake_gentle.text":      "A wide grate draws at {0}. It still needs a guard that hair, hands and feet cannot pass.",
		"intake_gentle.defers":    townDecides,
		"intake_fast.title":       "Fast intake",
		"intake_fast.text":        "The grate draws at {0}, fast enough to pull at hair. At most {1} is gentle, which takes {2} of open grate.",
		"intake_fast.defers":      townDecides,
		"exits_both_sides.title":  "A way out on both sides",
		"exits_both_sides.text":   "The pond is {0} wide and deep. Plan steps or a ladder on each side of the deep end.",
		"exits_both_sides.defers": townDecides,
	}
}

func safetyInAndOut() map[string]string {
	return map[string]string{
		"steep_sides.title":          "Sides too steep to walk out",
		"steep_sides.text":           "With {0} of water, a tired swimmer needs steps, a ladder or a hand hold within reach.",
		"steep_sides.defers":         townDecides,
		"steps_in.title":             "Steps lead in",
		"steps_in.text":              "{0} steps go down to {1} of water. Use rough stone, and give each edge a pale line.",
		"steps_in.defers":            townDecides,
		"steps_high.title":           "High steps",
		"steps_high.text":            "Each step is {0} high. Many codes allow 12 in (0.30 m) at most, and lower ones are kinder to knees.",
		"steps_high.defers":          townDecides,
		"steps_short.title":          "Short steps",
		"steps_short.text":           "Each step is {0} deep from front to back. Many codes ask for 10 in (0.25 m), so that a whole foot fits.",
		"steps_short.defers":         townDecides,
		"steps_rail.title":           "A rail beside the steps",
		"steps_rail.text":            "Set a hand rail where the steps end in {0} of water. Where it is {1} deep, a ladder or a hand hold helps a tired swimmer.",
		"steps_rail.defers":          townDecides,
		"steep_drop.title":           "The beach ends in a drop",
		"steep_drop.text":            "At {0} deep the slope turns to {1}. Show that line with pale stones or a rope.",
		"steep_drop.defers":          townDecides,
		"ledge_to_rest.title":        "A ledge to rest on",
		"ledge_to_rest.text":         "With {0} of water over it, a tired swimmer can stand or sit there.",
		"ledge_to_rest.defers":       builderDecides,
		"no_diving_edge.title":       "No diving from rocks or the edge",
		"no_diving_edge.text":        "The deepest part is {0}, and rocks lie under water. Go in feet first, and put up a sign.",
		"no_diving_edge.defers":      townDecides,
		"depth_marks.title":          "Mark the depth",
		"depth_marks.text":           "About {0} of the water is too deep for a child to stand. Set marks at the edge where people can read them.",
		"depth_marks.defers":         townDecides,
		"slippery_stone.title":       "Wet stone is slippery",
		"slippery_stone.text":        "Stone by the falls grows slick. Use rough stone, and keep a dry way round.",
		"slippery_stone.defers":      builderDecides,
		"bare_feet.title":            "Bare feet on stone",
		"bare_feet.text":             "People walk here with no shoes on. Choose stone with no sharp edges, and set each one so that it cannot rock.",
		"bare_feet.defers":           builderDecides,
		"cascade_climb.title":        "People will climb the falls",
		"cascade_climb.text":         "The falls stand {0} high. Set each stone so that it cannot shift, and do not jump from them.",
		"cascade_climb.defers":       builderDecides,
		"deck_edge.title":            "Deck over water",
		"deck_edge.text":             "Close the gap below, so no one can get caught under it. A high deck wants a rail.",
		"deck_edge.defers":           townDecides,
		"children_and_pets.title":    "Watch children and pets",
		"children_and_pets.text":     "Small children, and people who cannot swim, can drown fast and without a sound. Keep one adult on watch, and give pets a way out.",
		"children_and_pets.defers":   youDecide,
		"gate_and_climbing.title":    "Gate, latch and things to climb",
		"gate_and_climbing.text":     "The gate should shut and latch by itself, with the latch out of a child’s reach. Keep rocks and chairs off the fence.",
		"gate_and_climbing.defers":   townDecides,
		"intake_must_not_hold.title": "The intake must not hold anyone",
		"intake_must_not_hold.text":  "No pump may suck right at an opening that a body can block. Use an open bay with a grate, or two openings far apart.",

		"intake_must_not_hold.defers": townDecides,
		"ice.title":                   "Stay off the ice",
		"ice.text":                    "The coldest month is about {0}. Moving water keeps ice thin, so close off the pond in winter.",
		"ice.defers":                  youDecide,
	}
}

func safetyElectric() map[string]string {
	return map[string]string{
		"bond_and_protect.title":   "Bonding and ground-fault protection",
		"bond_and_protect.text":    "Pump, metal parts and water are commonly bonded as one. The circuit needs ground-fault protection.",
		"bond_and_protect.defers":  electricianDecides,
		"outlet_places.title":      "Outlets near the water",
		"outlet_places.text":       "Codes keep outlets back from the water and ask for ground-fault protection. Use no long cords.",
		"outlet_places.defers":     electricianDecides,
		"lights_in_water.title":    "Lights in or by the water",
		"lights_in_water.text":     "Use low-voltage lights made and listed for use where people swim.",
		"lights_in_water.defers":   electricianDecides,
		"wires_overhead.title":     "Look up for wires",
		"wires_overhead.text":      "Codes keep power lines far above and to the side of the water. If you see one, call the power company.",
		"wires_overhead.defers":    "The power company and your local code have the last word.",
		"uv_lamp.title":            "UV lamp",
		"uv_lamp.text":             "Its light hurts eyes and skin. Switch it off and lock it before you open it.",
		"uv_lamp.defers":           electricianDecides,
		"power_off_to_work.title":  "Power off before you reach in",
		"power_off_to_work.text":   "Switch off, lock, and test before you work on pump, lights or intake. No swimming while the work goes on.",
		"power_off_to_work.defers": electricianDecides,
	}
}

func safetyWorks() map[string]string {
	return map[string]string{
		"call_before_digging.title":  "Call before you dig",
		"call_before_digging.text":   "Gas, power and water lines may lie here. In the U.S. call 811 some days before, and wait for the marks.",
		"call_before_digging.defers": "Those who own the lines have the last word.",
		"dig_may_cave_in.title":      "The dig can cave in",
		"dig_may_cave_in.text":       "It goes {0} down. At this depth, crews must slope the sides or hold them up. Keep all others away.",
		"dig_may_cave_in.defers":     "Work safety law and the builder on site have the last word.",
		"spoil_and_ladder.title":     "Keep soil back from the edge",
		"spoil_and_ladder.text":      "The dig is {0} deep. Keep soil and machines well back, and keep a ladder or ramp close by.",
		"spoil_and_ladder.defers":    "Work safety law and the builder on site have the last word.",
		"walls_close_by.title":       "Keep the dig back from walls",
		"walls_close_by.text":        "A dig of {0} beside a house, a wall or a big tree can bring it down. Ask an engineer before you dig close to one.",
		"walls_close_by.defers":      "An engineer and your local code have the last word.",
		"tools_by_the_water.title":   "Power tools in a wet dig",
		"tools_by_the_water.text":    "Plug tools into an outlet with ground-fault protection. Keep cords whole, dry and out of the pit.",
		"tools_by_the_water.defers":  electricianDecides,
		"ground_water.title":         "Water under the liner",
		"ground_water.text":          "The dig goes {0} down. If water in the ground or a flood can rise that high, it lifts the liner. Test first, and plan a drain.",
		"ground_water.defers":        builderDecides,
	}
}

func safetyWater() map[string]string {
	return map[string]string{
		"zone_little.title":        "Few plants for this much water",
		"zone_little.text":         "The planted part is {0} of the whole. Guides for ponds like this ask for about a third or more.",
		"zone_little.defers":       builderDecides,
		"zone_enough.title":        "Plenty of plants",
		"zone_enough.text":         "The planted part is {0} of the whole, as guides for such ponds ask for.",
		"zone_enough.defers":       builderDecides,
		"zone_none.title":          "No planted part",
		"zone_none.text":           "With no planted gravel, some other means must keep the water fit to swim in.",
		"zone_none.defers":         builderDecides,
		"test_the_water.title":     "Test the water",
		"test_the_water.text":      "Clear water can still make you ill. Have it tested for germs before the first swim, and each season.",
		"test_the_water.defers":    "Your health office has the last word.",
		"warm_water.title":         "Warm water",
		"warm_water.text":          "At {0} germs and algae grow fast. Keep the water moving, and stay out when it turns green.",
		"warm_water.defers":        "Your health office has the last word.",
		"slow_turnover.title":      "Slow to turn over",
		"slow_turnover.text":       "One round takes {0}. Still, warm water is not good to swim in.",
		"slow_turnover.defers":     townDecides,
		"no_pool_chemicals.title":  "No pool chemicals",
		"no_pool_chemicals.text":   "They kill the plants and the life that cleans the water. Keep any you have locked away.",
		"no_pool_chemicals.defers": builderDecides,
		"hose_backflow.title":      "Keep pond water out of the tap",
		"hose_backflow.text":       "When you fill {0} by hose, leave an air gap or fit a valve that stops back flow.",
		"hose_backflow.defers":     plumberDecides,
	}
}
