package catalog_test

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
		"both below":      {"Part No | Bore (mm) | OD (mm) | upper dev. | lower dev.\nWX-1 | 9.4 | 13.6 | -0.02 | -0.07", "base_od=13.6[13.53..13.58] bore=9.4", ""},
		"words in German": {"Art.-Nr. | Innen-Ø (mm) | ob. Abmaß | unt. Abmaß | Außen-Ø (mm)\nWX-1 | 9.4 | 0.03 | 0.01 | 13.6", "bore=9.4[9.39..9.43]", ""},
		"one missing":     {"Part No | Bore (mm) | + | - | OD (mm)\nWX-1 | 9.4 | 0.05 | | 13.6", "base_od=13.6 bore=9.4", ".."},
		"no size beside":  {"Part No | + | - | Bore (mm) | OD (mm)\nWX-1 | 0.05 | 0.05 | 9.4 | 13.6", "base_od=13.6 bore=9.4", ".."},
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
