package book

import "tarnwright/internal/jsonfile"

// Each file's limits are one table, from which come the schema that is
// published and the faults that a check prints.

func between(path string, least, most float64) jsonfile.Limit {
	return jsonfile.Limit{Path: path, Least: &least, Most: &most}
}

func oneOf(path string, words ...string) jsonfile.Limit {
	return jsonfile.Limit{Path: path, Words: words}
}

func filled(path, about string) jsonfile.Limit {
	return jsonfile.Limit{Path: path, Filled: true, About: about}
}

func like(path, pattern, about string) jsonfile.Limit {
	return jsonfile.Limit{Path: path, Pattern: pattern, About: about}
}

func builderLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("file_version", fileVersion, fileVersion),
		like("currency", `^[A-Z]{3}$`, `three capital letters, like "USD"`),
		filled("builder.name", "the builder as the page names it"),
		filled("builder.short", "a short name for buttons"),
		like("builder.email", `^[^@\s]+@[^@\s]+$`, `an email address, like "hello@builder.example"`),
		like("builder.privacy_url", `^https://[^\s"'<>]+$`, "a web address that starts with https://; without it no details may be asked for"),
		between("builder.retention_months", 1, 60),
	}
}

func clauseLimits(at string) []jsonfile.Limit {
	return []jsonfile.Limit{like(at+".figure", `^[a-z0-9_]+(\.[a-z0-9_]+)+$`, `the id of a figure on the sheet, like "pond.area"`)}
}

func priceLimits() []jsonfile.Limit {
	return append([]jsonfile.Limit{
		between("prices_version", 1, 1),
		between("works.crew_count", 1, 50),
		between("works.workdays_per_week", 1, 7),
		filled("works.phases", "the steps of the works, in order"),
		filled("works.phases[].id", "a name for the items to use"),
		filled("works.phases[].name", "the step as the page names it"),
		between("works.phases[].weather_ratio", 0, 2),
		between("works.phases[].inspection_days", 0, 90),
		filled("features[].id", "a name for the items to use"),
		filled("features[].name", "the feature as the page names it"),
		filled("items", "what the budget is made of"),
		filled("items[].id", "a name of its own"),
		filled("items[].name", "the item as the page names it"),
		filled("items[].phase", "the id of a phase under works"),
		like("items[].quantity", `^(fixed|[a-z0-9_]+(\.[a-z0-9_]+)+)$`, `the id of a figure, like "takeoff.liner_area", or "fixed"`),
		oneOf("items[].unit", "count", "m", "m2", "m3", "t", "kg", "d", "m3/s", "h", "kWh"),
	}, clauseLimits("items[].when[]")...)
}

func rateLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("rates_version", 1, 1),
		between("liner.overlap_m", 0, 5), between("liner.roll_step_m", 0.01, 20), between("liner.underlay_count", 0, 5),
		between("liner.underlay_waste_ratio", 0, 1), between("liner.anchor_trench_width_m", 0, 2), between("liner.anchor_trench_depth_m", 0, 2),
		between("dig.build_up_m", 0, 1), between("dig.pipe_trench_width_m", 0, 2), between("dig.pipe_trench_depth_m", 0, 3),
		between("dig.used_on_site_ratio", 0, 1), between("dig.lorry_m3", 0.5, 60), between("dig.soils[].swell_ratio", 0, 1),
		between("gravel[].thickness_m", 0, 2), between("gravel[].bulk_kg_per_m3", 500, 3000), between("gravel[].pore_ratio", 0, 0.7),
		between("stone.grade_m", 0, 3), between("stone.course_count", 0, 10), between("stone.void_ratio", 0, 0.8),
		between("stone.solid_kg_per_m3", 1000, 4000), between("stone.in_water_ratio", 0, 1),
		between("pad.pump_length_m", 0, 5), between("pad.pump_width_m", 0, 5), between("pad.clearance_m", 0, 3), between("pad.thickness_m", 0, 1),
		between("fill.tanker_m3", 0.1, 60), between("fill.hose_m3_per_h", 0.05, 200), between("fill.cushion_m", 0, 3),
		between("zone_bulk_kg_per_m3", 500, 3000),
	}
}

func ruleLimits() []jsonfile.Limit {
	return append([]jsonfile.Limit{
		between("rules_version", 1, 1),
		filled("rules[].id", "a name that no other rule has"),
		oneOf("rules[].severity", "care", "fine"),
		filled("rules[].title", "a few words; {pond.area} puts a figure in"),
		filled("rules[].text", "one or two sentences; {pond.area} puts a figure in"),
		filled("rules[].defers", "who has the last word"),
		filled("rules[].source.code", "the code or guide behind the rule"),
		oneOf("rules[].source.known", knownHow()...),
		oneOf("rules[].place", "", "deep_end", "deck", "pump", "intake", "beach", "cascade", "zone", "rim", "ground"),
	}, clauseLimits("rules[].when[]")...)
}

// knownHow are the ways that a builder may know a rule.
func knownHow() []string { return []string{"read", "quoted", "from memory", "common practice"} }

func pumpLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("file_version", fileVersion, fileVersion),
		filled("pumps", "the pumps that the builder fits"),
		filled("pumps[].id", "a name of its own"),
		oneOf("pumps[].class", "self_priming", "flooded", "submersible"),
		oneOf("pumps[].drive", "single_speed", "variable_speed"),
		oneOf("pumps[].curve.form", "", "smooth", "straight", "power"),
		between("pumps[].least_speed_ratio", 0.05, 1.5), between("pumps[].most_speed_ratio", 0.05, 1.5),
		between("pumps[].suction_diameter_m", leastBoreM, mostBoreM), between("pumps[].discharge_diameter_m", leastBoreM, mostBoreM),
	}
}

func pipeLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("file_version", fileVersion, fileVersion),
		filled("pipes", "the sizes that the builder stocks"),
		filled("pipes[].id", "a name of its own"),
		filled("pipes[].nominal_in", `the size as the trade says it, like "3"`),
		between("pipes[].inside_diameter_m", leastBoreM, mostBoreM),
	}
}

func tariffLimits() []jsonfile.Limit {
	const day, hour = `^(|(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01]))$`, `^(([01][0-9]|2[0-3]):[0-5][0-9]|24:00)$`
	return []jsonfile.Limit{
		between("tariff_version", 1, 1),
		filled("name", "the tariff as the bill names it"),
		filled("periods[].name", "the hours as the bill names them"),
		like("periods[].from", day, `a month and a day, like "06-01"`), like("periods[].to", day, `a month and a day, like "09-30"`),
		oneOf("periods[].days", "", "every_day", "weekday", "weekend"),
		like("periods[].hours[].start", hour, `a time, like "16:00"`), like("periods[].hours[].end", hour, `a time, like "21:00"`),
		like("holidays[]", `^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`, `a date, like "2026-07-04"`),
		oneOf("rounding.level", "", "line", "month", "year"),
		oneOf("rounding.mode", "", "half_up", "half_even"),
	}
}

func waterLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("water_tariff_version", 1, 1),
		filled("name", "the tariff as the bill names it"),
		filled("tiers", "one step or more; the last has no end"),
	}
}

func climateLimits() []jsonfile.Limit {
	const month = "climates[].months[]."
	return []jsonfile.Limit{
		between("climate_version", 1, 1),
		filled("climates", "the places that the builder works in"),
		filled("climates[].id", "a name of its own"), filled("climates[].name", "the place as the page names it"),
		filled("climates[].source", "where the numbers are from"),
		between("climates[].latitude_deg", -66, 66), between("climates[].altitude_m", -450, 5000),
		between(month+"t_max_deg_c", -40, 55), between(month+"t_min_deg_c", -40, 45),
		between(month+"rh_max_ratio", 0, 1), between(month+"rh_min_ratio", 0, 1),
		between(month+"wind_m_per_s", 0, 20), between(month+"sun_h_per_day", 0, 20), between(month+"rain_mm", 0, 3000),
	}
}

func gridLimits() []jsonfile.Limit {
	return []jsonfile.Limit{
		between("grid_version", 1, 1), between("kg_per_kwh", 0, 3), between("year", 2000, 2100),
		filled("source", "where the number is from"),
	}
}
