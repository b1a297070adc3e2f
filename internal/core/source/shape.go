package source

func shape() []Entry {
	return []Entry{}
}
