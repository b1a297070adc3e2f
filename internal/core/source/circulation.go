package source

func circulation() []Entry {
	return []Entry{
		{"kell1975", "G. S. Kell", "Density, thermal expansivity and compressibility of liquid water from 0 to 150 degC, J. Chem. Eng. Data 20", "1975", "density at one atmosphere, rational form", FromMemory},
		{"iapwssr6", "IAPWS", "SR6-08, Supplementary release on properties of liquid water at 0.1 MPa", "2008, revised 2011", "dynamic viscosity, four-term form", FromMemory},
		{"wagnerpruss1993", "W. Wagner, A. Pruss", "International equations for the saturation properties of ordinary water substance", "1993", "vapour pressure, six-term form", FromMemory},
		{"iso2533", "ISO", "ISO 2533, Standard atmosphere", "1975", "troposphere, 6.5 K/km", FromMemory},
		{"darcyweisbach", "H. Darcy, J. Weisbach", "Head loss of a round pipe", "1845-1857", "h = f (L/D) v^2 / 2g", Read},
		{"colebrook1939", "C. F. Colebrook", "Turbulent flow in pipes, J. Inst. Civil Engrs 11", "1939", "as restated in the documentation of the fluids library", Quoted},
		{"swameejain1976", "P. Swamee, A. Jain", "Explicit equations for pipe-flow problems", "1976", "as coded in the EPANET engine, hydcoeffs", Quoted},
		{"haaland1983", "S. E. Haaland", "Simple and explicit formulas for the friction factor in turbulent pipe flow", "1983", "common form", FromMemory},
		{"poiseuille1840", "G. Hagen, J. L. M. Poiseuille", "Laminar flow in a round pipe", "1840", "f = 64 / Re", Read},
		{"dunlop1991", "E. J. Dunlop", "WADI users manual: cubic between the laminar and turbulent laws", "1991", "as coded in the EPANET engine, hydcoeffs", Quoted},
		{"hazenwilliams1905", "A. Hazen, G. S. Williams", "Hydraulic tables", "1905", "US constant 4.727 as coded in the EPANET engine; SI pair 10.67 and 4.8704 from memory", Quoted},
		{"crane410", "Crane Co.", "Technical Paper 410, Flow of fluids", "as reproduced by the fluids library", "K = N fT; tables of fittings", Quoted},
		{"astmd1785", "ASTM", "D1785, PVC plastic pipe, schedules 40, 80 and 120", "as tabulated by the fluids library", "outside diameter less twice the least wall", Quoted},
		{"kindsvatercarter1957", "C. E. Kindsvater, R. W. Carter", "Discharge characteristics of rectangular thin-plate weirs", "1957", "coefficients as in ISO 1438", Quoted},
		{"broadcrest", "J. B. Belanger and others", "Critical depth over a broad crest", "1849", "Q = Cd (2/3)^1.5 g^0.5 b h^1.5", Read},
		{"affinity", "", "Affinity laws of centrifugal pumps", "", "Q as N, H as N^2, P as N^3", Read},
		{"npsh", "", "Net positive suction head available", "as in Crane TP-410 example 7-32", "(p_atm - p_v)/(rho g) + z - h_f", Quoted},
		{"hi98", "Hydraulic Institute", "ANSI/HI 9.8, Rotodynamic pumps for pump intake design", "", "least depth of a mouth under water, S = D (1 + 2.3 v / (g D)^0.5)", FromMemory},
		{"steffen1990", "M. Steffen", "A simple method for monotonic interpolation in one dimension", "1990", "", FromMemory},
		{"todini1988", "E. Todini, S. Pilati", "A gradient algorithm for the analysis of pipe networks", "1988", "Newton step on heads and flows together", FromMemory},
		{"nfpa291", "NFPA", "291, Recommended practice for water flow testing and marking of hydrants", "", "Q = 29.83 c d^2 sqrt(p) in gal/min, inches and psi; c 0.90 for a smooth, rounded outlet", Quoted},
		{"title20pump", "California Energy Commission", "Title 20, 1605.3(g)(5), residential pool pump motors", "as quoted by two trade pages", "two speeds or more from 1 total horsepower, the low one at most half of full; since taken further, from memory", Quoted},
		{"cfr431_485", "U.S. Department of Energy", "10 CFR 431.485, motors of dedicated-purpose pool pumps", "", "1.15 to 5 hp variable-speed if made from 29 September 2025, 0.5 to 1.15 hp from 28 September 2027", Read},
		{"cfr431_scope", "U.S. Department of Energy", "10 CFR 431 subpart Y, dedicated-purpose pool pumps", "", "pumps that stand in the water lie outside it", FromMemory},
		{"title24pool", "California Energy Commission", "Title 24 part 6, 150.0(p), pool piping", "", "suction at most 6 ft/s, return at most 8 ft/s", FromMemory},
	}
}
