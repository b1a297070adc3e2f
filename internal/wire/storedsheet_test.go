package wire_test

import (
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/wire"
)

// What was stored is read back to the last digit.
func TestReadStoredSheet_ReadsBackEveryFigure(t *testing.T) {
	t.Parallel()
	low, err := money.Parse("41250.37")
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet.Sheet{CoreVersion: 7, Book: "demo/3"}
	s.Add(sheet.Figure{ID: "water.net_volume", Value: 67.75812345, Unit: sheet.CubicMetre})
	s.Add(sheet.Figure{ID: "budget.low", Amount: low, Unit: sheet.Money})
	raw, err := wire.SheetJSON(s, "", nil)
	if err != nil {
		t.Fatal(err)
	}
	got, err := wire.ReadStoredSheet(raw)
	if err != nil || got.CoreVersion != 7 || got.Book != "demo/3" || len(got.Figures) != 2 {
		t.Fatalf("%+v, %v", got, err)
	}
	if got.Value("water.net_volume") != 67.75812345 || got.Amount("budget.low").Cmp(low) != 0 {
		t.Errorf("%+v", got.Figures)
	}
	for _, broken := range []string{"", "[", `{"figures":[{"id":"a","value":"x","unit":"m"}]}`, `{"figures":[{"id":"a","value":1,"unit":"money"}]}`} {
		if _, err := wire.ReadStoredSheet([]byte(broken)); err == nil {
			t.Errorf("%q is read", broken)
		}
	}
	if got, err := wire.ReadStoredSheet([]byte(`{"later":1,"figures":[{"id":"a","value":null,"unit":"m","more":[]}]}`)); err != nil || len(got.Figures) != 0 {
		t.Errorf("of a later version: %+v, %v", got, err)
	}
}

func FuzzReadStoredSheet(f *testing.F) {
	f.Add([]byte(`{"core_version":1,"book":"demo/1","figures":[{"id":"pond.area","value":53.9,"unit":"m2"},{"id":"budget.low","value":"1.5","unit":"money"}]}`))
	f.Add([]byte(`{"figures":[{"value":1e999}]}`))
	f.Add([]byte(`{"figures":[{"id":"a.b","value":1},{"id":"a.b","value":2}]}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		s, err := wire.ReadStoredSheet(raw)
		if (s == nil) == (err == nil) {
			t.Errorf("a sheet %v with the error %v", s, err)
		}
	})
}
