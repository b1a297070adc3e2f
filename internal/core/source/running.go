package source

// running lists what hours, bills and the water lost rest on.
func running() []Entry {
	return []Entry{
		{"fao56", "Allen, Pereira, Raes and Smith", "Crop evapotranspiration, FAO Irrigation and Drainage Paper 56", "1998", "eq. 6 to 50, examples 2 to 18, as cited by page in two open libraries", Quoted},
		{"penman1956", "Penman", "Evaporation: an introductory survey, Netherlands Journal of Agricultural Science 4", "1956", "wind function 1.313 + 1.381 u2, as McMahon and others give it", Quoted},
		{"mcmahon2013", "McMahon, Peel, Lowe, Srikanthan and McVicar", "Estimating actual, potential, reference crop and pan evaporation, Hydrology and Earth System Sciences 17", "2013", "supplement, worked examples 1 and 3", Quoted},
		{"ashraepool", "ASHRAE", "HVAC Applications handbook, natatoriums: evaporation from pools", "", "w = 0.1 A Fa (pw - pa) in lb/h, as stated in the source of an open building energy program", Quoted},
		{"smithlofjones1998", "Smith, Löf and Jones", "Rates of evaporation from swimming pools in active use, ASHRAE Transactions 104(1A), paper 4146", "1998", "eq. 1 and abstract", Quoted},
		{"eia2023", "US Energy Information Administration", "Electric Power Annual, residential price 2023", "2024", "16.00 cents/kWh, all states", Read},
		{"egrid2022", "US Environmental Protection Agency", "eGRID2022, US average output rate", "2024", "823.149 lb of carbon dioxide per MWh, as the tests of an open carbon calculator give it", Quoted},
		{"eiacarbon2022", "US Energy Information Administration", "Frequently asked questions, carbon dioxide per kilowatt-hour of US generation in 2022", "2023", "1,650 million t over 4,230,672 million kWh, utility-scale plants", Read},
		{"tariff", "", "The builder's tariff, or the home's own price", "", "bill with the pond less the bill without it", Builder},
	}
}
