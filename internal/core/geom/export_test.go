package geom

// CountLooks counts from now on what the searches of a field look at.
func (f *Field) CountLooks() *int {
	n := new(int)
	f.all.looks = n
	for i := range f.laws {
		f.laws[i].from.looks = n
	}
	return n
}
