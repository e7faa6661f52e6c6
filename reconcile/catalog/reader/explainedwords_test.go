package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
)

// TestExplainedHeadings takes a heading that nothing knows for what a line of the sheet says that it stands for.
func TestExplainedHeadings(t *testing.T) {
	for note, heading := range map[string]string{
		"All sizes mm, bns = what's in stock today":                "bns",
		"Alles in mm. bkn = wat er nu op voorraad ligt":            "bkn",
		"Maße in mm; KL = Lagerbestand heute; VK = Preis je Stück": "KL",
		"Cotes en mm. QS = quantité en stock":                      "QS",
	} {
		c := read(t, grid("List", note+"\n\nNo | Text | Base OD (mm) | Bore (mm) | "+heading+"\nB-1 | black | 13.6 | 9.3 | 610\nB-2 | black | 13.6 | 9.3 | 12"))
		if len(c.Ferrules) != 2 {
			t.Fatalf("%q: %d ferrules", note, len(c.Ferrules))
		}
		if stock := c.Ferrules[0].Fields.Get(catalog.Stock); stock.Number != 610 {
			t.Errorf("%q: stock %v, want 610", note, stock.Number)
		}
	}
}

// TestExplainedShortForms takes short forms with points for what a line says that they stand for, whatever their capitals and whatever is between.
func TestExplainedShortForms(t *testing.T) {
	for note, headings := range map[string]string{
		"b.o.d. = bottom outside dia / t.o.d. = top outside dia": "B.O.D. | T.O.D.",
		"d.u. = Durchmesser unten; d.o. = Durchmesser oben":      "D.U. | D.O.",
		"d.bas = diamètre base, d.hau = diamètre haut":           "D.Bas | D.Hau",
	} {
		c := read(t, grid("Ferrules in mm", note+"\n\nNo | Text | "+headings+" | Bore (mm)\nB-1 | black | 13.6 | 10.4 | 9.3\nB-2 | black | 13.5 | 10.2 | 9.3"))
		if len(c.Ferrules) != 2 {
			t.Fatalf("%q: %d ferrules", note, len(c.Ferrules))
		}
		fields := c.Ferrules[0].Fields
		if base, top := fields.Get(catalog.BaseOD).Text, fields.Get(catalog.TopOD).Text; base != "13.6" || top != "10.4" {
			t.Errorf("%q: base %q, top %q", note, base, top)
		}
	}
}

// TestToleranceOfLetters takes limits of a letter that a legend explains for those of its column, whichever sign for a diameter stands before it.
func TestToleranceOfLetters(t *testing.T) {
	for legend, tolerance := range map[string]string{
		"φA : bottom outside   φB : top outside   φC : hole": "Tolerance: φA ±0.05   φC +0.05/-0",
		"A = base OD, B = top OD, C = bore":                  "A ±0.05, C +0.05/-0",
	} {
		first, _, _ := strings.Cut(legend, " ")
		sign := strings.TrimSuffix(first, "A")
		c := read(t, grid("Ferrules in mm", legend+"\n"+tolerance+"\n\nNo | "+sign+"A | "+sign+"B | "+sign+"C\nB-1 | 13.6 | 10.4 | 9.3\nB-2 | 13.5 | 10.2 | 9.3"))
		if len(c.Ferrules) != 2 {
			t.Fatalf("%q: %d ferrules", legend, len(c.Ferrules))
		}
		var got []string
		for _, role := range [...]catalog.Role{catalog.BaseOD, catalog.TopOD, catalog.Bore} {
			got = append(got, c.Ferrules[0].Fields.Dim(role).String())
		}
		if diff := cmp.Diff([]string{"13.6 ±0.05 mm", "10.4 mm", "9.3 +0.05/+0 mm"}, got); diff != "" {
			t.Errorf("%q, %q (-want +got)\n%s", legend, tolerance, diff)
		}
	}
}
