package press

// Sources of the table. Each is the publication in which the number was read, or that the reading quotes.
const (
	springer     = "Springer Handbook of Condensed Matter and Materials Data, table 3.3-23, p. 510"
	plascams     = "Plascams plastics data, as printed by AZoM, article 383 (cellulose acetate, general grade)"
	plascamsCAB  = "Plascams plastics data, as printed by AZoM, article 384 (cellulose acetate butyrate)"
	dowling      = "Dowling, Mechanical Behavior of Materials, table 4.3"
	shackelford  = "Shackelford and Alexander, CRC Materials Science and Engineering Handbook, 3rd ed., table 399"
	epHandbook   = "Engineering Plastics Handbook, table 5.5"
	engineersABS = "web table of engineering plastics, extruded ABS, 53e-6 per °F"
	engineersPA6 = "web table of engineering plastics, cast nylon 6, 45e-6 per °F"
	sheetABS     = "data sheet of extruded ABS: dynamic, dry on steel"
	sheetPOM     = "data sheet of extruded POM copolymer"
	hibbeler     = "Hibbeler, Mechanics of Materials, appendix, average mechanical properties"
	hibbelerBeer = hibbeler + "; the low end from Beer and Johnston, Mechanics of Materials, appendix B"
	norton       = "Norton, Machine Design, 4th ed., example 10-5"
	croccolo     = "Croccolo and Vincenzi, 2009, three-ring example"
	pressFits    = "web table for steel press fits: dry 0.12 to 0.15, oiled 0.05 to 0.08"
	zincTable    = "table of die-casting alloys, zinc alloy 3, as cast"
	ama2025      = "Acta Mechanica et Automatica 2025, ama-2025-0022 (0.308 GPa standard deviation)"
	mfr2020      = "Manufacturing Review 2020, table 2"
	fromMemory   = "from memory"
)

func published(value float64, source string) Property { return inRange(value, value, value, source) }

func inRange(value, least, most float64, source string) Property {
	return Property{Value: value, Least: least, Most: most, Basis: Published, Source: source}
}

// middle is for a range without a typical value.
func middle(least, most float64, source string) Property {
	return Property{Value: (least + most) / 2, Least: least, Most: most, Basis: Middle, Source: source}
}

func remembered(value float64, note string) Property {
	source := fromMemory
	if note != "" {
		source += ": " + note
	}
	return Property{Value: value, Least: value, Most: value, Basis: FromMemory, Source: source}
}

// materials is a function, not a variable, so that no caller can change the table for another.
//
// Wrong numbers in circulation that a later edit must not bring in, with tests that hold them out: an expansion of
// cellulose acetate of 14e-6 per K (a tenth of the true one), its glass transition at 230 °C (a melting figure), and a
// flexural modulus of 8.3 to 27.6 GPa.
func materials() []Material {
	return append(plastics(), rigids()...)
}

func plastics() []Material {
	return []Material{
		{
			Name: "cellulose acetate", Aliases: []string{"CA", "acetate"},
			Note: "the usual ferrule material; its stress-strain curve bends early, so that stresses computed from E " +
				"are too high above about 1 % strain, and the strain limit is the better guide",
			YoungModulusMPa: inRange(1700, 1000, 3000, "range "+springer+"; value is the flexural modulus of "+plascams),
			Poisson:         remembered(0.39, ""),
			YieldMPa:        inRange(30, 25, 55, "range "+springer+"; value is the tensile strength of "+plascams),
			YieldStrain:     inRange(0.039, 0.025, 0.04, "range "+springer+"; value "+plascams),
			ExpansionPerK:   inRange(12e-5, 10e-5, 12e-5, "range "+springer+"; value "+plascams),
			DensityKgM3:     inRange(1280, 1260, 1320, "range "+springer+"; value "+plascams),
			DeflectionC:     published(60, plascams+", at 1.8 MPa; 63 °C at 0.45 MPa"),
			MaxServiceC:     published(60, plascams),
		},
		{
			Name: "cellulose acetate butyrate", Aliases: []string{"CAB", "butyrate"},
			YoungModulusMPa: inRange(1300, 800, 2300, "range "+springer+"; value is the flexural modulus of "+plascamsCAB),
			Poisson:         remembered(0.39, "taken to be that of cellulose acetate"),
			YieldMPa:        inRange(35, 20, 55, "range "+springer+"; value is the tensile strength of "+plascamsCAB),
			YieldStrain:     inRange(0.04, 0.035, 0.05, "range "+springer+"; value "+plascamsCAB),
			ExpansionPerK:   inRange(12e-5, 10e-5, 15e-5, "range "+springer+"; value "+plascamsCAB),
			DensityKgM3:     middle(1160, 1220, springer),
			DeflectionC:     published(62, plascamsCAB+", at 1.8 MPa; 73 °C at 0.45 MPa"),
		},
		{
			Name: "ABS", Aliases: []string{"acrylonitrile butadiene styrene"},
			Note:            "medium impact; it breaks at 5 to 60 % elongation, which is no yield strain",
			YoungModulusMPa: middle(2100, 2800, dowling),
			Poisson:         remembered(0.35, ""),
			YieldMPa:        middle(34, 50, dowling),
			ExpansionPerK:   published(9.5e-5, engineersABS),
			FrictionOnSteel: published(0.35, sheetABS),
			DeflectionC:     middle(90, 104, dowling),
		},
		{
			Name: "nylon 6", Aliases: []string{"nylon", "PA6", "polyamide 6"},
			Note: "dry; moisture halves stiffness and strength (from memory). Its published friction, 0.32, is against " +
				"itself, and so is not given here",
			YoungModulusMPa: middle(2600, 3200, dowling),
			Poisson:         remembered(0.39, ""),
			YieldMPa:        published(90, dowling),
			ExpansionPerK:   published(8.1e-5, engineersPA6),
			DeflectionC:     middle(68, 85, dowling),
		},
		{
			Name: "POM copolymer", Aliases: []string{"POM-C", "POM", "acetal copolymer", "acetal"},
			Note:            "acetal is not acetate",
			YoungModulusMPa: inRange(2500, 2500, 2855, epHandbook+"; high end "+sheetPOM),
			Poisson:         remembered(0.35, ""),
			YieldMPa:        published(67, sheetPOM),
			ExpansionPerK:   published(12e-5, sheetPOM),
			DensityKgM3:     published(1410, epHandbook),
			FrictionOnSteel: published(0.15, shackelford+", static"),
			DeflectionC:     published(120, epHandbook+", at 1.8 MPa"),
		},
		{
			Name: "POM homopolymer", Aliases: []string{"POM-H", "acetal homopolymer"},
			Note:            "the handbook's 72 MPa is a tensile strength, not stated to be the yield strength",
			YoungModulusMPa: published(3000, epHandbook),
			Poisson:         remembered(0.35, ""),
			DensityKgM3:     published(1410, epHandbook),
			FrictionOnSteel: middle(0.1, 0.3, shackelford+", static"),
			DeflectionC:     published(145, epHandbook+", at 1.8 MPa"),
		},
	}
}

func rigids() []Material {
	return []Material{
		{
			Name: "304 stainless steel", Aliases: []string{"304", "AISI 304", "stainless"},
			YoungModulusMPa: published(193_000, hibbeler),
			Poisson:         published(0.27, hibbeler),
			YieldMPa:        published(207, hibbeler),
			ExpansionPerK:   published(17e-6, hibbeler),
			DensityKgM3:     published(7860, hibbeler+"; mills quote 7900 to 8000 (from memory)"),
		},
		{
			Name: "shaft steel", Aliases: []string{"steel", "carbon steel"},
			Note:            "for stiffness only: shafts are drawn and heat treated to strengths that no general table gives",
			YoungModulusMPa: published(206_843, norton+", 30e6 psi"),
			Poisson:         published(0.28, norton),
			ExpansionPerK:   remembered(12e-6, ""),
			DensityKgM3:     published(7850, croccolo),
			FrictionOnSteel: middle(0.12, 0.15, pressFits),
		},
		{
			Name: "Ti-6Al-4V", Aliases: []string{"titanium", "Ti64", "grade 5 titanium"},
			YoungModulusMPa: inRange(120_000, 113_764, 120_000, hibbelerBeer+", 16.5e6 psi"),
			Poisson:         published(0.36, hibbeler),
			YieldMPa:        inRange(924, 827, 924, hibbelerBeer+", 120 ksi"),
			ExpansionPerK:   published(9.4e-6, hibbeler),
			DensityKgM3:     inRange(4430, 4430, 4457, hibbeler+"; the high end from Beer and Johnston, appendix B, 0.161 lb/in³"),
		},
		{
			Name: "17-4 PH stainless steel", Aliases: []string{"17-4", "17-4PH", "17-4 PH H900"},
			Note:            "condition H900; all from memory, since no text with the numbers was at hand",
			YoungModulusMPa: remembered(196_500, "196 to 197 GPa"),
			YieldMPa:        remembered(1170, "1170 to 1280 MPa, the low end taken"),
			DensityKgM3:     remembered(7800, "7780 to 7800 kg/m³"),
		},
		{
			Name: "zinc die cast", Aliases: []string{"zinc", "zinc alloy 3", "die cast zinc"},
			Note:          "creeps under steady load; its source calls E not constant, and so none is given",
			Poisson:       published(0.30, zincTable),
			YieldMPa:      published(221, zincTable),
			ExpansionPerK: published(27.4e-6, zincTable),
			DensityKgM3:   published(6600, zincTable+", 0.24 lb/in³"),
		},
		{
			Name: "epoxy CFRP across the fibres", Aliases: []string{"CFRP", "graphite", "carbon fibre", "carbon fiber"},
			Note: "transverse modulus E2 of unidirectional carbon and epoxy: the softest a tube can be around its hoop. " +
				"Plies at an angle make a shaft stiffer. A composite does not yield; it cracks across the fibres at about " +
				"31.5 MPa in tension (Acta Mechanica et Automatica 2025)",
			YoungModulusMPa: inRange(7361, 7361, 8819, "value "+ama2025+"; high end "+mfr2020),
			Poisson:         published(0.380, mfr2020+", ν23"),
		},
	}
}
