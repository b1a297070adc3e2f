package book

// Region is a part of the country with what homes paid there for electricity
// on average.
type Region struct {
	Code   string // "ca"
	Name   string
	PerKWh string // decimal text, US dollars
}

// RegionsYear is the year of the prices of Regions.
const RegionsYear = 2023

// Regions are the average prices of electricity for homes by state, the whole
// country first. An average is a place to begin: the price on a home's own
// bill is the one to type.
//
// Source: eia2023.
// Checked: testdata/reference/residential_price_2023.csv.
func Regions() []Region {
	return []Region{
		{"us", "All of the United States", "0.16"},
		{"al", "Alabama", "0.1463"},
		{"ak", "Alaska", "0.239"},
		{"az", "Arizona", "0.1402"},
		{"ar", "Arkansas", "0.1225"},
		{"ca", "California", "0.2951"},
		{"co", "Colorado", "0.143"},
		{"ct", "Connecticut", "0.2988"},
		{"de", "Delaware", "0.1573"},
		{"dc", "District of Columbia", "0.1645"},
		{"fl", "Florida", "0.1521"},
		{"ga", "Georgia", "0.1369"},
		{"hi", "Hawaii", "0.4239"},
		{"id", "Idaho", "0.1105"},
		{"il", "Illinois", "0.1571"},
		{"in", "Indiana", "0.1494"},
		{"ia", "Iowa", "0.1331"},
		{"ks", "Kansas", "0.1338"},
		{"ky", "Kentucky", "0.1265"},
		{"la", "Louisiana", "0.1155"},
		{"me", "Maine", "0.2742"},
		{"md", "Maryland", "0.166"},
		{"ma", "Massachusetts", "0.2961"},
		{"mi", "Michigan", "0.1884"},
		{"mn", "Minnesota", "0.1473"},
		{"ms", "Mississippi", "0.1323"},
		{"mo", "Missouri", "0.1258"},
		{"mt", "Montana", "0.1254"},
		{"ne", "Nebraska", "0.112"},
		{"nv", "Nevada", "0.1667"},
		{"nh", "New Hampshire", "0.2815"},
		{"nj", "New Jersey", "0.177"},
		{"nm", "New Mexico", "0.1385"},
		{"ny", "New York", "0.2225"},
		{"nc", "North Carolina", "0.1293"},
		{"nd", "North Dakota", "0.1101"},
		{"oh", "Ohio", "0.1538"},
		{"ok", "Oklahoma", "0.1208"},
		{"or", "Oregon", "0.1273"},
		{"pa", "Pennsylvania", "0.181"},
		{"ri", "Rhode Island", "0.2702"},
		{"sc", "South Carolina", "0.1368"},
		{"sd", "South Dakota", "0.1232"},
		{"tn", "Tennessee", "0.1219"},
		{"tx", "Texas", "0.1446"},
		{"ut", "Utah", "0.112"},
		{"vt", "Vermont", "0.2082"},
		{"va", "Virginia", "0.1426"},
		{"wa", "Washington", "0.1098"},
		{"wv", "West Virginia", "0.1405"},
		{"wi", "Wisconsin", "0.1688"},
		{"wy", "Wyoming", "0.1146"},
	}
}
