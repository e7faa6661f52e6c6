package reader_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// What a title says of prices holds where their heading says nothing else, and what a person says before either.
func TestPricesByTitle(t *testing.T) {
	const rows = "Part | ID (mm) | OD (mm) | Length (mm) | %\nF-1 | 9.35 | 13.6 | 12.7 | 8.40\nF-2 | 9.35 | 13.8 | 12.7 | 9.60"
	said := map[string]catalog.Supplier{"orrin": {Currency: "CHF", PricedBy: 100}}
	for _, c := range []struct {
		title, heading string
		suppliers      map[string]catalog.Supplier
		price          float64
		currency       string
	}{
		{"Ferrules", "Price", nil, 8.40, ""},
		{"All prices in EUR per dozen", "Price", nil, 0.70, "EUR"},
		{"All prices in EUR per dozen", "Price each", nil, 8.40, "EUR"},
		{"All prices in EUR per dozen", "Price per head", nil, 8.40, "EUR"},
		{"Alle Preise in EUR je Satz (6 Köpfe)", "EP je Kopf", nil, 8.40, "EUR"},
		{"All prices in EUR per dozen", "Price per 10", nil, 0.84, "EUR"},
		{"All prices in EUR per dozen", "Price", said, 0.084, "CHF"},
		{"OD is the hosel end, ID the hole.\nSold in dozens only, price shown is for 12.", "Price", nil, 0.70, ""},
		{"Box 1, sold loose too. Price is per head.", "Ask ($)", nil, 8.40, ""},
		{"Prices in EUR or USD, by the dozen or per hundred", "Price", nil, 8.40, ""},
	} {
		s := grid("Ferrules", c.title+"\n"+strings.ReplaceAll(rows, "%", c.heading))
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{Suppliers: c.suppliers})
		if len(got.Ferrules) != 2 {
			t.Fatalf("%q: %d ferrules", c.title, len(got.Ferrules))
		}
		if f := got.Ferrules[0]; math.Abs(f.Price-c.price) > 1e-9 || f.Currency != c.currency {
			t.Errorf("%q over %q: %g %s, want %g %s", c.title, c.heading, f.Price, f.Currency, c.price, c.currency)
		}
	}
	terms := grid("Terms", "All prices are in GBP and per 100")
	got := reader.Read([]reader.Input{{Book: &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{grid("Ferrules", strings.ReplaceAll(rows, "%", "Price")), terms}}}}, reader.Options{})
	if f := got.Ferrules[0]; math.Abs(f.Price-0.084) > 1e-9 || f.Currency != "GBP" {
		t.Errorf("terms on a sheet of their own: %g %s", f.Price, f.Currency)
	}
}

// A note on ferrules and how many of them a price is for says nothing of the prices of heads.
func TestPricesOfOtherKinds(t *testing.T) {
	const rows = "Part | Club | Hosel OD (mm) | Bore (mm) | Price\nH-1 | 5 | 13.4 | 9.5 | 19.90\nH-2 | 6 | 13.4 | 9.5 | 19.90\n\n%"
	for note, price := range map[string]float64{
		"Precios sin IVA. Férulas en bolsas de 50 uds., precio a consultar.": 19.90,
		"Ferrules: price per 100":                  19.90,
		"All prices per dozen. Ferrules on demand": 19.90 / 12,
		"Prices per dozen":                         19.90 / 12,
	} {
		s := grid("Heads", strings.ReplaceAll(rows, "%", note))
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Heads) != 2 || math.Abs(got.Heads[0].Price-price) > 1e-9 {
			t.Errorf("%q: %d heads, %g, want %g", note, len(got.Heads), got.Heads[0].Price, price)
		}
	}
}

// A column of export software says for how many pieces the prices beside it are.
func TestPricesByColumn(t *testing.T) {
	const head = "MATNR | INTDIA (mm) | OD (mm) | Length (mm) | NETPR | "
	for _, c := range []struct {
		heading      string
		first, other string
		want         float64
		warns        bool
	}{
		{heading: "PEINH", first: "100", other: "100", want: 0.084},
		{heading: "Preiseinheit", first: "1000", other: "1000", want: 0.0084},
		{heading: "Per", first: "1", other: "1", want: 8.40},
		{heading: "Per", first: "100", other: "1", want: 0.084},
		{heading: "Per", first: "1", other: "100", want: 8.40},
		{heading: "Stock", first: "100", other: "100", want: 8.40},
		{heading: "Per", first: "17", other: "17", want: 8.40}, // no number of pieces
	} {
		s := grid("Ferrules", head+c.heading+"\nF-1 | 9.35 | 13.6 | 12.7 | 8.40 | "+c.first+"\nF-2 | 9.35 | 13.8 | 12.7 | 9.60 | "+c.other)
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Ferrules) != 2 {
			t.Fatalf("%s: %d ferrules", c.heading, len(got.Ferrules))
		}
		if price := got.Ferrules[0].Price; math.Abs(price-c.want) > 1e-9 {
			t.Errorf("%s %s: %g, want %g", c.heading, c.first, price, c.want)
		}
		warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Code == "data.prices" && f.Severity == finding.Warning })
		if warned != c.warns {
			t.Errorf("%s %s and %s: warned %v, want %v", c.heading, c.first, c.other, warned, c.warns)
		}
	}
}

// Of several prices, a buyer pays the one that is not for those who buy in a shop.
func TestPricesForTheTrade(t *testing.T) {
	for heading, price := range map[string]float64{
		"Dealer | MSRP": 17.25, "MSRP | Net price": 34.50, "Retail | Wholesale": 34.50, "EK netto € | UVP €": 17.25, "定価 | 卸値": 34.50, "MSRP | MOQ": 17.25,
	} {
		got := read(t, grid("Heads", "Part | Club | Hosel OD (mm) | Bore (mm) | "+heading+"\nH-1 | 5 | 13.4 | 9.5 | 17.25 | 34.50\nH-2 | 6 | 13.4 | 9.5 | 17.25 | 34.50"))
		if len(got.Heads) != 2 || got.Heads[0].Price != price {
			t.Errorf("%s: %g, want %g", heading, got.Heads[0].Price, price)
		}
	}
}

// Of prices for quantities, that of one piece is the price.
func TestPriceOfOnePiece(t *testing.T) {
	got := read(t, grid("Heads", "Part | Club | Hosel OD (mm) | Bore (mm) | 1-99 pcs EUR | 100+ pcs EUR\nH-1 | 5 | 13.4 | 9.5 | 15.20 | 13.90\nH-2 | 6 | 13.4 | 9.5 | 15.20 | 13.90"))
	if len(got.Heads) != 2 || got.Heads[0].Price != 15.20 {
		t.Errorf("%d heads, the first for %g, want 15.20", len(got.Heads), got.Heads[0].Price)
	}
}

// A price for each piece stands once, above or below the list, and is that of each part of its kind that has no other; that it is taken is said.
func TestPriceOfAll(t *testing.T) {
	const ferrules, heads = "Part | ID (mm) | OD (mm) | Length (mm)\nF-1 | 9.35 | 13.6 | 12.7\nF-2 | 9.35 | 13.8 | 12.7", "Part | Club | Hosel OD (mm) | Bore (mm)\nH-1 | 5 | 13.4 | 9.5\nH-2 | 6 | 13.4 | 9.5"
	for name, c := range map[string]struct {
		text     string
		ferrule  float64
		currency string
		head     float64
		place    string
	}{
		"of the kind":                {text: "All ferrules $0.45 each\n" + ferrules, ferrule: 0.45, currency: "USD", place: "A1"},
		"unit price above":           {text: "Stückpreis 0,45 EUR\n" + ferrules, ferrule: 0.45, currency: "EUR", place: "A1"},
		"unit price below":           {text: ferrules + "\n\nprix unitaire 0,45 €", ferrule: 0.45, currency: "EUR", place: "A5"},
		"each, no currency":          {text: ferrules + "\n\njede 0,45", ferrule: 0.45, place: "A5"},
		"all at, right below":        {text: ferrules + "\nall at 18.50", ferrule: 18.50, place: "A4"},
		"all at, below":              {text: ferrules + "\n\nall at 18.50", ferrule: 18.50, place: "A5"},
		"of the other kind":          {text: "All ferrules $0.45 each\n" + heads},
		"of either kind":             {text: ferrules + "\n\n" + heads + "\n\nAll ferrules $0.45 each. All heads $18.50 each", ferrule: 0.45, currency: "USD", head: 18.50, place: "A9"},
		"of a kind, with two tables": {text: ferrules + "\n\n" + heads + "\n\nAll heads $18.50 each", head: 18.50, place: "A9"},
		"of nobody knows which":      {text: ferrules + "\n\n" + heads + "\n\nUnit price $18.50"},
		"a size":                     {text: ferrules + "\n\nall at 18.50 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			got := read(t, grid("Sheet1", c.text))
			defer show(t, got)
			for _, f := range got.Ferrules {
				if f.Price != c.ferrule || f.Price > 0 && f.Currency != c.currency {
					t.Errorf("%s: %g %s, want %g %s", f.Part, f.Price, f.Currency, c.ferrule, c.currency)
				}
			}
			for _, h := range got.Heads {
				if h.Price != c.head {
					t.Errorf("%s: %g, want %g", h.Part, h.Price, c.head)
				}
			}
			if len(got.Ferrules)+len(got.Heads) < 2 {
				t.Error("parts are missing")
			}
			if c.place != "" {
				wantFinding(t, got, "data.prices", c.place, "is taken for the price of each piece")
			}
		})
	}
}

// The price of a pack is that of a piece once the pieces in it are known, and left out with a word where they are not.
func TestPricesOfPacks(t *testing.T) {
	const rows = "Part | ID (mm) | OD (mm) | Length (mm) | Pcs per bag | %\nF-1 | 9.35 | 13.6 | 12.7 | 12 | 8.40\nF-2 | 9.35 | 13.8 | 12.7 | | 9.60\nF-3 | 9.35 | 13.8 | 19 | 25 | 9.60 each"
	for _, c := range []struct {
		heading string
		want    [3]float64 // negative where there is no price
		said    int
	}{
		{"Price per bag", [3]float64{0.70, -1, 9.60}, 1},
		{"Price per bag of 25", [3]float64{-1, 0.384, 9.60}, 1},
		{"Price each", [3]float64{8.40, 9.60, 9.60}, 0},
		{"Price", [3]float64{8.40, 9.60, 9.60}, 0},
	} {
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("Ferrules", strings.ReplaceAll(rows, "%", c.heading)))}}, reader.Options{})
		if len(got.Ferrules) != 3 {
			t.Fatalf("%q: %d ferrules", c.heading, len(got.Ferrules))
		}
		for i, want := range c.want {
			f := got.Ferrules[i]
			if f.HasPrice != (want >= 0) || f.HasPrice && math.Abs(f.Price-want) > 1e-9 {
				t.Errorf("%q, %s: price %g, %v, want %g", c.heading, f.Part, f.Price, f.HasPrice, want)
			}
		}
		left := 0
		for _, f := range got.Findings {
			if f.Code == "data.prices" && f.Severity == finding.Warning {
				left += 1 + len(f.Related)
			}
		}
		if left != c.said {
			t.Errorf("%q: %d prices are said to be left out, want %d", c.heading, left, c.said)
		}
	}
}

// A heading that names a pack and how many are in it heads amounts of money, and counts where these are whole.
func TestPackHeadings(t *testing.T) {
	for _, c := range []struct {
		heading, first, second string
		price                  float64
		pack                   int
	}{
		{"Bag of 25", "18.75", "21.25", 0.75, 25},
		{"Pack of 12", "6.00", "12.00", 0.5, 12},
		{"Bag of", "25", "50", 0, 25},
		{"Pack", "12", "24", 0, 12},
	} {
		s := grid("Ferrules", "Part | ID (mm) | OD (mm) | Length (mm) | "+c.heading+"\nF-1 | 9.35 | 13.6 | 12.7 | "+c.first+"\nF-2 | 9.35 | 13.8 | 12.7 | "+c.second)
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Ferrules) != 2 {
			t.Fatalf("%q: %d ferrules", c.heading, len(got.Ferrules))
		}
		if f := got.Ferrules[0]; math.Abs(f.Price-c.price) > 1e-9 || f.Pack != c.pack {
			t.Errorf("%q: price %g, pack %d, want %g, %d", c.heading, f.Price, f.Pack, c.price, c.pack)
		}
	}
}

// What only says whether there is stock is not how much, and a count that is only about right says so.
// TestLengthsAmongPrices leaves out what has a unit of length among prices and counts.
func TestLengthsAmongPrices(t *testing.T) {
	for _, c := range []struct{ headings, price, stock, left string }{
		{"Price | In stock", "13.5 mm", "10", "E3"},
		{"Precio | Existencia", `.540"`, "10", "E3"},
		{"Prezzo € | Giacenza", "13,5 mm", "10", "E3"},
		{"EK € | Bestand", "½ Zoll", "10", "E3"},
		{"Prix | Stock", "465", "32 mm", "F3"},
		{"Price | In stock", "465", "12 in", ""},
		{"Price £ | In stock", "£465", "12 pcs", ""},
	} {
		got := read(t, grid("Heads", "Ref | Head | Hosel OD mm | Bore mm | "+c.headings+"\nKG-1 | Iron | 13.4 | 9.5 | 465 | 9\nKG-2 | Iron | 13.4 | 9.5 | "+c.price+" | "+c.stock+
			"\nKG-3 | Iron | 13.4 | 9.5 | 480 | 11"))
		if c.left != "" {
			wantFinding(t, got, "data.implausible", c.left, "is a length")
		}
		if h := got.Heads[1]; h.HasPrice != (c.left != "E3") {
			t.Errorf("%q: price %g %v", c.price, h.Price, h.HasPrice)
		}
		if stock := got.Heads[1].Fields.Get(catalog.Stock); stock.IsNumber != (c.left != "F3") {
			t.Errorf("%q: stock %v", c.stock, stock)
		}
	}
	s := grid("Heads", "Ref | Hosel OD mm | Bore mm | Price\nKG-1 | 13.4 | 9.5 | 465\nKG-2 | 13.4 | 9.5 | 13.5\nKG-3 | 13.4 | 9.5 | 480")
	s.Rows[2][3] = &sheet.Cell{Kind: sheet.Number, Raw: "13.5", Shown: "13.5 mm", Format: `0.0" mm"`}
	if got := read(t, s); got.Heads[1].HasPrice {
		t.Errorf("13.5 shown as mm is a price of %g", got.Heads[1].Price)
	}
}

func TestStockFlagsAndGuesses(t *testing.T) {
	c := read(t, grid("Heads", `
SKU | Type | In stock | Stock | Hosel OD (mm) | Bore (mm)
H-4 | simple | 1 | 14 | 13.5 | 9.5
H-5 | simple | 1 | about 30 | 13.5 | 9.5
H-6 | simple | 0 | 0 | 13.6 | 9.5
H-7 | simple | 1 | 480? | 13.6 | 9.5
`))
	defer show(t, c)
	want := map[string]float64{"H-4": 14, "H-5": 30, "H-6": 0, "H-7": 480}
	for _, h := range c.Heads {
		f := h.Fields.Get(catalog.Stock)
		if !f.IsNumber || f.Number != want[h.Part] || (len(f.Assumptions) > 0) != (h.Part == "H-5" || h.Part == "H-7") {
			t.Errorf("%s: stock %g with %q, want %g", h.Part, f.Number, f.Assumptions, want[h.Part])
		}
		if h.Fields.Text(catalog.Top) != "" {
			t.Errorf("%s has a hosel of form %q", h.Part, h.Fields.Text(catalog.Top))
		}
	}
}

// TestSlippedPrices leaves out a price that is ten times all others, and no other one.
func TestSlippedPrices(t *testing.T) {
	for name, test := range map[string]struct {
		prices [5]string
		left   bool
	}{
		"ten times":       {[5]string{"0.46", "0.46", "5.20", "0.55", "0.48"}, true},
		"a tenth":         {[5]string{"6.85", "6.85", "0.72", "7.20", "7.20"}, true},
		"a hundred times": {[5]string{"0.46", "0.46", "52", "0.55", "0.48"}, true},
		"dear":            {[5]string{"0.46", "0.46", "2.20", "0.55", "0.48"}, false},
		"far, not by ten": {[5]string{"0.46", "0.46", "12", "0.55", "0.48"}, false},
		"all kinds":       {[5]string{"0.46", "1.80", "5.20", "0.55", "3.00"}, false},
	} {
		t.Run(name, func(t *testing.T) {
			text := "Part No | Base OD (mm) | Bore (mm) | Price"
			for i, price := range test.prices {
				text += fmt.Sprintf("\nF-%d | 13.%d | 9.35 | %s", i, i, price)
			}
			c := read(t, grid("Ferrules", text))
			defer show(t, c)
			if got := rowOf(t, c, "F-2"); !strings.Contains(got, "price=\""+test.prices[2]+`"`) {
				t.Errorf("%s has no text of the price", got)
			}
			left := slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.implausible" && f.Place.Cell == "D4" })
			if left != test.left {
				t.Errorf("left out %v, want %v", left, test.left)
			}
		})
	}
}

// What parts thousands of money is no decimal mark in a table with the other one.
func TestThousandsOfMoney(t *testing.T) {
	for _, c := range []struct {
		size, first, second string
		want                float64
	}{
		{"13,5", "410", "1.450", 1450},
		{"13.5", "410", "1,450", 1450},
		{"13,5", "410", "1.45", 1.45},
		{"13.5", "410", "1.450", 1.45},
		{"13,5", "0.410", "1.450", 1.45},
	} {
		got := read(t, grid("Heads", "No | Hosel OD (mm) | Bore (mm) | Price\nH-1 | "+c.size+" | 9 | "+c.first+"\nH-2 | "+c.size+" | 9 | "+c.second))
		if len(got.Heads) != 2 || math.Abs(got.Heads[1].Price-c.want) > 1e-9 {
			t.Errorf("%s beside %s is read as %v, want %g", c.second, c.size, got.Heads, c.want)
		}
	}
}

// TestPricesByUnitsOfSale divides the price of what a column says to be sold by the dozen, in a word, and takes it for that of one where only that makes it
// like the prices of what is sold by the piece; where a row names what is no number of pieces, its price is left out.
func TestPricesByUnitsOfSale(t *testing.T) {
	for name, c := range map[string]struct {
		headings string
		cells    [3]string
		want     string
		warned   bool
	}{
		"codes of a program":    {"UOM | NET_PRC", [3]string{"EA | 0.32", "EA | 0.34", "DZ | 9.60"}, "0.32 0.34 0.8", false},
		"words":                 {"Per | Price", [3]string{"each | 0.42", "dozen | 9.60", "100 | 21.00"}, "0.42 0.8 0.21", false},
		"German":                {"ME | Netto €", [3]string{"Stk | 0,42", "Dtzd. | 9,60", "Dtzd. | 7,20"}, "0.42 0.8 0.6", false},
		"Spanish":               {"Unidad | Precio €", [3]string{"ud | 0,42", "ud | 0,42", "docena | 9,60"}, "0.42 0.42 0.8", false},
		"Japanese":              {"単位 | 単価", [3]string{"個 | 60", "個 | 60", "ダース | 1200"}, "60 60 100", false},
		"dozens alone":          {"U/M | Price", [3]string{"DZ | 4.80", "DZ | 4.80", "DZ | 9.60"}, "0.4 0.4 0.8", false},
		"pieces alone":          {"U/M | Price", [3]string{"EA | 0.40", "EA | 0.40", "EA | 0.80"}, "0.4 0.4 0.8", false},
		"prices of one":         {"UOM | Price", [3]string{"EA | 0.42", "DZ | 0.60", "DZ | 0.65"}, "0.42 0.6 0.65", true},
		"what is no number":     {"U.M. | Prezzo €", [3]string{"PZ | 0,42", "DZ | 9,60", "CF | 4,00"}, "0.42 0.8 0", true},
		"units that are length": {"Unit | Price", [3]string{"mm | 0.42", "mm | 0.60", "mm | 0.65"}, "0.42 0.6 0.65", false},
	} {
		got, prices := readPriced(t, "Part no | Base OD mm | Bore mm | "+c.headings, c.cells)
		warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Severity >= finding.Warning && f.Code == "data.prices" })
		if diff := cmp.Diff(c.want, prices); diff != "" || warned != c.warned {
			defer show(t, got)
			t.Errorf("%s: warned %v, want %v; prices (-want +got):\n%s", name, warned, c.warned, diff)
		}
	}
}
