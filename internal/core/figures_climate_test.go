package core

import (
	"testing"

	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/waterbill"
)

func TestColdest_IsTheLowestMonthlyMean(t *testing.T) {
	t.Parallel()
	mild, cold := waterbill.Climate{ID: "mild"}, waterbill.Climate{ID: "cold"}
	for i := range mild.Months {
		mild.Months[i] = waterbill.Month{TMaxDegC: 20, TMinDegC: 10}
		cold.Months[i] = waterbill.Month{TMaxDegC: 12, TMinDegC: 2}
	}
	// February has the coldest nights, and January is the coldest month.
	cold.Months[0] = waterbill.Month{TMaxDegC: -2, TMinDegC: -7}
	cold.Months[1] = waterbill.Month{TMaxDegC: 4, TMinDegC: -9}
	for _, c := range []struct {
		why, climate string
		climates     []waterbill.Climate
		want         float64
		there, ice   bool
	}{
		{"named", "cold", []waterbill.Climate{mild, cold}, -4.5, true, true},
		{"not named", "", []waterbill.Climate{mild, cold}, 15, true, false},
		{"unknown", "moon", []waterbill.Climate{cold, mild}, -4.5, true, true},
		{"no climates", "cold", nil, 0, false, false},
	} {
		s, d, b := &sheet.Sheet{}, box(), Book{Climates: c.climates}
		d.Site.Climate = c.climate
		coldest(s, d, b)
		f, there := s.Find("site.coldest_month")
		if there != c.there || f.Value != c.want {
			t.Errorf("%s: %g degC (%v), want %g (%v)", c.why, f.Value, there, c.want, c.there)
		}
		safetyFindings(s, d, b)
		if got := len(s.Findings) == 1 && s.Findings[0].Code == "ice"; got != c.ice {
			t.Errorf("%s: findings %v", c.why, s.Findings)
		}
	}
}
