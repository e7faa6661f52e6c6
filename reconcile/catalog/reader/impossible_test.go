package reader_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/finding"
)

// TestImpossibleSizesOfDescriptions says that a description gives a size that no part has, and leaves it open where no column gives it.
func TestImpossibleSizesOfDescriptions(t *testing.T) {
	const heads, virolas, ringe = "Code | Description | Hosel OD (mm) | Price", "Código | Descripción de la virola | Ø base (mm) | Precio", "Art.-Nr. | Zierring | Ø außen (mm) | Ø innen (mm)"
	for name, test := range map[string]struct {
		heading, description, sizes string
		says, open                  string
		severity                    finding.Severity
	}{
		"en":                          {heads, "7 iron, bore 95 mm", "13.5 | 12", "bore of the head as 95 mm", "bore", finding.Error},
		"en, the name behind":         {heads, "7 iron, 95 mm bore, 32 mm deep", "13.5 | 12", "bore of the head as 95 mm", "bore", finding.Error},
		"es":                          {virolas, "virola negra, agujero 93,5 mm", "13,5 | 1", "bore of the ferrule as 93,5 mm", "bore", finding.Error},
		"de, a column gives the size": {ringe, "Zierring schwarz, Bohrung 93,5 mm", "13,5 | 9,35", "the column counts", "", finding.Warning},
		"possible":                    {heads, "7 iron, bore 9.5 mm", "13.5 | 12", "", "", 0},
		"of something else":           {heads, "7 iron, face height 58 mm", "13.5 | 12", "", "", 0},
	} {
		t.Run(name, func(t *testing.T) {
			rows := []string{test.heading}
			for _, part := range []string{"KD-10", "KD-11", "KD-12"} {
				rows = append(rows, part+" | head | "+test.sizes)
			}
			rows[2] = "KD-11 | " + test.description + " | " + test.sizes
			c := read(t, grid("Sheet1", strings.Join(rows, "\n")))
			defer show(t, c)
			i := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.implausible" && f.Place.Cell == "B3" })
			switch {
			case (i < 0) != (test.says == ""):
				t.Errorf("finding %d, want %q", i, test.says)
			case i >= 0 && (!strings.Contains(c.Findings[i].Message, test.says) || c.Findings[i].Severity != test.severity):
				t.Errorf("%v %s, want %v %q", c.Findings[i].Severity, c.Findings[i].Message, test.severity, test.says)
			}
			if got := rowOf(t, c, "KD-11"); strings.Contains(got, "{open") != (test.open != "") || !strings.Contains(got, test.open) {
				t.Errorf("%s, want %q open", got, test.open)
			}
			if got := rowOf(t, c, "KD-10"); strings.Contains(got, "{open") {
				t.Error(got)
			}
		})
	}
}

// TestImpossibleInHeldColumn asks for a size that is impossible also where another column could have its role.
func TestImpossibleInHeldColumn(t *testing.T) {
	for name, heading := range map[string]string{"en": "Part no. | Bore | Base | Xx | Length", "es": "Ref. | Agujero | Base | Xx | Largo"} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", heading+"\nEC-1 | 9.3 mm | 13.5 mm | 10.6 mm | 18 mm\nEC-2 | 9.3 mm | 13.5 mm | 10.6 mm | 25 mm\nEC-3 | 9.3 mm | 1.38 mm | 10.6 mm | 25 mm\nEC-4 | 9.3 mm | 13.8 mm | 10.6 mm | 30 mm"))
			defer show(t, c)
			wantFinding(t, c, "layout.role", "C1", "could be that as well")
			wantFinding(t, c, "data.implausible", "C4", "13.8 mm")
		})
	}
}
