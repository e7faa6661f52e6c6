package reader_test

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
)

// TestPiecesOfOrders takes a number of pieces in a sentence on orders for no number that prices are for.
func TestPiecesOfOrders(t *testing.T) {
	for title, want := range map[string]float64{
		"Price per piece ex works. Minimum order of 10 pieces, may be mixed.": 1.2,
		"Preise je Stück. Mindestabnahme à 10 Stück.":                         1.2,
		"Preço à vista por peça, sem IPI. Pedido mínimo de 10 peças.":         1.2,
		"Prix à la pièce. Commande minimum de 25 pièces par modèle.":          1.2,
		"Prices per 10 pieces. Minimum order of 20 pieces.":                   0.12,
	} {
		c := read(t, grid("Ferrules", title+"\nPart | Base OD mm | Bore mm | Price\nF-1 | 13.6 | 9.3 | 1.20\nF-2 | 13.5 | 9.25 | 1.30"))
		if len(c.Ferrules) != 2 || c.Ferrules[0].Price != want {
			defer show(t, c)
			t.Errorf("%s: the first of %d ferrules costs %g, want %g", title, len(c.Ferrules), c.Ferrules[0].Price, want)
		}
	}
}

// TestYearsBelowPrices takes a line of years below two like headings for a part of them.
func TestYearsBelowPrices(t *testing.T) {
	c := read(t, grid("Heads", `
Part | Hosel OD | Bore | Per head $ | Per head $ | Sets
     | mm       | mm   | 2025       | 2026       | on hand
X-1  | 13.5     | 9.5  | 24.50      | 25.95      | 3
X-2  | 13.6     | 9.5  | 24.50      | 25.95      | 4
`))
	if len(c.Heads) != 2 || c.Heads[0].Price != 25.95 {
		defer show(t, c)
		t.Errorf("%d heads, the first costs %g; want 2, 25.95", len(c.Heads), c.Heads[0].Price)
	}
}

// TestShortWordsOfSentences gives the limits of a sentence to what it names: "can" is no Vietnamese shaft, which would make a bore of the hosel's.
func TestShortWordsOfSentences(t *testing.T) {
	for _, note := range []string{"Hosels can run +/-.003 on the OD, turn your ferrules to suit.", "Hosel OD can run +/-.003"} {
		c := read(t, grid("Heads", `
Inches
     |       | Hosel | Hosel | Bore
Item | Model | OD    | Bore  | Depth
X-1  | Blade | .530  | .373  | 1.25
X-2  | Blade | .540  | .373  | 1.25

`+note))
		od, bore := c.Heads[0].Fields.Dim(catalog.HoselOD), c.Heads[0].Fields.Dim(catalog.Bore)
		if want := measure.Thou(527); od.Lower() != want || bore.HasLimits() {
			defer show(t, c)
			t.Errorf("%s: hosel OD %v, bore %v; want limits of the hosel OD alone", note, od, bore)
		}
	}
}
