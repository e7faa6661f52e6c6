package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// What is left of a stock after what is promised to others is the stock of a buyer.
func TestFreeStock(t *testing.T) {
	const rows = "\nH-1 | 13.5 | 9.5 | 32 | 120 | 100 | 20\nH-2 | 13.5 | 9.5 | 32 | 140 | 100 | 40\nH-3 | 13.8 | 9.5 | 34 | 80 | 0 | 80"
	for headings, want := range map[string]float64{
		"Physical | Reserved | Free to sell":            20,
		"Stock | Committed | Free":                      20,
		"On hand | Allocated | Unallocated":             20,
		"Lagerbestand | reserviert | frei":              20,
		"Stock physique | Réservé | Libre à la vente":   20,
		"Giacenza | Impegnato | Libero":                 20,
		"在庫 | 引当済 | 引当可能":                               20,
		"In stock | Sold last year | Minimum order qty": 120,
	} {
		got := reader.Read([]reader.Input{{Book: book("orrin.csv", grid("", "Part | Hosel OD mm | Bore mm | Bore depth mm | "+headings+rows))}}, reader.Options{})
		if len(got.Heads) != 3 || got.Heads[0].Fields.Get(catalog.Stock).Number != want {
			t.Errorf("%s: %+v", headings, got.Heads)
		}
	}
}
