package book_test

import (
	"encoding/csv"
	"os"
	"sort"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core/money"
)

// The published cents are a hundred times the dollars, state by state.
func TestRegions_AreThePublishedPrices(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../testdata/reference/residential_price_2023.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	published := map[string]string{}
	for _, row := range rows[1:] {
		published[strings.ToLower(row[0])] = row[1]
	}
	hundred, err := money.ParseQuantity("100")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for i, x := range book.Regions() {
		p, err := money.ParsePrice(x.PerKWh)
		if err != nil {
			t.Fatalf("%s: %v", x.Name, err)
		}
		if got := p.Times(hundred).Fixed(2); got != published[x.Code] {
			t.Errorf("%s: %s cents, want %s cents", x.Name, got, published[x.Code])
		}
		delete(published, x.Code)
		if i > 0 {
			names = append(names, x.Name)
		}
	}
	if len(published) > 0 || len(names) != 51 {
		t.Errorf("%d states and the district, want 51; left out: %v", len(names), published)
	}
	if !sort.StringsAreSorted(names) {
		t.Error("the states are not in the order of their names")
	}
}
