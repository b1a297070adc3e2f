package drawing_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/drawing"
	"tarnwright/internal/markup"
)

func works() drawing.WorksBars {
	return drawing.WorksBars{
		Caption: drawing.Caption{ID: "works", Title: "Order of the works", Says: "12 working days."},
		Rows: []drawing.WorksRow{
			{Name: "Design and permits", StartDays: 0, WorkDays: 1, InspectionDays: 3},
			{Name: "Digging", StartDays: 4, WorkDays: 4, WeatherDays: 1},
			{Name: "Liner", StartDays: 9, WorkDays: 2, WeatherDays: 0.5, InspectionDays: 0.5},
		},
		Ticks: []drawing.Tick{{At: 0, Text: "0"}, {At: 5, Text: "5"}, {At: 10, Text: "10"}, {At: 15, Text: "15"}},
		Work:  "Work", Weather: "Weather", Inspection: "Inspection",
	}
}

func rects(n markup.Node, class string) (out []markup.Node) {
	if n.Tag == "rect" {
		for _, a := range n.Attrs {
			if a.Name == "class" && a.Value == class {
				out = append(out, n)
			}
		}
	}
	for _, k := range n.Kids {
		out = append(out, rects(k, class)...)
	}
	return out
}

func side(t *testing.T, n markup.Node, name string) float64 {
	t.Helper()
	for _, a := range n.Attrs {
		if a.Name == name {
			x, err := strconv.ParseFloat(a.Value, 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
	}
	t.Fatalf("no %s", name)
	return 0
}

// Every bar is as long as its days, and each begins where the one before ends:
// one working day has the same length in every row, at both widths.
func TestWorksBars_BarsAreAsLongAsTheirDays(t *testing.T) {
	t.Parallel()
	for _, wide := range []float64{258, 560} {
		c := works()
		c.WidthPx = wide
		n := c.Node()
		solid, ruled, outline := rects(n, "ch-solid"), rects(n, "ch-ruled"), rects(n, "ch-outline")
		// The first of each is the key's.
		if len(solid) != 4 || len(ruled) != 3 || len(outline) != 3 {
			t.Fatalf("at %g: %d solid, %d ruled, %d in outline, want 4, 3, 3", wide, len(solid), len(ruled), len(outline))
		}
		day := side(t, solid[2], "width") / 4 // drawn to a tenth of a px
		for _, x := range []struct {
			why   string
			n     markup.Node
			days  float64
			start float64
		}{
			{"digging", solid[2], 4, 4}, {"rain on the dig", ruled[1], 1, 8}, {"liner", solid[3], 2, 9},
			{"rain on the liner", ruled[2], 0.5, 11}, {"the inspector of the liner", outline[2], 0.5, 11.5}, {"permits", outline[1], 3, 1},
		} {
			if got := side(t, x.n, "width"); math.Abs(got-x.days*day) > 0.4 {
				t.Errorf("at %g: %s is %.1f px, want %g days of %.1f px", wide, x.why, got, x.days, day)
			}
			if got := side(t, x.n, "x") - side(t, solid[1], "x"); math.Abs(got-x.start*day) > 0.4 {
				t.Errorf("at %g: %s starts %.1f px on, want day %g of %.1f px", wide, x.why, got, x.start, day)
			}
		}
		if html := markup.HTML(n); !strings.Contains(html, "Order of the works") || !strings.Contains(html, "12 working days.") {
			t.Errorf("at %g the chart does not say what it is", wide)
		}
	}
}
