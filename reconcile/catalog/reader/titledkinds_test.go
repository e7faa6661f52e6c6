package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestKindsByTitlesBetween reads a list below one heading in which titles between the rows say whether these are heads or ferrules, and each
// clause of a description names its size in its own way.
func TestKindsByTitlesBetween(t *testing.T) {
	for name, test := range map[string]struct{ headings, heads, head, ferrules, ferrule, others, other string }{
		"en": {"SKU | Product | Price EUR | In stock", "IRON HEADS", "7 iron head, cavity back, hosel 13.5mm OD, bore 9.5mm x 32mm deep",
			"FERRULES", "Ferrule black gloss, base OD 13.6mm, bore 9.3mm, 25mm long", "SUNDRIES", "Shafting epoxy, 2 x 50ml"},
		"de": {"Artikelnummer | Bezeichnung | Preis EUR | Bestand", "Köpfe:", "Eisenkopf 7, Hosel 13,5 mm Außendurchmesser, Bohrung 9,5 mm x 32 mm tief",
			"Zierringe:", "Zierring schwarz, Außendurchmesser unten 13,6 mm, Bohrung 9,3 mm, 25 mm lang", "Sonstiges", "Epoxidkleber, 2 x 50 ml"},
		"fr": {"Référence | Désignation | Prix EUR | Stock", "TÊTES", "Tête de fer 7, col Ø ext. 13,5 mm, perçage 9,5 mm x 32 mm de profondeur",
			"VIROLES", "Virole noire, Ø bas 13,6 mm, alésage 9,3 mm, 25 mm de long", "DIVERS", "Colle époxy, 2 x 50 ml"},
		"es": {"Referencia | Descripción | Precio EUR | Existencias", "CABEZAS", "Cabeza hierro 7, cuello 13,5 mm de diámetro exterior, taladro 9,5 mm x 32 mm de profundidad",
			"CASQUILLOS", "Casquillo negro, diámetro base 13,6 mm, taladro 9,3 mm, 25 mm de largo", "VARIOS", "Epoxi, 2 x 50 ml"},
		"one way of naming": {"SKU | Product | Price EUR | In stock", "Heads", "Iron head, hosel OD 13.5 mm, bore 9.5 mm, bore depth 32 mm",
			"Ferrules", "Black ferrule, base OD 13.6 mm, bore 9.3 mm, length 25 mm", "Sundries", "Shafting epoxy"},
	} {
		t.Run(name, func(t *testing.T) {
			lines := []string{test.headings, test.heads + " | | | "}
			for _, part := range []string{"GC-1", "GC-2", "GC-3"} {
				lines = append(lines, part+" | "+test.head+" | 27.50 | 8")
			}
			lines = append(lines, test.ferrules+" | | | ")
			for _, part := range []string{"GF-1", "GF-2", "GF-3"} {
				lines = append(lines, part+" | "+test.ferrule+" | 0.85 | 60")
			}
			lines = append(lines, test.others+" | | | ", "GX-1 | "+test.other+" | 14.90 | 20")
			c := read(t, grid("Stock", strings.Join(lines, "\n")))
			defer show(t, c)
			if len(c.Heads) != 3 {
				t.Errorf("%d heads, want 3", len(c.Heads))
			}
			if got := rowOf(t, c, "GC-2"); !strings.Contains(got, "bore=9.5 bore_depth=32") || !strings.Contains(got, "hosel_od=13.5") {
				t.Errorf("%s, want the sizes of a head", got)
			}
			if got := rowOf(t, c, "GF-2"); !strings.Contains(got, "base_od=13.6 bore=9.3") || !strings.Contains(got, "length=25") {
				t.Errorf("%s, want the sizes of a ferrule", got)
			}
		})
	}
}

// TestTitlesOfOneKind leaves a list whole whose titles name kinds of club, and one with a row above all titles.
func TestTitlesOfOneKind(t *testing.T) {
	for name, text := range map[string]string{
		"clubs":             "Part | Hosel OD mm | Bore mm\nIrons | | \nH-1 | 13.5 | 9.5\nH-2 | 13.6 | 9.5\nWedges | | \nH-3 | 13.7 | 9.55",
		"clubs of ferrules": "Part | Base OD mm | Bore mm\nFerrules | | \nF-1 | 13.5 | 9.3\nF-2 | 13.6 | 9.3\nWedges | | \nF-3 | 13.7 | 9.3",
		"above":             "Part | Hosel OD mm | Bore mm\nH-0 | 13.5 | 9.5\nIrons | | \nH-1 | 13.5 | 9.5\nH-2 | 13.6 | 9.5\nFerrules | | \nH-3 | 13.7 | 9.55",
	} {
		t.Run(name, func(t *testing.T) {
			if c := read(t, grid("Heads", text)); len(c.Tables) != 1 {
				defer show(t, c)
				t.Errorf("%d tables, want one", len(c.Tables))
			}
		})
	}
}

// TestExchangedInClauses holds a ferrule whose text gives two sizes in each other's place.
func TestExchangedInClauses(t *testing.T) {
	c := read(t, grid("Ferrules", "SKU | Product | Price EUR\n"+
		"F-1 | Ferrule black, base OD 13.5mm, bore 9.3mm, 25mm long | 0.85\nF-2 | Ferrule black, base OD 13.0mm, bore 9.3mm, 19mm long | 0.85\n"+
		"F-3 | Ferrule green, base OD 9.3mm, bore 13.5mm, 25mm long | 0.85\nF-4 | Ferrule white, base OD 13.8mm, bore 9.3mm, 16mm long | 0.85"))
	defer show(t, c)
	if got := rowOf(t, c, "F-1"); !strings.Contains(got, "base_od=13.5 bore=9.3") || !strings.Contains(got, "length=25") {
		t.Errorf("%s, want all sizes", got)
	}
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Row == 4 && row.Outcome.String() != "held" {
				t.Errorf("row 4 is %s, want it held", row.Outcome)
			}
		}
	}
}

// A size that stands above the first table for all parts is that of those in the next table as well, where it lists the same kind and has no column for it.
func TestTitledForAllTables(t *testing.T) {
	const second = "\n\nWoods\nPart | Bore (mm) | Base OD (mm) | Price\nF-3 | 8.4 | 12.1 | 0.50\nF-4 | 8.4 | 12.2 | 0.55"
	for title, want := range map[string]float64{"All ferrules 25 mm long": 25, "Alle Ringe 25 mm lang": 25, "치수는 모두 mm. 길이는 전 품목 25mm입니다.": 25, "Iron ferrules 25 mm long": 0} {
		c := read(t, grid("Ferrules", title+"\n\nPart | Bore (mm) | Base OD (mm)\nF-1 | 9.3 | 13.6\nF-2 | 9.3 | 13.5"+second))
		defer show(t, c)
		wantRow(t, c, "F-1", catalog.Assumed, sizes{catalog.Length: 25})
		wantRow(t, c, "F-3", map[bool]catalog.Outcome{true: catalog.Assumed, false: catalog.Used}[want > 0], sizes{catalog.Length: want})
	}
}
