package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// The quantities of quotations, invoices and orders are no stocks.
func TestQuantitiesOfQuotations(t *testing.T) {
	const head, rows = "\nPart | Hosel OD mm | Bore mm | Bore depth mm | ", "\nH-1 | 13.5 | 9.5 | 32 | 50 | 21.50 | 1075.00\nH-2 | 13.5 | 9.5 | 32 | 40 | 21.50 | 860.00\nH-3 | 13.8 | 9.5 | 34 | 30 | 26.00 | 780.00"
	for _, c := range []struct {
		title, headings string
		stock           bool
	}{
		{"QUOTATION Q/2617", "qty | Price | Ref", false},
		{"Angebot Nr. 214, Schmiede Alpental", "Menge | Preis | Zeichen", false},
		{"DEVIS n° 77", "Qté | Prix | Repère", false},
		{"御見積書", "数量 | 単価 | 記号", false},
		{"PROFORMA INVOICE, balance before shipment", "Quantity PCS | Unit Price | Amount US$", false},
		{"Heads", "수량 | 단가 | 금액", false},
		{"Heads", "You asked for qty | Price | Ref", false},
		{"Inventory", "Qty | Price | Amount", true},
		{"Heads, to be paid within 30 days of our invoice", "Qty | Price | Ref", true},
		{"Angebot der Woche", "Menge | Preis | Ref.", true},
		{"QUOTATION Q/2617", "In stock | Price | Amount", true},
	} {
		got := reader.Read([]reader.Input{{Book: book("orrin.csv", grid("", c.title+head+c.headings+rows))}}, reader.Options{})
		if len(got.Heads) != 3 || got.Heads[0].Fields.Get(catalog.Stock).Number == 50 != c.stock || !got.Heads[0].HasPrice {
			t.Errorf("%s, %s: %+v", c.title, c.headings, got.Heads)
		}
	}
}
