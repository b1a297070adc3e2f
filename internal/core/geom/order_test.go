package geom

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
)

// Against the library's stable sort, on runs, on noise, and with many equals.
func TestInOrder_IsTheStableSort(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 1))
	for k := range 3000 {
		keys := make([]vec, r.IntN(80))
		x, up := 0.0, 1.0
		for i := range keys {
			switch k % 3 {
			case 0: // to and fro
				if r.IntN(10) == 0 {
					up = -up
				}
				x += up * r.Float64()
				keys[i] = vec{x, r.Float64()}
			case 1:
				keys[i] = vec{r.Float64(), r.Float64()}
			default:
				keys[i] = vec{float64(r.IntN(3)), float64(r.IntN(2))}
			}
		}
		want := make([]int, len(keys))
		for i := range want {
			want[i] = i
		}
		slices.SortStableFunc(want, func(i, j int) int {
			return cmp.Or(cmp.Compare(keys[i].x, keys[j].x), cmp.Compare(keys[i].y, keys[j].y))
		})
		if got := inOrder(keys); !slices.Equal(got, want) {
			t.Fatalf("keys %v: %v, want %v", keys, got, want)
		}
	}
}
