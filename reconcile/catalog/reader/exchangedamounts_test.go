package reader_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// A size and a price or a stock of a row that are each what the other should be are both questioned, for however many pieces prices are.
func TestExchangedAmounts(t *testing.T) {
	for name, test := range map[string]struct {
		sheet   string
		said    []string
		noPrice []string
	}{
		"length and price for a hundred, with a blank column between": {`
Code | Size (mm) | | | Rate
 | Bottom OD | Bore | Length | | Rs./100 Nos.
CT-1 | 13.0 | 9.3 | 16 | | 680.00
CT-2 | 13.5 | 9.3 | 20 | | 720.00
CT-3 | 13.5 | 9.3 | 850.00 | | 25
CT-4 | 14.0 | 9.3 | 25 | | 850.00
CT-5 | 13.5 | 9.3 | 20 | | 1,450.00
`, []string{"D5", "F5"}, []string{"CT-3"}},
		"length and price by a hundred": {`
Art.-Nr. | Außen-Ø mm | Bohrung mm | Länge mm | Preis je 100 Stück EUR
R-1 | 13,5 | 9,3 | 19 | 145,00
R-2 | 13,5 | 9,3 | 25 | 162,50
R-3 | 13,8 | 9,3 | 162,50 | 25
R-4 | 13,8 | 9,3 | 19 | 145,00
R-5 | 13,8 | 9,3 | 25 | 170,00
`, []string{"D4", "E4"}, []string{"R-3"}},
		"bore and price by a thousand": {`
品番 | 外径(mm) | 内径(mm) | 全長(mm) | 単価（円／1000個）
F-1 | 13.5 | 9.3 | 19 | 41000
F-2 | 13.5 | 9.3 | 25 | 45000
F-3 | 13.5 | 45000 | 25 | 9.3
F-4 | 13.5 | 8.9 | 25 | 46000
F-5 | 13.5 | 8.9 | 19 | 41000
`, []string{"C4", "E4"}, []string{"F-3"}},
		"bore and price by the dozen": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price per dozen USD
F-1 | 13.5 | 9.3 | 19 | 14.40
F-2 | 13.5 | 9.3 | 25 | 16.80
F-3 | 13.5 | 16.80 | 25 | 9.3
F-4 | 13.5 | 8.9 | 25 | 18.00
F-5 | 13.5 | 8.9 | 19 | 14.40
`, []string{"C4", "E4"}, []string{"F-3"}},
		"price and stock, prices by a hundred": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price per 100 USD | Stock
F-1 | 13.5 | 9.3 | 19 | 84.50 | 4800
F-2 | 13.5 | 9.3 | 25 | 91.25 | 5200
F-3 | 13.5 | 9.3 | 25 | 5000 | 91.25
F-4 | 13.5 | 8.9 | 25 | 95.75 | 6000
F-5 | 13.5 | 8.9 | 19 | 84.50 | 4400
`, []string{"E4", "F4"}, []string{"F-3"}},
		"length and stock": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price USD | Stock
F-1 | 13.5 | 9.3 | 19 | 1.20 | 480
F-2 | 13.5 | 9.3 | 25 | 1.30 | 520
F-3 | 13.5 | 9.3 | 500 | 1.30 | 25
F-4 | 13.5 | 8.9 | 25 | 1.35 | 600
F-5 | 13.5 | 8.9 | 19 | 1.20 | 440
`, []string{"D4", "F4"}, nil},
		"bore and stock": {`
Codice | Ø esterno mm | Foro mm | Lunghezza mm | Prezzo € | Giacenza
F-1 | 13,5 | 9,3 | 19 | 1,20 | 480
F-2 | 13,5 | 9,3 | 25 | 1,30 | 520
F-3 | 13,5 | 500 | 25 | 1,30 | 9,3
F-4 | 13,5 | 8,9 | 25 | 1,35 | 600
F-5 | 13,5 | 8,9 | 19 | 1,20 | 440
`, []string{"C4", "F4"}, nil},
		"length and pieces in a pack": {`
Item | OD mm | Bore mm | Length mm | Nos./packet | Rate Rs. per doz.
F-1 | 13.5 | 9.3 | 19 | 250 | 120/-
F-2 | 13.5 | 9.3 | 25 | 200 | 125/-
F-3 | 13.5 | 9.3 | 250 | 25 | 125/-
F-4 | 13.5 | 8.9 | 25 | 200 | 130/-
F-5 | 13.5 | 8.9 | 19 | 250 | 120/-
`, []string{"D4", "E4"}, nil},
		"length and price in rupees with a dash": {`
Item | OD mm | Bore mm | Length mm | Rate Rs. per 100 nos.
F-1 | 13.5 | 9.3 | 19 | Rs. 640/-
F-2 | 13.5 | 9.3 | 25 | Rs. 680/-
F-3 | 13.5 | 9.3 | Rs. 680/- | 25
F-4 | 13.5 | 8.9 | 25 | Rs. 720/-
F-5 | 13.5 | 8.9 | 19 | Rs. 640/-
`, []string{"D4", "E4"}, []string{"F-3"}},
		"a length whose point has slipped beside little stock": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price USD | Stock
F-1 | 13.5 | 9.3 | 19 | 1.20 | 48
F-2 | 13.5 | 9.3 | 25 | 1.30 | 12
F-3 | 13.5 | 9.3 | 250 | 1.30 | 25
F-4 | 13.5 | 8.9 | 25 | 1.35 | 600
F-5 | 13.5 | 8.9 | 19 | 1.20 | 240
`, []string{"D4"}, nil},
		"top OD and price, each possible where the other belongs": {`
Code | Base OD mm | Top OD mm | Bore mm | Length mm | Old price NZ$ | New price NZ$
TF-1 | 12.0 | 9.7 | 8.4 | 16 | 8.00 | 8.50
TF-2 | 13.2 | 10.3 | 8.9 | 25 | 9.00 | 9.50
TF-3 | 13.5 | 10.7 | 9.3 | 20 | 8.50 | 9.00
TF-4 | 13.5 | 9.50 | 9.3 | 25 | 9.00 | 10.7
TF-5 | 13.9 | 10.7 | 9.3 | 25 | 9.00 | 9.50
TF-6 | 13.5 | 10.7 | 9.3 | 28 | - | 16.00
`, []string{"C5", "F1", "G5"}, []string{"TF-4"}},
		"base OD and price, each possible where the other belongs": {`
Art.-Nr. | Außen-Ø unten mm | Außen-Ø oben mm | Bohrung mm | Länge mm | Preis je 10 Stück EUR
R-1 | 13,5 | 10,2 | 9,3 | 19 | 12,20
R-2 | 12,80 | 10,2 | 9,3 | 25 | 13,5
R-3 | 13,8 | 10,2 | 9,3 | 25 | 12,80
R-4 | 13,5 | 10,2 | 9,3 | 16 | 11,90
R-5 | 13,8 | 10,2 | 9,3 | 19 | 12,20
`, []string{"B3", "F3"}, []string{"R-2"}},
		"length and price in yen, each possible where the other belongs": {`
品番 | 外径(mm) | 内径(mm) | 全長(mm) | 単価（円）
F-1 | 13.5 | 9.3 | 20 | 28
F-2 | 13.5 | 9.3 | 25 | 30
F-3 | 13.5 | 8.9 | 30 | 25
F-4 | 13.8 | 9.3 | 25 | 30
F-5 | 13.8 | 8.9 | 20 | 28
`, []string{"D4", "E4"}, []string{"F-3"}},
		"length and pieces in a pack, each possible where the other belongs": {`
Réf. | Ø ext. mm | Alésage mm | Longueur mm | Pièces par sachet | Prix €/pièce
V-1 | 13,5 | 9,3 | 20 | 24 | 0,45
V-2 | 13,5 | 9,3 | 24 | 20 | 0,45
V-3 | 13,8 | 9,3 | 20 | 24 | 0,50
V-4 | 13,8 | 8,9 | 16 | 12 | 0,50
V-5 | 12,5 | 8,9 | 16 | 12 | 0,40
`, []string{"D3", "E3"}, nil},
		"a length of its own, with a price of its own": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price per dozen USD
F-1 | 13.5 | 9.3 | 16 | 20
F-2 | 13.5 | 9.3 | 18 | 22
F-3 | 13.5 | 9.3 | 20 | 24
F-4 | 13.5 | 9.3 | 22 | 26
F-5 | 13.5 | 9.3 | 24 | 28
`, nil, nil},
		"a length of its own that one part costs": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price per dozen USD
F-1 | 13.5 | 9.3 | 16 | 20
F-2 | 13.5 | 9.3 | 25 | 24
F-3 | 13.5 | 9.3 | 20 | 25
F-4 | 13.8 | 9.3 | 25 | 28
F-5 | 13.8 | 9.3 | 28 | 30
`, nil, nil},
		"a price that is merely low, by a hundred": {`
Part No | OD (mm) | Bore (mm) | Length (mm) | Price per 100 USD
F-1 | 13.5 | 9.3 | 19 | 120
F-2 | 13.5 | 9.3 | 25 | 130
F-3 | 13.5 | 9.3 | 25 | 90
F-4 | 13.5 | 8.9 | 25 | 130
F-5 | 13.5 | 8.9 | 19 | 120
`, nil, nil},
	} {
		t.Run(name, func(t *testing.T) {
			c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("List", test.sheet))}}, reader.Options{})
			defer show(t, c)
			var said, noPrice []string
			for _, f := range c.Findings {
				if f.Severity > finding.Note && f.Place.Cell != "" {
					said = append(said, f.Place.Cell)
				}
			}
			for _, table := range c.Tables {
				for _, row := range table.Rows {
					if _, has := row.Fields.Price(); row.Part != "" && !has {
						noPrice = append(noPrice, row.Part)
					}
				}
			}
			slices.Sort(said)
			if diff := cmp.Diff(test.said, slices.Compact(said)); diff != "" {
				t.Errorf("said (-want +got)\n%s", diff)
			}
			if diff := cmp.Diff(test.noPrice, noPrice); diff != "" {
				t.Errorf("without a price (-want +got)\n%s", diff)
			}
		})
	}
}
