package view_test

import (
	"strings"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

// Every working ends with what it leaves out.
func TestReadings_SayWhatTheyLeaveOut(t *testing.T) {
	t.Parallel()
	v := view.Of(computed(t, "../../testdata/cases/demo"), say.English(), measure.Terms{System: measure.US})
	for _, r := range v.Readings() {
		if n := len(r.How); n == 0 || !strings.HasPrefix(r.How[n-1], "Left out:") {
			t.Errorf("%s ends with %q", r.ID, r.How)
		}
	}
}

func priced(t *testing.T, figures map[sheet.ID]string) *sheet.Sheet {
	t.Helper()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "pump.head", Value: 3, Unit: sheet.Metre})
	for _, id := range []sheet.ID{"power.single_cost", "power.variable_cost", "water.cost", "power.saving", "power.extra_price", "power.ten_year_single", "power.ten_year_variable"} {
		if text, ok := figures[id]; ok {
			a, err := money.Parse(text)
			if err != nil {
				t.Fatal(err)
			}
			s.Add(sheet.Figure{ID: id, Amount: a, Unit: sheet.Money})
		}
	}
	return s
}

// By hand: 1,150 ÷ 344 is 3.343 years or 40.1 months, and 1,150 ÷ 66 is 17.42
// years or 209.1 months, longer than the ten years that are counted.
func TestCompare_SaysWhenTheDearerPumpPaysAndWhenItDoesNot(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why    string
		f      map[sheet.ID]string
		months float64
		want   string
		better string
	}{
		{"it pays", map[sheet.ID]string{"power.saving": "344", "power.extra_price": "1150", "power.ten_year_single": "6120", "power.ten_year_variable": "3830"}, 40.1,
			"The variable-speed pump costs $1,150 more, saves $344 a year and is paid for in 3 years 4 months.", "variable"},
		{"too late", map[sheet.ID]string{"power.saving": "66", "power.extra_price": "1150", "power.ten_year_single": "2050", "power.ten_year_variable": "2540"}, 209.1,
			"The variable-speed pump saves $66 a year, so the $1,150 it costs more would take 17 years 5 months. Over ten years it does not pay.", "single"},
		{"never", map[sheet.ID]string{"power.saving": "-5", "power.extra_price": "1150", "power.ten_year_single": "2050", "power.ten_year_variable": "3250"}, 0,
			"The variable-speed pump saves nothing here, so it does not pay.", "single"},
		{"for nothing", map[sheet.ID]string{"power.saving": "20", "power.extra_price": "0", "power.ten_year_single": "300", "power.ten_year_variable": "100"}, 0,
			"The variable-speed pump costs no more to buy and saves $20 a year.", "variable"},
	} {
		s := priced(t, c.f)
		if c.months > 0 {
			s.Add(sheet.Figure{ID: "power.payback_months", Value: c.months, Step: 0.1, Unit: sheet.Month})
		}
		got := view.Compare([]view.View{view.Of(s, say.English(), measure.Terms{System: measure.US})}, []string{"A"}).Ponds[0]
		if got.Bill != c.want || got.Better != c.better {
			t.Errorf("%s: %q, better %s; want %q, %s", c.why, got.Bill, got.Better, c.want, c.better)
		}
	}
	none := view.Compare([]view.View{view.Of(&sheet.Sheet{}, say.English(), measure.Terms{System: measure.US})}, []string{"A"})
	if none.Best != -1 || none.Ponds[0].Better != "" || !strings.Contains(none.Ponds[0].Bill, "No pump") {
		t.Errorf("without a pump: %+v", none.Ponds[0])
	}
}

// By hand: 612 + 114 is the bill; a step to 650 + 120 adds 44, one to 600 +
// 114 takes 12, and the greater change stands first.
func TestSteps_AreTheChangeOfTheBill(t *testing.T) {
	t.Parallel()
	of := func(single, water string) view.View {
		return view.Of(priced(t, map[sheet.ID]string{"power.single_cost": single, "power.variable_cost": "1", "water.cost": water}), say.English(), measure.Terms{System: measure.US})
	}
	now := of("612", "114")
	if bill, ok := now.Bill(false); !ok || bill != "$726" {
		t.Errorf("the bill is %s, want $726", bill)
	}
	rows := now.Steps(false, []view.Step{{Name: "less", View: of("600", "114")}, {Name: "more", View: of("650", "120")}, {Name: "cents", View: of("612.40", "114")},
		{Name: "no pump", View: view.Of(&sheet.Sheet{}, say.English(), measure.Terms{})}})
	var got []string
	for _, r := range rows {
		got = append(got, r.Name+" "+r.By)
	}
	if want := "more +$44, less −$12, cents +$0.40"; strings.Join(got, ", ") != want {
		t.Errorf("%s; want %s", strings.Join(got, ", "), want)
	}
}
