package source

// Codes of towns and states differ in edition. What is from memory is worded
// on the page so that it stays right when a section has moved.
func safety() []Entry {
	const (
		cpsc  = "U.S. Consumer Product Safety Commission"
		icc   = "International Code Council"
		nfpa  = "National Fire Protection Association"
		osha  = "Occupational Safety and Health Administration"
		ispsc = "International Swimming Pool and Spa Code"
		nec   = "National Electrical Code, NFPA 70"
	)
	return []Entry{
		{"cpsc362", cpsc, "Safety Barrier Guidelines for Residential Pools, Pub. 362", "", "48 in high, no gap a 4 in ball passes", Read},
		{"irc_ag105", icc, "International Residential Code, Appendix G", "as scanned by a county", "AG105.2: gates close and latch themselves; latch at 54 in or guarded", Read},
		{"ispsc_slopes", icc, ispsc, "2012", "chapter 7: 1 in 7 where shallow, 1 in 3 beyond; towns state 1 in 8 to 1 in 15", Quoted},
		{"ispsc409", icc, ispsc, "", "section 409, depth marks; commonly asked of public pools only", FromMemory},
		{"dallas43", "City of Dallas", "City code, public pools", "", "depth marks at most 25 ft apart; not asked of private ones", Read},
		{"ispsc411", icc, ispsc, "", "section 411, stairs: risers of 12 in at most, treads of 10 in at least", FromMemory},
		{"ispsc804", icc, ispsc, "", "section 804, diving water envelopes", FromMemory},
		{"ispsc809", icc, ispsc, "", "section 809, entry and exit; both sides where wider than 30 ft", FromMemory},
		{"ispsc810", icc, ispsc, "", "section 810, one turnover in 12 h", FromMemory},
		{"irc_r312", icc, "International Residential Code", "", "section R312, guards at drops over 30 in", FromMemory},
		{"ipc608", icc, "International Plumbing Code", "", "section 608, protection of drinking water; air gap or vacuum breaker", FromMemory},
		{"usc8003", "United States Congress", "Virginia Graeme Baker Pool and Spa Safety Act, 15 USC 8001", "2007", "8002 and 8003, unblockable drains and covers; 16 CFR 1450", Read},
		{"nec680", nfpa, nec, "2008 and 2011 wording", "680.22(A): outlets 6 ft to 20 ft away, ground-fault protection within 20 ft", Quoted},
		{"nec680_9", nfpa, nec, "", "680.9(A): 22.5 ft from the water to a service drop", Quoted},
		{"nec680_23", nfpa, nec, "", "680.23, underwater lights", FromMemory},
		{"nec680_26", nfpa, nec, "", "680.26, equipotential bonding; 680.21, ground-fault protection of pump motors", FromMemory},
		{"nec682", nfpa, nec, "", "article 682, natural and made bodies of water; 680 for those meant for swimming", FromMemory},
		{"osha147", osha, "29 CFR 1910.147, control of hazardous energy", "", "switch off, lock, try", FromMemory},
		{"osha651", osha, "29 CFR 1926.651, excavations", "", "way out at 4 ft deep within 25 ft; spoil 2 ft back", Quoted},
		{"osha651_i", osha, "29 CFR 1926.651(i), excavations near standing structures", "", "no digging below a footing without support or an engineer's word", FromMemory},
		{"osha404", osha, "29 CFR 1926.404(b)(1), ground-fault protection on building sites", "", "outlets that crews use", FromMemory},
		{"osha652", osha, "29 CFR 1926.652(a)(1), protection from cave-ins", "", "5 ft, or less where there is a sign of it", Quoted},
		{"cfr196", "Pipeline and Hazardous Materials Safety Administration", "49 CFR 196, protection of underground pipelines", "", "call 811 before digging", FromMemory},
		{"ufc3220", "U.S. Department of Defense", "UFC 3-220-10N, soil mechanics", "", "section 6: drain below a lining where ground water can stand above the pond", Quoted},
		{"fll2011", "Forschungsgesellschaft Landschaftsentwicklung Landschaftsbau", "Guideline for private swimming and natural pools, as summed up by others", "2006 and 2011", "planted part of 30 % to 60 % by type; water at 25 degC or less", Quoted},
		{"epa_rwqc2012", "U.S. Environmental Protection Agency", "Recreational Water Quality Criteria, 820-F-12-058", "2012", "E. coli and enterococci", FromMemory},
		{"nchs46", "National Center for Health Statistics", "Anthropometric reference data, Series 3, Number 46", "2015 to 2018", "mean height of men 20 and over, 69.0 in", FromMemory},
		{"cdc_drowning", "Centers for Disease Control and Prevention", "Drowning facts, as copied by others", "2010 to 2019", "highest at ages 1 to 4, most in home pools", Quoted},
	}
}
