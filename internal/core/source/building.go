package source

func building() []Entry {
	return []Entry{
		{"groundwaterproject", "The Groundwater Project", "Introductory hydrogeology text, bulk density and porosity", "", "eq. 3: rho_b = (1 - n) rho_p + n rho_f", Read},
		{"nrcs521a", "USDA Natural Resources Conservation Service", "Conservation practice standard 521A, flexible membrane", "state copies, 2007 and 2008", "anchor trench 12 in deep and wide, 24 in back from the edge", Quoted},
		{"peurifoy", "Peurifoy and others", "Construction Planning, Equipment and Methods", "as quoted 1998", "table 4-1, swell of soils", Quoted},
		{"hec23", "Federal Highway Administration", "HEC-23, rock in place: solid density and voids", "", "voids of 35 to 45 %", FromMemory},
		{"hermite", "Charles Hermite", "Cubic through two points with their slopes", "", "", FromMemory},
		{"pert1959", "Malcolm, Roseboom, Clark and Fazar", "Application of a technique for research and development program evaluation, Operations Research 7", "1959", "mean (a + 4 m + b) / 6", FromMemory},
		{"betadist", "", "Beta distribution: variance and skewness in closed form", "", "shape sum 6 for a three-point estimate with weight 4", FromMemory},
		{"wilsonhilferty1931", "Wilson and Hilferty", "The distribution of chi-square, PNAS 17", "1931", "cube-root form of the gamma quantile", FromMemory},
	}
}
