package say

import (
	"strings"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Shown is a figure in the form that suits it: a head in decimal feet, a depth
// in feet and inches, a slope as one in so many.
func Shown(f sheet.Figure, t measure.Terms) measure.Shown { return Form(f, "", t) }

// Form is a figure in a form asked for by name; "" is the one that suits it.
func Form(f sheet.Figure, form string, t measure.Terms) measure.Shown {
	if form == "" {
		form = usual(string(f.ID))
	}
	switch form {
	case "minute":
		return t.FlowByMinute(f.Value)
	case "depth":
		return t.Depth(f.Value)
	case "head":
		return t.Head(f.Value)
	case "small":
		return t.Small(f.Value)
	case "slope":
		return measure.Slope(f.Value)
	case "percent":
		return measure.Percent(f.Value)
	case "part":
		return t.VolumeFine(f.Value)
	case "earth":
		return t.Earth(f.Value)
	case "fine":
		return measure.Shown{Number: measure.Round(f.Value, 2)}
	case "days":
		return measure.Shown{Number: measure.Round(f.Value, 0), Unit: "days"}
	case "budget":
		return t.Budget(f.Amount)
	case "area":
		return t.PerArea(f.Amount)
	case "number":
		return measure.Shown{Number: Form(f, "", t).Number}
	}
	return t.Figure(f)
}

// usual is the form that suits a figure by its id.
func usual(id string) string {
	switch {
	case id == "pump.distance":
		return ""
	case id == "value.per_m2":
		return "area"
	case strings.HasSuffix(id, "_depth") && id != "water.top_up_depth":
		return "depth"
	case strings.HasSuffix(id, "run_per_rise"):
		return "slope"
	case strings.HasPrefix(id, "pond.deeper_"), strings.HasSuffix(id, "share"), strings.HasSuffix(id, "efficiency"),
		strings.HasSuffix(id, "_error"), strings.HasSuffix(id, "speed"):
		return "percent"
	case strings.HasPrefix(id, "pump.head"), strings.HasPrefix(id, "pump.npsh"), id == "pump.shutoff_head", id == "quiet.head", strings.HasSuffix(id, ".head_saved"):
		return "head"
	case id == "weir.head", id == "weir.sheet", id == "weir.least_head", id == "water.top_up_depth":
		return "small"
	case id == "water.pond_part", id == "water.zone_part":
		return "part"
	case id == "takeoff.dig_loads":
		return ""
	case strings.HasPrefix(id, "takeoff.dig_"), id == "takeoff.gravel_volume":
		return "earth"
	case strings.HasPrefix(id, "budget.low"), strings.HasPrefix(id, "budget.likely"), strings.HasPrefix(id, "budget.high"):
		return "budget"
	}
	return ""
}
