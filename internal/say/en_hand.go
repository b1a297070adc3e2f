package say

// handEnglish is what is said about shaping the pond on the drawing.
func handEnglish() map[string]string {
	return map[string]string{
		"hand":        "Shaping by hand",
		"hand.done":   "Done",
		"ring.how":    "Drag it, use the arrow keys, or tap where it should go.",
		"ring.x":      "East",
		"ring.y":      "North",
		"ring.add":    "Add a ring",
		"ring.remove": "Remove",

		"ring.add.long":    "Add a ring after this one",
		"ring.remove.long": "Remove this ring",

		"grip.how":        "Drag it along the edge, use the arrow keys, or tap where it should go.",
		"grip.on":         "A step on",
		"grip.back":       "A step back",
		"grip.uncut":      "Through the deepest place",
		"grip.move":       "{0}, along the edge",
		"grip.zone_at":    "Regeneration zone",
		"grip.cascade_at": "Cascade",
		"grip.stairs_at":  "Steps",
		"grip.deck_at":    "Timber deck",
		"grip.pump_at":    "Pump",
		"grip.intake_at":  "Intake",
		"grip.beach_at":   "Middle of the beach",
		"grip.cut_from":   "One end of the section",
		"grip.cut_to":     "Other end of the section",

		"bearing.at": "{0}°, {1}",
		"bearing.0":  "north", "bearing.1": "north-east", "bearing.2": "east", "bearing.3": "south-east",
		"bearing.4": "south", "bearing.5": "south-west", "bearing.6": "west", "bearing.7": "north-west",

		"zoom":     "Size of the drawing",
		"zoom.in":  "Nearer",
		"zoom.out": "Further away",
		"zoom.fit": "All of it",

		"outline.wrong":     "This outline cannot be a pond",
		"outline.mend":      "Undo this move",
		"plan.section.hand": "Section along your line",

		"ask.standing":      "Where they stand",
		"ask.standing.note": "Degrees from north, seen from the middle of the water. 90 is east.",
		"ask.zone_at":       "Regeneration zone",
		"ask.cascade_at":    "Cascade",
		"ask.stairs_at":     "Steps",
		"ask.deck_at":       "Timber deck",
		"ask.pump_at":       "Pump",
		"ask.intake_at":     "Intake",
		"ask.beach_at":      "Middle of the beach",
		"ask.cut":           "Section line",

		"table.places":  "Where things stand",
		"table.thing":   "Thing",
		"table.bearing": "Place",
		"table.at":      "{0}, {1}",
		"table.east":    "{0} east",
		"table.west":    "{0} west",
		"table.north":   "{0} north",
		"table.south":   "{0} south",
		"table.along":   "Along the line",
		"table.depth":   "Depth",
		"table.step":    "Step {0}",
	}
}
