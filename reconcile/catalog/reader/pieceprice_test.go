package reader_test

import (
	"strings"
	"testing"
)

// TestPriceOfOneAmongHundreds takes a price that says in a short word that it is for one piece for that, among prices for a hundred; and knows the
// stock by headings that speak of pieces that are ready.
func TestPriceOfOneAmongHundreds(t *testing.T) {
	const rows = "\nK-4 | 13.5 | 9.3 | 46.00 | 1800\nK-5 | 13.5 | 9.3 | 49.00 | 950\nK-6 | 13.6 | 9.3 | @ | 210"
	for _, c := range []struct{ headings, price string }{
		{"Codice | Ø base mm | Foro mm | € al 100 | Pezzi pronti", "1.35 cad."},
		{"Art.-Nr. | AD unten mm | Bohrung mm | € je 100 Stk | fertige Stück", "1.35 Stk"},
		{"Réf. | Ø base mm | Perçage mm | € le cent | Pièces prêtes", "1.35 pce"},
		{"Code | Base OD mm | Bore mm | Price per 100 | Pcs ready", "1.35 ea"},
		{"Kod | Ø podstawy mm | Otwór mm | zł za 100 | Gotowe szt.", "1.35 szt"},
	} {
		got := read(t, grid("Ferrules", "Ferrules | | | |\n"+c.headings+strings.ReplaceAll(rows, "@", c.price)))
		if len(got.Ferrules) != 3 {
			t.Errorf("%q: %d ferrules", c.headings, len(got.Ferrules))
			continue
		}
		if f, row := got.Ferrules[2], rowOf(t, got, "K-6"); f.Price != 1.35 || !strings.Contains(row, `stock="210"`) {
			t.Errorf("%q: %g, want 1.35, and a stock of 210: %s", c.headings, f.Price, row)
		}
		if f := got.Ferrules[0]; f.Price != 0.46 {
			t.Errorf("%q: %g for one of a hundred, want 0.46", c.headings, f.Price)
		}
	}
}
