package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestQuantitiesOfOffers takes a quantity for no stock where it comes, times the price, to the column beside it. What a heading clearly calls a
// stock or a pack stays that, and the column of what they come to is none of them.
func TestQuantitiesOfOffers(t *testing.T) {
	const sizes = "Part No | Hosel OD (mm) | Bore (mm) | "
	for name, test := range map[string]struct {
		table string
		want  []catalog.Role
	}{
		"offer": {sizes + `Qty | Unit price | Amount
TW-1 | 13.6 | 9.5 | 20 | 16.80 | 336.00
TW-2 | 13.6 | 9.5 | 25 | 16.80 | 420.00
TW-3 | 13.6 | 9.5 | 12 | 17.10 | 205.20
`, []catalog.Role{"", catalog.Price, ""}},
		"thousands": {sizes + `数量 | 単価(円) | 金額(円)
TW-1 | 13.6 | 9.5 | 20 | 1,680 | 33,600
TW-2 | 13.6 | 9.5 | 25 | 1,680 | 42,000
`, []catalog.Role{"", catalog.Price, ""}},
		"prices for a hundred": {sizes + `Menge | Preis per 100 | Gesamt
TW-1 | 13,6 | 9,5 | 200 | 80,00 | 160,00
TW-2 | 13,6 | 9,5 | 300 | 80,00 | 240,00
`, []catalog.Role{"", catalog.Price, ""}},
		"the value of a stock": {sizes + `In stock | Unit cost | Stock value
TW-1 | 13.6 | 9.5 | 20 | 16.80 | 336.00
TW-2 | 13.6 | 9.5 | 25 | 16.80 | 420.00
`, []catalog.Role{catalog.Stock, catalog.Price, ""}},
		"no totals": {sizes + `Qty | Unit price | Weight
TW-1 | 13.6 | 9.5 | 20 | 16.80 | 255
TW-2 | 13.6 | 9.5 | 25 | 16.80 | 257
`, []catalog.Role{catalog.Stock, catalog.Price, ""}},
		"one of each": {sizes + `Qty | List | Net price
TW-1 | 13.6 | 9.5 | 1 | 16.80 | 16.80
TW-2 | 13.6 | 9.5 | 1 | 17.80 | 17.80
`, []catalog.Role{catalog.Stock, "", catalog.Price}},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", "\n"+test.table))
			defer show(t, c)
			for i, want := range test.want {
				if got := c.Tables[0].Columns[3+i].Role; got != want {
					t.Errorf("column %d is %q, want %q", 4+i, got, want)
				}
			}
		})
	}
}
