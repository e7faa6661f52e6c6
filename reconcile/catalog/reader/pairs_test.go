package reader_test

import (
	"strings"
	"testing"
)

// TestDeviationColumns reads the upper and the lower deviation from columns of their own.
func TestDeviationColumns(t *testing.T) {
	for name, test := range map[string]struct{ table, want, without string }{
		"plain signs": {"Part No | Bore (mm) | + | - | OD (mm) | + | -\nWX-1 | 9.4 | 0.05 | 0.00 | 13.6 | 0 | 0.04", "base_od=13.6[13.56..13.6] bore=9.4[9.4..9.45]", ""},
		"signs with the numbers": {"Part No | Bore (mm) | tol + | tol − | OD (mm)\nWX-1 | 9.4 | +0.05 | -0.02 | 13.6",
			"base_od=13.6 bore=9.4[9.38..9.45]", ""},
		"both below":       {"Part No | Bore (mm) | OD (mm) | upper dev. | lower dev.\nWX-1 | 9.35 | 13.6 | -0.02 | -0.07", "base_od=13.6[13.53..13.58] bore=9.35", ""},
		"words in German":  {"Art.-Nr. | Innen-Ø (mm) | ob. Abmaß | unt. Abmaß | Außen-Ø (mm)\nWX-1 | 9.4 | 0.03 | 0.01 | 13.6", "bore=9.4[9.39..9.43]", ""},
		"ends of a part":   {"Référence | Perçage (mm) | bas (mm) | haut (mm)\nWX-1 | 9,35 | 13,5 | 10,1\nWX-2 | 9,35 | 13,6 | 10,2", "base_od=13.5 bore=9.35", ".."},
		"ends in Japanese": {"品番 | 穴 (mm) | 下 (mm) | 上 (mm)\nWX-1 | 9.35 | 13.5 | 10.1\nWX-2 | 9.35 | 13.6 | 10.2", "base_od=13.5 bore=9.35", ".."},
		"one missing":      {"Part No | Bore (mm) | + | - | OD (mm)\nWX-1 | 9.35 | 0.05 | | 13.6", "base_od=13.6 bore=9.35", ".."},
		"no size beside":   {"Part No | + | - | Bore (mm) | OD (mm)\nWX-1 | 0.05 | 0.05 | 9.35 | 13.6", "base_od=13.6 bore=9.35", ".."},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "\n"+test.table+"\n"))
			defer show(t, c)
			got := rowOf(t, c, "WX-1")
			if !strings.Contains(got, test.want) || test.without != "" && strings.Contains(got, test.without) {
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}

// TestLegend takes the words of a legend for the letters that stand as headings.
func TestLegend(t *testing.T) {
	const rows = "\nPart No | A | B | C\nWL-1 | .510 | .373 | 1.25\nWL-2 | .512 | .373 | 1.25\n"
	c := read(t, grid("Heads", rows+"A = hosel OD, B = hosel bore, C = bore depth, all in inches"))
	defer show(t, c)
	if got, want := rowOf(t, c, "WL-1"), "bore=9.4742 bore_depth=31.75 hosel_od=12.954"; !strings.Contains(got, "used WL-1 "+want) {
		t.Errorf("%s, want %s", got, want)
	}
	// Short forms of capitals are explained as letters are, also those of what is no size.
	short := read(t, grid("Ferrules", "\nPart No | DI | DE | C | Q\nF-1 | 9.35 | 13.6 | 18 | 10\nF-2 | 9.35 | 13.6 | 25 | 10\nLegend: DI = bore (mm), DE = base OD (mm), C = length (mm), Q = pieces per pack"))
	if got, want := rowOf(t, short, "F-1"), "base_od=13.6 bore=9.35 length=18"; !strings.Contains(got, want) || short.Ferrules[0].Pack != 10 {
		t.Errorf("%s, pack %d, want %s and 10", got, short.Ferrules[0].Pack, want)
	}
	// A letter that is explained twice is not understood.
	twice := read(t, grid("Heads", rows+"A = hosel OD, B = hosel bore, C = bore depth, all in inches\nIrons: A = hosel bore, B = hosel OD"))
	if got := rowOf(t, twice, "WL-1"); !strings.Contains(got, " held ") {
		t.Errorf("%s, want it held", got)
	}
}

// TestRunsOfParts gives each part number of a run its own row.
func TestRunsOfParts(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Clubs | Hosel OD (mm) | Bore (mm)
WR-101…WR-103 | | 12.9 | 9.5
WR-104 – 106 | 7-9 | 13 | 9.5
WR-107 to WR-109 | 4-PW | 13 | 9.5
WR-11-12 | | 13 | 9.5
`))
	defer show(t, c)
	for part, want := range map[string]string{
		"WR-101": "assumed", "WR-102": "assumed", "WR-103": "assumed", "WR-104": "assumed", "WR-106": "assumed", "WR-11-12": "used",
		"WR-107 to WR-109 4": "held",
	} {
		if got := rowOf(t, c, part); !strings.Contains(got, " "+want+" ") {
			t.Errorf("%s: %s, want it %s", part, got, want)
		}
	}
}

// TestGroupEndsBeforePrice keeps a group of sizes from reaching over a column of prices.
func TestGroupEndsBeforePrice(t *testing.T) {
	c := read(t, grid("Heads", `
 | Hosel OD | | Bore | | 
Part No | mm | inch | mm | inch | Price each
WG-1 | 12.7 | .500 | 9.5 | .374 | 24.00
WG-2 | 12.7 | .500 | 9.5 | .374 | 25.00
`))
	defer show(t, c)
	if got, want := rowOf(t, c, "WG-1"), "used WG-1 bore=9.5 hosel_od=12.7 price=\"24.00\""; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestWordBesideEveryNumber lets the word that stands in every cell say what a vague heading leaves open.
func TestWordBesideEveryNumber(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel | OD
WB-1 | 0.373 in bore | 0.51 in
WB-2 | 0.374 in bore | 0.52 in
`))
	defer show(t, c)
	if got, want := rowOf(t, c, "WB-1"), "bore=9.4742 hosel_od=12.954"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestSizesBetweenSlashes takes apart a column whose heading names two sizes with a slash between, one of them of no use.
func TestSizesBetweenSlashes(t *testing.T) {
	c := read(t, grid("Shafts", `
SKU | Tip / butt dia. (in) | Parallel section (in) | Wt (g)
WT-1 | .370 / .600 | 5 | 92
WT-2 | .335/.605 | 3 | 61
`))
	defer show(t, c)
	if got, want := rowOf(t, c, "WT-2"), "tip_od=8.509"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
	// Fractions are no pairs.
	fractions := read(t, grid("Ferrules", "\nPart No | OD / ID (in) | Length (in)\nWT-3 | 1/2 | 1\nWT-4 | 1/2 | 1\n"))
	if got := rowOf(t, fractions, "WT-3"); !strings.Contains(got, " held ") {
		t.Errorf("%s: one fraction under the names of two sizes has to be asked about", got)
	}
}

// TestSameAsLeft takes the value to the left where a cell says so, and not the one above.
func TestSameAsLeft(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (mm) | Base OD (mm) | Top OD (mm) | Length (mm)
WS-1 | 9.4 | 13.6 | 10.6 | 25
WS-2 | 9.4 | 12.2 | 同左 | 25
WS-3 | 9.4 | ? | 同左 | 25
WS-4 | 좌동 | 12.2 | 10 | 25
`))
	defer show(t, c)
	if got := rowOf(t, c, "WS-2"); !strings.Contains(got, " assumed ") || !strings.Contains(got, "top_od=12.2") {
		t.Errorf("%s, want top_od 12.2 with a word", got)
	}
	for part, want := range map[string]string{"WS-3": "{open top_od}", "WS-4": "{open bore}"} {
		if got := rowOf(t, c, part); !strings.Contains(got, want) {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// TestFormulaLeftAsText holds a size that would have to be worked out.
func TestFormulaLeftAsText(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (mm) | OD (mm) | Length (mm)
WF-1 | 9.35 | =9.5+0.05 | 25
WF-2 | 9.35 | =.508*25.4 | 25
WF-3 | 9.35 | =B2*1.4 | 25
WF-4 | 9.35 | 13.6 | 25
`))
	defer show(t, c)
	for part, want := range map[string]string{"WF-1": " held ", "WF-2": " held ", "WF-3": " held ", "WF-4": " used "} {
		if got := rowOf(t, c, part); !strings.Contains(got, want) {
			t.Errorf("%s, want it%s", got, want)
		}
	}
}

// TestDittoInTolerances repeats the tolerance above where a column of tolerances says so.
func TestDittoInTolerances(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (mm) | Tol. | OD (mm) | + | - | Length (mm)
WD-1 | 9.4 | ±0.05 | 13.6 | 0.02 | 0.04 | 25
WD-2 | 9.5 | ″ | 13.7 | ″ | ″ | 25
`))
	defer show(t, c)
	if got, want := rowOf(t, c, "WD-2"), "base_od=13.7[13.66..13.72] bore=9.5[9.45..9.55]"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestToleranceInHeading reads deviations in brackets in the unit that the cells state.
func TestToleranceInHeading(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (+.003 -0) | OD (+0/-.005) | Length
WH-1 | .370 in | .535 in | 1 in
WH-2 | .371 in | .536 in | 1 in
`))
	defer show(t, c)
	if got, want := rowOf(t, c, "WH-1"), "base_od=13.589[13.462..13.589] bore=9.398[9.398..9.4742]"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestPairsThatAreNoLimits holds two sizes of which the heading or a sign says that they are different things.
func TestPairsThatAreNoLimits(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD before / after polishing (mm) | Bore (mm) | Depth (mm)
WN-1 | 13.6 / 13.4 | 9.5 | 33
WN-2 | 13.6 / 13.4 | 9.5 | 33
`))
	defer show(t, c)
	arrow := read(t, grid("Heads", "\nPart No | Hosel OD (mm) | Bore (mm) | Depth (mm)\nWN-1 | 13.6 → 13.4 | 9.5 | 33\nWN-2 | 13.5 | 9.5 | 33\n"))
	for _, got := range []string{rowOf(t, c, "WN-1"), rowOf(t, arrow, "WN-1")} {
		if !strings.Contains(got, " held ") {
			t.Errorf("%s, want it held", got)
		}
	}
}

// TestPartsOfUnits holds sizes that are counted in parts of a unit, but for thousandths of an inch.
func TestPartsOfUnits(t *testing.T) {
	for name, table := range map[string]string{
		"in the heading":  "Part No | OD (mm) | Bore (mm) | Length (1/10 mm)\nWP-1 | 13.6 | 9.4 | 95",
		"by words":        "Part No | OD (mm) | Bore (mm) | Length, tenths of mm\nWP-1 | 13.6 | 9.4 | 95",
		"in a unit line":  "Part No | OD | Bore | Length\nUnits | mm | mm | 1/16\"\nWP-1 | 13.6 | 9.4 | 20",
		"in the title":    "Quote in decimi di mm\nCodice | Ø est. | Foro | Lungh.\nWP-1 | 136 | 94 | 95",
		"in inches":       "Part No | OD | Bore | Length\nUnits | 1/1000\" | 1/1000\" | 1/16\"\nWP-1 | 535 | 370 | 20",
		"sixteenth words": "Part No | OD (in) | Bore (in) | Length in 1/16 in\nWP-1 | .535 | .370 | 20",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "\n"+table+"\n"))
			defer show(t, c)
			// Only the base holds the row; a length that cannot be used is left open.
			if got := rowOf(t, c, "WP-1"); !strings.Contains(got, " held ") && !strings.Contains(got, "{open length}") {
				t.Errorf("%s, want it held, or the length open", got)
			}
		})
	}
	c := read(t, grid("Ferrules", "\nPart No | OD | Bore | Length\nUnits | 1/1000\" | 1/1000\" | in\nWP-1 | 535 | 368 | 1\n"))
	defer show(t, c)
	if got, want := rowOf(t, c, "WP-1"), "base_od=13.589 bore=9.3472 length=25.4"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestToleranceThatCannotBeRead is reported, and no limits are made of it.
func TestToleranceThatCannotBeRead(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Tol. | Bore (mm) | Depth (mm)
WU-1 | 12.9 | ±0.05 | 9.5 | 33
WU-2 | 12.9 | 0.05 / 0.02 | 9.5 | 33
`))
	defer show(t, c)
	wantFinding(t, c, "data.tolerance", "C3", "cannot be read")
	if got := rowOf(t, c, "WU-2"); strings.Contains(got, "hosel_od=12.9[") {
		t.Errorf("%s has limits that nobody stated", got)
	}
}

// TestSeriesInTitle gives each part the size of a series in whose digits its number ends, and none where a number does not.
func TestSeriesInTitle(t *testing.T) {
	const title = "Ferrules: base OD 12.0 to 12.4 mm in steps of .2 mm, bore 9.35 mm"
	c := read(t, grid("Ferrules", title+"\nPart no. | Stock\nFX-124 | 1\nFX-120 | 2\nFX-122 | 3"))
	defer show(t, c)
	if got, want := rowOf(t, c, "FX-124"), "assumed FX-124 base_od=12.4 bore=9.35"; !strings.Contains(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
	other := read(t, grid("Ferrules", title+"\nPart no. | Stock\nFX-124 | 1\nFX-120 | 2\nFX-123 | 3"))
	wantFinding(t, other, "data.missing", "", "the part numbers do not tell which part has which")
	if got := rowOf(t, other, "FX-120"); strings.Contains(got, "base_od=") {
		t.Errorf("%s: a size of a series that does not fit", got)
	}
}
