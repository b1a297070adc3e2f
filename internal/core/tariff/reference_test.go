package tariff_test

import (
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/tariff"
)

// reference is testdata/reference/energy.json: bills worked out apart with
// exact fractions, a minute walk against interval arithmetic.
type reference struct {
	Cases []struct {
		ID, Title string
		Year      int
		Schedule  []struct {
			From, To string
			Loads    []struct {
				KW      string
				Windows [][2]string
			}
		}
		Tariff struct {
			TOU []struct {
				Name, Days string
				Windows    [][2]string
				Rate       money.Price
			}
			DefaultPeriod string       `json:"default_period"`
			DefaultRate   *money.Price `json:"default_rate"`
			Holidays      []string
			Tiers         []struct {
				Name string
				UpTo *money.Quantity `json:"upto_kwh"`
				Rate money.Price
			}
			Minimum money.Amount   `json:"minimum_bill"`
			Fixed   money.Amount   `json:"fixed_per_month"`
			Tax     money.Quantity `json:"tax"`
		}
		Rounding struct{ Level, Mode string }
		Result   struct {
			KWh     string            `json:"annual_kwh"`
			Cost    money.Amount      `json:"annual_cost"`
			Hours   int64             `json:"hours_in_year"`
			Periods map[string]string `json:"by_period_kwh"`
			Months  []struct {
				KWh  string
				Cost money.Amount
			}
		}
	}
}

func load(t *testing.T) reference {
	t.Helper()
	data, err := os.ReadFile("../../../testdata/reference/energy.json")
	if err != nil {
		t.Fatal(err)
	}
	var r reference
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Cases) != 10 {
		t.Fatalf("%d cases were read, want 10", len(r.Cases))
	}
	return r
}

// sixtieth is kilowatt-hours as kilowatt-minutes, exact.
func sixtieth(t *testing.T, kwh string) money.Quantity {
	t.Helper()
	q, err := money.ParseQuantity(kwh)
	if err != nil {
		t.Fatal(err)
	}
	return q.Mul(power.Whole(60))
}

func TestBill_MatchesBillsWorkedOutApartToTheCent(t *testing.T) {
	t.Parallel()
	for _, c := range load(t).Cases {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			// Through the design and the tariff file, as people state them.
			r := design.Running{Year: c.Year}
			for i, s := range c.Schedule {
				for j, l := range s.Loads {
					kw, err := strconv.ParseFloat(l.KW, 64)
					if err != nil {
						t.Fatal(err)
					}
					load := design.Load{Name: strconv.Itoa(i) + "." + strconv.Itoa(j), PowerKW: kw}
					for _, w := range l.Windows {
						load.Spans = append(load.Spans, design.LoadWindow{From: s.From, To: s.To, Start: w[0], End: w[1]})
					}
					r.Loads = append(r.Loads, load)
				}
			}
			tr := tariff.Tariff{Version: 1, Name: c.ID, RestName: c.Tariff.DefaultPeriod, RestPerKWh: c.Tariff.DefaultRate, Holidays: c.Tariff.Holidays,
				FixedPerMonth: c.Tariff.Fixed, MinimumPerMonth: c.Tariff.Minimum, TaxShare: c.Tariff.Tax,
				Rounding: tariff.Rounding{Level: tariff.Level(c.Rounding.Level), Mode: tariff.Mode(c.Rounding.Mode)}}
			for _, p := range c.Tariff.TOU {
				period := tariff.Period{Name: p.Name, Days: tariff.Days(p.Days), PerKWh: p.Rate}
				for _, w := range p.Windows {
					period.Hours = append(period.Hours, tariff.Hours{Start: w[0], End: w[1]})
				}
				tr.Periods = append(tr.Periods, period)
			}
			for _, x := range c.Tariff.Tiers {
				tr.Tiers = append(tr.Tiers, tariff.Tier{Name: x.Name, UpToKWh: x.UpTo, PerKWh: x.Rate})
			}
			if f := tr.Faults(); len(f) > 0 {
				t.Fatalf("the tariff file would be refused: %v", f)
			}

			use := power.Tally(power.Loads(r), tr.Slots(), tr.Classes())
			bill := tr.Bill(use)
			if bill.Total.Cmp(c.Result.Cost) != 0 {
				t.Errorf("year = %s, want %s", bill.Total, c.Result.Cost)
			}
			if got, want := use.Year(), sixtieth(t, c.Result.KWh); got.Cmp(want) != 0 {
				t.Errorf("year = %s kW min, want %s", got, want)
			}
			for m, want := range c.Result.Months {
				if got := bill.Months[m]; got.Total.Fixed(12) != want.Cost.Fixed(12) {
					t.Errorf("month %d = %s, want %s", m+1, got.Total, want.Cost)
				}
				if got, want := use.Month(m), sixtieth(t, want.KWh); got.Cmp(want) != 0 {
					t.Errorf("month %d = %s kW min, want %s", m+1, got, want)
				}
			}
			for i, p := range tr.Periods {
				if got, want := use.Class(i), sixtieth(t, c.Result.Periods[p.Name]); got.Cmp(want) != 0 {
					t.Errorf("period %s = %s kW min, want %s", p.Name, got, want)
				}
			}
			var hours int64
			for _, minutes := range power.MonthMin(c.Year) {
				hours += minutes / 60
			}
			if hours != c.Result.Hours {
				t.Errorf("the year has %d h, want %d", hours, c.Result.Hours)
			}
		})
	}
}

// price, amount and quantity read decimal text of a table.
func price(t *testing.T, s string) money.Price {
	t.Helper()
	p, err := money.ParsePrice(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func amount(t *testing.T, s string) money.Amount {
	t.Helper()
	a, err := money.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func quantity(t *testing.T, s string) money.Quantity {
	t.Helper()
	q, err := money.ParseQuantity(strings.TrimSpace(s))
	if err != nil {
		t.Fatal(err)
	}
	return q
}
