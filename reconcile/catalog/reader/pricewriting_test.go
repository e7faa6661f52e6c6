package reader_test

import (
	"math"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestPricesWithTheirLot reads what stands before and behind an amount in the cell of a price, and leaves out what it may not be divided by.
func TestPricesWithTheirLot(t *testing.T) {
	for cell, want := range map[string]float64{
		"3,90 les 10": 0.39, "9,50 je 100": 0.095, "4,80 por 12 pzas": 0.4, "Rs. 14/-": 14, "15/-": 15,
		"3,90 les 7": 0, "215 (205 if 50+)": 0, "0.38 for 100+": 0, "3,90 à partir de 10": 0, "3,90 12,50": 0, "Nr.15": 0,
	} {
		t.Run(cell, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Item | Base OD (mm) | Bore (mm) | Length (mm) | Price\nTG-1 | 13.5 | 9.3 | 25 | "+cell+"\nTG-2 | 13.6 | 9.3 | 20 | 0.40\nTG-3 | 13.6 | 9.3 | 20 | 0.55"))
			defer show(t, c)
			if len(c.Ferrules) != 3 {
				t.Fatalf("%d ferrules", len(c.Ferrules))
			}
			if got := c.Ferrules[0].Fields.Get(catalog.Price).Number; math.Abs(got-want) > 1e-9 {
				t.Errorf("%v, want %v", got, want)
			}
		})
	}
}

// TestDigitsPartedByTwos reads counts and prices whose digits are parted as in India, and knows a column of such for a stock.
func TestDigitsPartedByTwos(t *testing.T) {
	c := read(t, grid("Ferrules", `
Item | Base OD (mm) | Bore (mm) | Length (mm) | Rate per 1000 (Rs.) | Stock (nos)
TG-1 | 13.5 | 9.3 | 25 | 1,45,000.00 | 1,05,000
TG-2 | 13.6 | 9.3 | 20 | 98,500 | 12,05,000
TG-3 | 13.6 | 9.3 | 20 | 1,02,000 | 4,200`))
	defer show(t, c)
	for i, want := range []struct{ price, stock float64 }{{145, 105_000}, {98.5, 1_205_000}, {102, 4_200}} {
		fields := c.Ferrules[i].Fields
		if price, stock := fields.Get(catalog.Price).Number, fields.Get(catalog.Stock).Number; math.Abs(price-want.price) > 1e-9 || stock != want.stock {
			t.Errorf("row %d: %v each, %v in stock, want %v and %v", i+2, price, stock, want.price, want.stock)
		}
	}
}
