package reader_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestUnitOfClass takes the unit that a note gives to diameters, or to lengths, for these only.
func TestUnitOfClass(t *testing.T) {
	for _, note := range []string{
		"Diameters on the cards are mm, lengths are inches.", "Diameters in mm; lengths in inches", "Durchmesser in mm, Längen in Zoll", "Diamètres en mm, longueurs en pouces",
		"Diametri in mm, lunghezze in pollici", "Lengths in inches, all else mm",
	} {
		t.Run(note, func(t *testing.T) {
			c := read(t, grid("Ferrules", note+`
Ferrule | Bore | Base OD | Length
OM-1 | 9.3 | 13.6 | 1
OM-2 | 9.3 | 13.9 | 1
OM-3 | 8.4 | 12.2 | 3/4
`))
			defer show(t, c)
			wantRow(t, c, "OM-1", catalog.Used, sizes{catalog.Bore: 9.3, catalog.BaseOD: 13.6, catalog.Length: 25.4})
		})
	}
}

// TestUnitOfTipsInNote takes the unit that a note gives to tips for these only, and that of all sizes for lengths too, though it says that they are
// diameters.
func TestUnitOfTipsInNote(t *testing.T) {
	for _, note := range []string{"All sizes mm on the diameter. Shaft tips in inch", "All sizes in mm. Tips in inches.", "Alle Maße in mm, Schaftspitzen in Zoll", "Tutte le misure in mm; punte in pollici"} {
		t.Run(note, func(t *testing.T) {
			c := read(t, grid("Ferrules", note+`
Ferrule | Suits tip | Bore | Base OD | Length
OM-1 | .370 | 9.3 | 13.6 | 25.4
OM-2 | .370 | 9.3 | 13.9 | 19
OM-3 | .335 | 8.4 | 12.2 | 25.4
`))
			defer show(t, c)
			if dim := fieldOf(t, c, "OM-1", catalog.Length).Dim; !dim.Given() || dim.Nominal() != measure.Thou(1000) {
				t.Errorf("the length is %v", dim)
			}
		})
	}
}

// TestHolesBesideTips asks nothing of holes that have the name of a tip where each stands beside the tip a little over it, and does where one
// stands beside its own.
func TestHolesBesideTips(t *testing.T) {
	for last, asked := range map[string]bool{"OM-3 | .355 | 8.9 | 13.6": false, "OM-3 | .350 | 8.9 | 13.6": true, "OM-3 | .370 | 8.9 | 13.6": true, "OM-3 | | 8.9 | 13.6": true} {
		c := read(t, grid("Ferrules", `
Ferrule | For tip | Bore mm | Base OD mm
OM-1 | .370 | 9.3 | 13.6
OM-2 | .335 | 8.4 | 12.2
OM-4 | .355 | 8.9 | 13.8
`+last))
		got := false
		for _, f := range c.Findings {
			got = got || f.Code == "data.tip-name" && strings.Contains(f.Message, "true bores")
		}
		if got != asked {
			show(t, c)
			t.Errorf("%s: asked %t, want %t", last, got, asked)
		}
	}
}

// TestBoresLikeNames asks nothing of 8.9 among bores in millimetres, the usual one for .355 in, where nothing else speaks of tips, and of 9.4 it does.
func TestBoresLikeNames(t *testing.T) {
	for sheet, asked := range map[string]bool{
		"Ferrule | Bore mm | Base OD mm\nOM-1 | 9.3 | 13.6\nOM-2 | 8.9 | 13.2\nOM-3 | 8.4 | 12":                            false,
		"Ferrule | Bore mm | Base OD mm\nOM-1 | 9.3 | 13.6\nOM-2 | 9.4 | 13.2\nOM-3 | 8.4 | 12":                            true,
		"Ferrule | Tip | Bore mm | Base OD mm\nOM-1 | .370 | 9.3 | 13.6\nOM-2 | .355 | 8.9 | 13.2\nOM-3 | \" | 8.9 | 13.6": false,
		"Ferrule | Tip | Bore mm | Base OD mm\nOM-1 | .370 | 9.3 | 13.6\nOM-2 | .350 | 8.9 | 13.2\nOM-3 | \" | 8.9 | 13.6": true,
	} {
		c := read(t, grid("Ferrules", "\n"+sheet))
		got := slices.ContainsFunc(c.Findings, func(f finding.Finding) bool {
			return f.Code == "data.tip-name" && strings.Contains(f.Message, "true bores")
		})
		if got != asked {
			show(t, c)
			t.Errorf("%s: asked %t, want %t", sheet, got, asked)
		}
	}
}
