package layout

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
	"github.com/google/go-cmp/cmp"
)

// TestPricesOfCards looks at prices without a name, at those for a pack, and at what is said later.
func TestPricesOfCards(t *testing.T) {
	for name, c := range map[string]struct {
		text, want string
	}{
		"behind the last size, of which a title speaks": {
			"All prices in pounds each\nAB-201: bore 9.3, base 13.6, long 12 - 0.38\nAB-202: bore 9.3, base 13.6, long 15 - 0.42",
			"2 AB-201: bore=9.3 base=13.6 long=12 price=0.38; 3 AB-202: bore=9.3 base=13.6 long=15 price=0.42",
		},
		"with their currency, Swedish": {
			"CD-1: hål 8,4; nere 12,0; längd 12 - 7,00 kr\nCD-2: hål 8,4; nere 12,0; längd 26 - 9,50 kr",
			"1 CD-1: hål=8,4 nere=12,0 längd=12 price=7,00 kr; 2 CD-2: hål=8,4 nere=12,0 längd=26 price=9,50 kr",
		},
		"behind a letter for it": {
			"PRICES IN RAND\n\nEF-11\nTip .370 / OD 13.6 / L 12\nBore 9.3 / R 9.50\n\nEF-12\nTip .370 / OD 14.0 / L 14\nBore 9.3 / R 10.20",
			"3 EF-11: Tip=.370 OD=13.6 L=12 Bore=9.3 price=R 9.50; 7 EF-12: Tip=.370 OD=14.0 L=14 Bore=9.3 price=R 10.20",
		},
		"without a word of prices": {
			"GH-201: bore 9.3, base 13.6, long 12 - 0.38\nGH-202: bore 9.3, base 13.6, long 15 - 0.42\nGH-203: bore 9.3, base 13.6, long 15 - 0.42",
			"",
		},
		"for as many pieces as the bag holds": {
			"IJ-9 ring\nbase 13.6 mm x 12 mm long\nQTY 10\n$4.50 per 10\n\nIJ-12 ring\nbase 13.1 mm x 14 mm long\nQTY 25\n$10.00 per 25",
			"1 IJ-9: base=13.6 mm long=12 mm pack=10 price=$4.50 per 10 description=ring; 6 IJ-12: base=13.1 mm long=14 mm pack=25 price=$10.00 per 25 description=ring",
		},
		"of packs before a colon, Italian": {
			"Art. KL-71\nbase 13,8 mm, lunghezza 14 mm\n12 pezzi\nbusta da 12: 5,40 €\n\nArt. KL-72\nbase 13,8 mm, lunghezza 19 mm\n12 pezzi\nbusta da 12: 6,60 €",
			"1 KL-71: base=13,8 mm lunghezza=14 mm pack=12 price=5,40 € busta da 12; 6 KL-72: base=13,8 mm lunghezza=19 mm pack=12 price=6,60 € busta da 12",
		},
		"of packs, on a receipt, German": {
			"MN-12 Ring\nFuß 13,6 mm  Länge 12 mm\nje VE (12 St.)   4,20 €\nMN-18 Ring\nFuß 13,6 mm  Länge 18 mm\nje VE (12 St.)   5,40 €",
			"1 MN-12: Fuß=13,6 mm Länge=12 mm price=4,20 € je VE (12 St.) description=Ring; 4 MN-18: Fuß=13,6 mm Länge=18 mm price=5,40 € je VE (12 St.) description=Ring",
		},
		"a stock that is no pack": {
			"PQ-9 ring\nbase 13.6 mm x 12 mm long\nQTY 40\n$4.50 per 10\n\nPQ-12 ring\nbase 13.1 mm x 14 mm long\nQTY 25\n$10.00 per 25",
			"1 PQ-9: base=13.6 mm long=12 mm QTY=40 price=$4.50 per 10 description=ring; 6 PQ-12: base=13.1 mm long=14 mm QTY=25 price=$10.00 per 25 description=ring",
		},
		"how many there are, later": {
			"RS-1: bore 9.3; base 13.6; long 12\nRS-2: bore 9.3; base 13.6; long 15\n\nHow many of each\n\nRS-1: 3 in stock\nRS-2: 5 in stock",
			"1 RS-1: bore=9.3 base=13.6 long=12 in stock=3; 2 RS-2: bore=9.3 base=13.6 long=15 in stock=5",
		},
	} {
		if diff := cmp.Diff(c.want, plainly(strings.Split(c.text, "\n"))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// TestStockLater holds that a talk may come to how many there are in messages of their own.
func TestStockLater(t *testing.T) {
	var rows [][]string
	for _, line := range []string{
		"Werkstatt: AB-9, Hosel 12,3 mm außen, Bohrung 8,6 mm, Stück 112,00 €", "Werkstatt: AB-10, Hosel 12,3 mm außen, Bohrung 8,6 mm, Stück 112,00 €",
		"Werkstatt: AB-12, Hosel 12,5 mm außen, Bohrung 8,9 mm, Stück 98,50 €", "Jens: und Bestand?", "Werkstatt: AB-9 noch 4 Stück", "Werkstatt: AB-12 noch 7 Stück",
	} {
		rows = append(rows, []string{line})
	}
	found := items(grid.New(sheettest.Texts("talk", rows, false)), lexicon.New(nil))
	if len(found) != 1 {
		t.Fatalf("%d tables, want 1", len(found))
	}
	var stock []string
	for _, h := range found[0].Columns {
		if h.Text == "stock" {
			for line := 1; line <= 3; line++ {
				stock = append(stock, found[0].Grid.At(line, h.Col))
			}
		}
	}
	if diff := cmp.Diff([]string{"4", "", "7"}, stock); diff != "" {
		t.Error(diff)
	}
}
