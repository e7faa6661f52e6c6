package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestFlatPriceWithin finds the price of each piece in a sentence that says more of all pieces, and none where it is of some of them.
func TestFlatPriceWithin(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]float64{
		"All items 25.4 mm long, Rs. 42 per piece, packed in polybags of 50.": 42,
		"All ferrules 25 mm long, 0.42 EUR per piece, in bags of 50":          0.42,
		"Alle Zierringe 25 mm lang, 0,42 € pro Stück, in Beuteln zu 50":       0.42,
		"Toutes les viroles 25 mm de long, 0,42 € la pièce, en sachets de 50": 0.42,
		"0.42 EUR per piece for any size, bags of 50":                         0.42,
		"0,42 € pièce pour toutes les tailles, en sachets de 50":              0.42,
		"0.42 EUR per piece for any size, 0.36 for 100":                       0,
		"All black ferrules 25 mm long, 0.42 EUR per piece":                   0,
		"All items 25 mm long, shipping 9.50 EUR per piece":                   0,
		"All items 25 mm long, 0.42 EUR per piece, 0.38 EUR per piece":        0,
		"All items 25 mm long, in bags of 50":                                 0,
	} {
		got := 0.0
		for _, c := range clausesOf(lex, text) {
			if flat, said := flatPriceIn(lex, c.Text); said {
				got = flat.Price
			}
		}
		if got != want {
			t.Errorf("%q: %g, want %g", text, got, want)
		}
	}
}
