package geom

// before orders places from west to east, and from south to north where they
// are as far east.
func (a vec) before(b vec) bool { return a.x < b.x || (a.x == b.x && a.y < b.y) }

// inOrder returns where keys stand from first to last, and of equal ones the
// earlier first. A rim goes to and fro only a few times: its rising and falling
// runs are taken as they are and merged. It is several times faster than a sort
// that is given the comparison as a function.
func inOrder(keys []vec) []int {
	n := len(keys)
	order, other := make([]int, n), make([]int, n)
	var room [16]int
	ends := room[:0] // of the runs
	for lo := 0; lo < n; lo = ends[len(ends)-1] {
		hi := lo + 1
		if hi < n && keys[hi].before(keys[lo]) {
			for hi < n && keys[hi].before(keys[hi-1]) {
				hi++
			}
			for i := lo; i < hi; i++ {
				order[i] = lo + hi - 1 - i
			}
		} else {
			for hi < n && !keys[hi].before(keys[hi-1]) {
				hi++
			}
			for i := lo; i < hi; i++ {
				order[i] = i
			}
		}
		ends = append(ends, hi)
	}
	for len(ends) > 1 {
		lo, merged := 0, ends[:0]
		for k := 0; k < len(ends); k += 2 {
			mid, hi := ends[k], ends[min(k+1, len(ends)-1)]
			merge(keys, order[lo:mid], order[mid:hi], other[lo:hi])
			merged = append(merged, hi)
			lo = hi
		}
		ends = merged
		order, other = other, order
	}
	return order
}

func merge(keys []vec, a, b, out []int) {
	for i := range out {
		if len(b) == 0 || (len(a) > 0 && !keys[b[0]].before(keys[a[0]])) {
			out[i], a = a[0], a[1:]
		} else {
			out[i], b = b[0], b[1:]
		}
	}
}
