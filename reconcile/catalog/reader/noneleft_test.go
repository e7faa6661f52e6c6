package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestStockInWords reads words that say that nothing is left, and no count of which words say that it is lacking; a dash says nothing.
func TestStockInWords(t *testing.T) {
	for cell, want := range map[string]struct {
		count float64
		known bool
	}{
		"NIL": {0, true}, "gone": {0, true}, "sold out": {0, true}, "ausverkauft": {0, true}, "épuisé": {0, true}, "agotado": {0, true}, "acabou": {0, true}, "esaurito": {0, true},
		"op": {0, true}, "slut": {0, true}, "brak": {0, true}, "无": {0, true}, "なし": {0, true}, "품절": {0, true}, "hết hàng": {0, true}, "0": {0, true}, "12 pcs": {12, true},
		"2 pcs short": {}, "3 fehlen": {}, "faltan 5": {}, "5個不足": {}, "-": {}, "?": {}, "see list": {}, "n/a": {},
	} {
		t.Run(cell, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Item | Base OD (mm) | Bore (mm) | Length (mm) | Stock\nTG-1 | 13.5 | 9.3 | 25 | "+cell+"\nTG-2 | 13.6 | 9.3 | 20 | 40\nTG-3 | 13.6 | 8.9 | 20 | 55"))
			defer show(t, c)
			if len(c.Ferrules) != 3 {
				t.Fatalf("%d ferrules", len(c.Ferrules))
			}
			f := c.Ferrules[0].Fields.Get(catalog.Stock)
			if f.Number != want.count || f.IsNumber != want.known {
				t.Errorf("%v %v, want %+v", f.Number, f.IsNumber, want)
			}
		})
	}
}
