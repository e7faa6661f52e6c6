package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestPriceInPlaceOfStock leaves out a price that stands under the stock, which can be none, and says of one that may be either.
func TestPriceInPlaceOfStock(t *testing.T) {
	for name, test := range map[string]struct {
		headings     string
		rows         [5]string
		said, priced bool
	}{
		"far from the others":      {"Price | Stock", [5]string{"0.80 | 1500", "0.90 | 1320", "640 | 1.15", "2.10 | 150", "1.00 | 95"}, true, false},
		"near the others":          {"Preis € | Bestand", [5]string{"0,80 | 15", "0,90 | 13", "2 | 1,15", "2,10 | 15", "1,10 | 9"}, true, false},
		"stock before the price":   {"Stock | Prix €", [5]string{"1500 | 0,80", "1320 | 0,90", "1,15 | 640", "150 | 2,10", "95 | 1,00"}, true, false},
		"whole prices":             {"Price | Stock", [5]string{"25 | 310", "30 | 200", "190 | 25", "28 | 150", "27 | 400"}, true, true},
		"a whole price":            {"Price | Stock", [5]string{"0.80 | 15", "0.90 | 13", "2 | 12", "2.10 | 15", "1.10 | 9"}, false, true},
		"a dear one, of which few": {"Price | Stock", [5]string{"12 | 40", "14 | 40", "90 | 12", "13 | 30", "15 | 20"}, false, true},
	} {
		t.Run(name, func(t *testing.T) {
			text := "Part No | Base OD (mm) | Bore (mm) | " + test.headings
			for i, row := range test.rows {
				text += fmt.Sprintf("\nF-%d | 13.%d | 9.35 | %s", i, i, row)
			}
			if strings.Contains(test.headings, "€") {
				text = strings.NewReplacer("13.", "13,", "9.35", "9,35").Replace(text)
			}
			c := read(t, grid("Ferrules", text))
			defer show(t, c)
			for _, cell := range []string{"D4", "E4"} {
				said := slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.implausible" && f.Place.Cell == cell })
				if said != test.said {
					t.Errorf("%s said %v, want %v", cell, said, test.said)
				}
			}
			if _, priced := c.Ferrules[2].Fields.Price(); priced != test.priced {
				t.Errorf("%s has a price: %v, want %v", c.Ferrules[2].Part, priced, test.priced)
			}
			if _, priced := c.Ferrules[1].Fields.Price(); !priced || c.Ferrules[1].Fields.Text(catalog.Stock) == "" {
				t.Errorf("%s has lost its price", c.Ferrules[1].Part)
			}
		})
	}
}
