package form

// Region is a place with what homes paid there for electricity on average.
type Region struct {
	Code, Name string
	PerKWh     string // decimal text
}

// WasName carries the region that stood in a form when it was shown: where
// another is chosen, the price that stood beside the old one goes.
const WasName = "state_was"

// everywhere is the region of a form that offers none.
const everywhere = "us"

func (d Defaults) regionCodes() []string {
	codes := []string{everywhere}
	for _, r := range d.Regions {
		if r.Code != everywhere {
			codes = append(codes, r.Code)
		}
	}
	return codes
}

// Regions lists the regions to choose from, none where there is only one.
func (s State) Regions() []Region { return s.base.Regions }

// Region is the one that is chosen.
func (s State) Region() (Region, bool) {
	for _, r := range s.base.Regions {
		if r.Code == s.Word(Place) {
			return r, true
		}
	}
	return Region{}, false
}

// RegionPrice tells whether the price of electricity is the region's own and
// not one that was typed.
func (s State) RegionPrice() bool {
	r, ok := s.Region()
	return ok && s.Word(Power) == r.PerKWh
}

// priced takes the region's price. A price that is typed afterwards stands.
func (s State) priced() State {
	if i, q, ok := s.at(Power); ok {
		return s.put(Power, s.usual(i, q))
	}
	return s
}

// usual is what an answer is while nobody has given another: the form's own,
// or for electricity the price of the region.
func (s State) usual(i int, q question) value {
	if q.field == Bill && !s.RegionPrice() && len(s.base.Regions) > 0 {
		return value{word: byOwn}
	}
	if q.field != Power {
		return s.fresh[i].good
	}
	j, _, ok := s.at(Place)
	if !ok || s.answers[j].good == s.fresh[j].good {
		return s.fresh[i].good
	}
	if r, ok := s.Region(); ok {
		return value{word: r.PerKWh}
	}
	return s.fresh[i].good
}
