package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// Shops' programs put a word for a property before what one is.
func TestHeadingsOfProperties(t *testing.T) {
	const rows = "\nH-1 | Iron 5 | 13.5 | 9.5 | 32 | 41.00\nH-2 | Iron 6 | 13.5 | 9.5 | 33 | 41.00\nH-3 | Wedge 52 | 13.8 | 9.5 | 34 | 44.00"
	for _, headings := range []string{
		"SKU | Name | attr_hosel_od_mm | attr_bore_mm | attr_bore_depth_mm | Price",
		"SKU | Name | Property: Hosel OD (mm) | Property: Bore (mm) | Property: Bore depth (mm) | Price",
		"Artikel-ID | Rubrik | Egenskap: hosel ytterdiameter (mm) | Egenskap: skafthål (mm) | Egenskap: håldjup (mm) | Pris",
		"Artikelnummer | Bezeichnung | Eigenschaft: Hosel Außendurchmesser (mm) | Eigenschaft: Bohrung Ø (mm) | Merkmal: Bohrungstiefe (mm) | Preis",
		"Référence | Libellé | Caractéristique - Ø extérieur col (mm) | Caractéristique - Ø perçage (mm) | Caractéristique - Profondeur perçage (mm) | Prix",
	} {
		got := reader.Read([]reader.Input{{Book: book("orrin.csv", grid("", headings+rows))}}, reader.Options{})
		if len(got.Heads) != 3 {
			t.Errorf("%s: %d heads", headings, len(got.Heads))
			continue
		}
		if h := got.Heads[1]; !h.Head.HoselOD.Given() || !h.Head.Bore.Given() || !h.HasPrice || !h.Fields.Dim(catalog.BoreDepth).Given() {
			t.Errorf("%s: %+v", headings, h)
		}
	}
}

// A table of sizes whose headings are taken for those of something else is not passed over without a word.
func TestSizesUnderOtherHeadings(t *testing.T) {
	got := reader.Read([]reader.Input{{Book: book("orrin.csv", grid("", strings.ReplaceAll("SKU | Title | %hosel OD (mm) | %bore (mm) | %bore depth (mm)\nH-1 | Five | 13.5 | 9.5 | 32\nH-2 | Six | 13.5 | 9.5 | 33",
		"%", "Product data: ")))}}, reader.Options{})
	if len(got.Heads) == 0 {
		wantFinding(t, got, "layout.kind", "", "neither heads")
	}
}
