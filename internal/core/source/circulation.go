package source

func circulation() []Entry {
	return []Entry{}
}
