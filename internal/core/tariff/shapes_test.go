package tariff_test

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"tarnwright/internal/core/tariff"
)

// 0.2 kW round the clock in January 2026, which has 22 working days of which one
// is a holiday: 31 × 24 × 0.2 = 148.8 kWh.
func TestShapes_ExampleFilesBillJanuaryByHand(t *testing.T) {
	t.Parallel()
	rows := []struct{ file, why, want string }{
		{"../../../testdata/tariffs/tiers.json", "148.8 × 0.12", "17.86"},
		// Weekday winter peak 21 × 6 h: 25.2 kWh, 8.316 → 8.32. Night 31 × 7 h: 43.4 kWh,
		// 6.076 → 6.08. The rest 31 × 17 h less 126 h: 80.2 kWh, 19.248 → 19.25.
		{"../../../testdata/tariffs/hours.json", "peak, night and the rest", "33.65"},
		// Peak 31 kWh at 0.28, 8.68; the rest 117.8 at 0.18, 21.204; steps nothing;
		// 11.50; with 7.5 % 44.4878.
		{"../../../testdata/tariffs/both.json", "hours, fixed charge and tax", "44.49"},
		{"../../book/demo/tariff.json", "the demo's 16 cents", "23.81"},
	}
	for _, r := range rows {
		data, err := os.ReadFile(r.file)
		if err != nil {
			t.Fatal(err)
		}
		var tr tariff.Tariff
		dec := json.NewDecoder(bytes.NewReader(data))
		dec.DisallowUnknownFields()
		if err := dec.Decode(&tr); err != nil {
			t.Fatalf("%s: %v", r.file, err)
		}
		if f := tr.Faults(); len(f) > 0 {
			t.Errorf("%s: faults %v", r.file, f)
		}
		if got := bill(tr, always(2026, 0.2, [2]string{"00:00", "24:00"})).Months[0].Total; got.Cmp(amount(t, r.want)) != 0 {
			t.Errorf("%s (%s): %s, want %s", r.file, r.why, got, r.want)
		}
		// What is written reads back as the same bill.
		again, err := json.Marshal(tr)
		if err != nil {
			t.Fatal(err)
		}
		var back tariff.Tariff
		if err := json.Unmarshal(again, &back); err != nil {
			t.Fatalf("%s: %v", r.file, err)
		}
		if a, b := bill(tr, always(2026, 0.2, [2]string{"00:00", "24:00"})).Total, bill(back, always(2026, 0.2, [2]string{"00:00", "24:00"})).Total; a.Cmp(b) != 0 {
			t.Errorf("%s: %s, read back %s", r.file, a, b)
		}
	}
}
